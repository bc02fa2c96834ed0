"""Wires of a luminaire and uncut loops, by what the utterance says around them."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.luminaire_wires import CANOPY_DENIED
from boxaloud.grammar.clauses.act_kinds import ROUTED
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_LOOPS = lazy_pattern(r"(?<!switch )(?<!switched )\b(?:loop|loops|looped|coil|coiled|slack)\b")
_LONG = lazy_pattern(
    r"\b(?:foot|feet|(?:twelve|12|fourteen|14|sixteen|16|eighteen|18)[- ]inch(?:es)?|12\"|double"
    r"|twice|long|big)\b"
)
_A_LOOP = lazy_pattern(r"\b(?:loops?|coils?|looped|coiled)\b")
_LENGTH = lazy_pattern(r"(?i)\b(?:inch(?:es)?|foot|feet)\b|\"")
#: Under a length, and not under a screw.
_SHORT = lazy_pattern(
    r"\bshort\b|\b(?:less than|under|not quite|shy of)"
    r"(?= (?:(?:about|even|a full|that|long|twice|double)\b"
    r"|(?:an?|one|two|\d+|six|eight|nine|ten|eleven|twelve)[- ]?(?:foot|feet|inch(?:es)?|in\b|\")))"
)
_FLAT = lazy_pattern(r"\bflat (?:fixture|light|luminaire|disk)\b")
_LUMINAIRE = lazy_pattern(
    r"\b(?:fixtures?|lights?|luminaires?|lamps?|canop(?:y|ies)|domed?|fans?|chandeliers?|sconces?"
    r"|pendants?|tails?|leads?)\b"
)
_DOME = lazy_pattern(r"\b(?:dome|domed|canopy)\b")
_NO_FIXTURE_GROUND = lazy_pattern(r"\bno (?:fixture )?ground")


def _of_a_luminaire(wires: acts.AddConductors, luminaire: bool) -> bool:
    """Whether small wires are those of a luminaire: one is named, or so many of 18 AWG.

    16 AWG is wire of a circuit as well, and several without a number are to be asked about.
    """
    if wires.awg is None or wires.awg < 16 or wires.path is not None:
        return False
    several = any(doubt.reason == "vague" for doubt in wires.doubts)
    return luminaire or (wires.awg == 18 and not several)


_ONLY = lazy_pattern(r"(?i)(?:just|only|but)\b")


def _only_so_many(act: Act, luminaire: bool) -> Act:
    """ "A domed canopy with just two 18s": so many there are, and they correct nothing."""
    if not isinstance(act, acts.Restate) or not isinstance(act.thing, acts.AddConductors):
        return act
    small = luminaire and _of_a_luminaire(act.thing, luminaire)
    return act.thing if small and _ONLY.match(act.words) else act


def _is_length(act: Act) -> bool:
    """ "With twelve inches of it looped": the length of the loop, and no count."""
    return isinstance(act, acts.Number) and _LENGTH.search(act.words) is not None


#: Free conductor of less than 12 in., which is no loop, 300.14 and 314.16(B)(1).
_FREE_ENDS = lazy_pattern(
    r"\b(?:[6-9]|10|11|six|seven|eight|nine|ten|eleven) inch(?:es)? of slack\b"
)


def of_fixtures(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """Wires of a luminaire, and loops, by what the utterance says around them."""
    low = heard.lower()
    domed = "dome" in low or "canopy" in low  # a look at each utterance must be cheap
    denied = any(isinstance(act, acts.SetCanopy) and act.canopy is False for act in made)
    flat = (
        denied
        or (domed and CANOPY_DENIED.search(low) is not None)
        or ("flat " in low and _FLAT.search(low) is not None)
    )
    dome = domed and _DOME.search(low) is not None
    luminaire = _LUMINAIRE.search(low) is not None
    made = [_only_so_many(act, luminaire) for act in made] if len(made) > 1 else made
    for place, act in enumerate(made):
        if isinstance(act, acts.AddConductors) and _of_a_luminaire(act, luminaire):
            made[place] = act = acts.AddFixtureWires(
                count=act.count, awg=act.awg, words=act.words, span=act.span,
                doubts=tuple(d for d in act.doubts if d.reason not in ("unusual", "vague")),
            )  # fmt: skip
        if isinstance(act, acts.AddFixtureWires) and (flat or (act.canopy is None and dome)):
            made[place] = replace(act, canopy=not flat)
            if _NO_FIXTURE_GROUND.search(low[act.span[0] :]):
                made = [
                    o
                    for o in made
                    if not (
                        isinstance(o, acts.Deny)
                        and o.target.kind == "grounds"
                        and o.span[0] > act.span[0]
                    )
                ]
                break
    if "loop" not in low and "coil" not in low:
        low = _FREE_ENDS.sub(lambda found: " " * len(found[0]), low)
    mentioned = "loop" in low or "coil" in low or "slack" in low
    if mentioned and (found := _LOOPS.search(low)) is not None:
        loose = [
            (n, act)
            for n, act in enumerate(made)
            if isinstance(act, ROUTED)
            and (
                act.path is None
                or (act.path == "through" and _A_LOOP.search(low) and _LONG.search(low))
            )
        ]
        looped = any(getattr(act, "path", None) in ("loop", "short_loop") for act in made)
        if loose and not looped:
            at = found.start()
            before = [
                (n, act)
                for n, act in loose
                if act.span[0] < at and not re.search(r"[.;]", low[act.span[1] : at])
            ]
            near, wires = before[-1] if before else loose[0]
            if _LONG.search(low):
                short = _SHORT.search(low)
                made[near] = replace(wires, path="short_loop" if short else "loop")
                made = [act for act in made if not _is_length(act)]
            else:
                left.append(Unread(heard[found.start() : found.end()], found.span(), True))
    return made


#: What small wires come from or go to that is no luminaire, and so hangs from no canopy.
_FOR_ANOTHER = lazy_pattern(
    r"(?i)(?: (?:wires?|conductors?|leads?))?(?: (?:that|which))?"
    r"(?: (?:is|are|goes?|going|comes?|coming|runs?|running|feeds?|feeding|off|up|out|down|just))*"
    r" (?:for|from|to|of|off|off of|into)?(?: (?:the|a|an|my|that|some))*"
    r" ?(?:door ?bell|bell|chime|thermostat|transformer|relay|contactor|photocell|photo eye"
    r"|(?:low[ -]voltage )?controls?|0-10|dimming|damper|alarm|annunciator|intercom|sprinkler"
    r"|furnace|boiler|valve)\b"
)


_SO_MANY = lazy_pattern(r"(?i)\s*(?:[:,–-]|is|are)?\s*(?:there (?:is|are)|it has|i see)?\s*")


@joining
def leads_counted(last: Act, act: Act, heard: str) -> Act | None:
    """ "Fixture leads, 3 of #18": the name, and how many of them; none are counted twice."""
    if (
        isinstance(last, acts.AddFixtureWires)
        and isinstance(act, acts.AddFixtureWires)
        and last.count is None
        and act.count is not None
        and last.awg in (None, act.awg)
        and _SO_MANY.fullmatch(heard, last.span[1], act.span[0])
    ):
        canopy = last.canopy if act.canopy is None else act.canopy
        words = heard[last.span[0] : act.span[1]]
        return replace(act, canopy=canopy, words=words, span=(last.span[0], act.span[1]))
    return None


_OF_CONTROLS = lazy_pattern(r"(?i)\b(?:dimming|controls?|signal|sensor|0-10(?: volt| v)?)\b")


def not_of_the_fixture(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Domed canopy. Two 18s for the doorbell": only fixture wires from a canopy may be left out,
    314.16(B)(1) Exception; others count, however small."""
    return [
        replace(act, canopy=False)
        if isinstance(act, acts.AddFixtureWires)
        and (_FOR_ANOTHER.match(heard, act.span[1]) or _OF_CONTROLS.search(act.words))
        else act
        for act in made
    ]


def no_ground_of_fixture(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The fan has six 18s, and no ground. One 14-3.": the fan's own ground is denied, and that of
    no cable, since none was told before."""
    return [act for act in made if not _own_ground_denied(act, made, heard)]


def _own_ground_denied(act: Act, made: list[Act], heard: str) -> bool:
    if not isinstance(act, acts.Deny) or act.target.kind != "grounds":
        return False
    tails = [one for one in made if isinstance(one, acts.AddFixtureWires)]
    before = [one.span[1] for one in tails if one.span[1] <= act.span[0]]
    if not before or re.search(r"[.!?;]", heard[max(before) : act.span[0]]):
        return False
    cables = (one for one in made if isinstance(one, acts.AddCable))
    return all(one.span[0] > act.span[1] for one in cables)
