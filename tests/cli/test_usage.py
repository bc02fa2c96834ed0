"""The help of every command: all it takes, examples that run, and nothing of the work loaded."""

from __future__ import annotations

import json
import shlex
import subprocess
import sys

import pytest
from boxaloud.assistant.cli.arguments import run
from boxaloud.assistant.cli.main import BOXALOUD, app
from boxaloud.assistant.cli.usage import shown
from every_command import BOX, COMMANDS, Taken, boxaloud


@pytest.mark.parametrize("called", sorted(COMMANDS))
def test_help_shows_all_that_a_command_takes(
    called: str, capsys: pytest.CaptureFixture[str]
) -> None:
    command = COMMANDS[called]
    assert app([*called.split()[1:], "--help"]) == 0
    text = capsys.readouterr().out
    assert text.startswith(f"Usage: {called}")
    assert max(len(line) for line in text.splitlines()) <= 80
    words = text.split()
    for each in command.takes:
        for flag in each.flags:
            assert flag in words or f"{flag}," in words
    for below in command.commands:
        assert below.name in words


@pytest.mark.parametrize("called", sorted(COMMANDS))
def test_help_ends_with_a_line_that_can_be_run(
    called: str, capsys: pytest.CaptureFixture[str]
) -> None:
    command = COMMANDS[called]
    taken = Taken(5)
    words = shlex.split(command.example)
    steps = len(called.split())
    assert words[:steps] == called.split() or command.commands
    if command.commands and words[steps : steps + 1] and not words[steps].startswith("-"):
        command, steps = COMMANDS[" ".join(words[: steps + 1])], steps + 1
    assert run(command._replace(run=taken, commands=()), called, words[steps:]) == 5
    app([*called.split()[1:], "--help"])
    assert capsys.readouterr().out.splitlines()[-1].strip() == COMMANDS[called].example


@pytest.mark.parametrize("called", sorted(COMMANDS))
def test_help_shows_each_choice_and_default(
    called: str, capsys: pytest.CaptureFixture[str]
) -> None:
    app([*called.split()[1:], "--help"])
    text = " ".join(capsys.readouterr().out.split())
    for each in COMMANDS[called].takes:
        assert ", ".join(each.choices) in text
        if each.flags and each.kind != "switch" and (each.default_shown or each.default):
            assert f"default: {each.default_shown or each.default}" in text


def test_help_wraps_to_a_narrow_terminal() -> None:
    *lines, example = shown(BOXALOUD, "boxaloud", width=40).splitlines()
    assert max(map(len, lines)) <= 40
    assert example.strip() == BOXALOUD.example  # whole, to be copied


def test_a_group_without_its_command_shows_help_and_is_unusable() -> None:
    done = boxaloud("job")
    assert done.returncode == 2
    assert done.stdout == boxaloud("job", "--help").stdout
    assert done.stderr == ""


def loaded_by(*args: str) -> set[str]:
    """The modules that are there when the command has ended."""
    code = (
        "import sys, json\ntry:\n    from boxaloud.assistant.cli.start import main; main()\n"
        "except SystemExit: pass\nprint(json.dumps(list(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *args], capture_output=True, text=True, check=True
    )
    found: list[str] = json.loads(done.stdout.splitlines()[-1])
    return set(found)


@pytest.mark.parametrize("asked", ["--version", "--help"])
def test_version_and_help_load_nothing_of_the_work(asked: str) -> None:
    found = loaded_by(asked)
    ours = {name for name in found if name.split(".")[0] == "boxaloud"}
    assert ours <= {
        "boxaloud",
        "boxaloud.assistant",
        "boxaloud.assistant.cli",
        "boxaloud.assistant.text",
        "boxaloud.assistant.text.problem",
        "boxaloud.assistant.cli.arguments",
        "boxaloud.assistant.cli.main",
        "boxaloud.assistant.cli.command_rows",
        "boxaloud.assistant.cli.gc_pause",
        "boxaloud.assistant.cli.job_command_table",
        "boxaloud.assistant.text.printing",
        "boxaloud.assistant.cli.exit_codes",
        "boxaloud.assistant.cli.screen_command_table",
        "boxaloud.assistant.cli.voice_command_table",
        "boxaloud.assistant.cli.start",
        "boxaloud.assistant.cli.usage",
    }
    assert not found & {"argparse", "dataclasses", "inspect", "tomllib", "platformdirs"}


def test_check_loads_no_jobs_no_sound_and_no_rules_of_other_work() -> None:
    found = loaded_by("check", BOX)
    assert "boxaloud.assistant.cli.commands.check_command" in found
    assert not found & {"argparse", "numpy", "sqlite3", "textual", "wave"}
    assert not found & {
        "boxaloud.assistant.storage.session",
        "boxaloud.assistant.asr",
        "boxaloud.assistant.tts",
    }
    assert not found & {"boxaloud.rules.canada", "boxaloud.rules.conduit", "boxaloud.rules.spaces"}
