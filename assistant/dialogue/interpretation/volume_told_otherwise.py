"""A number in the place of the volume that was told: "34's what's molded in the back, I gave you
32", "it's stamped 22.5, don't know where I got 24", "with the ring on it's 51.3 altogether". The
box tells which of two numbers was told; any other number, or thing, leaves the words as read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.interpretation.said_beside_sizes import of_more
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value

_LEAST, _MOST = Decimal(6), Decimal(250)
_GAUGES = (14, 12, 10, 8, 6)
#: The number behind it is the one that was told.
_TOLD = lazy_pattern(
    r"(?:\b(?:i|we|he|she|they) (?:just |had )?(?:said|told you|gave you|gave|had|read|called it"
    r"|put|put down|got|was reading|wrote|took (?:it|that) for)"
    r"(?: (?:it as|it was|was|it|the|a|down))*"
    r"|\bnot (?:an? |the |any )?|\binstead of (?:an? |the )?"
    r"|\bwhere (?:i|we|he) (?:got|came up with|dug up|found|pulled|read)(?: (?:the|that|a))?"
    r"|\bwhy (?:i|we|he) said"
    r"|\bthat was no|\bit was never|\bno way it's|\brather than) ?$"
)
_OLD_BEHIND = lazy_pattern(
    r"^(?:'s| is| was| came)? (?:(?:just |only )?(?:an? |the )?(?:mou?ld|part|model|catalog|lot)"
    r" number|(?:off|from) (?:the|another|an?)\b|(?:i|we) (?:said|told you"
    r"|gave you|had)|(?:was|is|'s) (?:wrong|a mistake"
    r"|bad|off|a misread|my (?:mistake|bad|goof)|for|from|the other|the one))"
)
#: Where a volume is read off a box.
_MARKED = lazy_pattern(
    r"\b(?:stamped|mou?lded|marked|printed|embossed|cast|engraved|etched|pressed|written|sticker"
    r"|label(?:led|ed)?|on the (?:back|side|bottom|inside|box|tag)|in the back|raised (?:letters"
    r"|numbers)|it says|it reads|box says|box reads)\b"
)
_BOX_SWAPPED = lazy_pattern(
    r"\b(?:nailed|screwed|hung|mounted|put|stuck|set|swapped|used|using|threw|popped|fastened"
    r"|cut)(?: (?:it|that|up|in|for|on|to))* an? (?=@).*\b(?:in its place|instead|in there"
    r"|where it was|in place of (?:it|that))\b"
    r"|@(?: cubic inch(?:es|er)?)?(?: box)?[^.;]*\b(?:we're|i'm|we'll|i'll)"
    r" (?:using|going with|putting in|use|go with) (?:that|it)\b"
)
#: An order that is of the volume: "drop the volume down to fifteen"; "of" what it says now.
_OF_VOLUME = lazy_pattern(
    r"\b(?:drop|bring|lower|raise|bump|change|set|cut|knock|move|put|take|turn|make) (?:the |that "
    r"|my )?"
    r"(?:box )?(?:volume|cubic inch(?:es)?|cubes|size of the box)(?: back)?(?: down| up)?(?: to"
    r"| at)? (?=@)"
    r"|\b(?:volume|cubic inch(?:es)?|cubes|inches)(?: (?:on|of|in|for) (?:this|the|that|it)(?: "
    r"(?:thing|one|box))?)?"
    r"(?:'s| is| are|'re)(?: (?:really|actually|just|only))* (?=@).*\b(?:(?:don'?t|do not) go by"
    r"|forget"
    r"|never mind"
    r"|ignore|not what|scratch) (?:what|that|the)\b"
)
_IN_ALL = lazy_pattern(
    r"\b(?:altogether|all together|in all|in total|total|all told|combined|brings? (?:it|that|the"
    r" box)(?: up)? to|makes? (?:it|that|for)|now it's|so it's|with the ring(?: on)?,? it's)\b"
)
_RING = lazy_pattern(
    r"\b(?:extension(?: ring)?|extender|mud ?ring|plaster ring|ring|raised cover)\b"
)
_WEIGHS = lazy_pattern(
    r"\b(?:if|suppose|pretend|would|could|might|maybe|think|guess|probably|should|what if|how"
    r"|more|another|extra|plus|also|each|apiece|per|gangs?|deep|depth|clamps?|cables?|wires?|switch"
    r"(?:es)?|recept\w*|outlets?|gfcis?|dimmers?|devices?|grounds?|conductors?|(?<!off the )studs?"
    r"|yokes?"
    r"|keep\w*|stop|stay\w*|stick\w*|stuck|let's|bigger|smaller|(?:he|she|they)(?:'s|'re| is| are)"
    r" (?:wrong|mistaken|lying|full of)|fella|wish"
    r"|hope|told me|tells me|next|other|undo|add\w*|need|want|amps?"
    r"|feet|foot|mm|ml|cm|percent"
    r"|thhn|nm|gauge|hole"
    r"|(?<!part )(?<!mold )(?<!model )(?<!lot )(?<!catalog )number"
    r"|wide|tall|square|(?<!know )(?<!idea )(?<!sure )why)\b|\?"
)
#: "Don't make it a 22.5": forbidden, and not told.
_FORBIDDEN = lazy_pattern(
    r"\b(?:don'?t|do not|never) (?:make|set|change|call|put|use|mark|take|drop|bring|raise|lower"
    r"|bump)\b"
)
_OF_NO_VOLUME = (acts.Ask, acts.Suppose, acts.AddCable, acts.Remove, acts.Replace)


def volume_told_otherwise(read: Utterance, state: State, capacity: Decimal | None) -> Utterance:
    """The utterance with the volume put right; else `read` as it is."""
    if capacity is None or state.pending or not state.box or _is_of_more(read):
        return read
    words = read.heard.lower().replace("’", "'").rstrip()
    found = list(_values(words))
    new = _new(words, found, capacity)
    if new is None or _is_read(read, new):
        return read
    act = acts.SetVolume(
        volume=new, words=read.heard.strip(), span=(0, len(read.heard)), function="correction"
    )
    return replace(read, acts=(act,), unread=())


def _is_of_more(read: Utterance) -> bool:
    return of_more(read) or any(isinstance(act, _OF_NO_VOLUME) for act in read.acts)


def _is_read(read: Utterance, new: Decimal) -> bool:
    """Whether it is put right already, with every word that weighs in it."""
    kept = [act for act in read.acts if isinstance(act, acts.SetVolume) and act.volume == new]
    return bool(kept) and not any(run.weighty for run in read.unread)


def _values(words: str) -> Iterator[tuple[Decimal, int, int]]:
    """What each number is worth, and where it stands; "one" only points, and none are "twelves"."""
    for found in SPOKEN_VALUE.finditer(words):
        if found["value"] != "one":
            value = Decimal(0) if found["plural"] else spoken_value(found["value"])
            yield value, found.start(), found.end()


def _new(words: str, found: list[tuple[Decimal, int, int]], capacity: Decimal) -> Decimal | None:
    """The volume that takes the place of the one that was told; None where that is open."""
    told = [one for one in found if one[0] == capacity]
    others = {one[0] for one in found if one[0] != capacity}
    if len(others) != 1:
        return None
    new = others.pop()
    (start, end) = next(one[1:] for one in found if one[0] == new)
    ordered = _OF_VOLUME.search(words[:start] + "@" + words[end:]) is not None
    if not _LEAST <= new <= _MOST or _WEIGHS.search(words):
        return None
    if _FORBIDDEN.search(words):
        return None
    if ordered and not told:
        return new
    if told and (new in _GAUGES or capacity in _GAUGES or _RING.search(words)):
        return None
    if any(_is_old(words, *one[1:]) for one in found if one[0] == new):
        return None
    if told:
        return new if all(_is_old(words, *one[1:]) for one in told) else None
    if _RING.search(words):
        return new if new > capacity and _IN_ALL.search(words) else None
    (start, end) = next(one[1:] for one in found)
    shown = words[:start] + "@" + words[end:]
    swapped = ("box" in words or "cubic" in words) and _BOX_SWAPPED.search(shown) is not None
    if new in _GAUGES or any(_is_old(words, *one[1:]) for one in found):
        return None
    return new if swapped or _MARKED.search(words) else None


def _is_old(words: str, start: int, end: int) -> bool:
    before, behind = words[:start].rstrip() + " ", words[end:]
    return _TOLD.search(before) is not None or _OLD_BEHIND.match(behind) is not None
