"""The command as another program sees it: exit statuses, one sentence for each thing gone wrong."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

BOX = "two 14-2 cables, one switch, no clamps inside, "


def boxaloud(*args: str, said: str = "") -> subprocess.CompletedProcess[str]:
    code = "from boxaloud.assistant.cli.start import main; main()"
    return subprocess.run(
        [sys.executable, "-c", code, *args], input=said, capture_output=True, text=True, timeout=120
    )


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (BOX + "18 cubic inch box", 0),
        (BOX + "12.5 cubic inch box", 1),
        (BOX, 3),
        ("the weather is nice", 2),
    ],
    ids=["fits is 0", "over is 1", "incomplete is 3", "nothing understood is 2"],
)
def test_the_exit_status_tells_the_verdict(words: str, status: int) -> None:
    done = boxaloud("check", words)
    assert done.returncode == status
    assert done.stderr == ""


def test_over_says_by_how_much() -> None:
    # 14.00 in 12.5: DoItYourself.com thread 377340
    assert "over by 1.50" in boxaloud("check", BOX + "12.5 cubic inch box").stdout


NOTHING_ENTERED = [
    ("an empty line", ""),
    ("only blanks", "   \t "),
    ("ten thousand words", "two 14-2 cables and " * 2500),
    ("control characters", "two \x07\x1b[31m14-2 cables"),
    ("a negative count", "minus three 14-2 cables"),
    ("a negative count in figures", "-3 14-2 cables"),
    ("a size of nought", "two 0 AWG wires"),
    ("a size that is none", "two 99 AWG wires"),
    ("a box of three thousand", "a 3,000 cubic inch box"),
    ("a conductor for 314.28", "two 4 AWG conductors"),
]


@pytest.mark.parametrize(("name", "words"), NOTHING_ENTERED, ids=[n for n, _ in NOTHING_ENTERED])
def test_bad_input_enters_nothing_and_loses_nothing(name: str, words: str) -> None:
    done = boxaloud("chat", "--json", said=f"two 14-2 cables\n{words}\n")
    before, after = (json.loads(line) for line in done.stdout.splitlines())
    assert after["worksheet"] == before["worksheet"]
    assert after["total_in3"] == before["total_in3"] == "10.00"  # 4 conductors, grounds: 5 x 2.00
    assert after["reply"]
    assert done.stderr == ""


@pytest.mark.parametrize(
    "args",
    [
        ("check", "--edition", "2011", "x"),
        ("check", "--edition", "1893", "x"),
        ("check",),
        ("nonsense",),
        ("check", "--editon", "2020", "x"),
        ("check", "x", "--units", "mm"),
        ("hear", "no-such-file.wav"),
        ("hear", "."),
    ],
    ids=[
        "an edition not held",
        "no edition at all",
        "nothing to check",
        "no such command",
        "a misspelt option",
        "no such unit",
        "a missing recording",
        "a directory",
    ],
)
def test_what_goes_wrong_is_one_plain_sentence(args: tuple[str, ...]) -> None:
    done = boxaloud(*args)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert "fault of its own" not in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1


def test_the_contract_check_from_outside() -> None:
    script = Path(__file__).parents[3] / "shared" / "check" / "contract.py"
    command = Path(sys.executable).with_name("boxaloud")
    if not script.exists():
        pytest.skip("the contract check is not beside this checkout")
    if not command.exists():
        pytest.skip("the command is not installed beside this Python")
    done = subprocess.run(
        [sys.executable, str(script), str(command)], capture_output=True, text=True, timeout=300
    )
    assert "all hold" in done.stdout, done.stdout


def test_cubic_centimetres_stand_beside_cubic_inches_when_asked_for() -> None:
    shown = boxaloud("check", BOX + "18 cubic inch box", "--units", "cm3").stdout
    assert "18.0 in³ (295.0 cm³) capacity" in shown  # Table 314.16(A): 18.0 in³ is 295 cm³
    assert "8.00 in³ (131.1 cm³)" in shown  # 4 x 32.8 cm³ of Table 314.16(B)(1), less rounding
