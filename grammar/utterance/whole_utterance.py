"""What an utterance as a whole makes of the acts of its clauses."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.act_passes import FIRST, THEN
from boxaloud.grammar.utterance.other_talk import TELLS, about_other_things, remark, strange_words
from boxaloud.grammar.utterance.strange_telling import strange_telling
from boxaloud.grammar.utterance.topics import topics_taken_out
from boxaloud.grammar.utterance.unknown_things import holds_unknown
from boxaloud.grammar.utterance.untold_orders import untold_order
from boxaloud.grammar.utterance.whereabouts import kept_of_this_box, untold_here

_SHOULD = lazy_pattern(
    r"(?i)\W*(?:(?:so|and|ok|okay|well|um|uh|hello|but|then)\W+)*(?:should|shall|would|may|do)"
    r" (?:i|we|you want me to)\b"
)


def without_empty_steps(made: list[Act], heard: str) -> list[Act]:
    """The acts without steps back that are only asked for, or that step from nothing."""
    return _without_asked_steps(_without_empty_undo(made), heard)


def _without_asked_steps(made: list[Act], heard: str) -> list[Act]:
    """ "Should I put it back?" steps nowhere: it is only asked."""
    steps = (acts.Undo, acts.Redo, acts.StartOver)
    if not any(isinstance(act, steps) for act in made) or _SHOULD.match(heard) is None:
        return made
    told = [act for act in made if not isinstance(act, steps)]
    return told or [acts.AskUnknown(words=heard, span=(0, len(heard)))]


def _without_empty_undo(made: list[Act]) -> list[Act]:
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
            and re.match(r"(?i)never ?mind|forget (?:it|that)|take (?:it|that) out", act.words)
        )
    ]


def tidied(
    made: list[Act], left: list[Unread], parts: list[Clause], heard: str
) -> tuple[list[Act], list[Unread]]:
    """What an utterance as a whole makes of its parts."""
    if (
        (other := remark(made, parts)) is not None
        and not holds_unknown(parts)
        and not kept_of_this_box(parts, heard)
    ):
        return [other], [run for run in left if run.span == other.span]
    made = topics_taken_out(FIRST.after(made, heard, left), parts)
    if about_other_things(made, parts) and not holds_unknown(parts):
        return [acts.OtherTalk(words=heard, span=(0, len(heard)))], []
    made = THEN.after(made, heard, left)
    if strange := strange_telling(made, parts, heard):
        return [acts.OtherTalk(words=heard, span=(0, len(heard)))], strange
    if any(isinstance(act, TELLS) for act in made):
        return made, left
    if made and heard.rstrip().endswith("?"):
        # "what's that box hold, thirty something?": the number is asked about, and counts nothing
        left = [run for run in left if not _NUMBERS.fullmatch(run.words)]
        return made, left
    if not left and (untold := untold_here(made, parts, heard)):
        return made, untold
    left = left or untold_order(made, parts, heard)
    if left and not made and len(strange_words(parts)) >= 2 and not holds_unknown(parts):
        return [acts.OtherTalk(words=heard, span=(0, len(heard)))], []
    return made, left


_NUMBERS = lazy_pattern(
    r"(?i)(?:[0-9.]+|[a-z]+(?:teen|ty|one|two|three|four|five|six|seven|eight"
    r"|nine|ten|eleven|twelve)|one|two|three|four|five|six|seven|eight|nine"
    r"|ten|eleven|twelve|[ ,-])+"
)
