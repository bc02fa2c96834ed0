"""A count told again of what is there: "three 14-2s", of two, is how many there are in all.

Who adds says so: "another", "two more", "and a 14-2 to the porch", "a third one". In the rounds of
talk by outside authors no plural count of a cable or device that was there, without such words,
was ever meant on top of it (`tests/understanding/rounds`). More in all stands, and is echoed; fewer
stands where somebody says how he miscounted, and is asked otherwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.interpretation.lists_anew import in_place, line_of, plain, restated
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act, AddCable, AddConductors, AddDevice, Doubt
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.said_on_top import ON_TOP_OF
from boxaloud.rules.contents import Conductors

_LEAST = 2
"""One of something may be one more: "a 14-2 for the fan"."""
_CLAUSE = lazy_pattern(r"[.,;:!?…]|\s[–—-]+\s")
_ON_TOP = lazy_pattern(
    r"(?i)\b(?:more|another|extra|additional|others?|also|plus|add(?:ed|ing|s)?|too|as well|besides"
    r"|second|third|fourth|fifth|sixth|next|new|missed|forgot|found|left out|put|install\w*|goes|go"
    r"|going|gonna|come|comes|coming|run|runs|running|to|from|for|out|off|into|onto|through|feed\w*"
    r"|need\w*|want\w*|instead|swap\w*|replac\w*|chang\w*|take|took|taken|remove\w*|pull\w*"
    r"|in place|same|like|on the|with)\b|^\W*(?:and|then|next|\+|&)"
    rf"|\b{ON_TOP_OF}\b"
)
#: Beside one that leads somewhere, so many others do.
_LEADS = lazy_pattern(r"(?i)\b(?:goes|going|comes?|coming|runs?|running|feeds?)\b")
#: How somebody came to say another number, or sees now how many there are.
_MISCOUNTED = lazy_pattern(
    r"(?i)\b(?:only|just|shadow|thumb|finger|twice|off by|mis(?:count|read|spoke|took|said)\w*"
    r"|mistake|my (?:bad|fault|goof)|dumb|lied|wrong|not (?:the )?(?:one|two|three|four|five|six"
    r"|seven|eight|nine|ten|\d+)|(?:was|were|been) (?:counting|looking at|reading|seeing)"
    r"|(?:he|she|they|kid|you)(?:['’]s| is| was|['’]re| are) right|he says|she says"
    r"|all told|in all|in total|altogether|(?:i|we) (?:can )?(?:see|count|get)|recount\w*|comes? to"
    r"|actually|turns? out|no lie|should(?:['’]ve| have) been|behold|holy|lied)\b"
)


def in_all(turn: Turn, told: Sequence[Act]) -> Sequence[Act]:
    """The acts, with every list and count of what is there already as what it puts right."""
    told, state = restated(turn, told), turn.began
    if not state.items or state.pending or turn.supposed:
        return told
    things = [act for act in told if is_thing(act)]
    if not things or not all(_is_there(state, act) for act in things):
        return told
    return [_recounted(turn, act) if act in things else act for act in told]


def _is_there(state: State, act: Act) -> bool:
    return _line(state, act) is not None


def _line(state: State, act: Act) -> Item | None:
    """The only line of the box that a counted thing can be."""
    if plain(act):
        return line_of(state, act)
    if not isinstance(act, AddConductors) or act.doubts or act.path or act.role or not act.awg:
        return None
    like = references.to_thing(act)
    found = [
        item
        for item in state.items
        if isinstance(item.content, Conductors) and references.agrees(item, like)
    ]
    return found[0] if len(found) == 1 else None


def _recounted(turn: Turn, act: Act) -> Act:
    line = _line(turn.began, act)
    if line is None or not isinstance(act, AddCable | AddDevice | AddConductors):
        return act
    count, there = act.count or 0, line.content.count
    miscounted = _MISCOUNTED.search(turn.heard) is not None
    on_top = _ON_TOP.search(_clause(turn.heard, act.span)) or _LEADS.search(turn.heard)
    if count < _LEAST or count == there or on_top:
        return act
    if isinstance(act, AddConductors) and not miscounted:
        return act
    if count < there and not miscounted:
        return replace(act, doubts=(*act.doubts, Doubt("count", "some")))
    return in_place(act)


def _clause(heard: str, span: tuple[int, int]) -> str:
    """The clause that a thing stands in."""
    start = max((stop.end() for stop in _CLAUSE.finditer(heard, 0, span[0])), default=0)
    end = _CLAUSE.search(heard, span[1])
    return heard[start : end.start() if end else len(heard)]
