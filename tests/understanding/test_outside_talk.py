"""Talk by authors who never saw the grammar, from `../shared/talk`: the shares that must be right.

The right answers were worked out by its authors from NEC 314.16(B). Where the folder is not there
(a clone without it) the tests are skipped, saying so.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from boxaloud.assistant.dialogue import Conversation
from matrix_rows import known_faults
from scoring import lines, meets, outcomes
from standing import entered, standing

TALK = Path(__file__).parents[3] / "shared" / "talk"
pytestmark = pytest.mark.skipif(not TALK.is_dir(), reason=f"no outside talk in {TALK}")

KNOWN = known_faults().get(("outside", "talk"), {})
FILES = ("boxes.jsonl", "dialogues.jsonl", "corrections.jsonl", "over.jsonl")
LEAST = {
    "boxes.jsonl": 0.97, "dialogues.jsonl": 0.95, "corrections.jsonl": 0.95, "over.jsonl": 0.95,
}  # fmt: skip
SCRIPTS = {
    "empty box": (),
    "begun box": ("two 14-2s and a switch",),
    "box that fits": ("two 14-2s and a switch", "18 cubic inches", "no clamps"),
}
WIRES = {
    "clamps": "two 14-2s and a switch",
    "device": "two 14-2s",
    "grounds": "four #14 wires and a switch",
    "fitting": "two 14-2s",
}
PLAIN = {"clamps": "no clamps", "device": "no devices"}
PLACES: tuple[Callable[[str, str], list[str]], ...] = (
    lambda w, p: [p, w, "18 cubic inches"],
    lambda w, p: [w, p, "18 cubic inches"],
    lambda w, p: [f"{w}, {p}, 18 cubic inches"],
    lambda w, p: [f"{w}; {p}; 18 cubic inches"],
    lambda w, p: [f"{w} 18 cubic inches {p}"],
    lambda w, p: [f"{w}. {p}. 18 cubic inches"],
    lambda w, p: [f"{w} and {p}, 18 cubic inches"],
)
"""Where in a talk a denial can stand."""


def said(words: Sequence[str]) -> Conversation:
    talk = Conversation()
    for one in words:
        talk.hear(one)
    return talk


def scored(name: str) -> tuple[list[str], int, list[str]]:
    """The cases of a file that are not right, how many there are, and those over said to fit."""
    wrong, unsafe, of = [], [], 0
    for case in lines(TALK / name):
        talk = Conversation()
        for one in case["say"]:
            reply = talk.hear(one)
        of += 1
        told = f"{case['id']} {' / '.join(case['say'])}: {standing(talk)}"
        if not any(meets(reply, wanted) for wanted in outcomes(case)):
            wrong.append(told)
        if reply.verdict == "fits" and case["verdict"] == "over":
            unsafe.append(told)
    return wrong, of, unsafe


def marked(name: str) -> object:
    """A case, strictly expected to fail where its fault is known."""
    strict = [pytest.mark.xfail(strict=True, reason=KNOWN[name])] if name in KNOWN else []
    return pytest.param(name, marks=strict)


@pytest.mark.parametrize("name", [marked(name) for name in FILES])
def test_enough_is_right(name: str) -> None:
    wrong, of, _ = scored(name)
    assert of > 15
    assert 1 - len(wrong) / of >= LEAST[name], "\n".join(wrong)


@pytest.mark.parametrize("name", FILES)
def test_no_over_box_is_said_to_fit(name: str) -> None:
    _, _, unsafe = scored(name)
    assert unsafe == []


def test_no_denial_is_wrong_and_few_are_asked_back() -> None:
    wrong, asked, of = [], 0, 0
    for topic, denials in json.loads((TALK / "denials.json").read_text("utf-8")).items():
        last = [] if topic == "clamps" else ["no clamps"]
        without = said([WIRES[topic], "18 cubic inches", *last])
        for place in PLACES:
            plain = said([*place(WIRES[topic], PLAIN[topic]), *last]) if topic in PLAIN else without
            for denial in denials:
                talk = said([*place(WIRES[topic], denial), *last])
                of += 1
                got, wanted = standing(talk), standing(plain)
                if got == wanted:
                    continue
                if got.verdict == "incomplete" and talk.asks:
                    asked += 1
                else:
                    wrong.append(f"{place(WIRES[topic], denial)}: {got}, not {wanted}")
    assert wrong == []
    assert of > 500
    assert asked / of <= 0.05


@pytest.mark.parametrize("name", [marked(name) for name in SCRIPTS])
def test_other_talk_enters_nothing(name: str) -> None:
    wrong = []
    for words in (TALK / "other_talk.txt").read_text("utf-8").splitlines():
        talk = said(SCRIPTS[name])
        before = entered(talk)
        talk.hear(words)
        if entered(talk) != before:
            wrong.append(f"{words}: {standing(talk)}")
    assert wrong == []
