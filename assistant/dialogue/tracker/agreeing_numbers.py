""" "… so three", "that makes five": the count that the same breath has just set."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import lone_corrections
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Uncounted

#: What sums up. A number without it may begin a count of something else: "a third 14-2, two".
_SUMS_UP = lazy_pattern(
    r"(?i)(?:^|[.,;!?…–-])\s*"
    r"(?:(?:and|so|now|then|well|ok|okay|yes|yeah|right|which|that|for)[ ,]+)*"
    r"(?:so[ ,]+|total(?: of)?[ ,]+|(?:there|that|it|here)(?:['’]s| is| are| makes| leaves| gives)"
    r"(?: (?:us|me|only|just|now|still|left))* |(?:makes|leaves|leaving|making) (?:(?:it|us|me) )?"
    r"|(?:i|we)(?:['’]ve| have|['’]d have| would have| count| got)(?: (?:got|only|just|now))* "
    r"|(?:(?:one|two|three|four|five|six|[1-6])[ ,.…]+)+)$"
)
_ENDS = lazy_pattern(
    r"(?i)\s*(?:(?:of (?:them|those|these)|now|left|then|total|in total|altogether|all together"
    r"|in all|here|there|in there|again)\b\s*)*(?:$|[.,;!?…–-])"
)
_LEAST = 2
"""One alone may be any one: "there's one"."""


def agrees(turn: Turn, act: acts.Number) -> bool:
    """Whether a number sums up what this breath has changed, and is the count that it has now."""
    value = act.value
    end = act.span[1]
    at = end - len(act.words)
    said = turn.heard[at:end].lower() == act.words.lower()
    if value is None or not said or not _SUMS_UP.search(turn.heard[:at]):
        return False
    if value < _LEAST or not _ENDS.match(turn.heard, end):
        return False
    return any(Decimal(item.content.count) == value for item in changed(turn))


#: "Yes, twenty-seven", "it's twenty-seven": said once more, where nothing else stands before it.
_ONCE_MORE = lazy_pattern(
    r"(?i)(?:^|[.,;!?…–-])\s*(?:(?:yes|yeah|yep|right|ok|okay|so|again|that['’]s|it['’]s|that is"
    r"|it is|it says|it reads|(?:he|she) (?:says|said))[ ,]+)*$"
)


def repeats_volume(turn: Turn, act: acts.Number) -> bool:
    """ "Twenty-seven cubic inches." "Twenty-seven.": the volume that the box has already; a lesser
    number may count something, or be the size of a wire."""
    value = act.value
    at = act.span[1] - len(act.words)
    if value is None or value != lone_corrections.marked(turn.state):
        return False
    if value < lone_corrections.LEAST_UNASKED and value == int(value):
        return False
    counted = any(item.content.count == value for item in turn.state.items)
    return not counted and _ONCE_MORE.search(turn.heard[:at]) is not None


def changed(turn: Turn) -> list[Item]:
    """What there are more or fewer of than before this breath."""
    before = {item.key: item.content.count for item in turn.began.items}
    return [
        item
        for item in turn.state.items
        if not isinstance(item.content, Uncounted) and before.get(item.key) != item.content.count
    ]


def one_in_place(turn: Turn, act: acts.Recount) -> Item | None:
    """What came in last, where "no" and so many more in all put right how many more it was."""
    item = turn.state.item(turn.state.last)
    denied = any(isinstance(one, acts.No) for one in turn.done)
    if item is None or not denied or not turn.state.added or act.of is None:
        return None
    return item if item.content.count - turn.state.added == act.of else None


#: "One more 12-2, just one".
_OF_MORE = lazy_pattern(r"(?i)\b(?:more|another|extra|additional)\b")
_JUST = lazy_pattern(r"(?i)\W*(?:just|only|that(?:['’]s| is)(?: just| all)?|yes|yeah)?\W*\w+\W*")


def says_again(turn: Turn, act: acts.RestateNumber) -> bool:
    """ "One more 12-2 then, just one": how many more came in, and not how many there are."""
    before = turn.done[-2] if len(turn.done) > 1 and turn.done[-1] is act else None
    if before is None and turn.done:
        before = turn.done[-1]
    count = getattr(before, "count", None)
    if before is None or count is None or act.instead_of is not None or count != act.value:
        return False
    more = _OF_MORE.search(before.words) is not None
    return more and _JUST.fullmatch(act.words) is not None
