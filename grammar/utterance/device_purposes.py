"""Devices named by what a cable is for: "a 14-2 for the switch, a 12-2 for the outlet"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value
from boxaloud.grammar.utterance.device_groups import same_device

_FOR = lazy_pattern(
    r"(?i)\s*(?:cables? |wires? |conductors? )?(?:(?:go|goes|going|land|lands|landed|landing|sit"
    r"|sits|is|are|tied|ties|tie|(?:comes?|came|runs?) (?:in|up|down|over)(?: from the [a-z]+)? and"
    r"|in and|up and|down and|and|(?:stop|end|finish)(?:s|es)?(?: up)?(?: here| there)?) )*"
    r"(?:for (?:the|my)"
    r" (?!other |second |new |extra |third |next |same )[a-z]+ "
    r"|(?:for|on|onto) (?:the |that |my )?|to (?=$)"
    r"|(?:that|which) (?:(?:only|just) (?:does|serves|feeds|runs|handles|works)"
    r"|(?:does|serves|feeds|works) (?:only|just)) (?:the |that |my ))"
)
_GETS = lazy_pattern(
    r"(?i)(?:\s+(?:right |just )?(?:beside|next to|below|above|under|over|left of|right of)"
    r" (?:it|that|that one|them))?"
    r"\s+(?:gets?|takes?|uses?|lands on|is on|is fed by|fed by|sits on)\s+"
)
#: "The outlet is on the 12 and I have …": a clause of its own where nothing follows.
_STANDS_ON = lazy_pattern(
    r"(?i)(?:['’]s| is| sits| lands| goes| will be) on (?:the |number |# ?)*"
    r"(?P<size>14|12|10|8|6|fourteen|twelve|ten|eight|six)(?:['’]?s)?(?=,| (?:and|but|with|so) )"
)
_AND = lazy_pattern(r"(?i),? *(?:and|plus|with)? *")
#: "12-2 for gfci": typed or heard, no "four" behind a cable.
_ARTICLE = lazy_pattern(r"(?i)(?:the|that|my|(?P<for>for)) ")
_FOR_SWITCH = lazy_pattern(r"(?i) for (?P<device>(?:the|that|my) switch(?:es)?)$")


def for_devices(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A 14-2 for the switch, a 12-2 for the outlet": each device lands on what is for it, and is
    there though nothing else names it; one that is also said by itself is no second one."""
    kept: list[Act] = []
    landings: list[acts.Land] = []
    for act in made:
        if isinstance(act, acts.AddCable) and (landed := _landed(kept, act, heard)) is not None:
            kept[-1] = landed
            kept.append(act)
        elif (
            isinstance(act, acts.AddDevice) and (landing := _landing(act, kept, heard)) is not None
        ):
            landings.append(landing)
        elif isinstance(act, acts.Land) and _names_purpose(act):
            landings.append(act)
        elif not _stood_on(kept, act, heard):
            kept.append(_standing(act, heard))
            landings += _of_a_leg(act)
    if not landings or any(map(_denies_devices, kept)):
        return kept
    if _said_by_itself(kept, landings):
        return [*kept, *(_beside_others(one, kept) for one in landings)]
    return _in_place(kept, [_beside_others(one, kept) for one in landings])


def _landed(kept: list[Act], cable: acts.AddCable, heard: str) -> acts.AddDevice | None:
    """The device before a cable that it "gets", on the size of it; None where it gets none."""
    last = kept[-1] if kept else None
    if not isinstance(last, acts.AddDevice) or last.awg is not None or cable.awg is None:
        return None
    if (
        last.name in (None, "device")
        or _GETS.fullmatch(heard[last.span[1] : cable.span[0]]) is None
    ):
        return None
    return replace(last, awg=cable.awg)


def _standing(act: Act, heard: str) -> Act:
    """ "The outlet is on the 12 and …": the device on the size said of it; else as it is."""
    if not isinstance(act, acts.AddDevice) or act.awg is not None:
        return act
    said = _STANDS_ON.match(heard, act.span[1])
    return act if said is None else replace(act, awg=int(spoken_value(said["size"].lower())))


def _stood_on(kept: list[Act], act: Act, heard: str) -> bool:
    """Whether an act is the size that the device before it has by what is said of it."""
    last = kept[-1] if kept else None
    if not isinstance(act, acts.Size) or not isinstance(last, acts.AddDevice):
        return False
    return last.awg == act.awg and _STANDS_ON.match(heard, last.span[1]) is not None


def _beside_others(landing: acts.Land, kept: list[Act]) -> Act:
    """ "A dimmer, a 12-2 for the outlet": a device of its own, where the others told are none of
    its kind; else it may be one of those, and is asked about where it is not found."""
    others = [act for act in kept if isinstance(act, acts.AddDevice) and act.awg is None]
    if not others or any(_feeds(act.name) == _feeds(landing.target.name) for act in others):
        return landing
    if landing.target.words.lower().endswith("switches") or _said_by_itself(kept, [landing]):
        return landing
    return acts.AddDevice(
        count=1, name=landing.target.name, awg=landing.awg, words=landing.words, span=landing.span
    )


def _feeds(name: str | None) -> bool:
    """Whether a device is a receptacle of some kind, and no switch or control."""
    return "receptacle" in (name or "device")


def _landing(act: acts.AddDevice, kept: list[Act], heard: str) -> acts.Land | None:
    """The landing that a device right behind "14-2 for" is; None where it is none."""
    last = kept[-1] if kept else None
    if isinstance(last, acts.AddGrounds):
        return _landing_with_ground(act, kept, heard)
    if not isinstance(last, (acts.AddCable, acts.AddConductors)) or last.awg is None:
        return None
    article = _ARTICLE.match(act.words)
    so_many = act.count in (None, 1) or (article is not None and article["for"])
    if not so_many or act.name in (None, "device") or act.gangs is not None:
        return None
    between = heard[last.span[1] : act.span[0]].rstrip() + " " + (article[0] if article else "")
    if _FOR.fullmatch(between) is None or not _lands_to(act, last, between):
        return None
    span = (last.span[0], act.span[1])
    target = acts.Reference("device", name=act.name, words=act.words)
    return acts.Land(
        target=target, awg=act.awg or last.awg, words=heard[slice(*span)], span=span,
        function="correction",
    )  # fmt: skip


def _lands_to(act: acts.AddDevice, wires: Act, between: str) -> bool:
    """Whether "two tens to a single receptacle" end on one of this box; "the 12-2 to the light"
    goes there, and so may a cable."""
    if between.strip().lower() != "to":
        return True
    return isinstance(wires, acts.AddConductors) and act.words.lower().startswith(("a ", "an "))


def _landing_with_ground(act: acts.AddDevice, kept: list[Act], heard: str) -> acts.Land | None:
    """ "Two 12s and a green 12 land on a receptacle": on the size of all of them."""
    ground = kept[-1]
    wires = kept[-2] if len(kept) > 1 else None
    if not isinstance(ground, acts.AddGrounds) or not isinstance(wires, acts.AddConductors):
        return None
    if wires.awg is None or ground.awg not in (None, wires.awg):
        return None
    ending = [one for one in kept if isinstance(one, acts.AddConductors) and one.path is None]
    if any(one.awg != wires.awg for one in ending):
        return None  # of two sizes that end here it is asked which lands
    with_it = _AND.fullmatch(heard[wires.span[1] : ground.span[0]])
    on_it = re.search(r"(?i)\bon(?:to)?\s*$", heard[ground.span[1] : act.span[0]])
    if with_it is None or on_it is None:
        return None
    return _landing(act, [replace(wires, span=(wires.span[0], ground.span[1]))], heard)


def _of_a_leg(act: Act) -> list[acts.Land]:
    """ "14-2 for the switch" is a switch leg, and the switch that it is for is named by it."""
    if not isinstance(act, (acts.AddCable, acts.AddConductors)) or act.awg is None:
        return []
    said = _FOR_SWITCH.search(act.words)
    if said is None:
        return []
    target = acts.Reference("device", name="switch", words=said["device"])
    return [
        acts.Land(target=target, awg=act.awg, words=act.words, span=act.span, function="correction")
    ]


def _names_purpose(act: acts.Land) -> bool:
    """ "14-2 for the switch": a landing put by what the cable is for."""
    named = act.target.kind == "device" and act.target.name not in (None, "device")
    return named and re.search(r"(?i) for (?:the|that|my) ", act.words) is not None


def _denies_devices(act: Act) -> bool:
    """ "No devices": what a cable is for is then elsewhere."""
    if isinstance(act, acts.Deny):
        return act.target.kind == "device"
    return isinstance(act, acts.NothingElse) and act.of == "device"


def _said_by_itself(kept: list[Act], landings: list[acts.Land]) -> bool:
    """Whether any of those devices is said by itself as well: it lands once it is there."""
    said = [act for act in kept if isinstance(act, acts.AddDevice)]
    named = [
        acts.AddDevice(name=one.target.name, words=one.words, span=one.span) for one in landings
    ]
    return any(same_device(one, other) for one in named for other in said)


def _in_place(kept: list[Act], landings: Sequence[Act]) -> list[Act]:
    """The acts in the order said."""
    return sorted([*kept, *landings], key=lambda act: (act.span[1], isinstance(act, acts.Land)))


#: "(It's a) three way, so make …": what a device turns out to be.
_IT_IS = lazy_pattern(
    r"(?i)\W*(?:(?:oh|ok|okay|well|wait|so|and|but|actually|yeah|um|uh|hello"
    r"|hi|hey)\W+)*"
    r"(?:(?:it|that|this|the switch)(?:['’]?s| is)(?: really| actually)? )?(?:an? )?"
)
_SO = lazy_pattern(
    r"(?i)\W*(?:so|which means|meaning)\b\s+"
    r"(?:(?:i|we|please|just|then|will|need to|have to|gotta)\s+)*"
    r"(?:make|change|swap|switch|replace|turn)\b"
)


def reason_of_change(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Three way, so make one of the 14-2s a 14-3": what the switch is, and no second one."""
    act, rest = made[0], made[1:]
    if (
        isinstance(act, acts.AddDevice)
        and act.count in (None, 1)
        and (act.name or "").endswith("way switch")
        and isinstance(rest[0], (acts.RestateList, acts.Replace, acts.Restate))
        and _IT_IS.fullmatch(heard, 0, act.span[0] + _article(act.words))
        and _SO.match(heard, act.span[1])
    ):
        anew = acts.Restate(thing=act, words=act.words, span=act.span, function="correction")
        return [anew, *rest]
    return made


def _article(words: str) -> int:
    return len(words) - len(re.sub(r"(?i)^an? ", "", words))
