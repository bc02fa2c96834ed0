"""Every test of jobs has a data folder of its own."""

from __future__ import annotations

from pathlib import Path

import pytest
from boxaloud.assistant.storage import Session


@pytest.fixture(autouse=True)
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "data"
    monkeypatch.setenv("BOXALOUD_DATA", str(folder))
    return folder


@pytest.fixture
def session() -> Session:
    session = Session.start("Heron Street")
    session.hear("two 14-2 cables")
    session.hear("18 cubic inches")
    return session
