"""Single turns by outside authors behind a box told plainly (`turns/*.jsonl`): how many stand as
their author says. Run: `python tests/understanding/single_turns.py turns/t01.jsonl [--show]`."""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

from boxaloud.assistant.dialogue import Conversation, Reply

TURNS = Path(__file__).parent / "turns"


@dataclass(frozen=True)
class Outcome:
    """What a turn came to, and what its author says."""

    turn: dict[str, Any]
    reply: Reply

    @property
    def right(self) -> bool:
        """Whether verdict, total and volume are those of the author, or of another honest way."""
        ways = [self.turn, *({**self.turn, **way} for way in self.turn.get("accept", ()))]
        return any(map(self._is, ways))

    @property
    def unsafe(self) -> bool:
        """Whether a box that is over is said to fit."""
        return self.turn["verdict"] == "over" and self.reply.verdict == "fits"

    def _is(self, way: dict[str, Any]) -> bool:
        sheet = self.reply.sheet
        told = ((sheet.total, way.get("total")), (sheet.capacity, way.get("capacity")))
        same = all(not due or found == Decimal(str(due)) for found, due in told)
        return same and self.reply.verdict == way["verdict"]


def outcomes(file: Path) -> Iterator[Outcome]:
    for line in file.read_text(encoding="utf-8").splitlines():
        turn = json.loads(line)
        talk = Conversation()
        for said in turn["before"]:
            talk.hear(said)
        yield Outcome(turn, talk.hear(turn["turn"]))


def main() -> None:
    for name in (one for one in sys.argv[1:] if one != "--show"):
        found = list(outcomes(Path(name)))
        right = Counter(one.turn["class"] for one in found if one.right)
        for kind, of in Counter(one.turn["class"] for one in found).items():
            sys.stdout.write(f"{kind}: {right[kind]} of {of}\n")
        unsafe = sum(one.unsafe for one in found)
        sys.stdout.write(f"{right.total()} of {len(found)}, {unsafe} over said to fit\n")
        for one in found:
            if "--show" in sys.argv and not one.right:
                mark = "UNSAFE " if one.unsafe else ""
                said = " // ".join([*one.turn["before"], one.turn["turn"]])
                sys.stdout.write(f"{mark}{one.turn['id']} {said}\n    {one.reply.said}\n")


if __name__ == "__main__":
    main()
