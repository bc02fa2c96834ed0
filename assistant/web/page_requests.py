"""What the page asks of the engine: one frozen dataclass a request, read from JSON.

`read` takes nothing for granted: a request that is none is refused in a sentence.
"""

from __future__ import annotations

import json
import types
from collections.abc import Mapping
from dataclasses import MISSING, dataclass, fields
from typing import Any, TypeAlias, get_args, get_origin, get_type_hints

from boxaloud.assistant.web.web_messages import say


class NoRequest(ValueError):
    """What was sent is no request. `str(error)` is a sentence to show."""


@dataclass(frozen=True, slots=True)
class Look:
    """The box at hand as it stands; with `first` what is said when the page is opened."""

    first: bool = False


@dataclass(frozen=True, slots=True)
class Hear:
    """Words that were typed, dictated or heard."""

    words: str


@dataclass(frozen=True, slots=True)
class Choose:
    """An answer tapped: its place in the list that was shown for `stand`."""

    stand: str
    answer: int


@dataclass(frozen=True, slots=True)
class Press:
    """A key or button that says one thing: undo, redo, next_box, read_back, advice."""

    key: str


@dataclass(frozen=True, slots=True)
class Recount:
    """Another count for a row of the contents, nought to take it out."""

    stand: str
    key: int
    count: int


@dataclass(frozen=True, slots=True)
class OpenBox:
    """A box of the job, by its name."""

    name: str


@dataclass(frozen=True, slots=True)
class ListBoxes:
    """The boxes of the job, so many from one on."""

    first: int = 0
    most: int = 50


@dataclass(frozen=True, slots=True)
class FindBoxes:
    """Standard boxes whose name or volume holds the words of a search."""

    query: str = ""
    gangs: int = 1


@dataclass(frozen=True, slots=True)
class PickBox:
    """A standard box: a row of the Table by its id, or a marked volume typed as figures."""

    row: str = ""
    gangs: int = 1
    volume: str = ""


@dataclass(frozen=True, slots=True)
class TryOut:
    """A change in words, to be tried on a copy of the box."""

    words: str


@dataclass(frozen=True, slots=True)
class Share:
    """The worksheet of the box at hand as text."""


@dataclass(frozen=True, slots=True)
class Examples:
    """What can be said."""


@dataclass(frozen=True, slots=True)
class ListJobs:
    """The jobs that there are."""


@dataclass(frozen=True, slots=True)
class OpenJob:
    """A job by the name of its file."""

    file: str


@dataclass(frozen=True, slots=True)
class StartJob:
    """A new job of this name."""

    name: str


Request: TypeAlias = (
    Look | Hear | Choose | Press | Recount | OpenBox | ListBoxes | FindBoxes | PickBox | TryOut
    | Share | Examples | ListJobs | OpenJob | StartJob
)  # fmt: skip
KINDS: Mapping[str, type[Request]] = {
    "look": Look, "hear": Hear, "choose": Choose, "press": Press, "recount": Recount,
    "open_box": OpenBox, "list_boxes": ListBoxes, "find_boxes": FindBoxes, "pick_box": PickBox,
    "try_out": TryOut, "share": Share, "examples": Examples, "list_jobs": ListJobs,
    "open_job": OpenJob, "start_job": StartJob,
}  # fmt: skip
"""Each request by the name that it has in JSON."""

MOST_LETTERS = 200_000
"""Of a request as JSON; `dialogue.input_check` says how much of what is said is taken."""


def read(text: str) -> Request:
    """The request that JSON text is. Raises NoRequest, in a sentence, for anything else."""
    if len(text) > MOST_LETTERS:
        raise NoRequest(say("request.too_long", most=MOST_LETTERS))
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        raise NoRequest(say("request.none")) from None
    if not isinstance(found, dict):
        raise NoRequest(say("request.none"))
    made = KINDS.get(str(found.pop("kind", "")))
    if made is None:
        raise NoRequest(say("request.unknown"))
    return _filled(made, found)


def _filled(made: type[Request], given: dict[str, Any]) -> Request:
    known = {field.name: field for field in fields(made)}
    if not given.keys() <= known.keys():
        raise NoRequest(say("request.none"))
    needed = {name for name, field in known.items() if field.default is MISSING}
    if not needed <= given.keys():
        raise NoRequest(say("request.none"))
    hints = get_type_hints(made)
    if not all(_is_a(value, hints[name]) for name, value in given.items()):
        raise NoRequest(say("request.none"))
    return made(**given)


def _is_a(value: object, wanted: Any) -> bool:
    if get_origin(wanted) is types.UnionType:
        return any(_is_a(value, each) for each in get_args(wanted))
    if wanted is int:
        return isinstance(value, int) and not isinstance(value, bool) and abs(value) < 10**6
    return isinstance(value, wanted)
