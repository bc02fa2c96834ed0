"""Documents as JSON text: the edge between the engine and the page."""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from typing import Any

from boxaloud.assistant.web.page_documents import Told

_NAMES: dict[type, tuple[str, ...]] = {}


def written(told: Told) -> str:
    """A document as JSON text; its class's name stands under `document`."""
    return json.dumps(
        {"document": type(told).__name__, **_plain(told)}, ensure_ascii=True, separators=(",", ":")
    )


def _plain(value: Any) -> Any:
    if is_dataclass(value):
        made = type(value)
        if made not in _NAMES:
            _NAMES[made] = tuple(field.name for field in fields(value))
        return {name: _plain(getattr(value, name)) for name in _NAMES[made]}
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    return str(value) if isinstance(value, str) else value  # plain, without its form for the ear
