"""Jobs to be damaged, and what is held of each afterwards."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.sqlite.recovery import ASIDE

FLIPS = int(os.environ.get("BOXALOUD_FLIPS", "60"))
PAGE = 4096
LINES = (
    "two 14-2 cables", "18 cubic inches", "a switch", "no clamps", "next box porch",
    "three 12-2 cables", "a receptacle", "20 cubic inches", "next box hall", "four 14-2 cables",
)  # fmt: skip


def heard(session: Session) -> list[str]:
    return [row.entry for row in session._keeper.rows if row.action == "entry"]


def told_of(session: Session) -> str:
    return " ".join(session.take_notes())


def flip(path: Path, bit: int) -> None:
    raw = bytearray(path.read_bytes())
    raw[bit // 8] ^= 1 << bit % 8
    path.write_bytes(raw)


def look_at(job: Path, whole: list[str], before: bytes) -> str:
    """Open the job after something was done to it: all that it had is there, or it is told."""
    folder = job.parent
    known = repository.places()
    assert len(known) == 2, known
    place = next(place for place in known if place.path.name != "barn-lane.boxaloud")
    session = Session.open_at(place)
    notes, kept = told_of(session), heard(session)
    session.close()
    aside = [each for each in folder.iterdir() if ASIDE in each.name and each.name[-4] != "-"]
    assert kept == whole[: len(kept)], "rows are not those that were written"
    if len(kept) < len(whole):
        assert f"carried over {len(kept)}" in notes
        assert aside
    if aside:
        assert aside[0].read_bytes() == before
        assert str(aside[0]) in notes
    return notes


def put_back(folder: Path, kept: Path) -> None:
    shutil.rmtree(folder)
    shutil.copytree(kept, folder)
