"""Talk about something else enters nothing, and what is said of the box at hand enters.

Each sentence about something else is said in an empty box, in one with contents, in one that fits
and while a question is open. Those that are of the box say it in nearly the same words; what they
come to follows from Table 314.16(B)(1), as in the matrix. "When in doubt, ask back" leaves no
third way: nothing that is of the box is passed over in silence.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.dialogue import Conversation
from matrix_rows import total_of
from standing import entered

FOLDER = Path(__file__).parent / "whereabouts"
PLACES: tuple[tuple[str, ...], ...] = (
    (),
    ("two 14-2s and a switch",),
    ("two 14-2s and a switch", "18 cubic inches"),
    ("two 14-2s and a switch", "18 cubic inches", "no clamps"),
)
"""What was said before: nothing, contents, so much that the clamps are asked about, and all."""


def _table(name: str, rows: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = tomllib.loads((FOLDER / name).read_text("utf-8"))[rows]
    return found


KINDS = _table("elsewhere.toml", "kind")
HERE = _table("here.toml", "here")


def _after(said: tuple[str, ...]) -> Conversation:
    talk = Conversation()
    for words in said:
        talk.hear(words)
    return talk


def _enters(words: str) -> bool:
    """Whether a sentence changes what is entered, in any of the places."""
    for before in PLACES:
        talk = _after(before)
        was = entered(talk)
        talk.hear(words)
        if entered(talk) != was:
            return True
    return False


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind["name"])
def test_talk_about_something_else_enters_nothing(kind: dict[str, Any]) -> None:
    assert [words for words in kind["say"] if _enters(words)] == []


def test_what_still_enters_is_known() -> None:
    """Strictly: a sentence that no longer enters anything joins the others."""
    known = [words for kind in KINDS for words in kind.get("known", ())]
    assert [words for words in known if not _enters(words)] == []
    assert len(known) <= KNOWN_AT_MOST


KNOWN_AT_MOST = 41


def _stands(before: list[str], words: str, due: str, box: str) -> str:
    """ "entered", "asked", "passed over" or what else came of a sentence about the box at hand."""
    talk = _after(tuple(before))
    was = talk.talk.assessment
    talk.hear(words)
    now, state = talk.talk.assessment, talk.talk.state
    if state.unread or state.pending:
        return "asked"
    boxed = not box or (now.sheet.capacity is not None and now.sheet.capacity == float(box))
    if now.sheet.total == total_of(due) and boxed:
        return "entered"
    same = (now.sheet.total, now.sheet.capacity) == (was.sheet.total, was.sheet.capacity)
    return "passed over" if same else f"{now.sheet.total} of {now.sheet.capacity}"


def _told(where: str) -> Iterator[tuple[str, str]]:
    for row in HERE:
        for words in row.get(where, ()):
            yield words, _stands(row["before"], words, row["due"], row.get("box", ""))


def test_what_is_said_of_the_box_at_hand_is_entered() -> None:
    assert [told for told in _told("say") if told[1] != "entered"] == []


def test_what_is_in_doubt_is_asked_back_and_never_passed_over() -> None:
    assert [told for told in _told("asked") if told[1] != "asked"] == []


def test_what_is_counted_otherwise_still_is_known() -> None:
    """Strictly: what is entered as it is due joins the others."""
    known = list(_told("known"))
    assert [told for told in known if told[1] in ("entered", "asked")] == []
    assert len(known) <= MISCOUNTED_AT_MOST


MISCOUNTED_AT_MOST = 11


def test_there_are_enough_of_both() -> None:
    assert sum(len(kind["say"]) for kind in KINDS) >= 600
    assert sum(len(row["say"]) for row in HERE) >= 180
