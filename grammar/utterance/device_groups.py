"""Devices said over several clauses: headings, sums, one yoke."""

from __future__ import annotations

import re
from dataclasses import replace

from grammar import acts, numbers
from grammar.acts import Act

_ACTIVITY = re.compile(
    r"\b(?:replac|install|swapp|chang|wir|hook|mount|add|putt|fix|repair|upgrad|troubleshoot"
    r"|redo|connect)ing(?: up| in| out)? (?:a |an |the |my |some |new |old |out |another )*$"
)
_ACTIVITY_REACH = 200


def _activity_before(act: Act, heard: str) -> bool:
    """Whether an activity stands right before; not looked for through all that was said."""
    end = act.span[0] + _article(act)
    return _ACTIVITY.search(heard[max(0, end - _ACTIVITY_REACH) : end].lower()) is not None


def without_activity(made: list[Act], heard: str) -> list[Act]:
    """ "Replacing a light switch. … 1 switch": the work said first is no second switch."""
    kept: list[Act] = []
    if "ing " not in heard.lower():
        return made
    for place, act in enumerate(made):
        if isinstance(act, acts.AddDevice) and _activity_before(act, heard):
            later = [other for other in made[place + 1 :] if isinstance(other, acts.AddDevice)]
            if any(_same_device(act, other) for other in later):
                continue
        kept.append(act)
    return kept


def _article(act: Act) -> int:
    """How far into its words an act's article reaches."""
    found = re.match(r"(?i)(?:a|an|the|my|one) ", act.words)
    return found.end() if found else 0


def _same_device(one: acts.AddDevice, other: acts.AddDevice) -> bool:
    names = (one.name or "device", other.name or "device")
    return names[0].endswith(names[1]) or names[1].endswith(names[0])


def quads_as_duplexes(made: list[Act]) -> list[Act]:
    """A quad receptacle is two duplexes on two yokes, 314.16(B)(4)."""
    kept: list[Act] = []
    duplexes = any(
        isinstance(act, acts.AddDevice) and act.name == "duplex receptacle" and act.count == 2
        for act in made
    ) or any(
        isinstance(act, acts.Restate)
        and isinstance(act.thing, acts.AddDevice)
        and act.thing.name == "duplex receptacle"
        and act.thing.count == 2
        for act in made
    )
    if duplexes:  # "garage quad: …, two duplexes": one and the same
        made = [
            act
            for act in made
            if not (isinstance(act, acts.AddDevice) and act.name == "quad receptacle")
        ]
    for act in made:
        last = kept[-1] if kept else None
        quad = (
            isinstance(last, acts.AddDevice)
            and re.search(r"quad|fourplex", last.words.lower()) is not None
        )
        if (
            quad
            and isinstance(act, acts.AddDevice)
            and act.name == "duplex receptacle"
            and act.count == 2
        ):
            continue  # "a quad, I mean two duplexes"
        if isinstance(act, acts.AddDevice) and act.name == "quad receptacle":
            act = replace(act, name="duplex receptacle", count=2 * (act.count or 1), doubts=())
        kept.append(act)
    return kept


_SWITCH_BOX = re.compile(r"(?i)^(?P<count>\d|one|two|three|four)?\s*(?:sw|switch) box\b")


def switch_beside_box(made: list[Act], heard: str) -> list[Act]:
    """ "3 14-2s 1 sw box stamped 18": a counted switch, and then the box."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, (acts.SetVolume, acts.NameBoxKind, acts.SetSize)):
            said = _SWITCH_BOX.match(act.words)
            before = re.search(r"(?i)(\d|one|two|three|four)\s*$", heard[: act.span[0]])
            counted = said is not None and (said["count"] or before)
            if counted and said is not None:
                number = numbers.value(((said["count"] or before[1]).lower(),))  # type: ignore[index]
                kept.append(
                    acts.AddDevice(
                        count=int(number or 1),
                        name="switch",
                        words=act.words.split(" box")[0],
                        span=act.span,
                    )
                )
        kept.append(act)
    return kept


_NO_DEVICE = re.compile(
    r"\b(?:ceiling|lighting|light|smoke|alarm|luminaire|fan|fixture) outlet\b", re.IGNORECASE
)


def _generic(act: acts.AddDevice) -> bool:
    """A device named by no more than its kind."""
    return act.name in (
        None,
        "device",
        "receptacle",
        "switch",
        "30 amp receptacle",
        "50 amp receptacle",
        "single receptacle",
    )


def same_again(made: list[Act], heard: str) -> list[Act]:
    """ "two switches, both three-ways"; "… and the switch" of one said before: no further one."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.AddTerminalBlock) and act.words.lower().startswith(
            ("that ", "the ")
        ):
            if any(isinstance(o, acts.AddTerminalBlock) for o in kept):
                continue
        if isinstance(act, acts.AddDevice):
            low = act.words.lower()
            last = kept[-1] if kept else None
            if (
                act.name == "receptacle"
                and not kept
                and _NO_DEVICE.search(heard[max(0, act.span[0] - 12) : act.span[1]])
            ):
                continue  # an outlet of lighting is a place in the wiring, no device
            if (
                low.startswith(("both ", "all "))
                and isinstance(last, acts.AddDevice)
                and (last.count or 1) > 1
            ):
                kept[-1] = replace(
                    last,
                    name=act.name or last.name,
                    awg=act.awg or last.awg,
                    span=(last.span[0], act.span[1]),
                )
                continue
            if (
                low.startswith(("both ", "all "))
                and act.name in (None, "device")
                and act.awg is not None
            ):
                every = acts.Reference(
                    "device", which="both" if low.startswith("both") else "all", words=act.words
                )
                kept.append(
                    acts.Land(
                        target=every,
                        awg=act.awg,
                        words=act.words,
                        span=act.span,
                        function="correction",
                    )
                )
                continue
            if (
                isinstance(last, acts.AddDevice)
                and last.name in (None, "device")
                and re.search(r":\s*\d+$", last.words)
                and not heard[last.span[1] : act.span[0]].strip()
            ):
                kept[-1] = replace(act, count=last.count)  # "Devices: 1 receptacle"
                continue
            heading = (
                isinstance(last, acts.AddDevice)
                and last is kept[0]
                and last.count is None
                and not last.words.lower().startswith(("a ", "an ", "the "))
            )
            if (
                heading
                and _generic(act)
                and isinstance(last, acts.AddDevice)
                and re.search(r"[:.;]", heard[last.span[1] : act.span[0]])
            ):
                kept[-1] = replace(
                    last,
                    count=act.count,
                    awg=act.awg or last.awg,
                    gangs=act.gangs or last.gangs,
                    span=(last.span[0], act.span[1]),
                )
                continue
            first = kept[0] if kept else None
            if (
                isinstance(first, acts.AddDevice)
                and first.count is None
                and first.span[0] < 14
                and not first.words.lower().startswith(("a ", "an "))
                and re.match(r"[^,;]{0,25}?[:.](?:\s|$)", heard[first.span[1] :])
            ):
                wide = first.name in ("range receptacle", "dryer receptacle")
                kept[0] = replace(act, name=first.name) if wide else act
                continue
            if (
                kept
                and isinstance(kept[0], acts.AddDevice)
                and kept[0].count is None
                and kept[0].name in ("range receptacle", "dryer receptacle")
                and _generic(act)
            ):
                kept[0] = replace(
                    kept[0], awg=act.awg or kept[0].awg, gangs=act.gangs or kept[0].gangs
                )
                continue
            if low.startswith(("the ", "that ")) and any(
                isinstance(o, acts.AddDevice) and _same_device(act, o) for o in kept
            ):
                if act.awg is not None:
                    for n, o in enumerate(kept):
                        if isinstance(o, acts.AddDevice) and _same_device(act, o):
                            kept[n] = replace(o, awg=act.awg)
                            break
                continue
        kept.append(act)
    return kept


def without_heading_devices(made: list[Act], heard: str) -> list[Act]:
    """ "two devices, a switch and a duplex": the sum said first is no further device."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        summed = (
            isinstance(act, acts.AddDevice)
            and re.match(r"\s*(?:,|:|so)? ?(?:so|a |one |:)", heard[act.span[1] : act.span[1] + 8])
            is not None
        )
        if (
            isinstance(act, acts.AddDevice)
            and (act.name in (None, "device") or (summed and act.name in ("receptacle", "switch")))
            and (act.count or 0) > 1
        ):
            named = 0
            for later in made[place + 1 :]:
                if (
                    not isinstance(later, acts.AddDevice)
                    or later.name in (None, "device")
                    or later.name == act.name
                ):
                    break
                named += later.count or 1
            if named == act.count:
                continue
        kept.append(act)
    return kept
