"""Words as the pieces that the network writes them in, from the model's own table."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from pathlib import Path

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say

#: Stands for the space before a word.
SPACE_MARKER = "Ġ"
#: A word is written apart from what is contracted with it.
_SPLIT_POINTS = re.compile(r"(?<=[a-z])(?='(?:s|t|re|ve|m|ll|d)\b)|(?=[.,])")


class BpeTokeniser:
    """The pieces of a model, numbered. Raises EarsError where the table is missing or broken."""

    def __init__(self, path: Path) -> None:
        try:
            table = json.loads(path.read_text(encoding="utf-8"))
            self._vocabulary: dict[str, int] = table["model"]["vocab"]
            merges = table["model"]["merges"]
            marks = {one["content"]: one["id"] for one in table["added_tokens"]}
            self.end = int(marks["<|endoftext|>"])
            self.before = int(marks["<|startofprev|>"])
            self.start = (int(marks["<|startoftranscript|>"]), int(marks["<|notimestamps|>"]))
            self.stop = self._vocabulary["."]
        except (OSError, ValueError, KeyError, TypeError) as error:
            raise AsrError(say("whisper.missing", path=path)) from error
        pairs = (
            tuple(pair.split(" ")) if isinstance(pair, str) else tuple(pair) for pair in merges
        )
        self._merge_ranks = {pair: rank for rank, pair in enumerate(pairs)}

    def of(self, text: str) -> tuple[int, ...]:
        """The pieces of words in small letters, each with the space before it."""
        found: list[int] = []
        for word in text.split():
            for place, part in enumerate(_SPLIT_POINTS.split(word)):
                if part:
                    found += self._merge_pairs(part if place else SPACE_MARKER + part)
        return tuple(found)

    def single(self, word: str) -> tuple[int, ...]:
        """The pieces that are this word alone, in small letters or not, after a space or not."""
        forms = {word, word.capitalize(), word.upper()}
        written = {space + form for form in forms for space in (SPACE_MARKER, "")}
        return tuple(sorted(self._vocabulary[one] for one in written & self._vocabulary.keys()))

    def _merge_pairs(self, part: str) -> list[int]:
        """Letters put together, the commonest pair first."""
        letters = list(part)
        while len(letters) > 1:
            ranked = [
                (self._merge_ranks.get(pair, len(self._merge_ranks)), place)
                for place, pair in enumerate(pairwise(letters))
            ]
            rank, at = min(ranked)
            if rank == len(self._merge_ranks):
                break
            letters[at : at + 2] = [letters[at] + letters[at + 1]]
        return [self._vocabulary[piece] for piece in letters]
