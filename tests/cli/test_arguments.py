"""The command line as it is read: orders, refusals, help, version, and what is never loaded."""

from __future__ import annotations

import inspect
import signal
import subprocess
import sys
import time
from importlib import metadata
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.cli.arguments import run
from boxaloud.assistant.cli.command_rows import Command, argument, group, option, switch
from boxaloud.assistant.text.problem import Problem
from every_command import BOX, COMMANDS, TYPED, Taken, boxaloud


def try_out(*words: str) -> dict[str, Any]:
    taken = Taken()
    command = Command("try", "Try it.", taken, (
        argument("things", "Things.", many=True),
        option("edition", "An edition."),
        option("out", "A file.", "-o", "--out", kind="path", default=None),
        option("port", "A port.", kind="number", default=8000, least=1, most=65535),
        option("files", "Files.", "--file", kind="path", many=True),
        switch("json", "JSON."),
    ))  # fmt: skip
    run(command, "try", words)
    return taken.values


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["a"], {"things": ["a"]}),
        (["a", "--json", "b"], {"things": ["a", "b"], "json": True}),
        (["--edition", "2020", "a"], {"edition": "2020"}),
        (["--edition=2020", "a"], {"edition": "2020"}),
        (["--edition=a=b", "a"], {"edition": "a=b"}),
        (["--edition=", "a"], {"edition": ""}),
        (["--edition", "--json", "a"], {"edition": "--json", "json": False}),
        (["--edition", "2014", "a", "--edition", "2017"], {"edition": "2017"}),
        (["-o", "x.csv", "a"], {"out": Path("x.csv")}),
        (["-ox.csv", "a"], {"out": Path("x.csv")}),
        (["--out", "x.csv", "a"], {"out": Path("x.csv")}),
        (["a", "-"], {"things": ["a", "-"]}),
        (["a", "--", "--json", "-o"], {"things": ["a", "--json", "-o"], "json": False}),
        (["a", "--file", "1", "--file", "2"], {"files": [Path("1"), Path("2")]}),
        (["a", "--port", "65535"], {"port": 65535}),
        (["a"], {"out": None, "port": 8000, "files": [], "json": False, "edition": ""}),
        ([""], {"things": [""]}),
    ],
)
def test_words_become_values(words: list[str], expected: dict[str, Any]) -> None:
    found = try_out(*words)
    assert {name: found[name] for name in expected} == expected
    assert set(found) == {"things", "edition", "out", "port", "files", "json"}


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (["a", "--nope"], "--nope"),
        (["a", "--editon", "2020"], "--edition"),  # the option it may have meant
        (["a", "-x"], "-x"),
        (["a", "--ed", "2020"], "--ed"),  # never by a beginning: it may come to mean another
        (["a", "--edition"], "--edition"),
        (["a", "--json=yes"], "--json"),
        (["a", "--port", "x"], "--port"),
        (["a", "--port", "0"], "65535"),
        (["a", "--port", "65536"], "65535"),
        (["a", "--port", "1.5"], "--port"),
        ([], "things"),
        (["--"], "things"),
    ],
)
def test_what_cannot_be_read_is_one_sentence_naming_it(words: list[str], named: str) -> None:
    with pytest.raises(Problem) as refused:
        try_out(*words)
    sentence = str(refused.value)
    assert named in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence


def test_an_argument_too_many_is_refused() -> None:
    command = Command("one", "One.", Taken(), (argument("name", "A name."),))
    with pytest.raises(Problem, match="extra"):
        run(command, "one", ["a", "b"])


def test_an_argument_that_may_be_left_out_has_its_default() -> None:
    taken = Taken()
    run(Command("one", "One.", taken, (argument("name", "A name.", required=False),)), "one", [])
    assert taken.values == {"name": ""}


def test_an_option_that_must_be_given_is_asked_for() -> None:
    command = Command("one", "One.", Taken(), (option("out", "A file.", "-o", required=True),))
    with pytest.raises(Problem, match="'-o'"):
        run(command, "one", [])


def test_a_group_hands_on_to_its_command() -> None:
    taken, bare = Taken(3), Taken(4)
    one = Command("one", "One.", taken, (switch("json", "JSON."),))
    both = group("both", "Both.", (one,), bare, (switch("still", "Still."),))
    assert run(both, "both", ["one", "--json"]) == 3
    assert taken.values == {"json": True}
    assert run(both, "both", ["--still"]) == 4
    assert bare.values == {"still": True}


def test_a_command_misspelt_is_named_with_the_one_it_may_mean() -> None:
    done = boxaloud("chek", BOX)
    assert done.returncode == 2
    assert "'chek'" in done.stderr
    assert "'check'" in done.stderr


@pytest.mark.parametrize("called", sorted(COMMANDS))
def test_what_a_command_takes_is_what_its_function_takes(called: str) -> None:
    command = COMMANDS[called]
    names = [each.name for each in command.takes if each.answers is None]
    assert len(set(names)) == len(names)
    flags = [flag for each in command.takes for flag in each.flags]
    assert len(set(flags)) == len(flags)
    if command.run is not None:
        assert list(inspect.signature(command.run).parameters) == names
    assert command.run is not None or command.commands


def test_the_version_is_that_of_the_installed_package() -> None:
    try:
        installed = metadata.version("boxaloud")
    except metadata.PackageNotFoundError:
        pytest.skip("the package is not installed beside this Python")
    done = boxaloud("--version")
    assert (done.returncode, done.stdout, done.stderr) == (0, f"boxaloud {installed}\n", "")


def test_the_search_for_garbage_goes_on_after_a_check() -> None:
    code = (
        "import gc\ntry:\n    from boxaloud.assistant.cli.start import main; main()\n"
        "except SystemExit: pass\nprint(gc.isenabled())"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, "check", BOX], capture_output=True, text=True, check=True
    )
    assert done.stdout.splitlines()[-1] == "True"


def test_an_interrupt_is_no_traceback() -> None:
    talk = subprocess.Popen(
        [sys.executable, "-c", TYPED, "chat"],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert talk.stdout is not None
    assert talk.stdout.readline()
    time.sleep(0.1)
    talk.send_signal(signal.SIGINT)
    _, complaint = talk.communicate(timeout=60)
    assert talk.returncode == 130
    assert complaint.strip() == ""


@pytest.mark.skipif(sys.platform == "win32", reason="a closed pipe is another thing there")
def test_a_reader_that_has_gone_is_no_verdict() -> None:
    # past defect: an error of the pipe came out as 1, which says that the box is over
    done = subprocess.run(
        ["bash", "-c", '"$0" -c "$1" check "$2" | true; exit "${PIPESTATUS[0]}"',
         sys.executable, TYPED, BOX],
        capture_output=True, text=True, timeout=120,
    )  # fmt: skip
    assert done.returncode == 141  # 128 and SIGPIPE, as a shell tells it
    assert done.stderr == ""
