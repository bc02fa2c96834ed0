"""What the Tab key offers: from the rows, and through each shell that is installed."""

from __future__ import annotations

import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from boxaloud.assistant.cli.arguments import HELP
from boxaloud.assistant.cli.command_rows import DEFAULT_EDITION as DEFAULT_SHOWN
from boxaloud.assistant.cli.command_rows import EDITIONS, Command, Parameter
from boxaloud.assistant.cli.completion import candidates
from boxaloud.assistant.cli.main import BOXALOUD, app
from boxaloud.assistant.contract.document_schemas import DOCUMENTS
from boxaloud.assistant.storage import Session
from boxaloud.assistant.tui.theme import NAMES as COLOURS
from boxaloud.rules import editions
from boxaloud.rules.contents import DEFAULT_EDITION

PROGRAM = (
    f"{shlex.quote(sys.executable)} -c 'from boxaloud.assistant.cli.start import main; main()'"
)


def kept(what: str, job: str) -> list[str]:
    return ["Heron Street", "Quill"] if what == "job" else [f"pantry of {job}"]


def offered(line: str) -> list[str]:
    """What may stand where the line ends; a line that ends in a space begins a new word."""
    words = shlex.split(line) + ([""] if not line or line.endswith(" ") else [])
    return [each.word for each in candidates(BOXALOUD, words, kept, (HELP,))]


def named(command: Command) -> list[str]:
    return [each.name for each in command.commands]


def test_commands_are_offered_by_their_beginning() -> None:
    assert offered("") == named(BOXALOUD)
    assert offered("s") == [name for name in named(BOXALOUD) if name.startswith("s")]
    assert offered("job re") == ["rename", "remove", "restore"]


@pytest.mark.parametrize(
    ("line", "due"),
    [
        ("check --edition ", list(EDITIONS)),
        ("check --edition=202", ["--edition=2020", "--edition=2023", "--edition=2026"]),
        ("check 'a switch' --units ", ["in3", "cm3"]),
        ("--colours d", ["dark"]),
        ("talk --listen o", ["open"]),
        ("schema r", ["reply", "row", "result", "report"]),
        ("chat --job ", ["Heron Street", "Quill"]),
        ("job show ", ["Heron Street", "Quill"]),
        ("report Q", ["Quill"]),
        ("job remove Quill --box ", ["pantry of Quill"]),
        ("share --job Quill ", ["pantry of Quill"]),
        ("share ", ["pantry of "]),
        ("completion z", ["zsh"]),
        ("job show Quill ", []),
        ("nonsense ", []),
        ("check --edition 2020 ", []),
        ("check -- --ed", []),
        ("serve --port ", []),
    ],
)
def test_values_are_offered_where_they_are_due(line: str, due: list[str]) -> None:
    assert offered(line) == due


def test_an_option_is_offered_once_unless_it_may_be_repeated() -> None:
    assert set(offered("check -")) == {"--edition", "--json", "--units", "--help"}
    assert "--edition" not in offered("check --edition 2020 -")
    assert "--device-file" in offered("talk --device-file a.wav -")


def parameters(command: Command) -> Iterator[Parameter]:
    yield from command.takes
    for below in command.commands:
        yield from parameters(below)


def test_the_rows_offer_what_the_commands_take() -> None:
    assert editions() == EDITIONS
    assert DEFAULT_SHOWN == DEFAULT_EDITION
    choices = {each.name: each.choices for each in parameters(BOXALOUD) if each.choices}
    assert (choices["of"], choices["colours"]) == (tuple(DOCUMENTS), COLOURS)


@pytest.fixture
def a_job() -> None:
    session = Session.start("Heron Street")
    session.hear("two 14-2 cables")
    session.hear("next box, back porch")
    session.close()


@pytest.mark.usefixtures("a_job")
def test_jobs_and_boxes_that_are_kept_are_offered(capsys: pytest.CaptureFixture[str]) -> None:
    assert app(["completion", "bash", "--", "report", "Her"]) == 0
    assert capsys.readouterr().out == "Heron\\ Street\n"
    assert app(["completion", "bash", "--", "report", '"Her']) == 0
    assert capsys.readouterr().out == "Heron Street\n"
    assert app(["completion", "fish", "--", "share", "--job", "Heron Street", "back"]) == 0
    assert capsys.readouterr().out == "back porch\t\n"
    assert app(["completion", "bash", "--", "share", "--job", "none such", ""]) == 0
    assert capsys.readouterr().out == ""


def shell(name: str, script: str) -> list[str]:
    """The lines that a script for a shell prints, with `boxaloud` the one under test."""
    if shutil.which(name) is None:
        pytest.skip(f"{name} is not installed")
    quiet = {"bash": ["--norc"], "zsh": ["-f"], "fish": ["--no-config"]}[name]
    done = subprocess.run(
        [name, *quiet, "-c", script],
        capture_output=True, text=True, timeout=120, env={**os.environ, "LC_ALL": "C.UTF-8"},
    )  # fmt: skip
    assert done.stderr == ""
    return done.stdout.splitlines()


def bash(*words: str) -> list[str]:
    line = " ".join(map(shlex.quote, ("boxaloud", *words)))
    return shell("bash", (
        f'boxaloud() {{ {PROGRAM} "$@"; }}\neval "$(boxaloud completion bash)"\n'
        f"complete -p boxaloud >/dev/null\n"
        f"COMP_WORDS=({line}); COMP_CWORD={len(words)}\n_boxaloud boxaloud\n"
        'for each in "${COMPREPLY[@]}"; do echo "$each"; done'
    ))  # fmt: skip


@pytest.mark.usefixtures("a_job")
def test_bash_completes() -> None:
    assert bash("job", "re") == ["rename", "remove", "restore"]
    assert bash("check", "--edition", "=", "201") == ["2014", "2017"]
    assert bash("check", "--edition", "=") == list(EDITIONS)
    assert bash("report", "") == ["Heron\\ Street"]
    assert bash("batch", "") == []


@pytest.mark.usefixtures("a_job")
def test_zsh_completes() -> None:
    def zsh(*words: str) -> list[str]:
        line = " ".join(map(shlex.quote, ("boxaloud", *words)))
        return shell("zsh", (
            f'boxaloud() {{ {PROGRAM} "$@"; }}\ncompdef() {{ : }}\n_files() {{ echo files; }}\n'
            '_describe() { print -l -- "${found[@]}"; }\n'
            f'eval "$(boxaloud completion zsh)"\n'
            f"words=({line}); CURRENT={len(words) + 1}\n_boxaloud"
        ))  # fmt: skip

    assert [line.partition(":")[0] for line in zsh("job", "re")] == ["rename", "remove", "restore"]
    assert zsh("report", "") == ["Heron Street"]
    assert zsh("batch", "") == ["files"]


@pytest.mark.usefixtures("a_job")
def test_fish_completes(tmp_path: Path) -> None:
    (tmp_path / "some_rows.csv").touch()

    def fish(line: str) -> list[str]:
        found = shell("fish", (
            f"cd {shlex.quote(str(tmp_path))}\n"
            f"function boxaloud; {PROGRAM} $argv; end\nboxaloud completion fish | source\n"
            f"complete -C {shlex.quote('boxaloud ' + line)}"
        ))  # fmt: skip
        return [each.partition("\t")[0] for each in found]

    assert fish("job re") == ["remove", "rename", "restore"]
    assert fish("report Her") == ["Heron Street"]
    assert fish("batch some") == ["some_rows.csv"]
