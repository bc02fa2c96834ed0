"""What cables or wires of a box are said to be: "two out of the five are 14-3s", "that's 14-3, both
of them", "call that 12-3 a 12-2". Which of the box they are is not known here."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Literal, TypeAlias

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.rewriting.spoken_values import spoken_value
from boxaloud.grammar.utterance.size_frames import GROUND_TOO, PATTERNS

Share: TypeAlias = Literal["all", "half", "all_but_one", "so_many"]


@dataclass(frozen=True, slots=True)
class WireSize:
    """A size as it was said: "14-2", "fourteens", "three-wire"."""

    awg: int | None = None
    conductors: int | None = None


@dataclass(frozen=True, slots=True)
class SizeClaim:
    """So many of those that were `was` are `now`; `of`: how many there were, where it is said."""

    share: Share
    now: WireSize
    was: WireSize = WireSize()
    count: int | None = None
    of: int | None = None
    ground_too: bool = False
    definite: bool = False
    """ "The 12-3": the only one that there is."""
    odd: bool = False
    """ "The odd one": of a line by itself."""
    lands: bool = False
    """ "The cable that lands on the switch": on the only device that there is."""

    throughout: bool = False
    """ "Everything": of every line."""

    def of_so_many(self, there: int) -> int | None:
        """How many of so many are meant; None where that is open.

        >>> SizeClaim("half", WireSize(14, 3)).of_so_many(4)
        2
        """
        if self.definite and there > 1:
            return None
        if self.share == "all":
            return there
        if self.share == "half":
            return None if there % 2 else there // 2
        if self.share == "all_but_one":
            return (self.count or there - 1) if there > (self.count or 1) else None
        return self.count if self.count and self.count <= there else None


#: Without such a word, "those" are what came last.
_ALL = lazy_pattern(r"\b(?:all|both|each)\b")
_SIZES = {"fourteen": 14, "twelve": 12, "ten": 10, "eight": 8, "six": 6}


def size_claim(words: str) -> tuple[SizeClaim, tuple[int, int]] | None:
    """The first claim in words in small letters, and where it stands.

    >>> size_claim("two out of the five are 14-3s")[0].count
    2
    """
    for pattern in PATTERNS:
        found = pattern.search(words)
        claim = _claim(found) if found else None
        if found and claim:
            too = GROUND_TOO.match(words[found.end() :])
            end = found.end() + (too.end() if too else 0)
            return _with_ground(claim) if too else claim, (found.start(), end)
    return None


def _with_ground(claim: SizeClaim) -> SizeClaim:
    return replace(claim, ground_too=True)


def _claim(found: re.Match[str]) -> SizeClaim | None:
    groups = found.groupdict()
    now, was = _said(groups, "now"), _said(groups, "was")
    if now is None or (groups.get("bare") and not _ALL.search(found[0])):
        return None
    was, of = was or WireSize(), _worth(groups.get("of") or groups.get("all_of"))
    if groups.get("rest"):
        return SizeClaim("all_but_one", now, was, _worth(groups.get("count")), of)
    if groups.get("but"):
        return SizeClaim("all_but_one", now, was, None, of)
    if groups.get("vague"):
        return SizeClaim("so_many", now, was, None, of)
    if groups.get("half"):
        return SizeClaim("half", now, was, None, of)
    if groups.get("one"):
        if groups.get("many"):
            return SizeClaim("all", now, was)
        placed = groups.get("placed") or ""
        return SizeClaim(
            "so_many", now, was, 1, of,
            definite=not placed, odd="odd" in placed, lands=bool(groups.get("lands")),
        )  # fmt: skip
    if groups.get("count"):
        return SizeClaim("so_many", now, was, _worth(groups["count"]), of)
    if groups.get("throughout"):
        return SizeClaim("all", now, was, throughout=True)
    both = re.search(r"\b(?:both|pair)\b", found[0]) is not None
    return SizeClaim("all", now, was, None, of or (2 if both else None))


def _worth(said: str | None) -> int | None:
    if said is None:
        return None
    return 2 if said == "a couple" else int(spoken_value(said))


def _said(groups: dict[str, str | None], name: str) -> WireSize | None:
    """The size said under a name."""
    if pair := groups.get(f"{name}_awg"):
        inside = _worth(groups[f"{name}_in"]) or 0
        return WireSize(gauge(pair), inside * (2 if groups[f"{name}_two"] else 1))
    if wires := groups.get(f"{name}_wires"):
        return WireSize(None, _worth(wires))
    bare = groups.get(f"{name}_bare")
    return WireSize(gauge(bare)) if bare else None


def gauge(said: str) -> int:
    """The AWG number of a size in words or figures.

    >>> gauge("number ten")
    10
    """
    said = said.rsplit(" ")[-1].lstrip("#")
    return _SIZES.get(said) or int(said)
