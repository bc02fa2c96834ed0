"""Words out of text: what was typed or heard, cut into tokens that keep their place in it.

A token's text is normalised (lower case, plain digits and quotes) and one character of it
stands for one character of the original, so that a span of tokens is a span of the
speaker's own words.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from typing import NamedTuple

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import odd_figures, run_together
from boxaloud.grammar.lexer.heard_words import Word

_VULGAR = odd_figures.VULGAR
_SLASHED = "|".join(grammar_data.table("lexicon")["words"]["slashed"])
_OTHER = rf"[^\W\d_a-z{_VULGAR}]"
"""A letter that English has not."""
_MARKS = "[\u0300-\u036f\u0591-\u05c7\u0610-\u065f\u0670\u06d6-\u06ed\u0900-\u0e4e\u200c\u200d]"
"""Vowels and joiners that belong to the letter before, in scripts that write them so."""
_TOKEN = lazy_pattern(
    rf"""
      (?!in|cm)[a-z]++(?![\d'/^-]|{_OTHER})                 # most words: nothing below differs
    | [a-z]*+{_OTHER}(?:[a-z]|{_OTHER}|{_MARKS})*+            # words in other letters: names
    | (?:in|cm)(?:\s?\^\s?)?3\b | (?:ft|yd|mm|dm|m)\^?3\b     # in3, cm^3, ft3
    | [a-z]{{1,3}}-\d{{1,3}}[a-z]?\b(?![/-])                 # R-12: what a plan calls a box
    | \d(?:st|nd|rd|th)\b                                   # 2nd
    | \d+[-\ ]?[{_VULGAR}] | [{_VULGAR}]                      # 2½
    | \d+-\d+/(?:2|4|8|16|32|64)(?![\d/])                   # 2-1/8
    | (?<![\w.])-\d+(?:\.\d+)?(?![\d/-])                     # -3
    | \d+[-/]\d+(?:[-/]\d+)?(?:'?s(?![a-z]))?                # 14-2, 14/2s, 1/2
    | \d{{1,3}}(?:,\d{{3}})+(?!\d)                            # 3,000
    | \d*\.\d+ | \d+(?:'?s(?![a-z]))?                        # 20.3, 12s
    | (?:{_SLASHED})(?![\w/])                               # o/s
    | w/(?:o|g)?(?![a-z])                                   # w/g, w/o, w/
    | [a-z]+(?:'[a-z]+)?
    | [\n,;:()\[\].!?=+\#"&%$*/×•^]                          # breaks and signs
    | {odd_figures.MARK}+                          # 18,5 and what else is no plain number
    """,
    re.VERBOSE,
)
_ABBREVIATED = lazy_pattern(
    r"\b(cu|sq|oct|recep|recept|rcpt|recp|sw|gnd|grd|conn|dev|int|ext|in|ea|pc|pcs|qty|ga"
    r"|approx|dup|dbl|sgl|w|incl)\.(?=\s*[a-z0-9(,;×" + _VULGAR + r"]|in\b)"
)
#: A raised figure behind the letters of a unit: in³, ft².
_RAISED = lazy_pattern("(?<=[a-z])[²³]")
#: "two No. 12", "No. 8 AWG" as a textbook prints a gauge; "no. 12 of them" may deny.
_GAUGE = r"no\.(?=\s?(?:18|16|14|12|10|8|6|eighteen|sixteen|fourteen|twelve|ten|eight|six)"
_NUMERO = lazy_pattern(
    rf"\b{_GAUGE}\s?(?:awg|gauge|thh?n|thwn|xhhw)\b)"
    rf"|(?:(?<=\d )|(?<=\bone )|(?<=two )|(?<=three )|(?<=four )|(?<=five )|(?<=six )|(?<=seven )"
    rf"|(?<=eight )|(?<=nine )|(?<=the )){_GAUGE}(?![\d/x×.-]))"
)
#: A raised figure behind a point, as textbooks print it: in.³
_RAISED_BEHIND_POINT = lazy_pattern(r"(?<=\bin)\.³")
_NUMBERED = lazy_pattern(r"(?m)^[ \t]*\d{1,2}[.)][ \t]+(?=\S)")
_DASHES = {"–": "-", "—": ",", "−": "-", "‑": "-", "’": "'", "‘": "'", "″": '"', "“": '"', "”": '"',
           "⁄": "/", "∕": "/"}  # fmt: skip
#: No utterance is longer than this many characters; what lies beyond is left over as said.
LONGEST = 400_000


class Tokens(NamedTuple):
    """The tokens of an utterance, as parallel tuples."""

    heard: str
    texts: list[str]
    starts: list[int]
    ends: list[int]


def plain_text(text: str) -> str:
    """`text` in lower case with plain signs, character for character as long as it was."""
    if not text.isascii():
        text = "".join(map(_plain_character, text))
        text = _RAISED_BEHIND_POINT.sub("3 ", _RAISED.sub(_lowered, text.lower()))
    return odd_figures.marked(text.lower())


def _lowered(raised: re.Match[str]) -> str:
    return "2" if raised.group() == "²" else "3"


def _plain_character(character: str) -> str:
    if character.isascii() or character in _VULGAR:
        return character
    if character in _DASHES:
        return _DASHES[character]
    digit = unicodedata.decimal(character, None)
    if digit is not None:
        return str(digit)
    if character in "×•²³":
        return character
    if character == odd_figures.MARK:
        return " "
    if unicodedata.numeric(character, None) is not None:
        return odd_figures.NUMERAL
    lower = unicodedata.normalize("NFKC", character).lower()
    return lower if len(lower) == 1 else " "


def tokenise(heard: str) -> Tokens:
    """Cut an utterance into tokens. Never fails; what is no token at all is stepped over."""
    plain = plain_text(heard)
    if "." in plain:
        plain = _NUMERO.sub("#  ", _ABBREVIATED.sub(_without_point, plain))
        if "\n" in plain and len(_NUMBERED.findall(plain)) > 1:
            plain = _NUMBERED.sub(_blank, plain)
    texts: list[str] = []
    starts: list[int] = []
    ends: list[int] = []
    for match in _TOKEN.finditer(plain):
        text = match.group()
        texts.append(odd_figures.MARK if text[0] == odd_figures.MARK else text)
        start, end = match.span()
        starts.append(start)
        ends.append(end)
    run_together.mend(plain, texts, starts, ends)
    return Tokens(heard, texts, starts, ends)


def _without_point(match: re.Match[str]) -> str:
    return match.group(1) + " "


def _blank(match: re.Match[str]) -> str:
    return " " * len(match.group())


def join(words: Sequence[Word]) -> tuple[str, list[int]]:
    """The words as one text, and where each begins in it."""
    starts: list[int] = []
    place = 0
    for word in words:
        starts.append(place)
        place += len(word.text) + 1
    return " ".join(word.text for word in words), starts
