"""How long replies are, in words for the ear and for the eye, by the kind of turn.

Run: python tests/dialogue/measure_replies.py [--show KIND]   (--show prints the longest spoken
replies of a kind). Beside the dialogues here it takes conversations of `../shared/talk`, and
passes them over where there are none.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.grammar import acts
from boxaloud.grammar.lexer.heard_words import Word
from talks import dialogues

FURTHER = Path(__file__).parents[3] / "shared" / "talk"
FILES = ("boxes.jsonl", "dialogues.jsonl", "corrections.jsonl", "over.jsonl")
MOST = 15
CORRECTING = (
    acts.Restate, acts.RestateNumber, acts.Recount, acts.Resize, acts.Replace, acts.Remove,
    acts.More, acts.Unground, acts.Reclassify, acts.PutBack, acts.Mistaken, acts.Undo, acts.Redo,
)  # fmt: skip
DENYING = (acts.Deny, acts.NothingElse, acts.NoneOfThem, acts.No)
ASKING = (
    acts.Ask, acts.AskWhy, acts.AskEdition, acts.AskMeaning, acts.AskUnknown, acts.Suppose,
    acts.RoomFor,
)  # fmt: skip
CHATTING = (acts.Social, acts.OtherTalk)


@dataclass(frozen=True)
class Measured:
    """One turn: its kind, what was said, and the reply."""

    kind: str
    said: str
    reply: Reply


def talks() -> Iterator[tuple[str, list[str | list[Word]]]]:
    """The edition, empty for the usual one, and the utterances of every talk."""
    for dialogue in dialogues():
        yield dialogue.edition, [said.words for said in dialogue.says]
    for path in (FURTHER / name for name in FILES):
        if path.exists():
            for line in path.read_text(encoding="utf-8").splitlines():
                yield "", list(json.loads(line)["say"])
    other = FURTHER / "other_talk.txt"
    if other.exists():
        yield "", list(other.read_text(encoding="utf-8").splitlines())


def kind_of(told: Sequence[acts.Act], first: bool, asked: str | None) -> str:
    """What kind of turn an utterance is by its acts; `asked` is the question it may answer."""
    if not told:
        return "chat"
    for kind, kinds in (
        ("question", ASKING),
        ("correction", CORRECTING),
        ("chat", CHATTING),
    ):
        if isinstance(told[0], kinds):
            return kind
    if first:
        return "first breath"
    if any(isinstance(act, DENYING) for act in told) and asked not in ("clamps", "confirm"):
        return "denial"
    return "answer" if asked else "more"


def measured() -> Iterator[Measured]:
    """Every turn of every talk."""
    for edition, says in talks():
        conversation = Conversation(edition) if edition else Conversation()
        for words in says:
            first, asked = not conversation.talk.state.items, conversation.asks
            reply = conversation.hear(words)
            entries = [record.entry for record in conversation.take_records() if record.entry]
            told = [act for entry in entries for act in entry.acts]
            yield Measured(kind_of(told, first, asked), reply.heard, reply)


def spread(lengths: Iterable[int]) -> str:
    """Median, 90th percentile and greatest number of words."""
    ordered = sorted(lengths)
    at = [ordered[int(len(ordered) * share)] for share in (0.5, 0.9)]
    return f"{at[0]:4} {at[1]:4} {ordered[-1]:4}"


def show(text: str) -> None:
    sys.stdout.write(text + "\n")


def main() -> None:
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("--show", metavar="KIND", help="the longest replies of a kind, or “all”")
    wanted = reader.parse_args().show
    kinds: dict[str, list[Measured]] = defaultdict(list)
    for turn in measured():
        for kind in (turn.kind, "all"):
            kinds[kind].append(turn)
    show("kind          turns   spoken: median p90 most   printed: median p90 most")
    for kind, turns in sorted(kinds.items()):
        heard = spread(len(turn.reply.spoken.split()) for turn in turns)
        seen = spread(len(turn.reply.said.split()) for turn in turns)
        show(f"{kind:13} {len(turns):5}   {heard:>23}   {seen:>24}")
    if wanted:
        longest = sorted(kinds[wanted], key=lambda turn: -len(turn.reply.spoken.split()))
        for turn in longest[:MOST]:
            show(f"\n{len(turn.reply.spoken.split())}: {turn.said}\n   {turn.reply.spoken}")


if __name__ == "__main__":
    main()
