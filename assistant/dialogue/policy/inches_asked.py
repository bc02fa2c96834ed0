"""Cubic inches beside millilitres, where they are asked for of a box that is counted in these."""

from __future__ import annotations

from decimal import ROUND_CEILING, Decimal

from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.belief.held_figures import held_text
from boxaloud.assistant.dialogue.nlg.sentences import say, volume
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules import to_in3

_ASKED = lazy_pattern(
    r"(?i)(?:how (?:many|much)|what|need(?:ed)?|req(?:uire|['’])?d?|total|min(?:imum)?|^|[.;,?!])"
    r"[^.;?!]*"
    r"(?:\b(?:cubic inch(?:es)?|cu\.? ?in|in3|cubes|inches cubed)\b|in³)\.?[^.;?!\d]*\??\s*$"
)
_HUNDREDTH = Decimal("0.01")


def inches_text(state: State, found: Assessment, heard: str) -> str:
    """The total in cubic inches, never less than it is; empty where nobody asks for them."""
    sheet = found.sheet
    if sheet.unit != "mL" or not sheet.total or held_text(state) or not _ASKED.search(heard):
        return ""
    exact = to_in3(found.high)
    ceiling = (Decimal(exact.numerator) / Decimal(exact.denominator)).quantize(
        _HUNDREDTH, ROUND_CEILING
    )
    key = "answer.inches" if found.low == found.high else "answer.inches_most"
    return say(key, total=volume(ceiling))
