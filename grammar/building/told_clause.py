"""A clause that tells, and what is known of it from the clauses before it."""

from __future__ import annotations

import re
from functools import lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass

_TABLE = grammar_data.table("clauses")["correction"]
_MARKS = lazy_pattern(r"\b(?:" + "|".join(map(re.escape, _TABLE["marks"])) + r")\b")
_ADDITIVE = lazy_pattern(r"\b(?:" + "|".join(map(re.escape, _TABLE["additive"])) + r")\b")
#: "no the three way", "no it's outside": a marker, where "no three way" denies.
_LEADING_NO = lazy_pattern(
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
        joined = _JOINS.sub(" and ", line)
        if joined != line and _JOINING.search(joined) is None:
            line, said = joined, _JOINING.sub("and", said)
        return not (_ADDITIVE.search(line) or _ADDITIVE.search(said))


#: "Three 12-2s plus the 12-3": between two things of a list they only join them.
_JOINING = lazy_pattern(r"\b(?:plus|along with|as well as|besides|in addition to)\b")
_JOINS = lazy_pattern(
    r"(?<=>) (?:plus|along with|as well as|besides|in addition to) (?=(?:the |that |a |an |one )?<)"
)
#: Of what stands behind one of these it is said what it should be; alone it is no correction.
_NAMING = lazy_pattern(
    r"\b(?:should(?:'ve| have)? be(?:en)?|supposed to be|(?:is|was|are) really|were actually)$"
)


@lru_cache(maxsize=1024)
def _marked(line: str) -> bool:
    """Whether a line is marked as a correction: "it should be three", and not "one 12-2 should be
    fine"."""
    if _LEADING_NO.match(line):
        return True
    return any(
        "<" in line[mark.end() :] or not _NAMING.search(mark.group())
        for mark in _MARKS.finditer(line)
    )
