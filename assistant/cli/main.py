"""The command `boxaloud`: each subcommand a thin front end, imported only when it is used."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from boxaloud.assistant.cli import job_command_table as job_commands
from boxaloud.assistant.cli import voice_command_table
from boxaloud.assistant.cli.arguments import run
from boxaloud.assistant.cli.command_rows import (
    DEFAULT_EDITION,
    EDITIONS,
    Command,
    answer,
    argument,
    group,
    option,
    switch,
)
from boxaloud.assistant.cli.gc_pause import lasting
from boxaloud.assistant.cli.screen_command_table import SCREEN, SERVE, WEB, screen

EDITION = option(
    "edition", "Code edition to count by.", choices=EDITIONS,
    default_shown=f"the job's, else {DEFAULT_EDITION}",
)  # fmt: skip
UNITS = option(
    "units", "cm3 shows cubic centimetres beside cubic inches.",
    default="in3", choices=("in3", "cm3"),
)  # fmt: skip
JOB = option("job", "Keep what is said in this job, and go on where it was.", names="job")
JSON = switch("json", "One JSON object a line instead of text.")


def _check(statements: list[str], edition: str, json: bool, units: str) -> int:
    with lasting():
        from boxaloud.assistant.cli.commands import check_command as front

        return front.run(statements, edition, json, units)


def _chat(job: str, edition: str, json: bool, units: str) -> int:
    with lasting():
        from boxaloud.assistant.cli.commands import chat_command as front

    return front.run(sys.stdin, job, edition, json, units)


def _hear(recordings: list[Path], job: str, edition: str, json: bool) -> int:
    from boxaloud.assistant.cli.commands import hear_command as front

    return front.run(recordings, job, edition, json)


def _completion(shell: str, words: list[str]) -> int:
    from boxaloud.assistant.cli.commands import completion_command

    return completion_command.run(BOXALOUD, shell, words)


def _version(_: Command, called: str) -> str:
    from boxaloud.assistant import __version__

    return f"{called} {__version__}"


CHECK = Command(
    "check",
    "Work out one box. Exit status: 0 fits, 1 over, 3 incomplete, 2 not understood.",
    _check,
    (
        argument("statements", "What is in the box, in words.", many=True),
        EDITION._replace(default_shown=DEFAULT_EDITION),
        JSON,
        UNITS,
    ),
    example='boxaloud check "three 12-2s and a receptacle, 18 cubic inches, no clamps"',
)
CHAT = Command(
    "chat",
    "Talk boxes through line by line, on standard input and output.",
    _chat,
    (JOB, EDITION, JSON, UNITS),
    example='boxaloud chat --job "Quillback House" --edition 2020',
)
HEAR = Command(
    "hear",
    "Talk a box through by recordings. Exit status as for check.",
    _hear,
    (
        argument("recordings", "WAV files, heard in this order.", kind="path", many=True),
        JOB,
        EDITION,
        JSON,
    ),
    example="boxaloud hear kitchen.wav island.wav --json",
)
COMPLETION = Command(
    "completion",
    "Print what lets a shell complete a command line at the Tab key. For bash and zsh: "
    'eval "$(boxaloud completion bash)"; for fish: boxaloud completion fish | source.',
    _completion,
    (
        argument("shell", "The shell that is to complete.", choices=("bash", "zsh", "fish")),
        argument("words", "For the shell itself: the words so far, behind --.", many=True,
                 required=False),
    ),
    example="boxaloud completion bash",
)  # fmt: skip
BOXALOUD = group(
    "boxaloud",
    "Say what is in an electrical box and hear whether it fits, section by section.",
    (
        CHECK,
        CHAT,
        HEAR,
        SERVE,
        WEB,
        *job_commands.COMMANDS,
        *voice_command_table.COMMANDS,
        COMPLETION,
    ),
    screen,
    (*SCREEN, answer("version", "Show the version and exit.", _version)),
    example='boxaloud --job "Quillback House" --colours contrast',
)


def app(words: Sequence[str]) -> int:
    """Do what the words after `boxaloud` ask; give the exit status.

    Raises Problem, in a sentence, for what the user can mend.
    """
    return run(BOXALOUD, BOXALOUD.name, words)
