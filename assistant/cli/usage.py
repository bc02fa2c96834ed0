"""The help of a command, made from the rows that its command line is read by."""

from __future__ import annotations

import os
import textwrap
from collections.abc import Iterator, Sequence

from boxaloud.assistant.cli.command_rows import Command, Parameter

WIDEST = 80
WORDS = {"text": "TEXT", "path": "FILE", "number": "NUMBER"}


def shown(command: Command, called: str, always: tuple[Parameter, ...] = (), width: int = 0) -> str:
    """The help of `command`, called as `called`, with options that every command `always` has.

    It is `width` columns wide, else as wide as the terminal.
    """
    width = width or _columns()
    return "\n".join(_lines(command, called, always, width))


def _columns() -> int:
    try:
        return max(40, min(WIDEST, os.get_terminal_size().columns))
    except OSError:
        return WIDEST


def _lines(
    command: Command, called: str, always: tuple[Parameter, ...], width: int
) -> Iterator[str]:
    options = [each for each in (*command.takes, *always) if each.flags]
    arguments = [each for each in command.takes if not each.flags]
    parts = ["[OPTIONS]", *(_place(each) for each in arguments)]
    if command.commands:
        parts += ["COMMAND", "..."] if command.run is None else ["[COMMAND", "...]"]
    usage = f"Usage: {called} "
    yield from textwrap.wrap(
        " ".join(parts), width, initial_indent=usage, subsequent_indent=" " * 7
    )
    yield ""
    yield from textwrap.wrap(command.about, width, initial_indent="  ", subsequent_indent="  ")
    if arguments:
        yield from _table("Arguments:", [(each.name, _says(each)) for each in arguments], width)
    yield from _table("Options:", [(_flags(each), _says(each)) for each in options], width)
    if command.commands:
        below = [(each.name, _first_sentence(each.about)) for each in command.commands]
        yield from _table("Commands:", below, width)
    if command.example:
        yield ""
        yield "Example:"
        yield f"  {command.example}"


def _place(argument: Parameter) -> str:
    text = argument.name + ("..." if argument.many else "")
    return text if argument.required else f"[{text}]"


def _flags(option: Parameter) -> str:
    flags = ", ".join(option.flags)
    return flags if option.kind == "switch" else f"{flags} {WORDS[option.kind]}"


def _says(option: Parameter) -> str:
    notes = []
    if option.choices:
        notes.append(f"one of: {', '.join(option.choices)}")
    default = option.default_shown or option.default
    if default and option.kind != "switch":
        notes.append(f"default: {default}")
    if option.kind == "number":
        notes.append(f"from {option.least} to {option.most}")
    if option.required and option.flags:
        notes.append("required")
    return option.help + (f"  [{'; '.join(notes)}]" if notes else "")


def _first_sentence(text: str) -> str:
    first, stop, _ = text.partition(". ")
    return first + stop.strip()


def _table(title: str, rows: Sequence[tuple[str, str]], width: int) -> Iterator[str]:
    """Two columns under a title; the second on a line of its own where the first is long."""
    yield ""
    yield title
    column = 4 + min(max(len(name) for name, _ in rows), width // 3)
    for name, says in rows:
        lead = f"  {name}".ljust(column)
        if len(lead) > column:
            yield lead
            lead = ""
        indent = " " * column
        yield from textwrap.wrap(
            says, width, initial_indent=lead or indent, subsequent_indent=indent
        )
