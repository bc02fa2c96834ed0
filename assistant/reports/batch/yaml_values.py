"""A described box in YAML, with the values that its schema speaks of: numbers, true, null."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from functools import cache
from typing import Any

import yaml


def typed(text: str) -> Any:
    """A YAML text as data like that of JSON. Raises yaml.YAMLError or ValueError.

    Numbers with a fraction are `Decimal`, never binary; dates stay as they were written.
    """
    return yaml.load(text, _loader())


@cache
def _loader() -> Any:
    class Exact(getattr(yaml, "CSafeLoader", yaml.SafeLoader)):  # type: ignore[misc]
        pass

    Exact.add_constructor("tag:yaml.org,2002:float", _exact)
    Exact.add_constructor("tag:yaml.org,2002:timestamp", _as_written)
    return Exact


def _exact(loader: Any, node: yaml.ScalarNode) -> Decimal | str:
    try:
        return Decimal(node.value)
    except InvalidOperation:
        return _as_written(loader, node)


def _as_written(loader: Any, node: yaml.ScalarNode) -> str:
    return str(node.value)
