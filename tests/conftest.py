"""For every test: a fault of ours is raised where it is met, and never told and passed over."""

from __future__ import annotations

import pytest
from boxaloud.assistant.dialogue import faults


@pytest.fixture(autouse=True)
def _faults_are_raised(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(faults, "raised", True)


@pytest.fixture
def faults_told(_faults_are_raised: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """Faults are guarded, as they are for everyone but a test."""
    monkeypatch.setattr(faults, "raised", False)
