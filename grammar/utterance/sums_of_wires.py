"""What somebody adds up behind a list of wires, "so that's eight twelves and three grounds", and
kinds of things that nobody can name, "two of something I can't make out"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.lazy_patterns import lazy_pattern

_ADDS_UP = lazy_pattern(r"(?i)\b(?:so|that['’]?s|which makes|that makes|makes|total|altogether)\b")
_N = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d{1,2})"
#: "So eight and two", of eight wires and two grounds.
_SUM = lazy_pattern(
    r"(?i)\b(?:so|that['’]?s|makes|total)(?: it['’]?s| that['’]?s| makes)? "
    rf"(?P<wires>{_N}) and (?P<grounds>{_N})(?: in all| total| altogether)?(?=\s*(?:[,.;]|$))"
)
SUM_PIECES = ("so ", "that's", "that’s", "makes", "total", "altogether")
UNNAMED_PIECES = (" of something", " of some other", " of who knows", " of god knows", " of what")
_UNNAMED = lazy_pattern(
    rf"(?i)\b(?P<n>{_N}|a couple|a few|some|an?other one)(?P<what> of (?:something|some other|who"
    r" knows|god knows|whatever|what i)\b)"
)


def grounds_summed(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without the grounds, and `left` without the numbers, that only add up what was told:
    a sum that comes to anything else stays."""
    kept: list[Act] = []
    for act in made:
        before = _counted(kept, acts.AddGrounds)
        if isinstance(act, acts.AddGrounds) and act.count is not None and act.count == before:
            clause = re.split(r"[,.;]", heard[: act.span[0]])[-1]
            if _ADDS_UP.search(clause) and any(isinstance(one, acts.AddGrounds) for one in kept):
                continue
        kept.append(act)
    for found in _SUM.finditer(heard):
        wires = _counted(kept, acts.AddConductors), _counted(kept, acts.AddGrounds)
        if wires != (_worth(found["wires"]), _worth(found["grounds"])):
            continue
        left[:] = [run for run in left if not _within(run.span, found.span())]
        kept = [
            act
            for act in kept
            if not (
                isinstance(act, (acts.Number, acts.RestateNumber, acts.Recount))
                and _within(act.span, found.span())
            )
        ]
    return kept


def of_no_name(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Three 14/2 and two of something I can't make out": what those are weighs, and they are no
    count of what was told before."""
    for found in _UNNAMED.finditer(heard):
        span, what = found.span(), found.span("what")
        if any(_within(run.span, span) and run.weighty for run in left):
            continue
        made = [
            act
            for act in made
            if not (isinstance(act, (acts.Recount, acts.Number)) and _within(act.span, span))
        ]
        told = [act for act in made if not isinstance(act, (acts.OtherTalk, acts.AskUnknown))]
        if not any(act.span[0] < what[1] and what[0] < act.span[1] for act in told):
            left.append(Unread(found.group().strip(), span, True))
    return made


def one_device_said(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "USB duplex in the library, one device": how many yokes that is, 314.16(B)(4), and none
    besides."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        devices = [one for one in kept if isinstance(one, acts.AddDevice)]
        if (
            isinstance(act, acts.AddDevice)
            and act.name == "device"
            and act.count == 1
            and act.awg is None
            and isinstance(last, acts.AddDevice)
            and len(devices) == 1
            and last.count in (None, 1)
            and last.name not in (None, "device")
            and not _AND.search(heard[last.span[1] : act.span[0]] + act.words)
        ):
            continue
        if devices and _THE_DEVICE.fullmatch(act.words):
            continue  # "GFCI: one. Clamps: unknown, the device is in the way"
        kept.append(act)
    return kept


_THE_DEVICE = lazy_pattern(r"(?i)(?:the|that|this) device")
_AND = lazy_pattern(r"(?i)\b(?:and|plus|with|another|more|other|also)\b|[.;:]")


def _counted(made: Sequence[Act], kind: type[acts.AddGrounds] | type[acts.AddConductors]) -> int:
    """How many there are of a kind; in all, where that was said."""
    total = 0
    for act in made:
        thing = act.thing if isinstance(act, acts.Restate) else act
        if isinstance(thing, kind):
            total = thing.count or 0 if thing is not act else total + (thing.count or 0)
    return total


def _worth(number: str) -> int:
    found = lengths.whole(number.lower() + " ", 0)
    return found[0] if found is not None else -1


def _within(inner: tuple[int, int], outer: tuple[int, int]) -> bool:
    return outer[0] <= inner[0] and inner[1] <= outer[1]
