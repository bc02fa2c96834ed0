"""The same dialogues give the same replies, acts and numbers on a phone as on a laptop."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

DIALOGUES = 200
ROUNDS = Path(__file__).parents[1] / "understanding" / "rounds"
SCRIPT = Path(__file__).parent / "told_in_full.py"


def spoken() -> list[list[str]]:
    """Dialogues by authors who have not seen the grammar, from the first round on."""
    found = [
        json.loads(line)["turns"]
        for file in sorted(ROUNDS.glob("*/dialogues.jsonl"))
        for line in file.read_text("utf-8").splitlines()
    ]
    return [[str(turn["say"]) for turn in dialogue] for dialogue in found[:DIALOGUES]]


def test_a_phone_says_what_a_laptop_says(pocket_folder: Path, tmp_path: Path) -> None:
    if not shutil.which("node"):
        pytest.skip("Node.js, which runs the runtime here, is missing")
    talks = spoken()
    assert len(talks) == DIALOGUES
    (tmp_path / "in.json").write_text(json.dumps(talks))
    runner = SCRIPT.with_name("in_the_runtime.mjs")
    subprocess.run(
        ["node", runner, pocket_folder, SCRIPT, tmp_path / "in.json", tmp_path / "out.json"],
        check=True, cwd=tmp_path,
    )  # fmt: skip
    here = (
        "import runpy, sys\n"
        "print(runpy.run_path(sys.argv[1], {'dialogues': sys.stdin.read()})['told'])"
    )
    done = subprocess.run(
        [sys.executable, "-c", here, SCRIPT], input=json.dumps(talks), capture_output=True,
        text=True, check=True,
    )  # fmt: skip
    ours, theirs = json.loads(done.stdout), json.loads((tmp_path / "out.json").read_text())
    assert sum(len(turns) for turns in ours) > DIALOGUES
    for talk, mine, other in zip(talks, ours, theirs, strict=True):
        for words, turn, same in zip(talk, mine, other, strict=True):
            assert same == turn, words
