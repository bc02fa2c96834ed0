"""Words as the pieces that the network writes them in, from the model's own table."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from pathlib import Path

from boxaloud.assistant.ears.errors import EarsError
from boxaloud.assistant.ears.wording import say

#: Stands for the space before a word.
SPACE = "Ġ"
#: A word is written apart from what is contracted with it.
_ENDS = re.compile(r"(?<=[a-z])(?='(?:s|t|re|ve|m|ll|d)\b)|(?=[.,])")


class Pieces:
    """The pieces of a model, numbered. Raises EarsError where the table is missing or broken."""

    def __init__(self, path: Path) -> None:
        try:
            table = json.loads(path.read_text(encoding="utf-8"))
            self._numbers: dict[str, int] = table["model"]["vocab"]
            merges = table["model"]["merges"]
            marks = {one["content"]: one["id"] for one in table["added_tokens"]}
            self.end = int(marks["<|endoftext|>"])
            self.before = int(marks["<|startofprev|>"])
            self.start = (int(marks["<|startoftranscript|>"]), int(marks["<|notimestamps|>"]))
            self.stop = self._numbers["."]
        except (OSError, ValueError, KeyError, TypeError) as error:
            raise EarsError(say("whisper.missing", path=path)) from error
        pairs = (
            tuple(pair.split(" ")) if isinstance(pair, str) else tuple(pair) for pair in merges
        )
        self._ranks = {pair: rank for rank, pair in enumerate(pairs)}

    def of(self, text: str) -> tuple[int, ...]:
        """The pieces of words in small letters, each with the space before it."""
        found: list[int] = []
        for word in text.split():
            for place, part in enumerate(_ENDS.split(word)):
                if part:
                    found += self._of_part(part if place else SPACE + part)
        return tuple(found)

    def _of_part(self, part: str) -> list[int]:
        """Letters put together, the commonest pair first."""
        letters = list(part)
        while len(letters) > 1:
            ranked = [
                (self._ranks.get(pair, len(self._ranks)), place)
                for place, pair in enumerate(pairwise(letters))
            ]
            rank, at = min(ranked)
            if rank == len(self._ranks):
                break
            letters[at : at + 2] = [letters[at] + letters[at + 1]]
        return [self._numbers[piece] for piece in letters]
