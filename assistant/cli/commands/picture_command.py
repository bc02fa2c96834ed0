"""`boxaloud job picture`: photographs and sketches of a job's boxes, for its report."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from boxaloud.assistant.cli.output import put
from boxaloud.assistant.storage import pictures, repository
from boxaloud.assistant.storage.storage_messages import how_many, say


def picture(name: str, files: Sequence[Path], box: str, says: str, drop: int) -> int:
    """Attach files to a box, or take a picture out; without either list what is there."""
    place = repository.find(name)
    if drop:
        pictures.drop(place, drop)
        put(say("picture.dropped", number=drop, job=place.name))
    elif files:
        called, count = pictures.attach(place, box, files, says)
        count_shown = how_many(count, "picture")
        put(say("picture.kept", count=count_shown, box=called, job=place.name))
    else:
        _list(place)
    return 0


def _list(place: repository.Place) -> None:
    found = [(one, box) for box, each in pictures.of_job(place).items() for one in each]
    if not found:
        put(say("picture.nothing", job=place.name))
    for one, box in sorted(found, key=lambda pair: pair[0].number):
        key = "picture.line" if one.says else "picture.bare"
        put(say(key, number=one.number, box=box, says=one.says))
