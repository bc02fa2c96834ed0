"""Pages of every module's documentation, made from its docstrings.

Run: .venv/bin/pip install -e '.[pages]' && .venv/bin/python .ci/pages.py [FOLDER]
They go to `build/pages`, which is not kept, and begin at `index.html`. Nothing is fetched.
"""

from __future__ import annotations

import sys
import warnings
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

from pdoc import pdoc

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / ".package" / "boxaloud"
ROOMS = ("rules", "grammar", "assistant")


def names() -> Iterator[str]:
    """Every module of the package; those that start something when imported are left out."""
    yield "boxaloud"
    for room in ROOMS:
        for path in sorted((PACKAGE / room).rglob("*.py")):
            steps = path.relative_to(PACKAGE).with_suffix("").parts
            if steps[-1] != "__main__":
                yield ".".join(["boxaloud", *(step for step in steps if step != "__init__")])


def settle(name: str) -> None:
    """Import a module, and give it what it would import only when asked for."""
    module = import_module(name)
    for public in getattr(module, "__all__", ()):
        setattr(module, public, getattr(module, public))


def main() -> None:
    """Write the pages."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "build" / "pages"
    # annotations of other packages' classes that cannot be resolved are shown as they are written
    warnings.filterwarnings("ignore", module=r"pdoc\.")
    every = list(names())
    for name in every:
        settle(name)
    pdoc(*every, output_directory=folder)
    sys.stdout.write(f"{len(every)} modules: {folder / 'index.html'}\n")


if __name__ == "__main__":
    main()
