"""Ways to write a sentence otherwise without a change of meaning: each takes words, gives words.

A way that does not apply to a sentence gives it back as it is.
"""

from __future__ import annotations

import re
from collections.abc import Callable

ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
    "twenty",
)  # fmt: skip
TENS = {30: "thirty", 40: "forty", 50: "fifty", 60: "sixty"}
_NUMBER_WORD = "|".join([*ONES[1:], *TENS.values(), "hundred", "half", "quarter", "point"])
_ALONE = re.compile(
    rf"(?<![\w-])(?<!number )({'|'.join(ONES[2:])})(?![\w-])(?! (?:{_NUMBER_WORD})s?\b)(?! and a)",
    re.IGNORECASE,
)
_BEFORE = re.compile(rf"(?:{_NUMBER_WORD}) $", re.IGNORECASE)
_FIGURE = re.compile(r"(?<![\w.,#$/x(-])(?<!\d )(?<!x )(\d{1,2})(?![\w./\"'”x-]|,\d| \d| x )")
_TWIN = re.compile(r"\b(\d{1,2})[-/](\d)(s?)\b(?![-/])")

CONTRACTIONS = {
    "don't": "do not", "doesn't": "does not", "didn't": "did not", "isn't": "is not",
    "aren't": "are not", "it's": "it is", "that's": "that is", "what's": "what is",
    "they're": "they are", "I've": "I have", "there's": "there is",
}  # fmt: skip


def filler(said: str) -> str:
    """ "um, …"."""
    return f"um, {said}"


def please(said: str) -> str:
    """ "…, please"."""
    return f"{said.rstrip('.?! ')}, please{'?' if said.endswith('?') else ''}"


def polite(said: str) -> str:
    """ "hello, …"."""
    return f"hello, {said}"


def lower(said: str) -> str:
    """All small letters."""
    return said.lower()


def upper(said: str) -> str:
    """All capitals."""
    return said.upper()


def figures(said: str) -> str:
    """Figures for number words that stand alone."""

    def figure(found: re.Match[str]) -> str:
        if _BEFORE.search(said[: found.start()]):
            return found[0]
        return str(ONES.index(found[1].lower()))

    return _ALONE.sub(figure, said)


def words(said: str) -> str:
    """Number words for whole figures that stand alone."""
    return _FIGURE.sub(lambda found: in_words(int(found[1])), said)


def slashes(said: str) -> str:
    """14/2 for 14-2 and the other way about."""
    return _TWIN.sub(
        lambda m: f"{m[1]}{'-' if '/' in m[0] else '/'}{m[2]}{m[3]}" if _cable(m) else m[0], said
    )


def _cable(found: re.Match[str]) -> bool:
    return found[1] in ("14", "12", "10", "8", "6") and found[2] in "234"


def full_stop(said: str) -> str:
    """A full stop at the end."""
    return said if said[-1:] in ".?!:" else f"{said}."


def semicolons(said: str) -> str:
    """Semicolons for the commas of a list."""
    return said.replace(", ", "; ")


def spaces(said: str) -> str:
    """Spaces doubled, and at both ends."""
    return f"  {said.replace(' ', '  ')}  "


def adjective(said: str) -> str:
    """A colour before the first cable and the first device: it says nothing of the count."""
    said = re.sub(r"\b((?:two|three|four|five|six|one) )(\d\d-\d)", r"\1yellow \2", said, count=1)
    return re.sub(r"\b(an? |the )(switch|receptacle|duplex|dimmer|GFCI)\b", _white, said, count=1)


def _white(found: re.Match[str]) -> str:
    article = "a " if found[1] == "an " else found[1]
    return f"{article}white {found[2]}"


def expanded(said: str) -> str:
    """ "do not" for "don't"."""
    for short, long in CONTRACTIONS.items():
        said = re.sub(rf"\b{short}\b", long, said)
    return said


def unpointed(said: str) -> str:
    """ "dont" for "don't", as thumbs write it."""
    return re.sub(r"(?<=n)'(?=t\b)", "", said)


def in_words(value: int) -> str:
    """A whole number up to 69 in words."""
    if value <= 20:
        return ONES[value]
    tens, ones = divmod(value, 10)
    name = "twenty" if tens == 2 else TENS.get(tens * 10)
    if name is None:
        return str(value)
    return name + (f" {ONES[ones]}" if ones else "")


def spoken(said: str) -> str:
    """The sentence as it is spoken, without marks: "14-2" is "fourteen two", "20.3" "twenty
    point three". What can't be spoken so plainly gives the sentence back as it is."""
    told = _TWIN.sub(lambda m: f"{in_words(int(m[1]))} {in_words(int(m[2]))}{m[3]}", said)
    told = re.sub(
        r"\b(\d+)\.(\d+)\b",
        lambda m: f"{in_words(int(m[1]))} point {' '.join(ONES[int(d)] for d in m[2])}",
        told,
    )
    told = re.sub(r"\b20(\d\d)\b", lambda m: f"twenty {in_words(int(m[1]))}", told)
    told = re.sub(r"\b\d{1,2}\b", lambda m: in_words(int(m[0])), told.replace("#", "number "))
    told = re.sub(r"[,.:;?!]+(?= |$)", "", told.replace("-", " "))
    return told if re.fullmatch(r"[A-Za-z' ]+", told) else said


WAYS: dict[str, Callable[[str], str]] = {
    "filler": filler,
    "please": please,
    "polite lead": polite,
    "small letters": lower,
    "capitals": upper,
    "figures": figures,
    "number words": words,
    "14/2 for 14-2": slashes,
    "full stop": full_stop,
    "semicolons": semicolons,
    "spaces": spaces,
    "adjective": adjective,
    "expanded": expanded,
    "unpointed": unpointed,
}
"""By the name of the rewriting."""
