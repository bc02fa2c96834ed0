"""Devices that share a yoke, 314.16(B)(4)."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_ONE_YOKE = lazy_pattern(
    r"\b(?:on|sharing|share|same|one|single|common)\b[^.;]{0,20}\b(?:yoke|strap)\b"
)
_OWN_YOKE = lazy_pattern(
    r"\b(?:own|separate|different|each|its|their|two|three|four|five|six)\b[^.;]{0,12}\b"
    r"(?:yokes?|straps?)\b"
)

#: "A switch and a receptacle. One yoke.": said of them by a sentence of its own.
_OF_ITS_OWN = lazy_pattern(
    r"(?i)[.;]\s*(?:(?:all|both|on|that['’]?s|it['’]?s|it is|they['’]?re|they are|they share"
    r"|sharing|just|only|the|a) )*(?:one|same|single|common) (?:same |single |common )?$"
)


def _combined_once(made: list[Act], heard: str) -> list[Act]:
    """ "a combination device, a switch and an outlet in one": its parts are no further devices."""
    combos = [act for act in made if _is_combined(act)]
    if not combos:
        return made
    first = combos[0]
    kept: list[Act] = []
    for place, act in enumerate(made):
        if isinstance(act, acts.AddDevice) and act is not first:
            between = heard[
                min(first.span[1], act.span[1]) : max(first.span[0], act.span[0])
            ].lower()
            near = len(between) < 45 and not re.search(r"[.;]", between)
            if near and (
                act.name in ("combination device", "device")
                or _NAMES_PARTS.search(between)
                or (between.startswith(",") and _is_part(made, place, heard))
            ):
                continue
        kept.append(act)
    return kept


_NAMES_PARTS = lazy_pattern(
    r"^(?: like| you know| meaning| i\.e\.| that is| with| thing| in one|:| \()"
    r"|in one|you know|together"
)
_JOINS_PARTS = lazy_pattern(r"(?i)\s*(?:and|&|/|slash|with|plus|over)\s*(?:an? )?")
_IN_ONE = lazy_pattern(
    r"(?i)[^.;,]{0,25}\b(?:in one|together|yoke|strap|same (?:device|body|unit)|all one)\b"
)
_ARTICLE = lazy_pattern(r"(?i)(?:an?|one|the)\b")


def _is_part(made: list[Act], place: int, heard: str) -> bool:
    """ "A combination device, a switch and an outlet in one": one of two that are joined, and are
    said to be one or have no article; "a combination device, and a dimmer" are two."""
    alone = made[place]
    if isinstance(alone, acts.AddDevice) and alone.count == 2:  # "two switches on one yoke"
        return bool(_IN_ONE.search(alone.words) or _IN_ONE.match(heard, alone.span[1]))
    for first in (place - 1, place):
        pair = made[max(first, 0) : first + 2]
        if len(pair) < 2 or not all(isinstance(one, acts.AddDevice) for one in pair):
            continue
        one, other = pair
        if not _JOINS_PARTS.fullmatch(heard, one.span[1], other.span[0]):
            continue
        bare = not (_ARTICLE.match(one.words) or _ARTICLE.match(other.words))
        if bare or _IN_ONE.match(heard, other.span[1]) or _IN_ONE.search(other.words):
            return True
    return False


def _is_combined(act: Act) -> bool:
    """Whether an act tells of a combination device, also in another's place."""
    thing = act.thing if isinstance(act, (acts.Restate, acts.Replace)) else act
    return isinstance(thing, acts.AddDevice) and thing.name == "combination device"


def one_yoke(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "a switch and a receptacle on the one strap": one yoke. "On its own yoke" adds none."""
    low = heard.lower()
    made = _combined_once(made, heard)
    if "yoke" not in low and "strap" not in low:
        return made
    devices = [act for act in made if isinstance(act, acts.AddDevice)]
    named = [act for act in devices if act.name not in (None, "device")]
    yokes = [
        act for act in devices if act not in named and re.search(r"yoke|strap", act.words.lower())
    ]
    if yokes and named:
        made = [act for act in made if act not in yokes]
    place = max(low.find("yoke"), low.find("strap"))
    if _OWN_YOKE.search(low) or not _ONE_YOKE.search(low):
        return made
    near = [
        act
        for act in named
        if act.span[0] < place
        and not re.search(r"[.;]", _OF_ITS_OWN.sub("", heard[act.span[1] : place]))
    ]
    if not near and re.search(
        r"yoke (?:carrying|with|holding|having|supporting|that has|for)|strap (?:with|carrying"
        r"|holding)",
        low,
    ):
        near = [act for act in named if act.span[0] > place][:2]
    units = sum(act.count or 1 for act in near)
    if len(near) > 2 or units != 2:
        return made
    first = near[0]
    both = acts.AddDevice(
        count=1,
        name="combination device",
        awg=first.awg,
        words=heard[first.span[0] : near[-1].span[1]],
        span=(first.span[0], near[-1].span[1]),
    )
    return [both if act is first else act for act in made if act is first or act not in near]


_GANGS = {"two": 2, "double": 2, "2": 2, "three": 3, "triple": 3, "3": 3}
_WIDE = lazy_pattern(
    r"\b(?P<gangs>two|double|2|three|triple|3)[- ]?gangs?(?:[- ]wide)? (?:yoke|strap)\b"
    r"|(?:the |its )?\b(?:yoke|strap)(?: is|'s| that is| takes| needs| spans| covers)?(?: a)? "
    r"(?P<wide>two|double|2|three|triple|3)[- ]?gangs?(?: wide)?\b"
    r"|\b(?:receptacle|outlet|plug|control)(?: (?:that|which)|,? it) (?:takes|needs|wants|requires"
    r"|takes up)(?: a| up)? (?P<taken>two|double|2|three|triple|3)[- ]?gangs?\b"
)


_APPLIANCES = frozenset(
    {"range receptacle", "dryer receptacle", "30 amp receptacle", "50 amp receptacle",
     "locking receptacle", "single receptacle", "receptacle"}
)  # fmt: skip
#: "… on it two gangs wide", "… is the wide one, two gangs": of the receptacle, and no box.
_GANGS_BEHIND = lazy_pattern(
    r"(?i)(?:\W|\b(?:on|it|it's|there|in|that|which|is|and|takes?|takin|taking|up|needs?|the|a|an"
    r"|big|wider?|one|kind|type|so|spans?|covers?|s|amp|thirty|fifty|30|50|plug|about)\b)*"
    r"\b(?:two|double|2)[- ]?gangs?\b"
)


@joining
def gangs_behind(last: Act, act: Act, heard: str) -> Act | None:
    """ "Fifty amp receptacle on it two gangs wide": how wide the receptacle is, not the box."""
    if (
        isinstance(act, acts.NameBoxKind)
        and isinstance(last, acts.AddDevice)
        and _counted_wide(last, act, heard)
    ):
        return replace(last, gangs=act.gangs)
    if (
        isinstance(act, acts.NameBoxKind)
        and (act.gangs or 0) > 1
        and (act.family, act.material, act.name) == (None, None, None)
        and isinstance(last, acts.AddDevice)
        and last.name in _APPLIANCES
        and last.gangs is None
        and last.count in (None, 1)
        and _GANGS_BEHIND.fullmatch(heard[last.span[1] : act.span[1]])
        and _says_wide(heard[last.span[1] :], last)
    ):
        return replace(last, gangs=act.gangs)
    return None


#: "Timer double wide, counts as two gang".
_COUNTS_AS = lazy_pattern(
    r"(?i)(?:[\s,]|\b(?:that['’]?s|that|is|it['’]?s|its|it|so|and|counts? as|as|for|takes up|a"
    r"|double[- ]wide|the (?:wider?|big|bigger) one|(?:two|2)[- ]gangs?(?: wide)?)\b)*$"
)
_SAYS_SO = lazy_pattern(r"(?i)\bdouble[- ]wide\b|\bcounts? as\b|^ (?:as|for) ")


def _counted_wide(last: acts.AddDevice, act: acts.NameBoxKind, heard: str) -> bool:
    """Whether a device is said to count as so many gangs; a box is never said to count as any."""
    if last.count not in (None, 1):
        return False
    if (act.gangs or 0) < 2 or last.gangs not in (None, act.gangs):
        return False
    behind = heard[last.span[1] : act.span[1]]
    return bool(
        _SAYS_SO.search(behind)
        and _COUNTS_AS.match(behind)
        and not re.match(r"(?i),? ?(?:\w+ )?box\b", heard[act.span[1] :])
    )


_WIDELY = lazy_pattern(r"(?i).*?\bgangs?\b(?: wide| across| in width)|.*?\bwide\b.*?\bgangs?\b")
_THEN_BOX = lazy_pattern(r"(?i).*?\bgangs?\b(?: wide)?,? (?:\w+ )?box\b")


def _says_wide(behind: str, device: acts.AddDevice) -> bool:
    """Whether what is said behind a device is its width: a plain "two gang" may be the box's."""
    if _THEN_BOX.match(behind):
        return False
    plural = device.name != "receptacle" and re.match(r"(?i).*?\bgangs\b", behind) is not None
    return plural or _WIDELY.match(behind) is not None


def wide_yoke(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A plug … on a two-gang strap", "its strap is two gangs wide": 314.16(B)(4) asks for two
    allowances for each gang that a yoke or strap is wide."""
    low = heard.lower()
    said = _WIDE.search(low) if "gang" in low else None
    if said is None or any(map(_says_gangs, made)):
        return made
    gangs = _GANGS[said["gangs"] or said["wide"] or said["taken"]]
    before = [a for a in made if isinstance(a, acts.AddDevice) and a.span[0] < said.end()]
    if before:
        wide = replace(before[-1], gangs=gangs)
        return [wide if act is before[-1] else act for act in made]
    widened = acts.Widen(
        target=acts.Reference("device", which="last", words=said.group()),
        gangs=gangs,
        words=heard[slice(*said.span())],
        span=said.span(),
        function="correction",
    )
    return [*made, widened]


_APPLIANCE = lazy_pattern(
    r"(?i)\b(?P<of>range|stove|oven|cooktop|dryer) (?:one|plug|outlet)\W+(?:(?:it|that|which|this)"
    r"(?:['’]s| is| one)?|and|also|will|is|a|one|really| )*$"
)


def appliance_outlets(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The range one, it takes a two gang": the receptacle that a range or a dryer is plugged
    into, which is as wide as that (314.16(B)(4))."""
    if any(isinstance(act, acts.AddDevice) for act in made):
        return made
    kept: list[Act] = []
    for act in made:
        said = _APPLIANCE.search(heard[: act.span[0]]) if isinstance(act, acts.Widen) else None
        if said is None or not isinstance(act, acts.Widen) or act.target.name is not None:
            kept.append(act)
            continue
        kind = "dryer" if said["of"].lower() == "dryer" else "range"
        span = (said.start(), act.span[1])
        words = heard[slice(*span)]
        name = f"{kind} receptacle"
        kept.append(acts.AddDevice(count=1, name=name, gangs=act.gangs, words=words, span=span))
    return kept


_NARROW = lazy_pattern(
    r"(?i),?\s*(?:(?:on|with|it's|it is|that's|a|one|its|the) )*(?:single|one)[ -](?:gang[ -])?"
    r"(?:yoke|strap|gang)\b"
)


def narrow_yoke(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Dryer receptacle, single yoke": one that may be wide is as wide as one gang."""
    return [
        replace(act, gangs=1)
        if isinstance(act, acts.AddDevice)
        and act.gangs is None
        and act.count in (None, 1)
        and (act.name or "").endswith("receptacle")
        and (_NARROW.match(heard, act.span[1]) or _NARROW.search(act.words))
        else act
        for act in made
    ]


def _says_gangs(act: Act) -> bool:
    """Whether an act says how wide a device is, or only asks or supposes."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if isinstance(thing, acts.AddDevice):
        return thing.gangs is not None
    return isinstance(act, (acts.Widen, acts.Suppose, acts.AskMeaning, acts.AskUnknown, acts.Ask))


_THEIR_YOKES = lazy_pattern(r"(?i),? (?:all )?(?:on|with|each on) (?:a |an |its |their )?$")


def yokes_of_those(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two devices on two separate yokes": the yokes are those of the devices."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(act, acts.AddDevice) and isinstance(last, acts.AddDevice):
            own = re.search(r"(?i)\b(?:separate|own|different) (?:yoke|strap)s?\b", act.words)
            between = heard[last.span[1] : act.span[0]]
            if own and _THEIR_YOKES.match(between) and act.count in (None, 1, last.count):
                continue
        kept.append(act)
    return kept
