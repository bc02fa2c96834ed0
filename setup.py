"""A wheel carries the grammar compiled, so that no user's first start has to compile it."""

from __future__ import annotations

import sys
from pathlib import Path

from setuptools import setup
from setuptools.command.build_py import build_py

ROOT = Path(__file__).parent


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


setup(cmdclass={"build_py": BuildWithGrammar})
