"""Every test of a command has a data folder of its own."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "data"
    monkeypatch.setenv("BOXALOUD_DATA", str(folder))
    return folder


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("BOXALOUD_TRACEBACK", "")
    return tmp_path
