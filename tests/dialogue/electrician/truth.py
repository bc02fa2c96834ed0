"""The electrician's own arithmetic: what a box comes to, counted as on paper.

Shares nothing with the product. Volumes of Table 314.16(A) and (B) and the count of 314.16(B)
as in the Electrical Box Sizing Guide (synthmind.com); the quarter for each ground past four from
2020 as in 314.16(B)(5) of that edition (Mike Holt forum 2568132).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from electrician.mind import Mind

EACH = {18: "1.5", 16: "1.75", 14: "2", 12: "2.25", 10: "2.5", 8: "3"}
STANDARD = {
    ("octagon", "one and a half"): "15.5",
    ("octagon", "two and an eighth"): "21.5",
    ("square", "one and a half"): "21",
    ("square", "two and an eighth"): "30.3",
}


@dataclass(frozen=True)
class Truth:
    total: Fraction
    capacity: Fraction

    @property
    def verdict(self) -> str:
        return "fits" if self.total <= self.capacity else "over"


def each(awg: int) -> Fraction:
    return Fraction(EACH[awg])


def count(mind: Mind) -> Truth:
    """Wire by wire, then one allowance for clamps, each fitting, two a yoke, grounds last."""
    wires: list[int] = []
    grounds: list[int] = []
    total = Fraction(0)
    for fact, number in mind.things.items():
        match fact:
            case ("cable", int(awg), int(conductors), bool(ground)):
                wires += [awg] * conductors * number
                grounds += [awg] * number * ground
            case ("conductors", int(awg)):
                wires += [awg] * number
            case ("grounds", int(awg)):
                grounds += [awg] * number
            case ("tails", int(awg), bool(canopy)):
                wires += [awg] * (max(0, number - 4) if canopy else number)
    total += sum((each(awg) for awg in wires), Fraction(0))
    largest = min(wires + grounds)
    for fact, number in mind.things.items():
        match fact:
            case ("device", str(), int(awg)):
                total += 2 * number * each(awg)
            case ("fitting", str()):
                total += each(largest)
    if mind.clamps == "inside":
        total += each(largest)
    if grounds:
        more = max(0, len(grounds) - 4) if int(mind.edition) >= 2020 else 0
        total += (1 + Fraction(more, 4)) * each(min(grounds))
    return Truth(total, Fraction(mind.volume))
