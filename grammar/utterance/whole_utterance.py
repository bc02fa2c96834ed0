"""What an utterance as a whole makes of the acts of its clauses."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.act_passes import FIRST, THEN, passed
from boxaloud.grammar.utterance.other_talk import TELLS, about_other_things, strange_words
from boxaloud.grammar.utterance.topics import topics_taken_out
from boxaloud.grammar.utterance.unknown_things import holds_unknown
from boxaloud.grammar.utterance.untold_orders import untold_order


def without_empty_undo(made: list[Act]) -> list[Act]:
    """ "How many has the panel? Never mind": nothing is taken back; nor twice: "the 12-3 is not
    there, forget it"."""
    told = [act for act in made if not isinstance(act, acts.Undo)]
    if len(told) == len(made):
        return made
    passed = all(
        isinstance(act, (acts.AskUnknown, acts.OtherTalk, acts.Ask, acts.AskMeaning))
        for act in told
    )
    taken = any(isinstance(act, (acts.Remove, acts.Deny)) for act in told)
    if not told or not (passed or taken):
        return made
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.Undo)
            and re.match(r"(?i)never mind|forget (?:it|that)|take (?:it|that) out", act.words)
        )
    ]


def tidied(
    made: list[Act], left: list[Unread], parts: list[Clause], heard: str
) -> tuple[list[Act], list[Unread]]:
    """What an utterance as a whole makes of its parts."""
    if (other := _remark(made, parts)) is not None and not holds_unknown(parts):
        return [other], [run for run in left if run.span == other.span]
    made = topics_taken_out(passed(FIRST, made, heard, left), parts)
    if about_other_things(made, parts) and not holds_unknown(parts):
        return [acts.OtherTalk(words=heard, span=(0, len(heard)))], []
    made = passed(THEN, made, heard, left)
    if any(isinstance(act, TELLS) for act in made):
        return made, left
    if made and heard.rstrip().endswith("?"):
        # "what's that box hold, thirty something?": the number is asked about, and counts nothing
        left = [run for run in left if not _NUMBERS.fullmatch(run.words)]
        return made, left
    left = left or untold_order(made, parts, heard)
    if left and not made and len(strange_words(parts)) >= 2 and not holds_unknown(parts):
        return [acts.OtherTalk(words=heard, span=(0, len(heard)))], []
    return made, left


_NUMBERS = lazy_pattern(
    r"(?i)(?:[0-9.]+|[a-z]+(?:teen|ty|one|two|three|four|five|six|seven|eight"
    r"|nine|ten|eleven|twelve)|one|two|three|four|five|six|seven|eight|nine"
    r"|ten|eleven|twelve|[ ,-])+"
)

_WEAK = (
    acts.Number, acts.Size, acts.Place, acts.NoneOfThem, acts.Undo, acts.AddGrounds,
    acts.AddFitting, acts.AddDevice, acts.SetClamps, acts.OpenBox,
)  # fmt: skip
"""What a remark about other things may seem to tell."""


def _remark(made: list[Act], parts: list[Clause]) -> acts.OtherTalk | None:
    """The talk of something else that an utterance is, whatever little it seems to tell."""
    others = [act for act in made if isinstance(act, acts.OtherTalk)]
    telling = [act for act in made if isinstance(act, TELLS)]
    if all(isinstance(act, (acts.Number, acts.Size)) for act in telling):
        alone = all(isinstance(act, (*_BARE, acts.No, acts.Yes, acts.AskUnknown)) for act in made)
        if alone and others and telling and all(part.closes in (",", "", "end") for part in parts):
            # "half inch EMT, ten foot sticks, I need about nine": in one sentence, of one thing
            return others[0]
    if not others or len(others) * 2 < len(parts):
        return None
    weak = all(map(_little, telling))
    alone = all(isinstance(act, (*TELLS, acts.OtherTalk, acts.No, acts.Yes)) for act in made)
    return others[0] if weak and alone else None


_BARE = (acts.Number, acts.Size, acts.OtherTalk)


_FURTHER = lazy_pattern(r"(?i)(?:another|one more|two more|an extra)\b")


def _little(act: Act) -> bool:
    """ "… with the burnt neutral, …": a conductor neither counted nor sized tells little too."""
    if isinstance(act, acts.AddConductors):
        return act.count is None and act.awg is None
    if isinstance(act, acts.AddDevice) and _FURTHER.match(act.words):
        return False  # "and another switch, since she wants …"
    return isinstance(act, _WEAK)
