"""Data that is not what its schema says, refused in one plain sentence."""

from __future__ import annotations

from typing import Any, TypeVar

from boxaloud.assistant.contract.batch_documents import BatchRow
from boxaloud.assistant.contract.box_document import BoxDocument
from boxaloud.assistant.contract.box_thing_documents import THINGS
from boxaloud.assistant.contract.document import Document
from boxaloud.assistant.dialogue.nlg.sentences import shortened
from boxaloud.assistant.text.catalogue import Catalogue
from pydantic import ValidationError
from pydantic_core import ErrorDetails

_CATALOGUE = Catalogue("boxaloud.assistant.contract")
_D = TypeVar("_D", bound=Document)

_SENTENCE = {
    "bool_type": "true_or_false",
    "greater_than_equal": "least",
    "int_type": "whole_number",
    "less_than_equal": "most",
    "list_type": "list",
    "literal_error": "one_of",
    "missing": "missing",
    "not_both": "not_both",
    "one_way": "one_way",
    "string_pattern_mismatch": "volume",
    "string_type": "text",
    "string_unicode": "characters",
    "text_or_number": "text_or_number",
    "tuple_type": "list",
}
"""The sentence for each kind of fault that has one of its own."""


class BadDocument(ValueError):
    """Data that cannot be taken. `str(error)` is a sentence to show."""


def accepted(model: type[_D], data: Any) -> _D:
    """The data as a document. Raises BadDocument, in a sentence, for anything else."""
    try:
        return model.model_validate(data)
    except ValidationError as fault:
        first = fault.errors(include_url=False)[0]
    raise BadDocument(_sentence(first, model))


def _sentence(fault: ErrorDetails, model: type[Document]) -> str:
    place, given = fault["loc"], _shown(fault["input"])
    field = next((step for step in reversed(place) if isinstance(step, str)), "")
    inside = [step for step in place[:-1] if step in THINGS]
    if inside and fault["type"] in ("missing", "extra_forbidden"):
        thing = str(inside[-1])
        return _CATALOGUE.say("thing", thing=thing, names=_names(THINGS[thing]))
    if fault["type"] == "extra_forbidden":
        if model is BatchRow and len(place) == 1:
            names = _names(BatchRow)
            return _CATALOGUE.say("no_column", given=shortened(repr(field)), names=names)
        return _CATALOGUE.say("no_field", field=shortened(field), names=_names(BoxDocument))
    if fault["type"].startswith("union_tag") or fault["type"] == "model_attributes_type":
        return _CATALOGUE.say("says_what", names=", ".join(_things(place)))
    if fault["type"] in ("model_type", "dict_type"):
        return _CATALOGUE.say("described")
    about = fault.get("ctx", {})
    is_volume = field == "volume" and fault["type"] == "string_type"
    return _CATALOGUE.say(
        "volume" if is_volume else _SENTENCE.get(fault["type"], "other"),
        field=shortened(field),
        given=given,
        names=str(about.get("expected", "")).replace("'", ""),
        least=about.get("ge", ""),
        most=about.get("le", ""),
    )


def _shown(value: Any) -> str:
    """What was given, in the terms of JSON."""
    for kind, name in ((dict, "object"), (list, "list")):
        if isinstance(value, kind):
            return _CATALOGUE.say(f"given.{name}")
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    return shortened(repr(value) if isinstance(value, str) else str(value))


def _names(model: type[Document]) -> str:
    """The keys of a document, but for `is`, which has been said where they are told."""
    fields = model.model_fields.items()
    return ", ".join(field.alias or name for name, field in fields if field.alias != "is")


def _things(place: tuple[int | str, ...]) -> list[str]:
    """What can stand in the list at this place: parts, or contents."""
    parts = "parts" in place
    return [name for name, model in THINGS.items() if model.__name__.endswith("Part") == parts]
