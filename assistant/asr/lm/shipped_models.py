"""Language models that came in the package, made when it was built."""

from __future__ import annotations

import json
import lzma
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

#: The file in this folder; a checkout has none, and its models are made at need.
SHIPPED = "language_models.json.xz"


@dataclass(frozen=True, slots=True)
class Shipped:
    """Files by name, and what names all that they were made of."""

    state: str
    texts: Mapping[str, str]


def packed(state: str, texts: Mapping[str, str]) -> bytes:
    """Files by name in the form in which they are shipped. `state` names what they were made of."""
    content = json.dumps({"state": state, "texts": dict(texts)}).encode()
    return lzma.compress(content, preset=9 | lzma.PRESET_EXTREME)


def text(state: str, name: str) -> str | None:
    """A file of the package; None where it has none, or one that was made of something else."""
    shipped = _shipped()
    return shipped.texts.get(name) if shipped and shipped.state == state else None


def unpacked(content: bytes) -> Shipped | None:
    """What `packed` gave; None where it is something else."""
    try:
        found = json.loads(lzma.decompress(content))
        return Shipped(str(found["state"]), dict(found["texts"]))
    except (ValueError, KeyError, TypeError, lzma.LZMAError):
        return None


@lru_cache(maxsize=1)
def _shipped() -> Shipped | None:
    path = files("boxaloud.assistant.asr.lm").joinpath(SHIPPED)
    return unpacked(path.read_bytes()) if path.is_file() else None
