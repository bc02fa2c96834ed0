"""What the rules refuse, always in one plain sentence: what is wrong, where, what to do."""

from __future__ import annotations


class RulesError(ValueError):
    """Something described cannot be counted. `str(error)` is a sentence to read aloud."""


class NoSuchBox(RulesError):
    """No row of Table 314.16(A) has these dimensions, so the box must be marked."""

    rule = "unmarked-box"
    """What `rules.explain` tells of the refusal."""


class NoSuchEdition(RulesError):
    """An edition that is not held."""
