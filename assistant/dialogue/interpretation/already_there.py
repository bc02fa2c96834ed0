"""What is only named as there already, or as not of this box at all, which the box alone shows: "a
14-3 on top of the 14-2s", "a 14-3 for the second switch" where there is no first."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.said_on_top import ON_TOP_OF

#: "Other than the GFCI there is no receptacle" keeps the GFCI where it is.
_BESIDES = lazy_pattern(rf"(?i)\b(?!other than|not counting){ON_TOP_OF}(?: all)? $")
#: "Of the three switches, two are on the 12": those that were told.
_OF = lazy_pattern(r"(?i)(?:^|[.,;:]|\band )\s*(?:out )?of\s+$")
_OF_THOSE = lazy_pattern(r"(?i)(?:^|[.,;:]|\band )\s*(?:out )?of\s+(?:the|those|these|my|our)\b")
_POINTS = lazy_pattern(r"(?i)(?:all )?(?:the|those|these|my|our|your)\b")
_FURTHER = lazy_pattern(r"(?i)\b(?:more|another|other|extra|new)\b")
_FOR_ANOTHER = lazy_pattern(r"(?i)\b(?:for|to|over to|going to|on to) the (?:second|third|other) $")


def already_there(read: Utterance, state: State) -> Utterance:
    """The utterance without what it only points at; `read` where it points at nothing."""
    if (open_box := _cover_off(read, state)) is not None:
        return open_box
    told = [act for act in read.acts if is_thing(act)]
    if (len(told) < 2 and not _OF_THOSE.search(read.heard)) or state.pending:
        return read
    kept = tuple(act for act in read.acts if not _pointed_at(act, read.heard, state))
    return read if len(kept) == len(read.acts) else replace(read, acts=kept)


def _pointed_at(act: Act, heard: str, state: State) -> bool:
    if not is_thing(act):
        return False
    before = heard[: act.span[0]]
    like = [one for one in state.items if references.agrees(one, references.to_thing(act))]
    if isinstance(act, acts.AddDevice) and _FOR_ANOTHER.search(before):
        devices = Reference("device")
        return act.count is None and not any(references.agrees(one, devices) for one in state.items)
    behind = _BESIDES.search(before) or _OF.search(before)
    if not behind or not _POINTS.match(act.words) or _FURTHER.search(act.words):
        return False
    there = sum(one.content.count for one in like)
    return there > 0 and getattr(act, "count", None) in (None, there)


_COVER = lazy_pattern(
    r"(?i)(?:the |that |its |my )?(?:cover|plate|cover plate|face ?plate|lid|blank)\b"
)


def _cover_off(read: Utterance, state: State) -> Utterance | None:
    """ "I take the cover off": to look inside, where no part of the box is one."""
    if len(read.acts) != 1 or state.extras:
        return None
    act = read.acts[0]
    if not isinstance(act, acts.Remove) or not _COVER.fullmatch(act.target.words.strip()):
        return None
    if any(references.agrees(one, act.target) for one in state.items):
        return None
    other = acts.OtherTalk(words=act.words, span=act.span)
    return replace(read, acts=(other,))
