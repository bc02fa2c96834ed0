"""A fingerprint of what verdicts are worked out by, so that remembered ones are not trusted
across a change of the rules or of the dialogue."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from zlib import crc32

_ROOMS = ("boxaloud.rules", "boxaloud.assistant.dialogue")


@cache
def works() -> str:
    """Eight hexadecimal digits over every module and table of the rules and the dialogue."""
    total = 0
    for package in _ROOMS:
        for item in _below(files(package)):
            total = crc32(item.read_bytes(), total)
    return f"{total:08x}"


def _below(folder: Traversable) -> Iterator[Traversable]:
    """The modules and tables of a folder and of those in it, in one order everywhere."""
    for item in sorted(folder.iterdir(), key=lambda item: item.name):
        if item.is_dir():
            yield from _below(item)
        elif item.name.endswith((".py", ".toml")):
            yield item
