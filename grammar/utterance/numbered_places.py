"""A box headed by a number of its place, in whatever words: "vanity 611, inch and a quarter …"."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.numbers import value
from boxaloud.grammar.utterance.box_naming import CHANGES, shifted

_SMALL = r"(?:one|two|three|four|five|six|seven|eight|nine)"
_TEENS = r"(?:ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen)"
_TENS = rf"(?:(?:twen|thir|for|fif|six|seven|eigh|nine)ty(?:-{_SMALL})?|{_TEENS})"
#: "Switch on 14" is on wires of that size; one is no place either ("on one").
_WIRE_SIZE = r"(?:one|six|eight|ten|twelve|fourteen|[68]|1[024])"
#: Places that are counted up: a small number behind one of them is none of the box.
_COUNTED = (
    r"(?:corridor|hall|gridline|grid|line|level|floor|column|bay|wing|pendant|room|suite|unit"
    r"|bench|aisle|rack|station|phase|tower|stair|desk|counter outlet"
    rf"|on(?! (?:number )?{_WIRE_SIZE}\b))"
)
_NOT_OTHER = (
    r"(?![\w/-]|\.\d| ?(?:by|cubic|cubes?|cu|inch|gang|square|amps?|volts?|feet|mil|ml|ways?|poles?"
    r"|wires?|twos?|threes?|switches|dimmers|cables?|conductors?|more|on|of|each|times)\b)"
)
_NUMBER = (
    rf"(?:(?:[1-9]\d\d[a-z]?|[a-rt-z]-?\d{{1,2}}){_NOT_OTHER}"
    rf"|(?!four-eleven\b){_SMALL}-{_TENS}(?! ?(?:square|sixteen|gauge)|s\b)"
    rf"|\b(?:{_COUNTED}) (?:number )?(?:{_SMALL}|{_TEENS}|\d{{1,2}}){_NOT_OTHER})"
)
_LEAD = (
    r"(?:(?:ok|okay|so|and|alright|well|um|uh|hey|hello|hi|please|now|then|right|next box|next"
    r"|this is|i'm at|we're at|i'm in|we're in)[,.:]? )*"
)
_HEAD = rf"\s*{_LEAD}(?P<head>(?:[a-z][a-z'’-]*,? ){{0,5}}?)(?P<number>{_NUMBER})"
_TAIL = rf"(?P<tail>,? (?:(?:[a-z]+ )?{_NUMBER}|[a-z][a-z'’-]*(?: [a-z]+){{0,2}}))"
_REST = r"[,.:;] (?P<rest>.+)"
#: With more of the name behind the number, or with none.
_HEADED = (
    lazy_pattern(f"{_HEAD}{_TAIL}{_REST}", re.DOTALL),
    lazy_pattern(f"{_HEAD}(?P<tail>){_REST}", re.DOTALL),
)
#: Words before a number that make it one of the box, or one of elsewhere.
_OF_THE_BOX = lazy_pattern(
    r"\b(?:it|it's|its|is|are|marked|stamped|says|reads|volume|capacity|about|cubic|add|put|take"
    r"|make|change|use|with|of|nec|code|article|section|table|under|from|to|for|per|than|if|was"
    r"|i|we|no|not|the|this|that|there's|one|two|three|four|five|six|seven|eight|nine|ten"
    r"|amps?|volts?|watts?|poles?|breakers?|fuses?)\b"
)
_DEVICE = lazy_pattern(
    r"\b(?:switch|dimmer|timer|receptacle|outlet|plug|gfci|gfi|duplex|sensor|thermostat|way)\b"
)
_BOX_TOLD = (acts.SetVolume, acts.SetSize, acts.NameBoxKind, acts.SetClamps)


def headed_by_place(heard: str, read_part: Callable[[str], Utterance]) -> Utterance | None:
    """The box that is begun, with what is told of it; None where nothing is headed so, or what
    heads it tells of the box."""
    low = heard.lower().rstrip()
    if low.endswith("?"):
        return None
    for form in _HEADED:
        said = form.fullmatch(low)
        if said is not None and (told := _told(said, heard, read_part)) is not None:
            return told
    return None


def _told(
    said: re.Match[str], heard: str, read_part: Callable[[str], Utterance]
) -> Utterance | None:
    parts = [_device_of(said[of].strip(" ,"), read_part) for of in ("head", "tail")]
    if None in parts or _OF_THE_BOX.search(said["head"]):
        return None
    start = said.start("rest")
    read = read_part(heard[start:])
    sized = any(isinstance(act, _BOX_TOLD) for act in read.acts)
    named = said["head"] or said["tail"]
    if not sized and not (named and any(isinstance(act, CHANGES) for act in read.acts)):
        return None
    head = f"{said['head']}{said['number']}{said['tail']}"
    span = (said.start("head"), said.end("tail"))
    begins: Act = acts.NextBox(name=_name(head), words=heard[slice(*span)], span=span)
    listed = any(isinstance(act, acts.AddDevice) for act in read.acts)
    device = [one for part in parts for one in part or ()]
    called = [] if listed else [replace(one, span=span) for one in device]
    left = tuple(
        Unread(run.words, (run.span[0] + start, run.span[1] + start), run.weighty)
        for run in read.unread
    )
    return Utterance(heard, (begins, *called, *shifted(read.acts, start)), left)


def _device_of(words: str, read_part: Callable[[str], Utterance]) -> list[Act] | None:
    """The device that a place is called by, which may be in its box; None where the words tell of
    anything else."""
    told = [act for act in read_part(words).acts if isinstance(act, (*CHANGES, *_BOX_TOLD))]
    if not told and _DEVICE.search(words):
        return None  # a device that is not read so
    kinds = {act.family for act in told if isinstance(act, acts.NameBoxKind)}
    if kinds - {None, "junction"}:
        return None  # "older octagon in 103, 4 x 1-1/2"
    measured = ("count", "awg", "volume", "depth", "width")
    if any(getattr(act, of, None) is not None for act in told for of in measured):
        return None
    if not all(isinstance(act, acts.AddDevice | acts.NameBoxKind | acts.AddCable) for act in told):
        return None  # "clamps inside, room 204"
    devices = (act for act in told if isinstance(act, acts.AddDevice))
    return [replace(act, doubts=(acts.Doubt("count", "named"),)) for act in devices]


def _name(head: str) -> str:
    """ "Room four-twelve, headboard left" as it was said, its number in figures."""
    words = [re.sub(r"[,.:]", "", word) for word in head.split()]
    return " ".join(_figure(word) for word in words)


def _figure(word: str) -> str:
    """ "Four-twelve" is 412, "six-eleven" 611."""
    first, _, last = word.partition("-")
    one, two = value((first,)), value(tuple(last.split("-"))) if last else None
    if one is None or not last or two is None:
        return word
    return f"{one}{two}"
