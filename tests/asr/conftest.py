from __future__ import annotations

from pathlib import Path

import pytest
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
    PocketsphinxRecogniser,
)


@pytest.fixture(scope="session")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One cache for the whole run: making the models takes seconds."""
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(scope="session")
def ear(cache: Path) -> PocketsphinxRecogniser:
    """One ear for the whole run, as in use: it adapts to the speakers it hears."""
    return PocketsphinxRecogniser(cache=cache)
