"""How boxes of the job are set beside one another: "which of the two has more room", "how does the
hall compare with the den"."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True)
class ComparedBox:
    """A box in a comparison: "the hall" by its name, "this one" at hand, or "the other one"."""

    which: Literal["named", "here", "other"]
    name: str = ""


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
_OTHER_ONE = lazy_pattern(r"(?:the )?other(?: one)?")


def comparisons(heard: str) -> Iterator[tuple[ComparedBox, ...]]:
    """What a question may set beside one another, as its forms read it, in their order: two boxes,
    or none by name where it is asked of all."""
    low = heard.lower()
    if not any(hint in low for hint in (*_HINTS, *_HINTS_OF_TWO)):
        return
    plain = " ".join(low.replace("’", "'").split())
    for form in _OF_TWO:
        if (said := form.fullmatch(plain)) is not None:
            yield _compared_box(said["one"]), _compared_box(said["other"])
    if any(form.fullmatch(plain) for form in _OF_ALL):
        yield ()


def _compared_box(said: str) -> ComparedBox:
    if said in _HERE:
        return ComparedBox("here")
    return ComparedBox("other") if _OTHER_ONE.fullmatch(said) else ComparedBox("named", said)
