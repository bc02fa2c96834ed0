"""A command line read: which command is meant, and a value for each thing it takes.

Options may stand before, between and after
arguments; `--` ends them. The last of an option given twice holds, unless it may be repeated.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from boxaloud.assistant.cli.command_rows import Command, Parameter, answer
from boxaloud.assistant.cli.exit_codes import FITS, UNUSABLE
from boxaloud.assistant.text import printing
from boxaloud.assistant.text.problem import Problem


class Misuse(Problem):
    """A command line that cannot be read."""

    def __init__(self, what: str) -> None:
        super().__init__(f"{what}: say “boxaloud --help” for what can be asked of it.")


def _help(command: Command, called: str) -> str:
    from boxaloud.assistant.cli.usage import shown

    return shown(command, called, (HELP,))


HELP = answer("help", "Show this message and exit.", _help)


def run(command: Command, called: str, words: Sequence[str]) -> int:
    """Do what `words` ask of `command`, which was called as `called`; give the exit status.

    Raises Misuse, in a sentence, where they cannot be read.
    """
    flags = {flag: each for each in (*command.takes, HELP) for flag in each.flags}
    values: dict[str, Any] = {each.name: [] for each in command.takes if each.many}
    placed: list[str] = []
    waiting = list(reversed(words))
    while waiting and not (command.commands and placed):
        word = waiting.pop()
        if word == "--":
            break
        if word == "-" or not word.startswith("-"):
            placed.append(word)
            continue
        taken, value = _option(flags, word, waiting)
        if taken.answers is not None:
            return _print(taken.answers(command, called), FITS)
        _keep(values, taken, value)
    placed += reversed(waiting)
    if command.commands and placed:
        below = _below(command, placed[0])
        return run(below, f"{called} {below.name}", placed[1:])
    if command.run is None:
        return _print(_help(command, called), UNUSABLE)
    _place(command, placed, values)
    return command.run(**values)


def _print(text: str, status: int) -> int:
    """Put out `text` at once, so that a reader that has gone is met here; give `status`."""
    printing.put(text)
    return status


def _option(
    flags: Mapping[str, Parameter], word: str, waiting: list[str]
) -> tuple[Parameter, str | bool]:
    """The option that a word names, and its value: in the same word, or the next one."""
    if word.startswith("--"):
        flag, equals, text = word.partition("=")
    else:
        flag, text = word[:2], word[2:]
        equals = text
    if flag not in flags:
        raise Misuse(f"No such option: {flag}{_near(flag, flags, 'Possible options: ')}")
    taken = flags[flag]
    if taken.kind == "switch":
        if equals:
            raise Misuse(f"Option '{flag}' does not take a value")
        return taken, True
    if not equals:
        if not waiting:
            raise Misuse(f"Option '{flag}' requires an argument")
        text = waiting.pop()
    return taken, text


def _place(command: Command, placed: Sequence[str], values: dict[str, Any]) -> None:
    """Give each argument its word, and everything that was not given its default."""
    left = list(placed)
    for each in command.takes:
        if not each.flags:
            mine, left = (left, []) if each.many else (left[:1], left[1:])
            for text in _matching(mine) if each.many and each.kind == "path" else mine:
                _keep(values, each, text)
        if each.required and not (values[each.name] if each.many else each.name in values):
            flags = " / ".join(map(repr, each.flags))
            raise Misuse(f"Missing option {flags}" if flags else f"Missing argument '{each.name}'")
        if each.answers is None:
            values.setdefault(each.name, each.default)
    if left:
        word = "argument" if len(left) == 1 else "arguments"
        raise Misuse(f"Got unexpected extra {word} ({' '.join(left)})")


def _keep(values: dict[str, Any], taken: Parameter, text: str | bool) -> None:
    value: object = text
    if taken.kind == "path":
        value = Path(str(text))
    elif taken.kind == "number":
        value = _number(taken, str(text))
    if taken.many:
        values[taken.name].append(value)
    else:
        values[taken.name] = value


def _number(taken: Parameter, text: str) -> int:
    try:
        number = int(text)
    except ValueError:
        raise Misuse(
            f"Invalid value for '{taken.flags[-1]}', {text!r} is no whole number"
        ) from None
    if not taken.least <= number <= taken.most:
        span = f"from {taken.least} to {taken.most}"
        raise Misuse(f"Invalid value for '{taken.flags[-1]}', {number} is not {span}")
    return number


def _below(command: Command, name: str) -> Command:
    for each in command.commands:
        if each.name == name:
            return each
    names = [each.name for each in command.commands]
    near = _near(name, names, "did you mean ", quoted=True)
    raise Misuse(f"No such command {name!r}{near}")


def _near(word: str, known: Iterable[str], lead: str, quoted: bool = False) -> str:
    """What a misspelt word may have meant, in brackets; empty where nothing is near."""
    import difflib

    near = difflib.get_close_matches(word, list(known))
    shown = ", ".join(map(repr, near) if quoted else near)
    return f" ({lead}{shown}{'?' if quoted else ''})" if near else ""


def _matching(words: Sequence[str]) -> list[str]:
    """File names with the patterns among them filled in, where the shell leaves that to us."""
    if sys.platform != "win32":
        return list(words)
    from glob import glob

    return [name for word in words for name in sorted(glob(word)) or [word]]
