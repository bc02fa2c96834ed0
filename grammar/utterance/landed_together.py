"""Devices that land where another does: "the dimmer is on the 12 and so is the switch"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

_SO_IS = lazy_pattern(
    r"\W*(?:and |but )?(?:so (?:is|are|does|do|goes)|same (?:for|with|goes for|thing with)"
    r"|likewise|ditto(?: for)?|also)\s*",
    re.IGNORECASE,
)
_AND = lazy_pattern(r"\W*(?:and )?", re.IGNORECASE)
_TOO = lazy_pattern(r"\s*(?:is |are )?(?:too|as well|also)\b", re.IGNORECASE)
_ARE = lazy_pattern(
    r"\s*(?:(?:are|is|go|goes|land|lands|sit|both|all|should be|need to be|have to be|now|actually)"
    r"\s+)*",
    re.IGNORECASE,
)
_POINTING = ("the ", "that ", "this ", "those ", "these ", "my ", "both ")


def landed_together(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "… and so is the switch", "the dimmer and the switch are on the 12": each lands there."""
    if not any(map(_is_pointed, made)):
        return made
    kept: list[Act] = []
    awg: int | None = None
    for act in made:
        pointed = _is_pointed(act)
        between = heard[kept[-1].span[1] : act.span[0]] if kept else ""
        if pointed and awg is not None and _goes_on(between, heard[act.span[1] :]):
            act = _landing(act, awg)
        elif isinstance(act, acts.Size) and act.awg is not None and kept:
            before = _named_before(kept, heard)
            on = act.words.lower().startswith("on ")
            if on and before and _ARE.fullmatch(between):
                kept[-before:] = [_landing(one, act.awg) for one in kept[-before:]]
                continue
        awg = _size_of(act)
        kept.append(act)
    return kept


def _is_pointed(act: Act) -> bool:
    return (
        isinstance(act, acts.AddDevice) and act.awg is None and act.count is None
        and act.words.lower().startswith(_POINTING)
    )  # fmt: skip


def _goes_on(between: str, behind: str) -> bool:
    too = _AND.fullmatch(between) and _TOO.match(behind)
    return bool(_SO_IS.fullmatch(between) or too)


def _named_before(kept: list[Act], heard: str) -> int:
    """How many devices that are pointed at stand last, joined by "and"; 0 for fewer than two."""
    count = 0
    for place in range(len(kept) - 1, -1, -1):
        act = kept[place]
        joined = not count or _AND.fullmatch(heard[act.span[1] : kept[place + 1].span[0]])
        if not _is_pointed(act) or not joined:
            break
        count += 1
    return count if count > 1 else 0


def _size_of(act: Act) -> int | None:
    """The size that an act lands a device on."""
    if isinstance(act, acts.Land):
        return act.awg
    return act.awg if isinstance(act, acts.AddDevice) else None


def _landing(act: Act, awg: int) -> Act:
    if not isinstance(act, acts.AddDevice):
        return act
    target = Reference("device", act.name, words=act.words)
    return acts.Land(target=target, awg=awg, words=act.words, span=act.span, function="correction")


_OFF_THE = lazy_pattern(r"\s*(?:of )?(?:the |those )?", re.IGNORECASE)
_SIZE = lazy_pattern(r"#?(?:14|12|10|8|6)(?:'?s)?|fourteens?|twelves?|tens?|eights?", re.IGNORECASE)


def off_its_wires(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Take the dimmer off the 14 and put it on the 12": it leaves the wires, and not the box."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        size = _left_behind(act, heard, left)
        following = made[place + 1] if place + 1 < len(made) else None
        if size is None or not isinstance(act, acts.Remove):
            kept.append(act)
            continue
        left.remove(size)
        if isinstance(following, acts.Land):
            made[place + 1] = acts.Land(
                target=act.target, awg=following.awg, words=heard[act.span[0] : following.span[1]],
                span=(act.span[0], following.span[1]), function="correction",
            )  # fmt: skip
        else:  # where it goes is yet to be said
            span = (act.span[0], size.span[1])
            left.append(Unread(heard[slice(*span)], span, True))
    return kept


def _left_behind(act: Act, heard: str, left: list[Unread]) -> Unread | None:
    """The wires that a device is taken off, left unread right behind the order."""
    if not isinstance(act, acts.Remove) or act.target.kind != "device":
        return None
    if not act.words.lower().endswith(" off"):
        return None
    for run in left:
        between = heard[act.span[1] : run.span[0]]
        if (
            run.span[0] >= act.span[1]
            and _OFF_THE.fullmatch(between)
            and _SIZE.fullmatch(run.words)
        ):
            return run
    return None


_ON_CABLE = lazy_pattern(
    r"(?i)\s*(?:that is |that's |is |lands |landing |landed |goes |sits |fed )?(?:on|off|from"
    r"|by|with|fed by|off of|(?:(?:is |that's |that is )?(?:tied|wired|connected|hooked|spliced)"
    r"(?: up)? (?:to|on|onto))) (?:the |an? |one )?"
)
#: "On two 14-2s and a 12-2": which of them it is on, nobody said.
_AND_ANOTHER = lazy_pattern(r"(?i)\s*(?:and|plus|&)(?: (?:the|a|an|one))?\s*")


def landed_on_cables(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "a receptacle on a 12-2 and a switch on a 14-2": each lands on its cable."""
    kept: list[Act] = []
    counted = _counts_landed_on(made, heard)
    for place, act in enumerate(counted):
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.AddCable)
            and act.awg is not None
            and isinstance(last, acts.AddDevice)
            and last.awg is None
        ):
            between = heard[last.span[1] : act.span[0]] + (" " if act.span[0] else "")
            article = re.match(r"(?i)(?:an?|the|one) ", act.words)
            if not _of_several(counted[place : place + 2], heard) and _ON_CABLE.fullmatch(
                between.rstrip() + " " + (article[0] if article else "")
            ):
                kept[-1] = replace(
                    last, awg=act.awg, doubts=tuple(d for d in last.doubts if d.slot != "awg")
                )
        kept.append(act)
    return kept


def _of_several(cables: list[Act], heard: str) -> bool:
    """Whether cables of another size are joined to that which a device is said to be on."""
    first, second = cables[0], cables[-1]
    if not isinstance(first, acts.AddCable) or not isinstance(second, acts.AddCable):
        return False
    if first.awg == second.awg:
        return False
    between = heard[first.span[1] : second.span[0]]
    listed = first.count not in (None, 1) and between.strip() == ","
    return listed or _AND_ANOTHER.fullmatch(between) is not None


_ON_COUNT = lazy_pattern(
    r"(?i)(?P<device>.*?)\s*\b(?:on|off|from|with) (?P<n>six|eight|ten|6|8|10)"
)
_CONDUCTORS = (2, 3, 4)


def _counts_landed_on(made: list[Act], heard: str) -> list[Act]:
    """ "A sensor on six 14-2 cables": a count of cables, and no size; "a receptacle on six three":
    the size of the cable that is named by both numbers."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        said = _ON_COUNT.fullmatch(last.words) if isinstance(last, acts.AddDevice) else None
        joined = last is not None and heard[last.span[1] : act.span[0]] in (" ", "-")
        if said is None or not joined or not isinstance(last, acts.AddDevice):
            kept.append(act)
        elif isinstance(act, acts.AddCable) and act.count is None and act.awg is not None:
            number = numbers.value((said["n"].lower(),))
            end = last.span[0] + len(said["device"])
            kept[-1] = replace(
                last, awg=None, words=said["device"], span=(last.span[0], end),
                doubts=tuple(d for d in last.doubts if d.slot != "awg"),
            )  # fmt: skip
            kept.append(
                replace(
                    act, count=int(number or 1),
                    doubts=tuple(d for d in act.doubts if d.slot != "count"),
                )
            )  # fmt: skip
        elif isinstance(act, acts.Number) and act.value in _CONDUCTORS and last.awg is not None:
            start = last.span[0] + said.start("n")
            span = (start, act.span[1])
            kept.append(
                acts.AddCable(
                    count=1, awg=last.awg, conductors=int(act.value or 0),
                    words=heard[slice(*span)], span=span,
                )
            )  # fmt: skip
        else:
            kept.append(act)
    return kept
