"""The editions held, the rules that each follows, and what is said of those not held."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from boxaloud.rules.data import Rule, RuleNote, all_rules, note, table
from boxaloud.rules.errors import NoSuchEdition
from boxaloud.rules.sizes import volumes

#: A year that stands by itself or behind what names a code: "NEC2020", never "2020x".
_YEAR = re.compile(
    r"(?:(?<=NEC)|(?<=IRC)|(?<=\w-)|(?<![\w.,-]))(?:19|20)\d\d(?!\w|[.,]\d|-[^\W\d])", re.IGNORECASE
)


@dataclass(frozen=True, slots=True, eq=False)
class RuleSet:
    """One edition, ready to count with. Each is made once."""

    edition: str
    table: str
    """The name of the allowance table in this edition."""
    volumes: Mapping[int, Decimal]
    rules: Mapping[str, Rule]
    """The rule this edition follows for each thing counted."""


@dataclass(frozen=True, slots=True)
class EditionReading:
    """What was understood when an edition was named."""

    edition: str
    says: str
    """Empty, or a sentence saying how the name leads to the edition."""
    note: RuleNote | None = None


@cache
def rule_sets() -> Mapping[str, RuleSet]:
    """Every edition held, oldest first."""
    data = table("editions")
    known = all_rules()
    sets = {}
    for year in sorted(data["edition"]):
        row = data["edition"][year]
        names = data["shared"] | row["rules"]
        rules = {slot: known[name] for slot, name in names.items()}
        sets[year] = RuleSet(year, row["table"], volumes(), rules)
    return sets


def rule_set(edition: str) -> RuleSet:
    """The rules of an edition. Raises NoSuchEdition, in a sentence, for one not held."""
    try:
        return rule_sets()[edition]
    except KeyError:
        raise _refusal(edition) from None


def editions() -> tuple[str, ...]:
    """The editions held, oldest first."""
    return tuple(rule_sets())


def allowance_table(edition: str) -> str:
    """What the table of volume allowances is called in an edition."""
    return rule_set(edition).table


def read_edition(text: str) -> EditionReading:
    """The edition that `text` names: a year, or the residential code by year or by section.

    The residential code named without a year is taken as the newest held, and said so.
    Raises NoSuchEdition for an edition not held, naming it.
    """
    said = text.strip()
    if re.search(r"\bC\.?E\.?C\b|canad", said, re.IGNORECASE):
        raise NoSuchEdition(
            "Canada's Rule 12-3034 is no edition of 314.16 and is worked out by itself, "
            "for one size of conductor and a marked box only."
        )
    years = _YEAR.findall(said)
    residential = re.search(r"\bIRC\b|residential|E3[89]05", said, re.IGNORECASE)
    if len(years) > 1 or not (years or residential):
        raise NoSuchEdition(f"I cannot tell an edition from {said!r}: {_held()}.")
    if residential:
        return _residential(years[0] if years else "")
    if years[0] not in rule_sets():
        raise _refusal(years[0])
    return EditionReading(years[0], "")


def check_edition(text: str) -> str:
    """The year of the edition that `text` names, as in `read_edition`."""
    return read_edition(text).edition


def _residential(year: str) -> EditionReading:
    rows = table("editions")["residential"]
    row = next((row for row in rows if row["year"] == year), None if year else rows[-1])
    if row is None:
        held = ", ".join(row["year"] for row in rows)
        raise NoSuchEdition(f"The {year} residential code is not held: say one of {held}.")
    says = f"{row['says']}{' (from memory)' if row['mark'] == 'from memory' else ''}."
    if not year:
        says = f"No year was said, so the newest held is taken. {says}"
    return EditionReading(row["parent"], says, note(f"residential-{row['year']}", row, says))


def _refusal(year: str) -> NoSuchEdition:
    for row in table("editions")["refused"]:
        if row["year"] == year:
            return NoSuchEdition(row["says"])
    return NoSuchEdition(f"The {year} edition is not held: {_held()}.")


def _held() -> str:
    held = editions()
    return f"say {', '.join(held[:-1])} or {held[-1]}"
