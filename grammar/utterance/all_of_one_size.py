"""The whole box said to be of one size: "it's all 12 wire", "what if I did it in fourteen".

"12 wire" names a size there, where "12 wires" would be a count.
"""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word

_LEAD = (
    r"\s*(?:(?:ok|okay|so|well|and|now|no|wait|actually|hm+|oh|then|but|hello|please|um|uh|er"
    r"|what if|suppose|imagine|pretend|say|let's say|what about if),?\s+)*"
)
_NOUN = r"(?: (?:wires?|gauge|ga|awg|cables?|stuff))"
_SIZE = r"(?:number |no\.? |# ?)?(?P<{0}>14|12|10|fourteen|twelve|ten)"
_ALL = r"(?:(?:all|everything|just|really|only|actually) )*"
_IS = (
    r"(?:(?:it|this|everything|all of it|the whole (?:thing|box|lot|run)|all of them|they)"
    r"(?:['’](?:s|re)| is| was| were| are| should be)|(?:i|we|they|he|she) (?:did|do|ran|wired|had)"
    r" (?:it|this|everything)|(?:it|this|everything) (?:was|is|were|gets)"
    r" (?:done|run|wired|pulled))"
)
_MAKE = (
    r"(?:(?:make|do|run|wire|pull|change|switch|convert|redo)"
    r" (?:it|this|them|everything|the whole (?:thing|box|lot)))"
)
#: A size with its noun after either, or by itself after words that say all.
_WHOLE = lazy_pattern(
    rf"(?i)(?P<lead>{_LEAD})(?:(?P<is>{_IS})|{_MAKE})(?: (?:all|over|entirely))*"
    rf"(?: (?:in|to|with|into|out of))? {_ALL}"
    rf"(?:{_SIZE.format('a')}{_NOUN}|(?<=in ){_SIZE.format('b')})"
    r"(?:,? (?:instead|now|then|please|throughout))*(?P<end>\s*[.?!]*\s*)"
)
_SUPPOSED = lazy_pattern(r"(?i)\b(?:what if|suppose|imagine|pretend|what about if|say)\b")
_FIGURES = {"fourteen": "14", "twelve": "12", "ten": "10"}


def in_one_size(text: str) -> str:
    """The text with the whole box said to be of a size in plain words, each character in its
    place, where there is room for them.

    >>> in_one_size("change it all to 14 wire")
    'make them 14            '
    """
    found = _WHOLE.fullmatch(" ".join(text.split()))
    if found is None:
        return text
    said = (found["a"] or found["b"]).lower()
    size = _FIGURES.get(said, said)
    supposed = found["is"] and _SUPPOSED.search(found["lead"])
    plain = f"it's all {size}s" if supposed else f"make them {size}"
    plain = f"{found['lead']}{plain}{found['end']}"
    return plain.ljust(len(text)) if len(plain) <= len(text) else text


def words_in_one_size(words: Sequence[Word]) -> Sequence[Word]:
    """The same of an ear's words, each as sure as the least sure of those that it stands for."""
    text = " ".join(word.text for word in words)
    plain = in_one_size(text)
    if plain == text:
        return words
    known = [word.confidence for word in words if word.confidence is not None]
    least = min(known, default=None)
    return [Word(said, least) for said in plain.split()]
