"""Whether another box would do, by its volume alone: "if it was a 21", "does it fit in a 21"."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.asked_question import Question
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NUMBER = r"(?P<n>[0-9]+(?:[.][0-9]+)?)"
_BOX = rf"(?:a|an|the) <n:{_NUMBER}>(?: (?:box|one|instead|then|here|now|in here|in there))*"
_WHO = (
    r"(?:it|this|that|the box|i|we|you|he|she|they|there)(?:'d)? (?:had |have |would |just |only )*"
    r"(?:was|were|is|been|use|used|put|put in|put it in|got|get|go with|went with|went to|go to"
    r"|had|have|swapped to|swap to|switch to|switched to)"
)
_SHORT = r"(?:(?:so|and|but|ok|okay|well|or|then|now|hey|um|uh) )*"
#: What is asked of a box that is spoken of by its volume, or what is supposed of it.
_TRIED = (
    lazy_pattern(
        rf"{_SHORT}(?:if|even if|suppose|supposing|say|imagine|pretend)"
        rf" {_WHO} {_BOX}"
    ),
    lazy_pattern(
        rf"(?:fit|fits|go|goes|work|works|pass|passes|be|hold)(?: [a-z]+)?? (?:in|into|inside|with)"
        rf" {_BOX}$"
    ),
    lazy_pattern(rf"\bif {_WHO} {_BOX}$"),
    lazy_pattern(
        rf"{_SHORT}(?:will|would|does|can|could|is|might) {_BOX}(?: (?:still|also|then))*"
        r" (?:do|work|be|pass|hold|fit|suffice|enough|ok|okay|fine|big enough|large enough|take)\b"
    ),
    lazy_pattern(rf"{_SHORT}(?:in|into|with|for) {_BOX}$"),
)
#: Sizes of wire: without "in a", such a number is no volume.
_SIZES = frozenset(map(Decimal, (4, 6, 8, 10, 12, 14, 16)))
_LEAST = Decimal(5)


def box_tried(question: Question) -> list[Act] | None:
    """The box that is asked about or supposed, tried in place of the one at hand; None where the
    question names anything that is in a box, or no volume."""
    if question.things or question.counted or question.clause.mood == "declarative":
        return None
    line = question.line
    if line.count("<n:") != 1:
        return None
    for tried in _TRIED:
        if (found := tried.search(line)) is None:
            continue
        volume = Decimal(found["n"])
        within = line[: found.start("n")].endswith(("in a <n:", "into a <n:", "in the <n:"))
        if volume < _LEAST or (volume in _SIZES and not within):
            return None
        told = acts.SetVolume(volume=volume, words=question.words, span=question.span)
        return [acts.Suppose(acts=(told,), words=question.words, span=question.span)]
    return None
