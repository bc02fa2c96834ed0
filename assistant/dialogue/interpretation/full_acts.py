"""A bare answer written out: the full act, in the words and with the doubts of the bare one."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar.acts import Act


def full(bare: Act, made: Act, slot: str) -> Act:
    """The full act in the words of the bare one, its doubts now those of `slot`."""
    doubts = tuple(replace(doubt, slot=slot) for doubt in bare.doubts)
    return replace(made, words=bare.words, span=bare.span, doubts=doubts, function=bare.function)


def corrected(bare: Act, made: Act) -> Act:
    """What was said to be wrong: the value or thing given is in its place."""
    return replace(
        made, words=bare.words, span=bare.span, doubts=bare.doubts, function="correction"
    )
