"""Boxes of the job beside one another: "which of the two has more room", "how does the hall compare
with the den". They are told by what is left of their volumes; nothing is entered."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.box_names import meant
from boxaloud.assistant.dialogue.box_verdict_list import MOST_LISTED
from boxaloud.assistant.dialogue.nlg.sentences import joined, listed, marked, say, sentence, volume
from boxaloud.grammar.lazy_patterns import lazy_pattern

_HINTS = ("compare", "room", "space", "left", "full", "tight", "empti", "crowded", "limit", "slack")
_HINTS_OF_TWO = ("versus", " vs", "differ", "stack up", "measure up", "margin", "volume", "worse")
"""Pieces of words of which what compares boxes holds one."""
_LEAD = (
    r"(?:(?:ok|okay|so|and|now|then|well|um|uh|hey|hmm|alright|right|but|please|tell me|show me"
    r"|can you|could you|i wonder|just|do you know),? )*"
)
_MORE = (
    r"(?:the )?(?:more|most|less|least) (?:(?:free|spare|unused|empty) )?"
    r"(?:room|space|volume|slack|margin|left|to spare)(?: left| in it| to spare| over| inside)*"
)
_HOW = (
    r"(?:the )?(?:roomier|roomiest|tighter|tightest|fuller|fullest|emptier|emptiest"
    r"|(?:more|most|less|least) (?:full|crowded|cramped)|worse|worst"
    r"|(?:closer|closest|nearer|nearest) to (?:being )?(?:full|the limit|over))"
)
_HAS = rf"(?:(?:has|have|got|has got|leaves|gives)(?: me| us)? {_MORE}|(?:is|are|one's|'s) {_HOW})"
_COUNTED = r"(?:two|three|four|five|six|both|boxes|ones|box|[2-9])"
_WHICH = (
    rf"(?:which|what|who)(?: one| box| ones| boxes)?"
    rf"(?: of (?:the|these|those|my|our|them|all)(?: {_COUNTED})*)?"
)
_THEM = (
    rf"(?:them|both|they|these|those|(?:all |both )?(?:of )?(?:the|my|these|those|our|them)"
    rf"(?: {_COUNTED})*)"
)
_BOX = r"(?:the |my |our )?(?P<{}>[a-z0-9][\w' -]*?)(?: box)?"
_ONE, _OTHER = _BOX.format("one"), _BOX.format("other")
_TAIL = r"(?: (?:now|then|please|right now|so far|left|one|box))*[ .?!]*"
_OF_ALL = tuple(
    lazy_pattern(_LEAD + form + _TAIL)
    for form in (
        rf"{_WHICH} {_HAS}",
        rf"(?:what|which|who)(?:'s| is) (?:my |our )?{_HOW}(?: of {_THEM})?",
        rf"compare {_THEM}(?: side by side| up)?",
        rf"how (?:do|does) {_THEM} (?:compare|stack up|measure up|line up)"
        r"(?: (?:to|with) each other)?",
    )
)
_OF_TWO = tuple(
    lazy_pattern(_LEAD + form + _TAIL)
    for form in (
        rf"{_WHICH} {_HAS},? (?:between |of )?{_ONE},? (?:or|and) {_OTHER}",
        rf"how (?:does|do|did|would) {_ONE} (?:compare|stack up|measure up|look|do|hold up)"
        rf"(?: compared)? (?:with|to|against|next to|beside|alongside) {_OTHER}",
        rf"compare {_ONE} (?:with|to|and|against) {_OTHER}",
        rf"{_ONE} (?:versus|vs\.?|against|compared (?:to|with)) {_OTHER}",
        rf"(?:does|do) {_ONE} have {_MORE} than {_OTHER}",
        rf"(?:is|are) {_ONE} {_HOW} than {_OTHER}",
        rf"is there {_MORE} in {_ONE} (?:than in|or in|than|or) {_OTHER}",
        rf"what(?:'s| is) the difference (?:in (?:room|fill|volume|margin) )?between {_ONE}"
        rf" and {_OTHER}",
    )
)
_HERE = frozenset({"this", "this one", "it", "here", "that", "that one", "this box"})


def compared(heard: str, names: Sequence[str], at: str) -> tuple[str, ...]:
    """The boxes of the job that a question sets beside one another; empty for any other."""
    low = heard.lower()
    if len(names) < 2 or not any(hint in low for hint in (*_HINTS, *_HINTS_OF_TWO)):
        return ()
    plain = " ".join(low.replace("’", "'").split())
    for form in _OF_TWO:
        said = form.fullmatch(plain)
        if said is None:
            continue
        first = _box(said["one"], names, at, "")
        second = _box(said["other"], names, at, first)
        if first and second and first != second:
            return first, second
    return tuple(names) if any(form.fullmatch(plain) for form in _OF_ALL) else ()


def _box(said: str, names: Sequence[str], at: str, beside: str) -> str:
    """The box that words mean; empty where they mean none."""
    if said in _HERE:
        return at
    if re.fullmatch(r"(?:the )?other(?: one)?", said):
        others = [name for name in names if name != (beside or at)]
        return others[0] if len(others) == 1 else ""
    return meant(said, names) or ""


def told(found: Mapping[str, Assessment]) -> str:
    """What is left of each box, and which of them has the most room, where that is certain."""
    shown = [*found.items()]
    shown = shown if len(shown) <= MOST_LISTED else _ends(shown)
    rows = sentence(joined([_row(name, one) for name, one in shown], by="; "))
    return joined([rows, _ranked(found)])


def _ends(found: list[tuple[str, Assessment]]) -> list[tuple[str, Assessment]]:
    """Of many boxes the one with the least room and the one with the most, as far as is known."""
    known = [(name, one) for name, one in found if one.sheet.capacity is not None]
    known.sort(key=lambda row: (row[1].sheet.capacity or row[1].high) - row[1].high)
    return [known[0], known[-1]] if len(known) > 1 else known


def _row(name: str, found: Assessment) -> str:
    sheet = found.sheet
    room = sheet.capacity
    title = name[:1].upper() + name[1:]
    if room is None or not found.by_volume or found.spaces:
        return say("job.beside.open", name=title, total=volume(sheet.total, sheet.unit))
    exact = "" if found.low == found.high else "_least"
    values = {"name": title, "capacity": marked(room, sheet.unit)}
    if found.low > room:
        margin = volume(found.low - room, sheet.unit)
        return say(f"job.beside.over{exact}", margin=margin, **values)
    if found.verdict != "fits":
        return say("job.beside.open", name=title, total=volume(sheet.total, sheet.unit))
    margin = volume(room - found.high, sheet.unit)
    return say(f"job.beside.left{exact}", margin=margin, **values)


def _ranked(found: Mapping[str, Assessment]) -> str:
    """Which box has the most room, where whatever is open cannot change that."""
    known = {name: one for name, one in found.items() if one.verdict != "incomplete"}
    rooms = {
        name: (one.sheet.capacity - one.high, one.sheet.capacity - one.low)
        for name, one in known.items()
        if one.sheet.capacity is not None and one.by_volume and not one.spaces
    }
    if len(rooms) < len(found) or len({one.sheet.unit for one in found.values()}) > 1:
        return ""
    most = max(rooms, key=lambda name: rooms[name])
    rest = [room for name, room in rooms.items() if name != most]
    if all(room == rooms[most] and room[0] == room[1] for room in rest):
        return say("job.beside.same", names=listed(list(rooms)))
    if any(room[1] >= rooms[most][0] for room in rest):
        return ""
    return say("job.beside.most" if len(rooms) > 2 else "job.beside.more", name=most)
