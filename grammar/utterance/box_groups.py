"""A box and its rings said over several clauses."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.text_before import lowered
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.utterance.box_shapes import (
    face_beside_depth,
    gangs_of,
    its_kind,
    shape_beside_volume,
)

_FRACTION = lazy_pattern(
    r"\b(?:(?:an? )?inch (?:and |n )?(?:a |an )?(?:half|quarter|eighth|\d/\d)|(?:one|two|three"
    r"|1|2|3)(?: inch(?:es)?)?(?:[- ]| and | n )?(?:a |an |one |three |five |seven )?(?:half"
    r"|quarters?|eighths?|\d/\d))\b"
)


#: "Five grounds, what's that, one and a quarter?": what something is worth, and no depth.
_GUESSED = lazy_pattern(
    r"\bwhat(?:['’]?s| is| does| would) (?:that|it|this|those)(?: come to| make| add up to| add)?"
    r"[ ,]+(?:like |about )?$"
)


#: One of these stands in all that `_FRACTION` finds.
_PARTS = ("half", "quarter", "eighth", "/")


def depth_said_apart(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "deep four square, the two and an eighth one": a depth that no phrase took."""
    low = lowered(heard)
    if not any(part in low for part in _PARTS):
        return made
    open_ = [
        (n, act)
        for n, act in enumerate(made)
        if isinstance(act, acts.SetSize) and (act.depth is None or isinstance(act.depth, str))
    ]
    alone = (
        not any(
            isinstance(
                act,
                (
                    acts.SetSize,
                    acts.SetVolume,
                    acts.AddPart,
                    acts.AskUnknown,
                    acts.Ask,
                    acts.Suppose,
                    acts.OtherTalk,
                ),
            )
            for act in made
        )
        and len(heard) < 60
    )
    if not open_ and not alone:
        return made
    for found in _FRACTION.finditer(low):
        if any(act.span[0] <= found.start() < act.span[1] for act in made):
            continue
        if _GUESSED.search(low[: found.start()]):
            continue
        texts = tuple(
            re.findall(r"\d+-\d/\d|\d/\d|\d+|[a-z]+", found.group().replace(" n ", " and "))
        )
        value = numbers.value(texts)
        if value is None or not 1 <= value < 5:
            continue
        if open_:
            at, size = open_[-1]
            made[at] = replace(size, depth=value)
        else:
            made.append(
                acts.SetSize(
                    depth=value, words=heard[found.start() : found.end()], span=found.span()
                )
            )
        left[:] = [run for run in left if not (found.start() <= run.span[0] < found.end())]
        break
    return made


def one_box(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """A box described in several steps is one box; a volume behind an unmarked ring is the
    ring's."""
    kept: list[Act] = []
    made = [act if not shape_beside_volume(act, made) else its_kind(act) for act in made]
    if not any(
        isinstance(one, (acts.SetSize, acts.SetVolume))
        and getattr(one, "volume", 20) is not None
        and getattr(one, "volume", 20) > 12
        for one in made
    ):
        made = [part for act in made for part in _box_and_ring(act)]
    for act in map(_face, made):
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.SetVolume)
            and act.volume is not None
            and act.volume < 5
            and act.volume != int(act.volume)
            and act.unit is None
        ):
            at = next(
                (n for n in reversed(range(len(kept))) if isinstance(kept[n], acts.SetSize)), None
            )
            if (
                at is not None
                and isinstance(size := kept[at], acts.SetSize)
                and (size.depth is None or isinstance(size.depth, str))
            ):
                kept[at] = replace(size, depth=act.volume)
                continue
        if (
            isinstance(act, acts.SetVolume)
            and isinstance(last, acts.AddPart)
            and last.volume is None
        ):
            between = heard[last.span[1] : act.span[0]].lower()
            named = re.search(r"\bbox\b", act.words.lower() + between) is None
            near = act.volume is not None and act.volume < 12 and len(between) < 25
            if named and (near or _marks_ring(last, act, between)):
                kept[-1] = replace(
                    last,
                    volume=act.volume,
                    unit=act.unit,
                    marked=None,
                    span=(last.span[0], act.span[1]),
                )
                continue
        if (
            isinstance(act, acts.SetSize)
            and act.family is None
            and act.width is None
            and isinstance(last, acts.AddPart)
            and last.name == "extension ring"
            and last.depth is None
            and last.volume is None
        ):
            kept[-1] = replace(last, depth=act.depth, span=(last.span[0], act.span[1]))
            continue
        if (
            isinstance(act, acts.SetSize)
            and isinstance(last, acts.AddPart)
            and last.volume is None
            and last.name == "extension ring"
            and last.family is None
            and _on_another(kept)
        ):
            kept[-1] = replace(
                last,
                family=act.family,
                width=act.width,
                depth=act.depth,
                span=(last.span[0], act.span[1]),
            )
            continue
        if isinstance(act, acts.Number) and isinstance(last, acts.SetSize) and _is_depth(act, last):
            kept[-1] = replace(last, depth=act.value, span=(last.span[0], act.span[1]))
            continue
        if (
            isinstance(act, acts.NameBoxKind)
            and isinstance(last, acts.SetSize)
            and gangs_of(act, last)
        ):
            kept[-1] = replace(last, gangs=act.gangs)
            continue
        if (
            isinstance(act, acts.SetSize)
            and isinstance(last, (acts.SetSize, acts.NameBoxKind))
            and (merged := _merged_size(last, act)) is not None
        ):
            kept[-1] = merged
            continue
        kept.append(act)
    return kept


_ON_IT = lazy_pattern(
    r"\s*(?:(?:on|over|on top|that['’]?s|that is|which is|that|which|is|of)\s+"
    r"(?:(?:it|that|top)\s+)?)*"
)


def _marks_ring(ring: acts.AddPart, marking: acts.SetVolume, between: str) -> bool:
    """ "An extension ring on it marked 21.0": as large as a box, without a break."""
    marked = _ON_IT.sub("", marking.words.lower(), count=1).startswith(("mark", "stamp"))
    return ring.name == "extension ring" and marked and _ON_IT.fullmatch(between) is not None


def _face(act: Act) -> Act:
    """ "A 3 by 2 device box": its face, the same for every device box of Table 314.16(A). How deep
    it is was not said by that."""
    if (
        isinstance(act, acts.SetSize)
        and act.family in (None, "device")
        and (act.width, act.height, act.depth) == (Decimal(3), None, Decimal(2))
    ):
        return replace(act, family="device", height=Decimal(2), depth=None)
    return act


def _on_another(kept: list[Act]) -> bool:
    """Whether the ring said last is no ring of a size that stands right with it."""
    return any(isinstance(one, (acts.SetSize, acts.SetVolume)) for one in kept[:-1]) or not any(
        isinstance(one, acts.SetSize) for one in kept
    )


def _box_and_ring(act: Act) -> list[Act]:
    """ "4 square deep mud ring": the box, and a ring on it, for a ring has no such depth."""
    if (
        isinstance(act, acts.AddPart)
        and act.name == "plaster ring"
        and act.family == "square"
        and act.depth is not None
    ):
        box = acts.SetSize(
            family=act.family,
            width=act.width or Decimal(4),
            depth=act.depth,
            words=act.words,
            span=act.span,
        )
        return [box, replace(act, family=None, width=None, depth=None)]
    return [act]


def _is_depth(number: acts.Number, size: acts.SetSize) -> bool:
    """ "the deep four square, the two and an eighth": a fraction behind a size is its depth."""
    value = number.value
    unsaid = size.depth is None or isinstance(size.depth, str)
    return unsaid and value is not None and value != int(value) and value < 5


#: Boxes that do not gang: "two gang", said of one, is of its ring or of the openings in its cover.
_SINGLE_BOXES = frozenset({"square", "octagon", "round"})


def _gangs_of_box(told: acts.SetSize | acts.NameBoxKind, family: str | None) -> int | None:
    """The gangs that were told before the size, where a box of its family can have them."""
    if isinstance(told, acts.NameBoxKind) and family in _SINGLE_BOXES:
        return None
    return told.gangs


_SAID_TO_BE_DEVICE = lazy_pattern(r"\b(?:device|gem|switch|gangable) box")


def _merged_size(one: acts.SetSize | acts.NameBoxKind, other: acts.SetSize) -> acts.SetSize | None:
    """Two descriptions of one box, where they do not contradict each other."""
    family = other.family or one.family
    if one.family and other.family and one.family != other.family:
        if not (other.family == "device" and other.height is not None):
            return None
        if not _SAID_TO_BE_DEVICE.search(other.words.lower()):
            family = one.family
    if family in (
        "old work",
        "new work",
        "ceiling",
        "fan",
        "outlet",
        "junction",
        "weatherproof",
        "floor",
    ):
        family = other.family
    first = one if isinstance(one, acts.SetSize) else acts.SetSize()
    other = face_beside_depth(first, other)
    for name in ("width", "height"):
        a, b = getattr(first, name), getattr(other, name)
        if a is not None and b is not None and a != b:
            return None
    depth = (
        other.depth
        if other.depth is not None and not isinstance(other.depth, str)
        else first.depth or other.depth
    )
    if isinstance(first.depth, type(depth)) and first.depth != depth and not isinstance(depth, str):
        return None
    gangs = other.gangs or _gangs_of_box(one, family)
    return acts.SetSize(
        family=family, width=other.width or first.width, height=other.height or first.height,
        depth=depth, gangs=gangs, material=other.material or one.material,
        words=f"{one.words}, {other.words}",
        span=(min(one.span[0], other.span[0]), max(one.span[1], other.span[1])),
        doubts=(*one.doubts, *other.doubts), function=other.function,
    )  # fmt: skip
