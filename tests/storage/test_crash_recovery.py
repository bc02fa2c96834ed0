"""Killed at any instant, a job has every acknowledged statement and can be talked on to.

The whole of it, 300 kills at random moments, is `BOXALOUD_KILLS=300 pytest tests/storage`, or
`python tests/storage/crash_injection.py random FOLDER 300` (13 s here); the suite strikes 60 times
(3 s). The kills at every call that changes a file are all in the suite (10 s).
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

KILLING = Path(__file__).with_name("crash_injection.py")
ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="kills processes by signal")


def run(*arguments: str, preload: str = "") -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT / ".package")}
    if preload:
        environment["LD_PRELOAD"] = preload
    return subprocess.run(
        [sys.executable, str(KILLING), *arguments],
        env=environment, capture_output=True, text=True, timeout=600,
    )  # fmt: skip


def found(done: subprocess.CompletedProcess[str]) -> dict[str, Any]:
    assert done.returncode == 0, done.stderr[-2000:]
    result = json.loads(done.stdout)
    assert isinstance(result, dict)
    return result


def test_killed_at_random_moments_nothing_acknowledged_is_missing(folder: str) -> None:
    kills = os.environ.get("BOXALOUD_KILLS", "60")
    result = found(run("random", folder, kills))
    assert result["kills"] == int(kills)
    assert result["acknowledged"] > result["kills"], "the kills came before anything was said"


def test_the_killing_catches_a_store_that_acknowledges_too_early(folder: str) -> None:
    done = run("random", folder, "60", "broken")
    assert done.returncode != 0
    assert "AssertionError" in done.stderr


@pytest.fixture
def folder(tmp_path: Path) -> Iterator[str]:
    """In memory where there is such a place: a killed process loses nothing that it wrote, on
    whatever disk, and waiting for a disk would take most of the time."""
    memory = Path("/dev/shm")
    if not os.access(memory, os.W_OK):
        yield str(tmp_path / "d")
        return
    with tempfile.TemporaryDirectory(dir=memory) as made:
        yield made


@pytest.fixture(scope="module")
def library(tmp_path_factory: pytest.TempPathFactory) -> str:
    compiler = shutil.which("cc") or shutil.which("gcc")
    if compiler is None or not sys.platform.startswith("linux"):
        pytest.skip("needs a C compiler and Linux, to kill at a chosen call")
    target = tmp_path_factory.mktemp("kill") / "kill.so"
    source = KILLING.with_name("kill_at_call.c")
    subprocess.run(
        [compiler, "-shared", "-fPIC", "-O1", "-o", str(target), str(source), "-ldl"], check=True
    )
    return str(target)


@pytest.mark.parametrize("how", ["whole", "torn"])
def test_killed_at_every_write_nothing_acknowledged_is_missing(
    how: str, library: str, folder: str
) -> None:
    """`torn`: the write that dies got half of its bytes onto the disk."""
    result = found(run("writes", folder, library, how, preload=library))
    assert result["kills"] > 50, "the shim saw too few writes to be counting them"
    assert result["acknowledged"] == 3
