"""The things of a box as they are named in an utterance, each with its count and its line: "one of
the 14-2s", "a couple of the THHN", "the twelves", "both switches"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias, cast

from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference, Thing, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.rewriting.spoken_values import spoken_value
from boxaloud.grammar.utterance.size_claims import gauge
from boxaloud.rules.contents import Cable, Conductors, Yoke

Line: TypeAlias = Cable | Conductors | Yoke
_GAUGE = r"(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)"
_FEW = r"(?:[2-9]|1[0-9]|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_COUNT = (
    rf"(?:(?P<all>all(?: of)?(?: (?P<of>{_FEW}))?|both)(?: of)?(?: (?:the|those|these|my))? "
    rf"|(?P<some>{_FEW}|a couple|a pair) of (?:the|those|these|my|them) "
    rf"|(?P<count>{_FEW}|an?|a couple|a couple of|a pair of) "
    r"|(?P<points>the|that|those|these|this|my) )?"
)
_LOOKS = (
    r"(?:(?:white|yellow|orange|black|gr[ae]y|blue|ivory|almond|brown|old|new|stranded|solid) )*"
)
_NAME = (
    rf"(?:(?P<awg>{_GAUGE})[-/ ](?P<inside>[234]|two|three|four)(?P<twice>[-/ ](?:2|two))?(?:'?s)?"
    rf"(?: cables?)?(?![\w/-])|(?P<wires>number {_GAUGE}|fourteens|twelves|tens|14s|12s|10s|thhn)"
    r"(?: (?:thhn|wires?|conductors?))?"
    r"|(?P<wire>two|three|four)[- ]wire"
    r"|(?P<lone>(?<=\bthe )(?:14|12|10|fourteen|twelve|ten)(?= (?:went|left|fed|was dead"
    r"|is dead)\b))"
    r"|(?P<device>(?:(?:plain|regular|standard|ordinary|duplex|new|old|single[- ]pole) )*"
    r"(?:three[- ]way |four[- ]way |3[- ]way |4[- ]way )?(?:switch(?:es)?|receptacles?"
    r"|dimmers?|gfcis?|three[- ]ways?|four[- ]ways?))\b"
    r"(?! (?:plates?|covers?|box|legs?|loops?|screws?|tabs?|wires?|cables?|heads?|knobs?)\b))"
)
_PLAIN = lazy_pattern(r"\b(?:plain|regular|standard|ordinary|duplex|new|old|single[- ]pole) ")
_THING = lazy_pattern(rf"\b{_COUNT}{_LOOKS}{_NAME}")


@dataclass(frozen=True, slots=True)
class Named:
    """A thing as it was named; without a target where the box has none, or several, like it."""

    target: Reference | None
    there: int
    count: int | None
    every: bool
    points: bool
    brings: Thing | None
    single: bool
    """Named as one: "the 14-2", and not "the 14-2s"."""

    def goes(self) -> int | None:
        """How many go where it is said to; None where that is open."""
        if self.single and self.count is None and self.points:
            return 1 if self.there == 1 else None
        if self.every or (self.count is None and self.points):
            return self.there if self.count in (None, self.there) else None
        count = self.count or (1 if self.there == 1 else None)
        return count if count is not None and count <= self.there else None

    def same_as(self, others: Sequence[Named]) -> bool:
        """Whether it names one of those once more, in as many or without a count."""
        return any(one.target == self.target and self.count in (None, one.goes()) for one in others)


def named_things(read: Utterance, state: State) -> tuple[str, Sequence[Named]]:
    """The words in small letters with a tag for each thing, and the things."""
    words = read.heard.lower().replace("’", "'")
    things: list[Named] = []
    tagged, end = "", 0
    for found in _THING.finditer(words):
        tagged += words[end : found.start()] + f"<t{len(things)}>"
        things.append(_named(found, read, state))
        end = found.end()
    return tagged + words[end:], things


def _named(found: re.Match[str], read: Utterance, state: State) -> Named:
    lines = [
        item.content for item in state.items if isinstance(item.content, Cable | Conductors | Yoke)
    ]
    meant = [line for line in lines if _is_called(line, found)]
    line = meant[0] if len(meant) == 1 else None
    said = found["some"] or found["count"] or found["of"]
    count = _worth(said) if said else 2 if found["all"] == "both" else None
    return Named(
        target=_target(line) if line else None,
        there=line.count if line else 0,
        count=count,
        every=found["all"] is not None,
        points=bool(found["points"] or found["some"] or found["all"]),
        brings=_brought(found, read, count),
        single=_is_single(found),
    )


def _is_single(found: re.Match[str]) -> bool:
    if found["all"] or found["wires"]:
        return False
    return found["points"] in ("that", "this") or not found[0].endswith("s")


def _worth(said: str) -> int:
    if said in ("a", "an"):
        return 1
    return 2 if said.startswith(("a couple", "a pair")) else int(spoken_value(said))


def _is_called(line: Line, found: re.Match[str]) -> bool:
    if found["awg"]:
        inside = int(spoken_value(found["inside"])) * (2 if found["twice"] else 1)
        return isinstance(line, Cable) and (line.awg, line.conductors) == (
            gauge(found["awg"]), inside,
        )  # fmt: skip
    if found["lone"]:
        wired = isinstance(line, Cable | Conductors) and line.awg == gauge(found["lone"])
        return wired and line.count == 1
    if found["wire"]:
        return isinstance(line, Cable) and line.conductors == int(spoken_value(found["wire"]))
    if found["wires"]:
        size = found["wires"]
        return isinstance(line, Conductors) and (
            size == "thhn" or line.awg == gauge(size.rstrip("s"))
        )
    name = _PLAIN.sub("", re.sub(r"(?:(?<=ch)es|(?<=[a-z])s)$", "", found["device"]))
    name = name.replace("3", "three")
    name = name.replace("4", "four").replace("-", " ")
    called = line.name.lower().replace("-", " ") if isinstance(line, Yoke) else ""
    return called in (name, f"{name} switch", f"{name} receptacle")


def _target(line: Line) -> Reference:
    if isinstance(line, Yoke):
        return Reference(kind="device", name=line.name)
    if isinstance(line, Cable):
        return Reference(kind="cable", awg=line.awg, conductors=line.conductors)
    return Reference(kind="conductors", awg=line.awg)


def _brought(found: re.Match[str], read: Utterance, count: int | None) -> Thing | None:
    """The thing as it comes in; a device as it was read."""
    words, span = read.heard[found.start() : found.end()], found.span()
    if found["awg"]:
        inside = int(spoken_value(found["inside"])) * (2 if found["twice"] else 1)
        return acts.AddCable(
            awg=gauge(found["awg"]), conductors=inside, count=count or 1, words=words, span=span
        )
    for act in read.acts:
        thing = act.thing if isinstance(act, acts.Restate) else act
        if isinstance(thing, acts.AddDevice) and _overlap(act.span, span):
            return cast(Thing, replace(thing, count=count or 1, doubts=()))
    return None


def _overlap(one: tuple[int, int], other: tuple[int, int]) -> bool:
    return one[0] < other[1] and other[0] < one[1]
