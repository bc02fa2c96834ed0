"""The language models of an ear that can make none: a folder of the files that were made for it."""

from __future__ import annotations

from importlib.resources.abc import Traversable

from boxaloud.assistant.asr.lm.pronunciations import other_words


class GivenModels:
    """Those in a folder, as `LanguageModels.search_files` names them, for the words `known`."""

    def __init__(self, folder: Traversable, known: frozenset[str]) -> None:
        self.known = known
        self.others = other_words((folder / "words.dict").read_text("utf-8"))
        self._folder = folder

    def narrows(self, expect: str | None) -> str | None:
        """`expect` where there is a model of its answers alone, else None."""
        known = expect is not None and expect.isidentifier() and self.model_file(expect).is_file()
        return expect if known else None

    def model_file(self, expect: str | None) -> Traversable:
        """The model of an open question, or the open one."""
        return self._folder / f"{expect or 'open'}.lm"
