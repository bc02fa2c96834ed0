"""A catalogue of sentences: the TOML file in which the wording of a room stands."""

from __future__ import annotations

import tomllib
from functools import cached_property
from importlib.resources import files
from typing import Any


class Catalogue:
    """The sentences of one file of a package, by dotted keys; read when first asked for."""

    def __init__(self, package: str, file: str = "data/sentences.toml") -> None:
        self._package, self._file = package, file
        self._found: dict[str, str] = {}

    @cached_property
    def tables(self) -> dict[str, Any]:
        """The whole file."""
        return tomllib.loads(files(self._package).joinpath(self._file).read_text("utf-8"))

    def say(self, key: str, **values: object) -> str:
        """The sentence under a dotted `key`, filled in.

        Raises KeyError where there is no such sentence: a fault of ours, held by a test.
        """
        found = self._found.get(key)
        if found is None:
            found = self._found[key] = self._sentence(key)
        return found.format_map(values) if values else found

    def _sentence(self, key: str) -> str:
        found = self.table(key)
        if not isinstance(found, str):
            raise KeyError(key)
        return found

    def table(self, key: str) -> Any:
        """Whatever stands under a dotted key, in the order of the file."""
        found: Any = self.tables
        for step in key.split("."):
            found = found[step]
        return found
