"""What number words and figures are worth, exactly.

The grammar decides where a number may stand (`data/rules.toml`); this module only says what
a run of number tokens is worth. Everything is `Decimal`.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from functools import lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lexer import odd_figures

_TABLE = grammar_data.table("numbers")
_ONES: dict[str, int] = _TABLE["ones"]
_TEENS: dict[str, int] = _TABLE["teens"]
_TENS: dict[str, int] = _TABLE["tens"]
_ZERO: dict[str, int] = _TABLE["zero"]
_SCALE: dict[str, int] = _TABLE["scale"]
_PARTS: dict[str, int] = _TABLE["parts"]
_AMOUNTS: dict[str, int] = _TABLE["amounts"]
_PLURALS: dict[str, int] = _TABLE["plurals"]
_SMALL = {**_ONES, **_TEENS, **_TENS, **_ZERO}
#: `4` is as good as `four` where a phrase asks for the word; of two spellings, the first.
WORD_OF_FIGURE = {str(w): word for word, w in reversed({**_ONES, **_TEENS, **_TENS}.items())}
#: A decimal figure below this may be a size in inches; no box in the tables is larger.
LARGEST_DIMENSION = 6
#: A bare number below this is no volume of a box but a count, or the box's own number.
LEAST_VOLUME = 6
_POINT = ("point", "dot")
_HOMOPHONES: dict[str, str] = grammar_data.table("lexicon")["homophones"]
_MINUS = ("minus", "negative")
_FEW = range(1, 10)
_VULGAR = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅕": (1, 5), "⅖": (2, 5),
    "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8),
    "⅞": (7, 8),
}  # fmt: skip


def word_classes(text: str) -> tuple[str, ...]:
    """The number classes of one token, such as `%ones`, `%size` or `%pair`."""
    if text == odd_figures.MARK:
        return ("%odd",)
    found = [name for name, words in _WORD_CLASSES if text in words]
    if not found and _several(text) in _PLURALS:
        found = ["%plural"]
    if not found:
        found = list(_figure_classes(text))
    whole = _whole(text)
    if whole is not None and whole >= LEAST_VOLUME and not text.endswith("s"):
        found.append("%large")
    if whole is not None:
        found += _size_classes(whole, plural=text.endswith("s") and text not in _ONES)
    return tuple(found)


_WORD_CLASSES: tuple[tuple[str, dict[str, int]], ...] = (
    ("%ones", _ONES),
    ("%teen", _TEENS),
    ("%tens", _TENS),
    ("%zero", _ZERO),
    ("%part", _PARTS),
    ("%plural", _PLURALS),
)


def _figure_classes(text: str) -> tuple[str, ...]:
    if text[-1:] in _VULGAR:
        return ("%frac",) if len(text) == 1 else ("%mixed",)
    body = text.removesuffix("s").removesuffix("'")
    plural = body != text
    if len(body) == 4 and body.isdecimal() and body[:2] in ("19", "20"):
        return ("%year", "%fig")
    if body.replace(",", "").isdecimal():
        return ("%figs",) if plural else ("%fig",)
    if body[:1] == "-" and body[1:].replace(".", "").isdecimal():
        return ("%negative",)
    if "/" in body or "-" in body:
        return _joined_classes(body, plural)
    if body.replace(".", "", 1).isdecimal() and not plural:
        return ("%dec", "%inchdec") if Decimal(body) < LARGEST_DIMENSION else ("%dec",)
    return ()


def _joined_classes(body: str, plural: bool) -> tuple[str, ...]:
    parts = body.replace("-", "/").split("/")
    if not all(part.isdecimal() for part in parts):
        return ()
    numbers = [int(part[:9]) for part in parts]
    if len(numbers) == 3:
        return ("%mixed",) if _is_fraction(numbers[1], numbers[2]) else ("%triple",)
    if "/" in body and _is_fraction(numbers[0], numbers[1]):
        return ("%frac",)
    if numbers[0] not in _TABLE["sizes"]["allowed"] and numbers[1] not in _FEW:
        return ()  # "30/50" is no cable
    return ("%pairs",) if plural else ("%pair",)


def _is_fraction(top: int, bottom: int) -> bool:
    return 0 < top < bottom and bottom in (2, 3, 4, 8, 16, 32, 64)


def _whole(text: str) -> int | None:
    if text in _SMALL:
        return _SMALL[text]
    if _several(text) in _PLURALS:
        return _PLURALS[_several(text)]
    body = text.removesuffix("s").removesuffix("'")
    return int(body) if body.isascii() and body.isdecimal() and len(body) < 4 else None


def _size_classes(whole: int, plural: bool) -> list[str]:
    ending = "s" if plural else ""
    found = []
    if whole in _TABLE["sizes"]["allowed"]:
        found.append("%size" + ending)
    if whole in _TABLE["sizes"]["conductors"]:
        found.append("%wires" + ending)
    return found


def is_plural(text: str) -> bool:
    """Whether a number token stands in the plural: `twos`, `14-2s`."""
    return _several(text) in _PLURALS or (text.endswith("s") and text[:1].isdecimal())


def _several(text: str) -> str:
    """`two's` for `twos`, as many write it."""
    return text.replace("'", "")


@lru_cache(maxsize=1024)
def pair(text: str) -> tuple[int, int]:
    """The two numbers of `14-2` or `14/2s`; `14-2-2` holds two and two conductors."""
    first, *rest = text.rstrip("s'").replace("/", "-").split("-")
    return int(first[:9]), sum(int(part[:9]) for part in rest[:2])


@lru_cache(maxsize=4096)
def value(texts: tuple[str, ...]) -> Decimal | None:
    """What a run of number tokens is worth; None when it is no number.

    >>> value(("twenty", "two", "and", "a", "half"))
    Decimal('22.5')
    """
    if not texts:
        return None
    if "&" in texts:
        return value(tuple(["and" if text == "&" else text for text in texts]))
    if any(text in _HOMOPHONES for text in texts):
        return value(tuple([_HOMOPHONES.get(text, text) for text in texts]))
    said = " ".join(texts)
    if said in _AMOUNTS:
        return Decimal(_AMOUNTS[said])
    if texts[0] in _MINUS:
        rest = value(texts[1:])
        return None if rest is None else -rest
    if "inch" in texts or "inches" in texts:
        return _with_inch(texts)
    return _decimal(texts) or _mixed(texts) or _whole_number(texts)


def year(texts: tuple[str, ...]) -> str:
    """`2020`, `twenty twenty`, `two thousand seventeen`, `seventeen` for 2017, as four digits."""
    short = _whole_number(texts) or 0
    if len(texts) > 1 and texts[0] in _TENS and short > 26:
        texts = (*texts[:1], "hundred", *texts[1:])
    return str((_whole_number(texts) or 0) + (2000 if 0 < short < 27 else 0))


def run_on(texts: tuple[str, ...]) -> Decimal | None:
    """`twenty two five` for 22.5, as an answer that must be a volume."""
    whole = _whole_number(texts[:-1])
    return (
        None
        if whole is None or texts[-1] not in _SMALL
        else (whole + Decimal(_SMALL[texts[-1]]) / 10)
    )


def _with_inch(texts: tuple[str, ...]) -> Decimal | None:
    """`inch and a half`, `an inch and a quarter`, `two inches and an eighth`."""
    kept = tuple(text for text in texts if text not in ("inch", "inches"))
    if texts[0] in ("inch", "inches"):
        kept = ("one", *kept)
    elif texts[0] in ("a", "an") and kept:
        kept = ("one", *kept[1:])
    return value(kept) if kept else None


def _decimal(texts: tuple[str, ...]) -> Decimal | None:
    """`twenty point three`, `point five`, `twenty point twenty five`."""
    places = [place for place, text in enumerate(texts) if text in _POINT]
    if len(places) != 1:
        return None
    place = places[0]
    before = Decimal(0) if place == 0 else _spelt(texts[:place]) or _whole_number(texts[:place])
    digits = _digits(texts[place + 1 :])
    if before is None or not digits:
        return None
    return before + Decimal("0." + digits)


def _spelt(texts: tuple[str, ...]) -> Decimal | None:
    """`one eight`, `two oh`: a number said digit by digit."""
    digits = [text in _ONES or text in _ZERO or text in WORD_OF_FIGURE for text in texts]
    alone = len(texts) == 2 and all(digits) and texts[0] not in _ZERO
    return Decimal(_digits(texts)) if alone and len(_digits(texts)) == 2 else None


def _digits(texts: Sequence[str]) -> str:
    """The digits after a point: each said alone (`two five`) or together (`twenty five`)."""
    if len(texts) == 2 and texts[0] in _TENS and texts[1] in _ONES:
        return str(_TENS[texts[0]] + _ONES[texts[1]])
    found = ""
    for text in texts:
        if text in _SMALL:
            found += str(_SMALL[text])
        elif text.isdecimal():
            found += text
        else:
            return ""
    return found


def _mixed(texts: tuple[str, ...]) -> Decimal | None:
    """`two and one eighth`, `four eleven sixteenths`, `three quarters`, `2 1/8`, `a half`."""
    if texts[-1] in _PARTS:
        top_at, bottom = len(texts) - 2, _PARTS[texts[-1]]
        top = _small(texts[top_at]) if top_at >= 0 else Decimal(1)
        if top is None:
            top, top_at = Decimal(1), top_at + 1
        part = top / bottom
        rest = texts[: max(top_at, 0)]
    else:
        figured = _figured(texts[-1])
        if figured is None or len(texts) < 2:
            return None
        part, rest = figured, texts[:-1]
    if rest and rest[-1] == "and":
        rest = rest[:-1]
    whole = _whole_number(rest) if rest else Decimal(0)
    return None if whole is None else whole + part


def _small(text: str) -> Decimal | None:
    if text in ("a", "an"):
        return Decimal(1)
    if text in _SMALL:
        return Decimal(_SMALL[text])
    return Decimal(text) if text.isdecimal() else None


def _figured(text: str) -> Decimal | None:
    """`1/8`, `2-1/8`, `½`, `2½`."""
    if text[-1:] in _VULGAR:
        top, bottom = _VULGAR[text[-1]]
        whole = text[:-1].strip(" -")
        if whole and not whole.isdecimal():
            return None
        return Decimal(whole or 0) + Decimal(top) / bottom
    parts = text.replace("-", "/").split("/")
    if not all(part.isdecimal() for part in parts) or int(parts[-1]) == 0:
        return None
    if len(parts) == 2:
        return Decimal(parts[0]) / Decimal(parts[1])
    if len(parts) == 3:
        return Decimal(parts[0]) + Decimal(parts[1]) / Decimal(parts[2])
    return None


def _whole_number(texts: Sequence[str]) -> Decimal | None:
    """`two hundred and fifty six`, `256`, `22.5`, `2-1/8`, `twelves`."""
    if len(texts) == 1:
        return _one_token(texts[0])
    total = None
    for text in texts:
        if text in _SCALE:
            total = (total or Decimal(1)) * _SCALE[text]
        elif text in _SMALL or text.isdecimal():
            total = (total or Decimal(0)) + (_SMALL[text] if text in _SMALL else int(text))
        elif text not in ("a", "an", "and"):
            return None
    return total


def _one_token(text: str) -> Decimal | None:
    if text in _SMALL:
        return Decimal(_SMALL[text])
    if _several(text) in _PLURALS:
        return Decimal(_PLURALS[_several(text)])
    if text in _SCALE:
        return Decimal(_SCALE[text])
    body = text.rstrip("s'").replace(",", "")
    if body.removeprefix("-").replace(".", "", 1).isdecimal():
        return Decimal(body)
    return _figured(text)
