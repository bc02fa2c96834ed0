"""The examples in the documentation of the libraries run, and give what they say."""

from __future__ import annotations

import doctest
from importlib import import_module
from pathlib import Path

import pytest


@pytest.mark.parametrize(
    "module",
    [
        "boxaloud",
        "boxaloud.rules",
        "boxaloud.grammar",
        "boxaloud.assistant.dialogue",
        "boxaloud.assistant.storage",
    ],
)
def test_the_examples_run_as_printed(
    module: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path))
    found = doctest.testmod(import_module(module))
    assert found.attempted >= 3, "the examples are gone"
    assert found.failed == 0
