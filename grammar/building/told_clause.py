"""A clause that tells, and what is known of it from the clauses before it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Clause

_TABLE = grammar_data.table("clauses")["correction"]
_MARKS = re.compile(r"\b(?:" + "|".join(map(re.escape, _TABLE["marks"])) + r")\b")
_ADDITIVE = re.compile(r"\b(?:" + "|".join(map(re.escape, _TABLE["additive"])) + r")\b")
#: "no the three way", "no it's outside": a marker, where "no three way" denies.
_LEADING_NO = re.compile(
    r"no (?:just |only |it |that |those |they |these |this |i |we |the |there |make |its |is "
    r"|he |she |my |<n)"
)


@dataclass(frozen=True, slots=True)
class Telling:
    """A clause that tells, and what is known of it from the clauses before it."""

    clause: Clause
    heard: str
    corrective: bool = False

    @property
    def corrects(self) -> bool:
        """True where its words mark it as a correction, and none as an addition."""
        line = self.clause.line
        if not (self.corrective or _marked(line)):
            return False
        first, last = self.clause.span
        said = self.heard[first:last].lower()
        return not (_ADDITIVE.search(line) or _ADDITIVE.search(said))


@lru_cache(maxsize=1024)
def _marked(line: str) -> bool:
    return bool(_MARKS.search(line) or _LEADING_NO.match(line))
