"""A box that is opened by the name of a device alone: "bath GFCI.", "receptacle by the door"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.heading_devices import COUNTED, PLACES, kind_of
from boxaloud.grammar.utterance.headings import may_name

#: "The front hall switch first", "front bedroom switch box", "this is the bath GFCI".
_ONLY_NAME = lazy_pattern(
    r"(?i)\W*(?:(?:ok|okay|alright|all right|right|so|um|uh|now|well|and|hey|hi|hello|first|next"
    r"|next up|starting|start|let me|let['’]?s|let us|i['’]?m|i am|we['’]?re|we are|i['’]?ll"
    r"|we['’]?ll|i|we|do|doing|begin|beginning|go|going|with|at|on|over|to|here['’]?s|here is"
    r"|this is|this one|this one['’]?s|is|it['’]?s|it is|that['’]?s|for|in|the|my|our),? )*"
)
_AROUND_NAME = lazy_pattern(r"(?i)(?:[a-z' -]|[34](?=[- ]?way\b))*")
_NAME_ENDS = lazy_pattern(
    r"(?i)(?: (?:box|one|location|job))?(?: (?:by|near|in|at|beside|behind|next to|over|under)"
    r" (?:the|my|our) [a-z]+(?: [a-z]+)?)?(?:,? (?:first|to start|to begin with|now|next"
    r"|here|please))*\W*"
)
_SOME_PLACE = lazy_pattern(
    r"(?i)\b(?:box|first|to start|to begin with)\b"
    r"|^ (?:by|near|in|at|beside|behind|next to|over|under) (?:the|my|our) "
)


#: "Range outlet question": what is going to be asked about, and no device of a box yet.
_TOPIC = lazy_pattern(
    r"(?i)(?: box(?: fill)?)? (?:question|scenario)s?(?:,? (?:for you|here|today|please|first))*\W*"
)


def named_alone(made: list[Act], heard: str, expect: str | None) -> list[Act]:
    """ "Bath GFCI.", "the front hall switch first", before anything is told: what the box is called
    by, which is in it, and is not counted again where it is told by itself."""
    told = [act for act in made if not isinstance(act, (acts.Social, acts.NameBox, acts.NextBox))]
    device = told[0] if len(told) == 1 else None
    if isinstance(device, acts.Restate) and device.instead_of is None:
        device = device.thing  # "this is the laundry dimmer": there is none yet
    if not isinstance(device, acts.AddDevice):
        return made
    if device.count is None and _TOPIC.fullmatch(heard, device.span[1]):
        whole = (0, len(heard))
        return [acts.OtherTalk(words=heard, span=whole)]
    if expect not in (None, "contents"):
        return made
    if device.count is not None or not kind_of(device) or device.doubts or "?" in heard:
        return made
    opened = max((act.span[1] for act in made if isinstance(act, acts.NextBox)), default=0)
    lead = _ONLY_NAME.match(heard, opened)
    start = max(device.span[0], lead.end() if lead else 0)
    words = heard[start : device.span[1]].lower()
    if COUNTED.match(words) or not _NAME_ENDS.fullmatch(heard, device.span[1]):
        return made
    if lead is None or not _AROUND_NAME.fullmatch(heard, lead.end(), device.span[1]):
        return made
    if not _is_name(heard[lead.end() : device.span[1]].lower().split(), heard[device.span[1] :]):
        return made
    named_device = replace(device, doubts=(acts.Doubt("count", "named"),))
    told = [named_device if act is told[0] else act for act in made]
    if expect is None or any(isinstance(act, (acts.NameBox, acts.NextBox)) for act in made):
        return told
    span = (lead.end(), device.span[1])
    name = _FIGURES.sub(lambda found: _WORDS[found[0]], heard[slice(*span)].lower())
    return [acts.NameBox(name=name, words=heard[slice(*span)], span=span), *told]


#: "A second GFCI", "the other switch": one more, and no name.
_FURTHER = frozenset(
    {"second", "third", "fourth", "other", "another", "new", "old", "more", "extra"}
)
_OF_DEVICES = frozenset(
    {"single", "double", "pole", "duplex", "light", "lights", "fan", "wall", "toggle", "smart"}
)


_FIGURES = lazy_pattern(r"\b[34](?=[- ]way\b)")
_WORDS = {"3": "three", "4": "four"}
_WAYS = lazy_pattern(r"\b(three|four|3|4) way\b")


def _is_name(words: list[str], behind: str) -> bool:
    """Whether the words up to a device, its own the last of them, name a box by its place, or are
    said to be of a box by what is behind them."""
    *before, _ = _WAYS.sub(r"\1-way", " ".join(words)).split() or [""]
    if before and before[-1] in _FURTHER:
        return False
    placed = PLACES.intersection(before) or _SOME_PLACE.search(behind)
    return bool(placed) and all(may_name(word) or word in _OF_DEVICES for word in before)
