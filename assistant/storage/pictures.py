"""Photographs and sketches attached to the boxes of a job.

A picture is kept in the job's file, no larger than paper needs, and without what the camera wrote
into it: a photograph may say where somebody lives.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from boxaloud.assistant.storage import box_removal, repository
from boxaloud.assistant.storage.clock import now
from boxaloud.assistant.storage.job_names import tidy
from boxaloud.assistant.storage.replay import replay
from boxaloud.assistant.storage.sqlite.journal_rows import Row
from boxaloud.assistant.storage.sqlite.picture_table import Picture
from boxaloud.assistant.storage.storage_messages import say
from boxaloud.assistant.text.problem import Problem

if TYPE_CHECKING:
    from PIL import Image

LONGEST_EDGE = 1600
"""Pixels: 200 to the inch on eight inches of paper."""
MOST_BYTES = 60_000_000
MOST = 200
"""Pictures of one job."""


def attach(place: repository.Place, box: str, paths: Sequence[Path], says: str) -> tuple[str, int]:
    """Attach pictures to a box, all or none; gives the box's whole name and how many it has now.

    Raises Problem for a file that is no picture, or a box that is not there.
    """
    ready = [_prepared(path) for path in paths]
    file, _ = repository.open_file(place)
    try:
        rows = file.rows()
        name = box_removal.find(replay(rows), place.name, box)
        last = rows[-1].position if rows else 0
        kept, _ = file.pictures()
        if len(kept) + len(ready) > MOST:
            raise Problem(say("picture.too_many", most=MOST))
        at, words = now(), tidy(says)
        file.add_pictures(
            Picture(at, name, last, words, kind, wide, high, data)
            for kind, wide, high, data in ready
        )
        return name, sum(_now_called(one, rows) == name for one in kept) + len(ready)
    finally:
        file.close()


def drop(place: repository.Place, number: int) -> None:
    """Take a picture out of a job. Raises Problem where it has none of that number."""
    file, _ = repository.open_file(place)
    try:
        if not file.drop_picture(number):
            raise Problem(say("picture.none", job=place.name, number=number))
    finally:
        file.close()


def of_job(place: repository.Place) -> dict[str, list[Picture]]:
    """Every picture of a job by what its box is called now, in the order attached."""
    file, _ = repository.open_file(place)
    try:
        return by_box(file.pictures()[0], file.rows())
    finally:
        file.close()


def by_box(kept: Iterable[Picture], rows: Sequence[Row]) -> dict[str, list[Picture]]:
    """Pictures by what their boxes are called after these rows."""
    found: dict[str, list[Picture]] = {}
    for one in kept:
        found.setdefault(_now_called(one, rows), []).append(one)
    return found


def _now_called(picture: Picture, rows: Sequence[Row]) -> str:
    """What the box of a picture is called now."""
    name = picture.box
    for row in rows:
        if row.position > picture.position and row.action == "renamed" and row.other == name:
            name = row.box
    return name


def _prepared(path: Path) -> tuple[str, int, int, bytes]:
    """A file as it is kept: its kind, its size in pixels, and its bytes.

    Raises Problem where it is no picture that can be read.
    """
    from PIL import Image, ImageOps, UnidentifiedImageError  # little else needs it

    try:
        if path.stat().st_size > MOST_BYTES:
            raise Problem(say("picture.too_large", path=path, most=MOST_BYTES // 1_000_000))
        with Image.open(path) as opened:
            upright = ImageOps.exif_transpose(opened)
            upright.thumbnail((LONGEST_EDGE, LONGEST_EDGE))
            plain = Image.new("RGB", upright.size, "white")
            seen = upright.convert("RGBA")
            plain.paste(seen, mask=seen.getchannel("A"))
    except (UnidentifiedImageError, Image.DecompressionBombError, ValueError, SyntaxError):
        raise Problem(say("picture.unreadable", path=path)) from None
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise Problem(say("picture.no_file", path=path, why=why)) from None
    # a sketch is smaller without loss, a photograph with it
    kind, data = min(_written(plain, "jpeg"), _written(plain, "png"), key=lambda one: len(one[1]))
    return kind, plain.width, plain.height, data


def _written(image: Image.Image, kind: str) -> tuple[str, bytes]:
    out = io.BytesIO()
    image.save(out, kind.upper(), quality=82, optimize=True)
    return kind, out.getvalue()
