"""What the rules refuse, always in one plain sentence: what is wrong, where, what to do."""

from __future__ import annotations


class RulesError(ValueError):
    """Something described cannot be counted. `str(error)` is a sentence to read aloud."""


class NoSuchBox(RulesError):
    """No row of Table 314.16(A) has these dimensions, so the box must be marked."""

    rule = "unmarked-box"
    """What `rules.explain` tells of the refusal."""


class NotMarked(RulesError):
    """A box that must be marked with its volume was given by its dimensions alone."""

    rule = "unmarked-box"
    """What `rules.explain` tells of the refusal."""


class NoSuchEdition(RulesError):
    """An edition that is not held."""


class EditionUnsure(NoSuchEdition):
    """A name that may mean several editions: `choices` are those it may mean, oldest first."""

    def __init__(self, says: str, choices: tuple[str, ...] = ()) -> None:
        super().__init__(says)
        self.choices = choices
