"""Commands described as data: help, completion and the reading of a command line rest on the rows.

Nothing here loads what a command does; its function imports that when it runs.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, NamedTuple

Kind = Literal["text", "path", "number", "switch"]
Names = Literal["", "job", "box"]
"""What is kept under a name that a person may choose from."""

EDITIONS = ("2014", "2017", "2020", "2023", "2026")
DEFAULT_EDITION = "2023"
"""That which is counted by where none is named."""
"""As `rules.editions()`, which help does not load; a test holds the two together."""


class Parameter(NamedTuple):
    """One thing that a command takes: an option with its flags, or an argument without any."""

    name: str
    """The keyword of the command's function."""
    help: str
    flags: tuple[str, ...]
    kind: Kind
    default: str | int | None
    many: bool
    required: bool
    least: int
    most: int
    """Of a number: the least and the greatest that may be given."""
    answers: Callable[[Command, str], str] | None = None
    """For `--help` and its like: what to print in place of running the command."""
    choices: tuple[str, ...] = ()
    """What may be given, where that is a few words; the command itself refuses others."""
    names: Names = ""
    """What is named here, to be chosen from what is kept."""
    default_shown: str = ""
    """What holds where it is not given, where the command finds that out."""


class Command(NamedTuple):
    """A command, or a group of commands where there are any below it."""

    name: str
    about: str
    run: Callable[..., int] | None
    """What it does, giving the exit status; None for a group that does nothing by itself."""
    takes: tuple[Parameter, ...] = ()
    commands: tuple[Command, ...] = ()
    example: str = ""
    """A whole command line, as help shows it."""


def option(
    name: str,
    says: str,
    *flags: str,
    kind: Kind = "text",
    default: str | int | None = "",
    many: bool = False,
    required: bool = False,
    least: int = 0,
    most: int = 0,
    choices: tuple[str, ...] = (),
    names: Names = "",
    default_shown: str = "",
) -> Parameter:
    """An option with a value, `--name` unless flags are given."""
    named = flags or ("--" + name.replace("_", "-"),)
    return Parameter(
        name, says, named, kind, default, many, required, least, most, None,
        choices, names, default_shown,
    )  # fmt: skip


def switch(name: str, says: str) -> Parameter:
    """An option without a value, `--name`: off unless given."""
    return Parameter(name, says, (f"--{name}",), "switch", False, False, False, 0, 0)


def argument(
    name: str,
    says: str,
    kind: Kind = "text",
    many: bool = False,
    required: bool = True,
    choices: tuple[str, ...] = (),
    names: Names = "",
) -> Parameter:
    """A word known by its place; the last of a command may take all that are left."""
    return Parameter(
        name, says, (), kind, "", many, required, 0, 0, None, choices, names
    )  # fmt: skip


def answer(name: str, says: str, answers: Callable[[Command, str], str]) -> Parameter:
    """An option that is answered in place of running the command."""
    return switch(name, says)._replace(answers=answers)


def group(
    name: str,
    about: str,
    commands: tuple[Command, ...],
    run: Callable[..., int] | None = None,
    takes: tuple[Parameter, ...] = (),
    example: str = "",
) -> Command:
    """Commands under one name; `run` is what the name does by itself."""
    return Command(name, about, run, takes, commands, example)
