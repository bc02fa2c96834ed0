"""The template of what becomes of words that a rewrite rule matched."""

from __future__ import annotations

import re
from functools import cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.quick_dataclass import dataclass

#: `{name}` a group of the match, `{-name}` spaces in its place, `{name:figure}` a number word in
#: figures, `{name:one}` without the "s" of the plural, `{}` where what is left over is blanked.
_PART = re.compile(r"\{(?P<blank>-?)(?P<name>\w*)(?::(?P<form>\w+))?\}")
_PLURAL = re.compile(r"(?i)['’]?s$")


@dataclass(frozen=True, slots=True)
class ReplacementTemplate:
    """Text and groups of a match, in the order in which they are to stand."""

    parts: tuple[tuple[str, str, str], ...]
    """Of each part "" and its text, or a group's name and its form: "" as said, "-" blanked,
    "figure", "one". The place that takes what is left over has the form "rest"."""

    def told(self, found: re.Match[str]) -> str:
        """What a match becomes, however long."""
        return "".join(_filled(part, found) for part in self.parts)

    def filled(self, found: re.Match[str]) -> str | None:
        """What stands in place of a match, exactly as long; None where there is no room for it."""
        told = [_filled(part, found) for part in self.parts]
        left = len(found[0]) - sum(map(len, told))
        if left < 0:
            return None
        at = next((place for place, part in enumerate(self.parts) if part[2] == "rest"), len(told))
        return "".join(told[:at]) + " " * left + "".join(told[at:])


def replacement_template(plain: str) -> ReplacementTemplate:
    """The template that a row writes so: `{lead}{n} {size}`."""
    parts, place = [], 0
    for part in _PART.finditer(plain):
        parts.append(("", plain[place : part.start()], ""))
        form = part["form"] or part["blank"] if part["name"] else "rest"
        parts.append((part["name"], "", form or ""))
        place = part.end()
    parts.append(("", plain[place:], ""))
    return ReplacementTemplate(tuple(part for part in parts if part != ("", "", "")))


def figure(word: str) -> str:
    """A number word in figures; what is no number word as it is."""
    return _figures().get(word.lower(), word)


def _filled(part: tuple[str, str, str], found: re.Match[str]) -> str:
    name, text, form = part
    if not name:
        return text
    said = found[name] or ""
    if form == "-":
        return " " * len(said)
    if form == "figure":
        return figure(said)
    return _PLURAL.sub("", said) if form == "one" else said


@cache
def _figures() -> dict[str, str]:
    numbers = grammar_data.table("numbers")
    return {word: str(worth) for word, worth in {**numbers["ones"], **numbers["teens"]}.items()}
