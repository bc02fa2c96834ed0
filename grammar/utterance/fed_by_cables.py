"""Devices told with the cables that they land on: "two 12-2s feeding a receptacle", "two 12-2s with
a receptacle on them". A device goes by the largest conductor landed on it, 314.16(B)(4)."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_FEEDING = lazy_pattern(
    r"(?i)\s*,?\s*(?:(?:that|which|both|all|are|is) )*(?:feeding|feeds?|supplying|supply|serving"
    r"|serves?"
    r"|powering|powers?|landing on|landed on|lands? on|(?:dead-?)?end(?:ing|s)? (?:on|at|in))"
    r"\s+(?:an?\s+|the\s+|one\s+|my\s+)?"
)
_OUT_OF_PIPE = lazy_pattern(
    r"(?i)(?:\s*(?:out |coming |in )*(?:of|from|through|in) (?:a|the|that) (?:pipe|conduit|emt|flex"
    r"|raceway|sleeve))?(?=[\s,])"
)
_WITH = lazy_pattern(r"(?i)\s*,?\s*(?:and|with|has|have|having)\s+(?:an?\s+|the\s+|one\s+)?")
_ON_THOSE = lazy_pattern(
    r"(?i)\s*(?:(?:wired|landed|hooked|tied|connected|sitting) )?(?:up )?(?:on|to|onto) (?:them"
    r"|those|it)\b"
)


def fed_by_cables(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with each device on the size of the cables that are told to be on it."""
    told: list[Act] = []
    for act in made:
        last = told[-1] if told else None
        if (
            isinstance(act, acts.AddDevice)
            and act.awg is None
            and isinstance(last, acts.AddCable | acts.AddConductors)
            and last.awg is not None
        ):
            between = _OUT_OF_PIPE.sub("", heard[_verb(last) : act.span[0]] + " ", count=1)
            feeding = _FEEDING.fullmatch(between)
            on_those = _WITH.fullmatch(between) and _ON_THOSE.match(heard, act.span[1])
            if feeding or on_those:
                act = replace(act, awg=last.awg)
        told.append(act)
    return told


def _verb(cable: acts.AddCable | acts.AddConductors) -> int:
    """Where a cable's words end, or the verb in them begins: "two 12-2s feed"."""
    words = cable.words.lower()
    verb = next((one for one in (" feed", " feeds") if words.endswith(one)), "")
    return cable.span[1] - len(verb)
