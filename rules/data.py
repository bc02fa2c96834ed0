"""The data files of `rules/data/`, read once and kept as tables of immutable rows.

Every row names its section, the editions it stands in, its sources and how far it is
confirmed. Volumes are `Decimal` cubic inches.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Any

from boxaloud.rules.worksheet import Mark


@dataclass(frozen=True, slots=True)
class Source:
    """Where a fact was read."""

    title: str
    publisher: str
    url: str
    kind: str = "not stated"
    """`code copy`, `trade press`, `training`, `website`, `forum`, or `none` where none was read."""

    def __str__(self) -> str:
        return f"{self.title} ({self.publisher})" if self.publisher else self.title


@dataclass(frozen=True, slots=True)
class RuleNote:
    """A row of the data, explained: what a line of a worksheet rests on."""

    rule: str
    section: str
    editions: tuple[str, str]
    """The first and the last edition held in which it stands."""
    says: str
    """The reasoning in one sentence that can be said aloud."""
    sources: tuple[Source, ...]
    mark: Mark
    from_memory: str = ""
    """The part that no published source read so far states; empty where there is none."""

    @property
    def source(self) -> str:
        """The published sources in one line."""
        return "; ".join(str(source) for source in self.sources)


@dataclass(frozen=True, slots=True, eq=False)
class Rule:
    """A rule of 314.16 with the numbers it counts with. Each row is made once."""

    id: str
    item: str
    section: str
    each: Decimal
    """Allowances of one of the things counted."""
    first: int
    """For grounds: how many the first allowance covers."""
    further: Decimal
    """For grounds: the allowance of each one more."""
    most: int
    """For the canopy exception: how many wires it covers."""
    smaller_than_awg: int
    volume: Decimal
    """For barriers: cubic inches taken."""
    note: RuleNote


@cache
def table(name: str) -> Mapping[str, Any]:
    """The parsed data file `name`.toml."""
    return tomllib.loads((files("boxaloud.rules") / "data" / f"{name}.toml").read_text("utf-8"))


@cache
def source(key: str) -> Source:
    """The source row `key`."""
    return Source(**table("sources")[key])


def note(rule: str, row: Mapping[str, Any], says: str = "") -> RuleNote:
    """The explanation that a data row carries; `says` where the row has no sentence."""
    first, last = row["editions"]
    return RuleNote(
        rule=rule,
        section=row["section"],
        editions=(first, last),
        says=says or row["says"],
        sources=tuple(source(key) for key in row["sources"]),
        mark=row["mark"],
        from_memory=row.get("memory", ""),
    )


def _rule(key: str, row: Mapping[str, Any]) -> Rule:
    return Rule(
        id=key,
        item=row["item"],
        section=row["section"],
        each=Decimal(row.get("each", "0")),
        first=row.get("first", 0),
        further=Decimal(row.get("further", "0")),
        most=row.get("most", 0),
        smaller_than_awg=row.get("smaller_than_awg", 0),
        volume=Decimal(row.get("in3", "0.00")),
        note=note(key, row),
    )


@cache
def all_rules() -> Mapping[str, Rule]:
    """Every row of rules.toml by its identifier."""
    return {key: _rule(key, row) for key, row in table("rules").items()}


@cache
def uncounted_rules() -> Mapping[str, Rule]:
    """The rule of each kind of thing that takes no allowance."""
    return {
        kind: all_rules()[key]
        for key, row in table("rules").items()
        for kind in row.get("kinds", ())
    }
