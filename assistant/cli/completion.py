"""What a command line may go on with, found from the rows that it is read by."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from boxaloud.assistant.cli.command_rows import Command, Names, Parameter

Kept = Callable[[Names, str], Iterable[str]]
"""The jobs kept, or the boxes of the job named, of the last one where none is."""


class Candidate(NamedTuple):
    """One way to go on: the whole of the word begun, and what it does."""

    word: str
    about: str = ""


def candidates(
    command: Command, words: Sequence[str], kept: Kept, always: tuple[Parameter, ...] = ()
) -> list[Candidate]:
    """Every way to end the last of `words`, which is empty where none is begun.

    `words` are those after the program's name; every command has the options `always` too.
    Nothing is found where a file or free text is due.
    """
    *before, begun = words or [""]
    found = _Line(command, always)
    for word in before:
        found.take(word)
    return [each for each in found.next(begun, kept) if each.word.startswith(begun)]


class _Line:
    """A command line as far as it goes."""

    def __init__(self, command: Command, always: tuple[Parameter, ...]) -> None:
        self._command, self._always = command, always
        self._placed: list[str] = []
        self._given: dict[str, str] = {}
        self._waiting: Parameter | None = None
        self._ended = False

    def take(self, word: str) -> None:
        """One whole word more."""
        if self._waiting is not None:
            self._given[self._waiting.name] = word
            self._waiting = None
        elif word == "--":
            self._ended = True
        elif word.startswith("-") and word != "-" and not self._ended:
            self._option(word)
        elif below := self._below(word):
            self._command, self._placed = below, []
        else:
            self._placed.append(word)

    def _option(self, word: str) -> None:
        flag, equals, value = word.partition("=")
        taken = self._flags().get(flag)
        if taken is None:
            return
        self._given[taken.name] = value
        if taken.kind != "switch" and not equals:
            self._waiting = taken

    def _flags(self) -> dict[str, Parameter]:
        options = (*self._command.takes, *self._always)
        return {flag: each for each in options for flag in each.flags}

    def _below(self, word: str) -> Command | None:
        if self._placed or self._ended:
            return None
        return next((each for each in self._command.commands if each.name == word), None)

    def next(self, begun: str, kept: Kept) -> Iterator[Candidate]:
        """What may stand where the word `begun` does."""
        if self._waiting is not None:
            yield from self._values(self._waiting, kept)
        elif begun.startswith("-") and not self._ended:
            yield from self._options(begun, kept)
        elif self._command.commands:
            if not self._placed:
                yield from (Candidate(each.name, each.about) for each in self._command.commands)
        elif argument := self._argument():
            yield from self._values(argument, kept)

    def _options(self, begun: str, kept: Kept) -> Iterator[Candidate]:
        flag, equals, _ = begun.partition("=")
        flags = self._flags()
        if equals:
            if flag in flags:
                values = self._values(flags[flag], kept)
                yield from (Candidate(f"{flag}={value}", about) for value, about in values)
            return
        for name, each in flags.items():
            if each.many or each.name not in self._given:
                yield Candidate(name, each.help)

    def _argument(self) -> Parameter | None:
        """The argument whose turn it is."""
        places = [each for each in self._command.takes if not each.flags]
        if len(self._placed) < len(places):
            return places[len(self._placed)]
        return places[-1] if places and places[-1].many else None

    def _values(self, due: Parameter, kept: Kept) -> Iterator[Candidate]:
        yield from map(Candidate, due.choices)
        if due.names:
            yield from map(Candidate, kept(due.names, self._job()))

    def _job(self) -> str:
        """The job that is named so far, empty where none is."""
        places = [each for each in self._command.takes if not each.flags]
        named = [word for word, each in zip(self._placed, places, strict=False) if _is_job(each)]
        named += [self._given.get(each.name, "") for each in self._command.takes if _is_job(each)]
        return next(filter(None, named), "")


def _is_job(parameter: Parameter) -> bool:
    return parameter.names == "job"
