"""Which edition a name leads to: a year, a code by its name, or a place and what it adopted."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from boxaloud.rules.contents import DEFAULT_EDITION
from boxaloud.rules.data import RuleNote, note, table
from boxaloud.rules.editions import CANADIAN, editions, held, refusal, rule_sets
from boxaloud.rules.errors import EditionUnsure, NoSuchEdition
from boxaloud.rules.words import either

#: A year that stands by itself or behind what names a code: "NEC2020", never "2020x".
_YEAR = re.compile(
    r"(?:(?<=NEC)|(?<=IRC)|(?<=\w-)|(?<![\w.,-]))(?:19|20)\d\d"
    r"(?!\w|[.,]\d|-(?!(?:NEC|IRC|CEC|CE)\b)[^\W\d])",
    re.IGNORECASE,
)
_LIKE_A_YEAR = re.compile(r"\d{3,}")
_SECTION = re.compile(r"\b(?:E\d{4}|C22)[\w.]*", re.IGNORECASE)
_RESIDENTIAL = re.compile(r"\bIRC\b|residential|E3[89]05", re.IGNORECASE)
_CANADA = re.compile(
    r"canad|\bC\.?\s?E\.?(?: code|[ -]?(?:19|20)\d\d|$)|(?:19|20)\d\d[ -]C\.?E\b|\bCSA\b",
    re.IGNORECASE,
)
#: How a name begins that may be of Canada: what is said there, and of no code.
_PERHAPS = "perhaps canadian"
_CEC = re.compile(r"\bC\.?E\.?C\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class EditionReading:
    """What was understood when an edition was named."""

    edition: str
    says: str
    """Empty, or a sentence saying how the name leads to the edition."""
    note: RuleNote | None = None


@dataclass(frozen=True, slots=True)
class Place:
    """A place, and what is known of the code adopted there."""

    name: str
    also: tuple[str, ...]
    rows: tuple[Mapping[str, Any], ...]
    """Each with the `edition` it follows, the `code` and `since` when; none where nothing was
    found."""
    canadian: bool = False
    """True where what is adopted is the Canadian code, in an edition that is not held."""


@cache
def places() -> tuple[Place, ...]:
    """Every place known by name, in the order of the data."""
    return tuple(
        Place(
            row["name"],
            tuple(row.get("also", ())),
            tuple(row.get("adopted", ())),
            bool(row.get("canadian")),
        )
        for row in table("places")["place"]
    )


def read_edition(text: str) -> EditionReading:
    """The edition that `text` names: a year, a code, or a place.

    Codes are the residential one, by year or by section, and the Canadian one. The residential
    code named without a year is taken as the newest held, and said so. Raises EditionUnsure,
    with the choices, where a name may mean several, and NoSuchEdition for one not held; both
    in one sentence.
    """
    said = text.strip()
    years = list(dict.fromkeys(_YEAR.findall(said)))
    if len(years) > 1:
        raise NoSuchEdition(f"I cannot tell an edition from {said!r}: {held()}.")
    year = years[0] if years else ""
    if not year and _LIKE_A_YEAR.search(_SECTION.sub("", said)):
        raise NoSuchEdition(f"I cannot tell an edition from {said!r}: {held()}.")
    if said.lower().startswith(_PERHAPS):
        raise EditionUnsure(
            "That is said where the Canadian code holds: say by which code I count.",
            (CANADIAN, year or DEFAULT_EDITION),
        )
    if place := _place_in(said):
        return _adopted(place, year)
    if _CANADA.search(said):
        return _canadian(year)
    if _CEC.search(said):
        return _cec(said, year)
    if _RESIDENTIAL.search(said):
        return _residential(year)
    if not year:
        raise NoSuchEdition(f"I cannot tell an edition from {said!r}: {held()}.")
    if year not in rule_sets():
        raise refusal(year)
    found = rule_sets()[year].provisional
    return EditionReading(year, found.says if found else "", found)


def check_edition(text: str) -> str:
    """The edition that `text` names, as in `read_edition`."""
    return read_edition(text).edition


def _place_in(said: str) -> Place | None:
    """The place named, the longest name first, so that a city goes before its state."""
    low = said.lower()
    named = [(name, place) for place in places() for name in (place.name.lower(), *place.also)]
    for name, place in sorted(named, key=lambda pair: -len(pair[0])):
        if re.search(rf"\b{re.escape(name)}\b", low):
            return place
    return None


def _adopted(place: Place, year: str) -> EditionReading:
    rows = place.rows
    if year:  # "2022 California" names its own code, "Oregon 2023" may name either
        rows = tuple(row for row in rows if year in (row["code_year"], row["edition"]))
        if not rows and year in editions() and not place.canadian:
            says = f"What {place.name} changes in the {year} edition is not held."
            return EditionReading(year, says)
    if len(rows) != 1:
        raise _unsure(place, rows, year)
    (row,) = rows
    says = f"{place.name}: {row['says']}{_from_memory(row)}; its own amendments are not held."
    return EditionReading(row["edition"], says, note(f"place-{_key(place)}", row, says))


def _key(place: Place) -> str:
    return place.name.lower().replace(" ", "-")


def _unsure(place: Place, rows: tuple[Mapping[str, Any], ...], year: str) -> EditionUnsure:
    choices = tuple(row["edition"] for row in rows)
    if not rows:
        of = f"the {year} code of {place.name}" if year else f"what {place.name} has adopted"
        if place.canadian:
            of = f"{of}: say “the Canadian code” for {CANADIAN}"
            return EditionUnsure(f"I do not hold {of}, or another code.", (CANADIAN,))
        return EditionUnsure(f"I do not hold {of}: say the year of the edition.", editions())
    told = ", and ".join(f"{row['says']}{_from_memory(row)}" for row in rows)
    return EditionUnsure(f"{place.name}: {told}: say {either(choices)}.", choices)


def _from_memory(row: Mapping[str, Any]) -> str:
    return " (from memory)" if row["mark"] == "from memory" else ""


def _canadian(year: str) -> EditionReading:
    row = table("canada")["code"]
    if year and year not in row["years"]:
        raise NoSuchEdition(
            f"The {year} Canadian code is not held: say {either(tuple(row['years']))}."
        )
    says = row["says"]
    return EditionReading(CANADIAN, says, note("ca-code", row, says))


def _cec(said: str, year: str) -> EditionReading:
    """Canada and California both shorten their code so; their years tell them apart."""
    if year in table("canada")["code"]["years"]:
        return _canadian(year)
    for place in places():
        if place.name == "California" and any(row["code_year"] == year for row in place.rows):
            return _adopted(place, year)
    raise EditionUnsure(
        f"{said!r} may be the Canadian code or that of California: say which.",
        (CANADIAN, "California"),
    )


def _residential(year: str) -> EditionReading:
    rows = table("editions")["residential"]
    row = next((row for row in rows if row["year"] == year), None if year else rows[-1])
    if row is None:
        years = either(tuple(row["year"] for row in rows))
        raise NoSuchEdition(f"The {year} residential code is not held: say {years}.")
    says = f"{row['says']}{_from_memory(row)}."
    if not year:
        says = f"No year was said, so the newest held is taken. {says}"
    return EditionReading(row["parent"], says, note(f"residential-{row['year']}", row, says))
