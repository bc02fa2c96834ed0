"""The spoken form of a reply: the same words, with figures as people say them.

"14-2" is "fourteen two", "18.0" is "eighteen", "314.16(B)(2)" is "three fourteen sixteen
B two". The shown text is the one source.
"""

from __future__ import annotations

import re
from functools import lru_cache

from boxaloud.assistant.dialogue.nlg.sentences import sentences

ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
    "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen",
    "seventeen", "eighteen", "nineteen",
)  # fmt: skip
TENS = (
    "zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
)  # fmt: skip

SOUND_ALIKE = frozenset({*range(13, 20), *range(30, 100, 10)})
"""Numbers that are taken for one another by ear: thirteen and thirty."""

_GAUGE = re.compile(r"\b(\d{1,2}) gauge\b")
_NUMBERED = re.compile(r"#(\d{1,2})(s?)\b")
_SIZES = re.compile(r"\b(\d{1,2})s\b")
_SECTION = re.compile(r"\b(\d{3})\.(\d{1,3})((?:\([A-Za-z0-9]+\))+)")
#: Sections without a paragraph. Any other such figure is a volume of hundreds: 256.0, 229.40.
_WHOLE_SECTION = re.compile(r"\b(314)\.(1[67]|2[478])()\b|\b(300)\.(14)()\b")
_DATE = re.compile(r"\b(20\d\d)-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])\b")
_CABLE = re.compile(r"\b(18|16|14|12|10|8|6)-([2-9])(s?)\b")
_YEAR = re.compile(r"\b(20(?=\d)|19(?=[89]))(\d\d)\b")
_OUGHT = re.compile(r"\b([1-4])/0\b")
_FRACTION = re.compile(r"\b(?:(\d+)-)?(\d{1,2})/(\d{1,2})\b")
_DECIMAL = re.compile(r"\b(\d+)\.(\d+)\b")
_COMMAS = re.compile(r",(?: ?)([,.?!:;])")
_NUMBER = re.compile(r"\b\d+\b")
_AWG = re.compile(r"\bAWG\b")
_BY = re.compile(r"(\d)\s*x\s*(\d)")
#: All of `_BY` but its beginning, so that it is found fast where it is not.
_TIMES = re.compile(r"x\s*\d")
#: No figure's meaning reaches beyond its word, but for the "gauge" behind it.
_BEFORE_GAUGE = re.compile(r"(?<!\S)[^\s\d]*\d\S*(?: gauge\S*)+")
_PARTS = {"2": ("half", "halves"), "4": ("quarter", "quarters"), "8": ("eighth", "eighths"),
          "16": ("sixteenth", "sixteenths")}  # fmt: skip
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip


def number(value: int) -> str:
    """A whole number in words, up to 9999."""
    if value < 20:
        return ONES[value]
    if value < 100:
        tens, ones = divmod(value, 10)
        return TENS[tens] + (f" {ONES[ones]}" if ones else "")
    if value < 1000:
        hundreds, rest = divmod(value, 100)
        return f"{ONES[hundreds]} hundred" + (f" {number(rest)}" if rest else "")
    thousands, rest = divmod(value, 1000)
    return f"{number(thousands)} thousand" + (f" {number(rest)}" if rest else "")


def spoken(text: str) -> str:
    """`text` as it is to be spoken: no figures, no quotes, units in words."""
    text = _parts_aloud(text)
    text = (
        text.replace("in³", "cubic inches")
        .replace(" mL", " millilitres")
        .replace(" cm³", " cubic centimetres")
        .replace("“", "")
        .replace("”", "")
    )
    if "AWG" in text:
        text = _AWG.sub("gauge", text)
    if _TIMES.search(text):
        text = _BY.sub(r"\1 by \2", text)
    if " gauge" in text:
        text = _BEFORE_GAUGE.sub(_say_figured, text)
    text = " ".join(map(_in_words, text.split())).removesuffix(",")
    return _COMMAS.sub(_say_comma, text) if "," in text else text


@lru_cache(maxsize=1)
def _parts() -> re.Pattern[str]:
    names = sorted(sentences()["part_aloud"], key=len, reverse=True)
    each = "|".join(map(re.escape, names))
    return re.compile(rf"(?<![\w/.-])({each})(?: box)?(?P<many>es| sections)?(?!\w)")


def _parts_aloud(text: str) -> str:
    """Names of boxes and sentences of the rules as they are said."""
    return _parts().sub(_say_part, text)


def _say_part(match: re.Match[str]) -> str:
    said = str(sentences()["part_aloud"][match[1]])
    return said.replace(" box,", " boxes,") if match["many"] else said


def _say_figured(match: re.Match[str]) -> str:
    return _in_words(match.group())


@lru_cache(maxsize=2048)
def _in_words(text: str) -> str:
    """One word, or one with the "gauge" behind it; the same few come in most replies."""
    if text.isalpha():
        return text
    for pattern, words in (
        (_NUMBERED, _say_numbered),
        (_DATE, _say_date),
        (_SECTION, _say_section),
        (_WHOLE_SECTION, _say_section),
        (_CABLE, _say_cable),
        (_SIZES, _say_sizes),
        (_OUGHT, _say_ought),
        (_FRACTION, _say_fraction),
        (_GAUGE, _say_gauge),
        (_DECIMAL, _say_decimal),
        (_YEAR, _say_year),
        (_NUMBER, _say_number),
    ):
        text = pattern.sub(words, text)
    return text


def _say_comma(match: re.Match[str]) -> str:
    return match[1].strip()


def once(text: str) -> str:
    """`text` spoken with each volume once: where total, capacity and margin stand together, a
    ten heard for a teen does not add up."""
    return spoken(_DECIMAL.sub(lambda match: _point(number(int(match[1])), match[2]), text))


def slowly(text: str) -> str:
    """The spoken form in short pieces, a line and so a pause for each."""
    return re.sub(r"(?<=[.?!:;,]) ", "\n", spoken(text))


def _say_section(match: re.Match[str]) -> str:
    article, section, parts = (group for group in match.groups() if group is not None)
    hundreds, rest = divmod(int(article), 100)
    of_hundreds = _two_digits(rest) if rest else "hundred point"
    words = f"{ONES[hundreds]} {of_hundreds} {number(int(section))}"
    for part in re.findall(r"\(([A-Za-z0-9]+)\)", parts):
        words += " " + (number(int(part)) if part.isdigit() else part)
    return words


def _two_digits(value: int) -> str:
    return f"oh {ONES[value]}" if value < 10 else number(value)


def _say_cable(match: re.Match[str]) -> str:
    return f"{number(int(match[1]))} {number(int(match[2]))}{match[3]}"


def _say_date(match: re.Match[str]) -> str:
    year, month, day = match.groups()
    return f"{_MONTHS[int(month) - 1]} {number(int(day))}, {year}"


def _say_year(match: re.Match[str]) -> str:
    return f"{number(int(match[1]))} {_two_digits(int(match[2]))}"


def _say_fraction(match: re.Match[str]) -> str:
    whole, top, bottom = match.groups()
    if bottom not in _PARTS:
        return match[0]
    one, many = _PARTS[bottom]
    part = f"one {one}" if top == "1" else f"{number(int(top))} {many}"
    return f"{number(int(whole))} and {part}" if whole else part


def _say_decimal(match: re.Match[str]) -> str:
    return _point(_unmistakable(int(match[1])), match[2])


def _point(whole: str, figures: str) -> str:
    part = figures.rstrip("0")
    if not part:
        return whole
    point = f"point {' '.join(ONES[int(d)] for d in part)}"
    return point if whole == ONES[0] else f"{whole} {point}"


def _say_number(match: re.Match[str]) -> str:
    value = int(match[0])
    if 1000 < value < 2000 and not value % 100:  # a 1900 box
        return f"{number(value // 100)} hundred"
    return _unmistakable(value) if len(match[0]) < 5 else match[0]


def _say_numbered(match: re.Match[str]) -> str:
    """A size by its number: "#12" and "#12s"."""
    return f"number {_several(int(match[1])) if match[2] else number(int(match[1]))}"


def _say_sizes(match: re.Match[str]) -> str:
    return _several(int(match[1]))


def _several(value: int) -> str:
    """ "sixes", "twelves", "twenties"."""
    word = number(value)
    if word.endswith("y"):
        return word[:-1] + "ies"
    return word + ("es" if word.endswith("x") else "s")


def _say_ought(match: re.Match[str]) -> str:
    """ "4/0" as the trade says it."""
    return f"{ONES[int(match[1])]} ought"


def _say_gauge(match: re.Match[str]) -> str:
    return f"{number(int(match[1]))} gauge"


def _unmistakable(value: int) -> str:
    """A teen or a ten twice over, in words and by its digits: fourteen is heard as forty."""
    if value in SOUND_ALIKE:
        return f"{number(value)}, {' '.join(ONES[int(digit)] for digit in str(value))},"
    return number(value)
