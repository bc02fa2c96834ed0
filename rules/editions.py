"""The editions held, the rules that each follows, and what is said of those not held."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from boxaloud.rules.data import Rule, RuleNote, all_rules, note, table
from boxaloud.rules.errors import NoSuchEdition
from boxaloud.rules.sizes import volumes

CANADIAN = "CE Code 2024"
"""The edition of the Canadian Electrical Code, Part I, that is held."""


@dataclass(frozen=True, slots=True, eq=False)
class RuleSet:
    """One edition, ready to count with. Each is made once."""

    edition: str
    table: str
    """The name of the allowance table in this edition."""
    volumes: Mapping[int, Decimal]
    rules: Mapping[str, Rule]
    """The rule this edition follows for each thing counted."""
    follows: str = ""
    """The edition that a provisional one is counted as; empty for one that was read."""
    provisional: RuleNote | None = None
    """What is to be said with every verdict under a provisional edition."""


@cache
def rule_sets() -> Mapping[str, RuleSet]:
    """Every edition held, oldest first."""
    data = table("editions")
    known = all_rules()
    sets = {}
    for year in sorted(data["edition"]):
        row = data["edition"][year]
        follows = row.get("follows", "")
        names = data["shared"] | data["edition"][follows or year]["rules"]
        rules = {slot: known[name] for slot, name in names.items()}
        said = note(f"provisional-{year}", row) if follows else None
        sets[year] = RuleSet(year, row["table"], volumes(), rules, follows, said)
    return sets


def is_canadian(edition: str) -> bool:
    """Whether an edition is one of the Canadian Electrical Code, Rule 12-3034."""
    return edition == CANADIAN


def provisional(edition: str) -> RuleNote | None:
    """What must be said with every verdict under an edition that was not read; None for others."""
    return None if is_canadian(edition) else rule_set(edition).provisional


def edition_named(edition: str) -> str:
    """An edition by its name: "edition 2023", "edition 2026, provisional", "CE Code 2024"."""
    if is_canadian(edition):
        return edition
    return f"edition {edition}" + (", provisional" if rule_set(edition).follows else "")


@cache
def counted_under(edition: str, word: str = "") -> str:
    """The section and the edition that a verdict stands under: "314.16, 2023".

    `word` comes before the year of the National Electrical Code ("edition ")."""
    if is_canadian(edition):
        return f"Rule 12-3034, {edition}"
    follows = rule_set(edition).follows
    return f"314.16, {word}{edition}" + (f" provisional, counted as {follows}" if follows else "")


def rule_set(edition: str) -> RuleSet:
    """The rules of an edition. Raises NoSuchEdition, in a sentence, for one not held."""
    try:
        return rule_sets()[edition]
    except KeyError:
        raise refusal(edition) from None


def editions() -> tuple[str, ...]:
    """The editions held, oldest first."""
    return tuple(rule_sets())


def allowance_table(edition: str) -> str:
    """What the table of volume allowances is called in an edition."""
    return rule_set(edition).table


def refusal(year: str) -> NoSuchEdition:
    """Why an edition is not held, in a sentence."""
    for row in table("editions")["refused"]:
        if row["year"] == year:
            return NoSuchEdition(row["says"])
    return NoSuchEdition(f"The {year} edition is not held: {held()}.")


def held() -> str:
    """The editions held, as what to say."""
    years = editions()
    return f"say {', '.join(years[:-1])} or {years[-1]}"
