"""A box that is called by a number and by the device in it: "unit two hall switch, eighteen …"."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.numbers import value
from boxaloud.grammar.utterance.box_naming import shifted
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS

_LABEL = (
    r"(?:unit|suite|apartment|apt|room|rm|office|classroom|lot|item|line item|number|house|bldg"
    r"|building)"
)
_NUMBER = (
    r"(?:(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|[a-z]+teen|twenty)"
    r"|[a-h]|\d{1,4}[a-z]?)"
)
#: "Three way", "two gang", "three 14-2s": a number that is none of the heading.
_OTHER = r"(?! ?[-/]?(?:ways?|gang|pole|wire|by|inch|cubic|twos?|threes?|switches|dimmers)\b)"
_DEVICE = (
    r"(?:(?:light |single pole |three way |3[- ]way |four way )?(?:switch|dimmer)|receptacle|outlet"
    r"|gfci|gfi|duplex|timer|sensor)"
)
_HEADED = lazy_pattern(
    r"\s*(?:(?:ok|okay|so|and|now|then|next|next up|um|uh|er|hm+|hello|hi|hey|well|please|alright"
    r"|this is|it's|note),? +)*"
    rf"(?P<label>{_LABEL}) +(?P<number>{_NUMBER}){_OTHER}(?P<place>(?: +[a-z]+){{0,3}}?)"
    rf",? +(?P<device>{_DEVICE})"
    r"(?![\w-])(?P<rest>[,:.]? .+)"
)
_TOLD = (acts.SetVolume, acts.SetSize, acts.NameBoxKind, acts.SetClamps, acts.AddPart)
_PLAIN = (*_TOLD, acts.Social)


def _figure(said: str) -> str:
    """ "Two" as 2: one box, however its number is put."""
    worth = value((said,))
    return said if worth is None else str(worth)


def headed_by_number(heard: str, read_part: Callable[[str], Utterance]) -> Utterance | None:
    """The box that is begun, with what is told of it; None where no heading is put so. The device
    it is called by is in it, and is not counted again where it is listed."""
    low = heard.lower()
    said = _HEADED.fullmatch(low.rstrip())
    if said is None or not all(w in ROOMS or w in ROOM_WORDS for w in said["place"].split()):
        return None
    start = said.start("device")
    read = read_part(heard[start:])
    first = read.acts[0] if read.acts else None
    if not isinstance(first, acts.AddDevice) or first.span[0] or first.count is not None:
        return None
    rest = read.acts[1:]
    if not rest or not all(is_thing(act) or isinstance(act, _PLAIN) for act in rest):
        return None
    listed = any(isinstance(act, acts.AddDevice) for act in rest)
    device = [] if listed else [replace(first, doubts=(acts.Doubt("count", "named"),))]
    span = (said.start("label"), said.end("device"))
    named = " ".join([said["label"], _figure(said["number"]), *said["place"].split()])
    begins: Act = acts.NextBox(name=named, words=heard[slice(*span)], span=span)
    left = tuple(
        Unread(run.words, (run.span[0] + start, run.span[1] + start), run.weighty)
        for run in read.unread
    )
    return Utterance(heard, (begins, *shifted([*device, *rest], start)), left)
