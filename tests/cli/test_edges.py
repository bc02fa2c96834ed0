"""At the edges of a command line: one sentence, the right status, and never a traceback."""

from __future__ import annotations

import json
import os
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from boxaloud.assistant.cli.command_rows import Command
from boxaloud.assistant.cli.main import BOXALOUD
from boxaloud.assistant.text.printing import clean, clean_json
from edge_runs import BOX, RUN, one_sentence, ran

STEERING = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]")
HOSTILE = "\x1b]0;owned\x07\x1b[2J\u202egnirts\x9b31m\x08\r"


def test_no_character_that_steers_is_printed() -> None:
    every = "".join(map(chr, range(0x110000)))
    assert not STEERING.search(clean(every).replace("\n", "").replace("\t", ""))
    assert "\n" in clean(every)
    assert (
        clean("Küche, кухня, 台所, می‌خواهم, ½ in³ “x”") == "Küche, кухня, 台所, می‌خواهم, ½ in³ “x”"
    )


def test_json_is_the_same_value_with_nothing_to_steer_by() -> None:
    text = clean_json(json.dumps({"name": HOSTILE + "\U000e0041\ud800"}, ensure_ascii=False))
    assert not STEERING.search(text)
    assert json.loads(text) == {"name": HOSTILE + "\U000e0041\ud800"}


def rows(path: Path, name: str) -> Path:
    row = {"name": name, "says": "two 14-2 cables, 18 cubic inch box"}
    path.write_text(json.dumps(row) + "\n", encoding="utf-8")
    return path


def test_a_name_steers_no_terminal_in_any_command(home: Path) -> None:
    name = HOSTILE.replace("\x00", "")
    jsonl = rows(home / "rows.jsonl", name)
    table = home / "rows.csv"
    table.write_text(f"name,says\n{name.replace(chr(13), '')},two 14-2 cables\n", encoding="utf-8")
    calls: list[tuple[tuple[str, ...], str]] = [
        (("job", "start", name), ""),
        (("chat", "--job", name), f"next box {name}\ntwo 14-2 cables\n{name}\ncall it {name}\n"),
        (("chat", "--job", name, "--json"), f"next box {name}\ntotal\n"),
        (("job", "list"), ""),
        (("job", "show", name), ""),
        (("job", "about", name, "--site", name, "--prepared-by", name), ""),
        (("job", "copy", name, f"{name}2"), ""),
        (("job", "rename", f"{name}2", f"{name}3"), ""),
        (("report", name, "-o", str(home / f"{HOSTILE[:4]}.csv")), ""),
        (("share", "--job", name), ""),
        (("share", "--job", name, "--markdown"), ""),
        (("share", name, "--job", name), ""),
        (("job", "remove", name), ""),
        (("job", "list"), ""),
        (("job", "restore", name), ""),
        (("job", "show", f"no{name}"), ""),
        (("batch", str(jsonl)), ""),
        (("batch", str(table)), ""),
        (("batch", f"{name}.csv"), ""),
        (("check", name, f"a {name} box"), ""),
        (("check", "--json", f"a {name} box"), ""),
        (("check", f"--{name}"), ""),
        ((name,), ""),
        (("schema", name), ""),
        (("hear", name), ""),
    ]
    for words, said in calls:
        done = ran(*words, stdin=None, input=said.encode())
        for out in (done.stdout.decode(), done.stderr.decode()):
            assert not STEERING.search(out), (words[:2], out)
            assert "Traceback" not in out
            assert "fault of its own" not in out, out


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp437", "cp1252"])
def test_letters_that_the_encoding_lacks_are_shown_as_what_comes_nearest(
    encoding: str, home: Path
) -> None:
    done = ran("check", *BOX, env={**os.environ, "PYTHONIOENCODING": encoding})
    assert done.returncode == 0
    assert done.stderr == b""
    # four 14 AWG conductors, a device, the grounds: 7 x 2.00, NEC 314.16(B)(1), (4), (5), 2023
    shown = done.stdout.decode(encoding)
    assert re.search("Total 14.00 of 18.0 in[³3]", shown)
    done = ran("check", "--json", *BOX, env={**os.environ, "PYTHONIOENCODING": encoding})
    assert json.loads(done.stdout.decode(encoding).splitlines()[-1])["verdict"] == "fits"


def test_nothing_else_writes_to_the_streams() -> None:
    root = Path(__file__).parents[2]
    for path in sorted((root / "assistant").rglob("*.py")):
        if path.name in ("printing.py", "model_probe.py"):  # the latter answers in JSON
            continue
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"std(out|err)\.write|\bprint\(", text), path


COMMANDS = [
    ("check", *BOX), ("check", "--json", *BOX), ("chat",), ("job", "list"), ("--help",),
    ("--version",), ("schema",), ("job", "start", "Heron"), (),
]  # fmt: skip


def closing(number: int) -> Callable[[], None]:
    return lambda: os.close(number)


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_without_standard_output_there_is_a_sentence_and_no_verdict(
    words: tuple[str, ...], home: Path
) -> None:
    done = subprocess.run(
        [*RUN, *words], stdin=subprocess.DEVNULL, stderr=subprocess.PIPE, preexec_fn=closing(1)
    )
    assert "Standard output cannot be written to" in one_sentence(done.stderr)
    assert done.returncode == 2


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is full")
@pytest.mark.parametrize("words", [*COMMANDS, "batch"], ids=" ".join)
def test_a_full_standard_output_is_told(words: tuple[str, ...], home: Path) -> None:
    if words == "batch":  # type: ignore[comparison-overlap]
        words = ("batch", str(rows(home / "rows.jsonl", "porch")))
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [*RUN, *words], stdin=subprocess.DEVNULL, stderr=subprocess.PIPE, stdout=full
        )
    told = done.stderr.decode().splitlines()
    assert "Standard output cannot be written to: No space left on device." in told
    assert "Traceback" not in done.stderr.decode()
    assert done.returncode == 2


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_without_standard_error_or_input_all_else_is_the_same(
    words: tuple[str, ...], home: Path
) -> None:
    def both() -> None:
        os.close(0)
        os.close(2)

    done = subprocess.run([*RUN, *words], stdout=subprocess.PIPE, preexec_fn=both)
    assert done.returncode == 0
    assert b"Traceback" not in done.stdout


@pytest.mark.parametrize("stream", [0, 1, 2])
def test_with_a_stream_closed_no_job_is_written_over(stream: int, home: Path) -> None:
    for line in (b"two 14-2 cables\n", b"a switch\n"):
        command = [*RUN, "chat", "--job", "Heron"]
        subprocess.run(command, input=line, capture_output=True, check=True)
    subprocess.run(
        [*RUN, "chat", "--job", "Heron"], stdin=None if stream == 0 else subprocess.DEVNULL,
        preexec_fn=closing(stream),
    )  # fmt: skip
    done = ran("job", "show", "Heron")
    assert b"Heron: 1 box" in done.stdout
    assert done.stderr == b""


def test_a_reader_that_goes_is_no_fault(home: Path) -> None:
    command = " ".join([f"'{word}'" for word in [*RUN, "schema"]])
    done = subprocess.run(
        ["bash", "-c", f"{command} | head -1; echo ${{PIPESTATUS[0]}}"], capture_output=True
    )
    assert done.stderr == b""
    assert done.stdout.split()[-1] in (b"141", b"0")


@pytest.mark.parametrize(
    "words",
    [
        (b"check", b"two 14-2 \xff\xfe cables"),
        (b"check", b"--json", b"\xff"),
        (b"check", b"--\xff"),
        (b"\xff",),
        (b"hear", b"\xff.wav"),
        (b"batch", b"\xff.csv"),
        (b"job", b"show", b"\xff"),
        (b"schema", b"\xff"),
        (b"check", b"--edition", b"\xff", b"a switch"),
    ],
)
def test_bytes_that_are_no_text_are_told(words: tuple[bytes, ...], home: Path) -> None:
    done = ran(*words)
    assert b"Traceback" not in done.stderr
    assert b"fault of its own" not in done.stderr
    assert len(done.stderr.decode().splitlines()) <= 1
    assert done.returncode in (2, 3)


def test_a_job_may_be_named_in_bytes_that_are_no_text(home: Path) -> None:
    done = ran(b"job", b"start", b"Heron \xff Street")
    assert done.stderr == b""
    assert b"Heron" in ran("job", "list").stdout


LONG = "x" * 5000


@pytest.mark.parametrize(
    "words",
    [
        ("hear", f"{LONG}.wav"), ("batch", f"{LONG}.csv"), ("job", "start", LONG),
        ("job", "show", LONG), ("ears", "add", LONG), ("report", "heron", "-o", f"{LONG}.html"),
        ("report", "heron", "-o", f"{LONG}.pdf"), ("chat", "--job", LONG),
        ("batch", "{rows}", "-o", f"{LONG}.csv"), ("job", "copy", "heron", LONG),
        ("job", "rename", "heron", LONG), ("demo", "--job", LONG), (LONG,), (f"--{LONG}",),
    ],
    ids=lambda words: " ".join(words)[:30],
)  # fmt: skip
def test_what_is_too_long_is_told_in_a_sentence(words: tuple[str, ...], home: Path) -> None:
    assert ran("job", "start", "Heron").returncode == 0
    filled = [each.format(rows=rows(home / "rows.jsonl", "porch")) for each in words]
    done = ran(*filled)
    one_sentence(done.stderr)
    assert done.returncode == 2


@pytest.mark.parametrize("words", [("job", "list"), ("job", "show"), ("job", "start", "Heron")])
def test_a_data_folder_of_a_path_that_cannot_be_is_told(words: tuple[str, ...], home: Path) -> None:
    (home / "file").touch()
    for folder in (f"/{LONG}", str(home / "file" / "below"), "/dev/null/x"):
        done = ran(*words, env={**os.environ, "BOXALOUD_DATA": folder})
        assert b"Traceback" not in done.stderr
        assert b"fault of its own" not in done.stderr
        assert len(done.stderr.decode().splitlines()) <= 1


def every_command(command: Command, called: tuple[str, ...]) -> list[tuple[str, ...]]:
    below = [one for each in command.commands for one in every_command(each, (*called, each.name))]
    return [called, *below]


def test_every_command_says_in_one_sentence_what_it_cannot_read(home: Path) -> None:
    for words in every_command(BOXALOUD, ()):
        done = ran(*words, "--no-such-option")
        one_sentence(done.stderr)
        assert done.returncode == 2, words
