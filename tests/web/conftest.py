"""The page that stands alone, built once for all tests of a run; skipped where npm is missing."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web.folder_build import build
from boxaloud.assistant.web.runtime_package import runtime_files


@pytest.fixture(scope="session")
def pocket_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The static folder. Its runtime comes by npm once, and from the user's cache then."""
    if not (shutil.which("npm") and shutil.which("node")):
        pytest.skip("npm and Node.js, which bring the runtime and prepare the engine, are missing")
    folder = tmp_path_factory.mktemp("pocket") / "site"
    try:
        runtime_files()
    except Problem as problem:
        pytest.skip(f"the runtime of the page cannot be had here: {problem}")
    build(folder)
    return folder
