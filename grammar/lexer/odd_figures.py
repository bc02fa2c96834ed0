"""Figures that are no plain number: what was meant by them is asked, never guessed.

`18,5`, `1_8`, `1e3`, `18²`, `< 18`: each could be taken for a number that nobody meant. They are
marked before an utterance is cut into tokens, so that each is one token that no phrase takes for
a number. Linear in the length of the text: every piece of a pattern is taken at once, never again.
"""

from __future__ import annotations

import re
from functools import lru_cache

from boxaloud.grammar.lazy_patterns import lazy_pattern

VULGAR = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
#: Stands in a plain text for every character of such a figure; of private use, so that nobody
#: types it.
MARK = "\ue000"
#: Any numeral that is no decimal digit and no fraction that is known: ①, Ⅳ, 二.
NUMERAL = "①"
LONGEST = 30
"""A number of more digits than this is no number of the trade."""

#: What may stand between two figures and still leave each of them as it is; anything else that
#: is no space makes one odd figure of both, such as a point of another script, or no width.
_BETWEEN = re.escape("-/.,x*:;()[]+=#\"&%^'|@<>!?•×_{}\\`~$") + VULGAR
_ODD = lazy_pattern(
    rf"""
      (?:(?<![\d.,/-])\d[\d.,]*+)?[{NUMERAL}²³][\d.,{NUMERAL}²³]*+       # 18², ①
    | (?<![\d.,/-])\d++(?:
          (?:[_'~^]++\d++)+ | (?:[^\w\s{_BETWEEN}]++\d++)+              # 1_8, 1'8, 1٫8, 10^3
        | (?:,\d{{1,2}}|,\d{{4,}}+)(?!\d|[,/.'-]\d|x\b)                     # 18,5
        | (?:\.\d++)?e[+-]?\d++(?![\w])                                # 1e3
        | (?:\.\d++){{2,}}+(?![\d-]) | \.\.++\d++(?![\d/-])            # 18.5.2, 18..5
        | (?:\.\d++)?(?:\s?%|\+(?=[\s,.;)]|$)(?!\s*\d))                # 18 %, 18+
        | '(?=\s*(?:$|[,.;\n]))                                        # 18'
        | [^\W\d_a-z{VULGAR}]++\w*+                                    # 18л
      )
    | (?<![\w.,/-])(?:19|20)\d\d(?!(?:s|w|v|va|a|in|cu|cm|mm|ft|sq|box)\b)[a-z]++(?!\d)   # 2020x
    | (?<![\d/-])\d++(?:[-/]\d++){{3,}}+                                # 14-14-14-14
    | (?:(?<![\d.,/-])\d++)?[{VULGAR}]{{2,}}+                             # ½½
    | (?<!\d)\d{{{LONGEST + 1},}}+
    | (?:(?<![-=\w])>|[<≤≥±≲≳])=?\s*\d[\d./-]*+                         # < 18
    """,
    re.VERBOSE,
)
#: What most utterances are made of from end to end, and what no odd figure is part of: words and
#: plain figures ("14", "14-2", "1/2", "20.3"), each with a space behind it.
_PLAIN = lazy_pattern(
    r"(?:(?:[a-z]++(?:'[a-z]++)?|\d{1,9}+(?:[-/.]\d{1,9}+)?s?)[,;:?!.]?(?: |$))*+"
)


@lru_cache(maxsize=16)
def marked(text: str) -> str:
    """A text in lower case with its odd figures marked, character for character.

    Remembered: several readers look at the same words in a turn.
    """
    return text if _PLAIN.fullmatch(text) else _ODD.sub(_mark, text)


def _mark(found: re.Match[str]) -> str:
    return MARK * (found.end() - found.start())
