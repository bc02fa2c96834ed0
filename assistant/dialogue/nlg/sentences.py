"""Sentences and names, from data: how the assistant puts things.

Volumes are shown with at least two decimals, marked volumes with at least one, and never
rounded. Counts up to twelve are words.

A sentence that is said shorter than it is shown, a row of `[for_ear]`, is `Told`: a text for the
eye that carries its text for the ear. What is made of it by `say`, `listed` or `sentence` carries
both on.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Any

from boxaloud.assistant.text.catalogue import Catalogue
from boxaloud.rules.words import SMALL
from boxaloud.rules.worksheet import Unit

_CATALOGUE = Catalogue("boxaloud.assistant.dialogue.nlg")
_SUFFIX: dict[Unit, str] = {"in3": "", "mL": " mL"}


class Told(str):
    """A text for the eye that carries the same for the ear, figures not yet in words.

    What is said is mostly read only, so that the text for the ear is made when it is asked for.
    """

    __slots__ = ("_ear",)
    _ear: str | Callable[[], str]

    def __new__(cls, eye: str, ear: str | Callable[[], str]) -> Told:
        """The text `eye`, said as `ear`, or as that gives when it is called."""
        made = super().__new__(cls, eye)
        made._ear = ear
        return made

    @property
    def ear(self) -> str:
        """The text for the ear."""
        if not isinstance(self._ear, str):
            self._ear = self._ear()
        return self._ear


def for_ear(text: object) -> str:
    """What is to be said of a text: all of it, unless it is said shorter than shown."""
    return text.ear if isinstance(text, Told) else str(text)


def sentences() -> dict[str, Any]:
    """The sentence file, read once."""
    return _CATALOGUE.tables


def say(key: str, **values: object) -> str:
    """The sentence under a dotted `key`, filled in.

    Raises KeyError where there is no such sentence: a fault of ours, held by a test.
    """
    return filled(*_find(key), values)


def filled(eye: str, ear: str | None, values: Mapping[str, object]) -> str:
    """A sentence with its values; `ear` is how it is said where it is said otherwise."""
    if not values:
        return eye if ear is None else Told(eye, ear)
    shown = eye.format_map(values)
    if ear is None and not any(isinstance(value, Told) for value in values.values()):
        return shown
    said = eye if ear is None else ear
    return Told(shown, lambda: said.format_map({name: for_ear(v) for name, v in values.items()}))


#: A section behind a sentence that says itself what it rules. It stands in print.
_CITED = re.compile(
    r",(?: by)? (?:(?:Table )?314\.\d+(?:\(\w+\))*(?: Exception)?|\{section\})(?=[.;])"
)


@lru_cache(maxsize=512)
def _find(key: str) -> tuple[str, str | None]:
    """The sentence for the eye, and the one for the ear where it is another."""
    node = _CATALOGUE.say(key)
    ear = sentences()["for_ear"].get(key, _CITED.sub("", node))
    return node, None if ear == node else ear


def attempts(question: str) -> tuple[str, ...]:
    """The wordings of a question: first, again with an example, and with a way out."""
    return tuple(sentences()["ask"][question])


def attempt(question: str, tries: int, values: Mapping[str, object]) -> str:
    """A question as it is put after so many tries in vain; the first time it is said shorter."""
    wordings = attempts(question)
    at = min(tries, len(wordings) - 1)
    ear = None if at else sentences()["for_ear"].get(f"ask.{question}")
    return filled(wordings[at], ear, values)


def counted(count: int) -> str:
    """A count as a word up to twelve, as figures above."""
    return SMALL[count] if 0 <= count < len(SMALL) else str(count)


def volume(value: Decimal, unit: Unit = "in3") -> str:
    """A worked-out volume: two decimals, or as many as it exactly has. Cubic inches stand
    without their unit, millilitres with it."""
    return _at_least(value, 2) + _SUFFIX[unit]


def marked(value: Decimal, unit: Unit = "in3") -> str:
    """A marked volume: one decimal, or as many as it exactly has; units as in `volume`."""
    return _at_least(value, 1) + _SUFFIX[unit]


def in_unit(unit: Unit) -> str:
    """A unit as it is written behind a number."""
    return {"in3": "in³", "mL": "mL"}[unit]


def plain(value: Decimal) -> str:
    """A number without trailing zeros ("2", "1.25")."""
    text = format(value, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


@lru_cache(maxsize=1024)
def _at_least(value: Decimal, places: int) -> str:
    text = plain(value)
    whole, _, part = text.partition(".")
    return f"{whole}.{part.ljust(places, '0')}"


def inches(value: Decimal) -> str:
    """A length in inches as the trade writes it: "1-1/2", "2-1/8", "4-11/16"."""
    whole, part = divmod(Fraction(value), 1)
    if not part:
        return str(whole)
    return f"{whole}-{part}" if whole else str(part)


def listed(things: Sequence[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return _both(_listed(things), things, lambda: _listed([for_ear(thing) for thing in things]))


#: Doubts that are told the ear at once.
AT_ONCE = 2


def quoted(doubts: Sequence[str]) -> str:
    """Words that are in doubt, to stand between quotation marks; to the ear a few of them."""
    return Told("”, “".join(doubts), _few(doubts))


def listed_doubts(doubts: Sequence[str]) -> str:
    """ "“a”, “b” and “c”" of words that are in doubt; to the ear a few of them."""
    return Told(_listed([f"“{words}”" for words in doubts]), _few(doubts))


def _few(doubts: Sequence[str]) -> str:
    """The first doubts, and how many more there are."""
    if len(doubts) <= AT_ONCE:
        return _listed(doubts)
    more = say("and_more", count=counted(len(doubts) - AT_ONCE))
    return f"{', '.join(doubts[:AT_ONCE])} {more}"


def _listed(things: Sequence[str]) -> str:
    if len(things) < 2:
        return "".join(things)
    return ", ".join(things[:-1]) + " and " + things[-1]


def sentence(text: str) -> str:
    """The text with a capital and a full stop."""
    return _both(_sentence(text), (text,), lambda: _sentence(for_ear(text)))


def _sentence(text: str) -> str:
    text = text.strip()
    if not text:
        return ""
    text = text[0].upper() + text[1:]
    return text if text[-1] in ".?!:" else text + "."


def unstopped(text: str) -> str:
    """The text without its full stop."""
    return _both(text.rstrip("."), (text,), lambda: for_ear(text).rstrip("."))


def lowered(text: str) -> str:
    """The text without its capital, to stand behind a colon."""
    return _both(_lowered(text), (text,), lambda: _lowered(for_ear(text)))


def _lowered(text: str) -> str:
    return text[:1].lower() + text[1:]


def joined(texts: Iterable[str], by: str = " ") -> str:
    """Texts one behind the other; those that say nothing are left out."""
    told = [text for text in texts if text]
    return _both(by.join(told), told, lambda: by.join(filter(None, map(for_ear, told))))


def _both(eye: str, of: Iterable[str], ear: Callable[[], str]) -> str:
    """A text made of others, which carries one for the ear where any of them does."""
    return Told(eye, ear) if any(isinstance(text, Told) for text in of) else eye


def shortened(words: str, most: int = 60) -> str:
    """Words to be quoted back, cut where they are long."""
    words = " ".join(words.split())
    return words if len(words) <= most else words[:most].rsplit(" ", 1)[0] + " …"
