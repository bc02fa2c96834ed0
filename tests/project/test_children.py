"""A process that we start runs our modules and the library's, never what lies in the folder."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from boxaloud.assistant.tts.synthesiser import WORKER_COMMAND

ROOT = Path(__file__).parents[2]
TRAP = "from pathlib import Path\nPath({marker!r}).write_text('ran')\nraise SystemExit(9)\n"


@pytest.mark.parametrize("child", ["voice", "ear"])
@pytest.mark.parametrize("trap", ["json.py", "boxaloud/__init__.py", "textual.py", "numpy.py"])
def test_a_child_runs_nothing_of_the_current_folder(child: str, trap: str, tmp_path: Path) -> None:
    marker = tmp_path / "marker"
    (tmp_path / trap).parent.mkdir(exist_ok=True)
    (tmp_path / trap).write_text(TRAP.format(marker=str(marker)))
    ear = (
        sys.executable,
        "-P",
        "-m",
        "boxaloud.assistant.asr.engines.vosk.model_probe",
        str(tmp_path),
    )
    command = {"voice": WORKER_COMMAND, "ear": ear}[child]
    env = {**os.environ, "BOXALOUD_DATA": str(tmp_path / "data"), "COLUMNS": "80", "ROWS": "24"}
    subprocess.run(
        command, cwd=tmp_path, env=env, stdin=subprocess.DEVNULL, capture_output=True, timeout=60,
    )  # fmt: skip
    assert not marker.exists()


def test_every_child_of_ours_is_started_so() -> None:
    for path in sorted((ROOT / "assistant").rglob("*.py")):
        for found in re.finditer(r"sys\.executable,\s*([^\n]*)", path.read_text(encoding="utf-8")):
            assert found[1].startswith(('"-P"', '"-I"')), path
