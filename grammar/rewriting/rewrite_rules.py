"""The rewrite rules of data/rewrites*.toml, in the order in which they are tried."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import cache
from typing import Any, Literal, TypeAlias

from boxaloud.grammar.patterns.pattern_requirements import Needs
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.rewriting.fragments import written_out
from boxaloud.grammar.rewriting.replacement_template import (
    ReplacementTemplate,
    replacement_template,
)
from boxaloud.grammar.rewriting.rule_requirements import kept_needs, rewrite_rows
from boxaloud.grammar.rewriting.worked_out import WORKED_OUT

Side: TypeAlias = Literal["typed", "heard"]
"""Where words come from: a keyboard or an ear."""
Replacing: TypeAlias = Callable[[re.Match[str], str | None], str | None]

#: What a match called by a name, in an expression of what stands around it.
_GROUP = re.compile(r"\(\?P=(\w+)\)")
#: Fields of a row that hold expressions over the text around a match.
_AROUND = ("behind", "not_behind", "beside", "not_beside", "in_text", "not_in_text")


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What must stand around a match, or must not, each an expression."""

    behind: Sequence[str]
    """Of what stands before the match."""
    not_behind: Sequence[str]
    beside: Sequence[str]
    """Of the text without the match."""
    not_beside: Sequence[str]
    in_text: Sequence[str]
    """Of the whole text."""
    not_in_text: Sequence[str]

    def allow(self, found: re.Match[str]) -> bool:
        """Whether all that must stand there does, and nothing that must not."""
        text = found.string

        def stands(expression: str, where: str) -> bool:
            return _compiled(_with_groups(expression, found)).search(where) is not None

        before = text[: found.start()]
        rest = f"{before}{text[found.end() :]}"
        return (
            all(stands(one, before) for one in self.behind)
            and all(stands(one, rest) for one in self.beside)
            and all(stands(one, text) for one in self.in_text)
            and not any(stands(one, before) for one in self.not_behind)
            and not any(stands(one, rest) for one in self.not_beside)
            and not any(stands(one, text) for one in self.not_in_text)
        )


@dataclass(frozen=True, slots=True)
class RewriteRule:
    """One way to say something, and its plain form."""

    said: str
    """An expression, its fragments written out."""
    plain: tuple[ReplacementTemplate, ...]
    """The first that there is room for stands in place of a match."""
    by: Replacing | None
    """What works the plain form out, where no template can."""
    needs: tuple[str, ...]
    """Pieces of which one stands in every text that the rule matches."""
    lacking: Needs
    """What else must stand there, read off the expression: of each list one text."""
    side: Side | None
    """The only side it is for, if it is for one."""
    first: bool
    """True for what is put in plain words before the place is looked for that is talked of."""
    not_asked: tuple[str, ...]
    """Pieces of the names of open questions to which it does not apply."""
    asked: str | None
    """The only open question to which it applies, if it does to one."""
    around: Surroundings | None
    subject: str
    """The name of its file, without "rewrites_"."""
    row: dict[str, Any]
    """The row it was read from, with its examples."""

    def replacements(self, text: str, expect: str | None) -> list[tuple[int, int, str]]:
        """What becomes of the matches in a text: where each begins and ends, and what is to stand
        there, of the same length. None where the open question is one that the rule is not for."""
        if self.asked and expect != self.asked:
            return []
        if self.not_asked and expect and any(piece in expect for piece in self.not_asked):
            return []
        said = _compiled(self.said)
        if said.search(text) is None:  # as nearly always, and told the soonest so
            return []
        return [
            (*found.span(), told)
            for found in said.finditer(text)
            if (told := self._told(found, expect)) is not None and told != found[0]
        ]

    def _told(self, found: re.Match[str], expect: str | None) -> str | None:
        if self.around is not None and not self.around.allow(found):
            return None
        if self.by is not None:
            told = self.by(found, expect)
            room = len(found[0])
            return None if told is None or len(told) > room else told.ljust(room)
        filled = (template.filled(found) for template in self.plain)
        return next((told for told in filled if told is not None), None)


@cache
def rewrite_rules() -> tuple[RewriteRule, ...]:
    """All rules, in their order."""
    return tuple(
        _rule(name, row, lacking)
        for (name, row), lacking in zip(rewrite_rows(), kept_needs(), strict=True)
    )


def _rule(file: str, row: dict[str, Any], lacking: Needs) -> RewriteRule:
    around = {name: tuple(map(written_out, _several(row.get(name, ())))) for name in _AROUND}
    return RewriteRule(
        said=written_out(row["said"]),
        plain=tuple(map(replacement_template, _several(row.get("plain", "")))),
        by=WORKED_OUT[row["by"]] if "by" in row else None,
        needs=tuple(row["needs"]),
        lacking=lacking,
        side=row.get("side"),
        first=row.get("first", False),
        not_asked=tuple(row.get("not_asked", ())),
        asked=row.get("asked"),
        around=Surroundings(**around) if any(around.values()) else None,
        subject=file.removeprefix("rewrites_"),
        row=row,
    )


def _several(given: str | Sequence[str]) -> Sequence[str]:
    return (given,) if isinstance(given, str) else given


def _with_groups(expression: str, found: re.Match[str]) -> str:
    """An expression with the groups of a match that it refers to, as they were said."""
    return _GROUP.sub(lambda named: re.escape(found[named[1]]), expression)


@cache
def _compiled(expression: str) -> re.Pattern[str]:
    return re.compile(expression, re.IGNORECASE)
