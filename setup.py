"""A wheel carries the grammar compiled and the ears' language models, so that no user's first start
has to make them.

An sdist carries all that a checkout holds: what the commands of the README need, tests, recordings
and settings, with the rooms as folders and the package as links to them.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

from setuptools import setup
from setuptools.command.build_py import build_py
from setuptools.command.sdist import sdist

ROOT = Path(__file__).parent
ROOMS = ("assistant", "grammar", "rules")
KEPT = (
    *ROOMS, "tests", "audio_fixtures", ".ci", ".package/boxaloud", ".pictures", ".gitignore",
    ".pre-commit-config.yaml", "DEVELOPERS.md", "LICENSE", "README.md", "pyproject.toml",
    "setup.py",
)  # fmt: skip
MADE = {"__pycache__", ".hypothesis", ".mypy_cache", ".pytest_cache", ".ruff_cache"}


class BuildWithGrammar(build_py):
    """Copies the modules and data as ever, then makes beside them what is compiled from data."""

    def run(self) -> None:
        """Build, and compile unless the source folder itself is to be used."""
        super().run()
        if not self.editable_mode:
            sys.path.insert(0, str(ROOT / ".package"))
            from boxaloud.grammar.compilation import compiled
            from boxaloud.grammar.phrases.compiled_cache import SHIPPED

            Path(self.build_lib, "boxaloud", "grammar", SHIPPED).write_bytes(compiled())
            _pack_language_models(Path(self.build_lib, "boxaloud", "assistant", "asr", "lm"))


def _pack_language_models(folder: Path) -> None:
    """Make the ears' language models and write them into a folder of the package."""
    from boxaloud.assistant.asr.lm.language_model import LanguageModels, trade_domain
    from boxaloud.assistant.asr.lm.lm_cache import ModelCache
    from boxaloud.assistant.asr.lm.shipped_models import SHIPPED
    from boxaloud.assistant.dialogue.question_slots import QuestionSlot
    from pocketsphinx import get_model_path

    with tempfile.TemporaryDirectory() as cache:
        model = Path(get_model_path()) / "en-us"
        models = LanguageModels(trade_domain(), model, ModelCache(Path(cache)))
        (folder / SHIPPED).write_bytes(models.packed(get_args(QuestionSlot)))


class WholeSdist(sdist):
    """Holds what a checkout holds."""

    def make_release_tree(self, base_dir: str, files: list[str]) -> None:
        """Copy what was found and all that is kept, then link the package to the rooms."""
        beside = [name for name in files if not name.startswith(".package")]
        super().make_release_tree(base_dir, sorted({*beside, *_kept()}))
        package = Path(base_dir, ".package", "boxaloud")
        for room in ROOMS:
            shutil.rmtree(package / room, ignore_errors=True)
            os.symlink(Path("..", "..", room), package / room, target_is_directory=True)


def _kept() -> Iterator[str]:
    """Every file that is kept; what stands behind a link is there already."""
    for name in KEPT:
        if (ROOT / name).is_file():
            yield name
        for folder, below, files in os.walk(ROOT / name):
            below[:] = [each for each in below if each not in MADE]
            yield from (os.path.relpath(os.path.join(folder, each), ROOT) for each in files)


setup(cmdclass={"build_py": BuildWithGrammar, "sdist": WholeSdist})
