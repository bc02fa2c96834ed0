"""Control of the talk, social talk, and talk about something else."""

from __future__ import annotations

from typing import Literal, TypeAlias

from boxaloud.grammar.acts.act_base import Act
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Undo(Act):
    """Take back so many steps. `last`: "scratch that", which takes back what was just said."""

    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Redo(Act):
    """Take a step forward again."""

    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class StartOver(Act):
    """Empty the box."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetForm(Act):
    """Short or long answers."""

    brief: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Done(Act):
    """The box is finished."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DoIt(Act):
    """ "Do it", "lock that in": what was supposed or proposed is taken.

    `place`: "use the second one", of the boxes that were told; -1 is the last of them.
    """

    place: int | None = None


SocialKind: TypeAlias = Literal[
    "thanks", "greeting", "farewell", "apology", "pause", "dismay", "noted"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Social(Act):
    """Thanking, greeting, pausing: let pass in a word."""

    what: SocialKind = "noted"


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherTalk(Act):
    """Talk about something else; nothing of it is entered."""
