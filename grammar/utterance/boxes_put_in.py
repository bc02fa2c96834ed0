"""A box named by its volume where it is put in: "I'll put a sixteen in"."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_PUT = lazy_pattern(
    r"(?i)(?:^|[.,;!] |\b(?:i will|i'll|we'll|we will|gonna|going to|let me|just|have to|need to"
    r"|and|so|ok|okay) )(?:put|stick|throw|cut|get|grab|buy|use|hang|mount|install)(?: in)? $"
)
_ONE = lazy_pattern(r"(?i)an? (?:sixteen|16|eighteen|18)(?: in)?")


def box_put_in(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts, with a lone number of 16 or 18 that is put in as a box: single wires of those
    sizes enter no box one at a time (common practice)."""
    return [
        acts.SetVolume(
            volume=Decimal(act.awg or 0), words=act.words, span=act.span, function="correction"
        )
        if isinstance(act, acts.AddConductors)
        and act.count == 1
        and act.awg in (16, 18)
        and _ONE.fullmatch(act.words)
        and _PUT.search(heard[: act.span[0]])
        else act
        for act in made
    ]
