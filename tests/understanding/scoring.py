"""Scores a round of talk by an author who had not seen the grammar: `python scoring.py FOLDER`.

A folder holds `boxes.jsonl` (one-box descriptions), `dialogues.jsonl` (conversations with what is
expected after every turn) and `other.txt` (talk about something else). `--show` lists what was
not right.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Any

from boxaloud.assistant.dialogue import Conversation, Reply

NEAR = {"total": Decimal("0.005"), "capacity": Decimal("0.06")}
SCRIPTS = (
    (),
    ("two 14-2s and a switch",),
    ("two 14-2s and a switch", "18 cubic inches", "no clamps"),
)
"""What was said before each sentence about something else."""


@dataclass
class Score:
    """What one kind of talk came to."""

    right: int = 0
    of: int = 0
    over_said_to_fit: int = 0
    missed: list[str] = field(default_factory=list)

    @property
    def share(self) -> float:
        """The share that is right."""
        return self.right / self.of if self.of else 0.0


def lines(path: Path) -> Iterator[dict[str, Any]]:
    """The objects of a JSON Lines file."""
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.strip():
            yield json.loads(line)


def meets(reply: Reply, wanted: dict[str, Any]) -> bool:
    """Whether a reply stands where a case says that it should."""
    if "verdict" in wanted and reply.verdict != wanted["verdict"]:
        return False
    got = {"total": reply.sheet.total, "capacity": reply.sheet.capacity}
    return all(
        wanted.get(key) is None
        or (got[key] is not None and abs(got[key] - Decimal(str(wanted[key]))) <= near)  # type: ignore[operator]
        for key, near in NEAR.items()
    )


def outcomes(case: dict[str, Any]) -> list[dict[str, Any]]:
    """The outcomes that a case accepts."""
    return [case, *case.get("accept", ())]


def _stands(reply: Reply) -> str:
    return f"{reply.verdict} {reply.sheet.total} {reply.sheet.capacity} asks {reply.asks}"


def _unsafe(reply: Reply, case: dict[str, Any]) -> bool:
    wanted = {one.get("verdict") for one in outcomes(case)}
    return reply.verdict == "fits" and "over" in wanted and "fits" not in wanted


def score_boxes(path: Path) -> Score:
    """Each description in a conversation of its own."""
    score = Score()
    for case in lines(path):
        talk = Conversation()
        for said in case["say"]:
            reply = talk.hear(said)
        score.of += 1
        if any(meets(reply, wanted) for wanted in outcomes(case)):
            score.right += 1
            continue
        unsafe = _unsafe(reply, case)
        score.over_said_to_fit += unsafe
        wanted = [case.get(key) for key in ("verdict", "total", "capacity")]
        mark = "UNSAFE " if unsafe else ""
        said = " // ".join(case["say"])
        score.missed.append(f"{mark}{case['id']} {said} | got {_stands(reply)} | want {wanted}")
    return score


def score_dialogues(path: Path) -> Score:
    """Each conversation from the first turn to the last; right where every turn is."""
    score = Score()
    for case in lines(path):
        talk = Conversation()
        score.of += 1
        for turn in case["turns"]:
            reply = talk.hear(turn["say"])
            if any(meets(reply, wanted) for wanted in outcomes(turn)):
                continue
            unsafe = _unsafe(reply, turn)
            score.over_said_to_fit += unsafe
            wanted = [turn.get(key) for key in ("verdict", "total", "capacity")]
            before = " // ".join(one["say"] for one in case["turns"])
            score.missed.append(
                f"{'UNSAFE ' if unsafe else ''}{case['id']} at “{turn['say']}” |"
                f" got {_stands(reply)} | want {wanted}\n      {before}\n      {reply.said}"
            )
            break
        else:
            score.right += 1
    return score


def score_other(path: Path) -> Score:
    """Talk about something else: right where it leaves the box as it was."""
    score = Score()
    for said in path.read_text(encoding="utf-8").splitlines():
        if not said.strip():
            continue
        for script in SCRIPTS:
            talk = Conversation()
            for line in script:
                talk.hear(line)
            before = talk.talk.state
            talk.hear(said)
            after = talk.talk.state
            score.of += 1
            same = (before.items, before.box, before.extras, before.clamps, before.edition) == (
                after.items, after.box, after.extras, after.clamps, after.edition,
            )  # fmt: skip
            score.right += same
            if not same:
                score.missed.append(f"entered: {said} (after {len(script)} lines)")
    return score


def main() -> None:
    """Print the score of each round named."""
    show = "--show" in sys.argv
    for name in (word for word in sys.argv[1:] if not word.startswith("-")):
        folder = Path(name)
        found = {
            "descriptions": score_boxes(folder / "boxes.jsonl"),
            "conversations": score_dialogues(folder / "dialogues.jsonl"),
            "other talk": score_other(folder / "other.txt"),
        }
        for what, score in found.items():
            print(  # noqa: T201
                f"{folder.name} {what}: {score.right} of {score.of} right ({score.share:.1%}),"
                f" {score.over_said_to_fit} over said to fit"
            )
            if show:
                print("\n".join(score.missed))  # noqa: T201


if __name__ == "__main__":
    main()
