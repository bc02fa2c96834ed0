"""Values of a row's columns: text or a number, lists, and words in any case."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from functools import lru_cache
from typing import Annotated, Any, TypeAlias, get_args

from pydantic import BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

BLANK: dict[str, Any] = {"enum": [None, "", []]}
"""The schema of a column that is left blank: nothing is said in it."""


def _text(value: Any) -> str:
    """What a column holds as text. A binary fraction is refused: it is no exact number."""
    if isinstance(value, str):
        return value.strip()
    if isinstance(value, int | Decimal) and not isinstance(value, bool):
        return str(value)
    raise PydanticCustomError("text_or_number", "not text or a number")


def _items(value: Any) -> tuple[str, ...]:
    """What a column lists: text with semicolons between, or a list of texts."""
    if isinstance(value, list | tuple) and all(isinstance(item, str) for item in value):
        return _stripped(value)
    return _split(_text(value))


@lru_cache(maxsize=4096)
def _split(text: str) -> tuple[str, ...]:
    return _stripped(text.split(";"))


def _stripped(items: Iterable[str]) -> tuple[str, ...]:
    return tuple([text for item in items if (text := item.strip())])


_TEXT = [{"type": "string"}, {"type": "number"}]

Text: TypeAlias = Annotated[str, BeforeValidator(_text), WithJsonSchema({"anyOf": _TEXT})]
"""Text, or a number as it was written."""
Items: TypeAlias = Annotated[
    tuple[str, ...],
    BeforeValidator(_items),
    WithJsonSchema({"anyOf": [*_TEXT, {"type": "array", "items": {"type": "string"}}]}),
]
"""Several things: text with semicolons between, or a list of texts."""


class in_any_case:
    """The words of a `Literal`, with capitals and blanks around them as people write cells."""

    def __init__(self, words: Any) -> None:
        self._words = get_args(words)
        each = ("".join(f"[{c.upper()}{c}]" for c in word) for word in self._words)
        self._pattern = f"^ *({'|'.join(each)}) *$"
        self._any_case = re.compile(self._pattern)

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        """Puts the word into small letters before it is checked."""
        from pydantic_core import core_schema

        return core_schema.no_info_before_validator_function(self._lowered, handler(source))

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> dict[str, Any]:
        """The words, and the same in any case."""
        return {
            "anyOf": [
                {"enum": list(self._words)},
                {"type": "string", "pattern": self._pattern, "description": "In any case."},
            ]
        }

    def _lowered(self, value: Any) -> Any:
        if value in self._words or not isinstance(value, str):
            return value
        found = self._any_case.fullmatch(value)
        return found[1].lower() if found else value
