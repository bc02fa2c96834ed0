"""Acts as plain data for a JSON line, and back: a class's name and what was said of its fields."""

from __future__ import annotations

from dataclasses import fields
from decimal import Decimal
from typing import Any

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Doubt, Reference

_CLASSES: dict[str, type[Act]] = {
    name: made
    for name, made in vars(acts).items()
    if isinstance(made, type) and issubclass(made, Act) and made is not Act
}
_DEFAULTS: dict[type, dict[str, Any]] = {}


def encoded(act: Act) -> dict[str, Any]:
    """An act as plain data; what is as when nothing was said is left out."""
    return {"act": type(act).__name__, **_fields(act)}


def _fields(value: Any) -> dict[str, Any]:
    known = _defaults(type(value))
    return {
        name: _out(getattr(value, name))
        for name, default in known.items()
        if getattr(value, name) != default
    }


def _defaults(made: type) -> dict[str, Any]:
    if made not in _DEFAULTS:
        found: dict[str, Any] = {}
        for field in fields(made):
            made_default = (
                field.default_factory() if callable(field.default_factory) else field.default
            )
            found[field.name] = made_default
        _DEFAULTS[made] = found
    return _DEFAULTS[made]


def _out(value: Any) -> Any:
    if isinstance(value, Decimal):
        return {"decimal": str(value)}
    if isinstance(value, Act):
        return encoded(value)
    if isinstance(value, Reference):
        return {"ref": _fields(value)}
    if isinstance(value, Doubt):
        return {"doubt": _fields(value)}
    if isinstance(value, tuple):
        return [_out(item) for item in value]
    if value is None or isinstance(value, (str, int)):
        return value
    raise TypeError(f"{type(value).__name__} has no plain form")


def decoded(data: dict[str, Any]) -> Act:
    """The act of plain data made by `encoded`. Raises KeyError or TypeError for anything else."""
    made = _CLASSES[data["act"]]
    said = {name: _in(value) for name, value in data.items() if name != "act"}
    if not isinstance(said.get("words", ""), str):
        raise TypeError("the words of an act are a text")
    return made(**said)


def _in(value: Any) -> Any:
    if isinstance(value, list):
        return tuple(_in(item) for item in value)
    if not isinstance(value, dict):
        return value
    if "decimal" in value:
        return Decimal(value["decimal"])
    if "act" in value:
        return decoded(value)
    if "ref" in value:
        return Reference(**{name: _in(item) for name, item in value["ref"].items()})
    if "doubt" in value:
        return Doubt(**{name: _in(item) for name, item in value["doubt"].items()})
    raise KeyError("no act, reference, doubt or decimal")
