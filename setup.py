"""A wheel carries the grammar compiled, so that no user's first start has to compile it.

An sdist carries all that a checkout holds: what the commands of the README need, tests, recordings
and settings, with the rooms as folders and the package as links to them.
"""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

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
    """Copies the modules and data as ever, then compiles the grammar beside them."""

    def run(self) -> None:
        """Build, and compile unless the source folder itself is to be used."""
        super().run()
        if not self.editable_mode:
            sys.path.insert(0, str(ROOT / ".package"))
            from boxaloud.grammar.compilation import compiled
            from boxaloud.grammar.phrases.compiled_cache import SHIPPED

            Path(self.build_lib, "boxaloud", "grammar", SHIPPED).write_bytes(compiled())


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
