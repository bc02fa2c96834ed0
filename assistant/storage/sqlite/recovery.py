"""A damaged file is set aside under a name that says so, and what can be read is carried over.

Only the rows up to the first one that is not what was written are carried: a box folded from
a journal with a gap would be another box, and nobody would see it.
"""

from __future__ import annotations

import contextlib
import os
import re
from dataclasses import replace
from pathlib import Path

from boxaloud.assistant.storage.clock import stamp
from boxaloud.assistant.storage.sqlite.about_table import About
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from boxaloud.assistant.storage.sqlite.journal_rows import START, Row
from boxaloud.assistant.storage.sqlite.salvage import (
    left_behind,
    readable_about,
    readable_pictures,
    readable_rows,
)
from boxaloud.assistant.storage.sqlite.storage_errors import NotKept, told_os
from boxaloud.assistant.storage.storage_messages import say
from boxaloud.rules import DEFAULT_EDITION, RulesError, check_edition

ASIDE = ".damaged-"
COMPANIONS = ("-journal", "-wal", "-shm")
MOST_TOLD = 5
"""Statements left behind whose words are told; `job check` tells all."""


def mended(path: Path, name: str) -> tuple[JobFile, str]:
    """Set a damaged file aside and carry over what can be read; `name` where it says none.

    Gives the new file and a sentence about it. Raises NotKept where it cannot be written; the
    damaged file is then where it was.
    """
    about = _usable(readable_about(path) or About(name, DEFAULT_EDITION))
    rows = readable_rows(path)
    left = left_behind(path, rows)
    file, aside = renewed(path, about, rows)
    count = sum(row.action == "entry" for row in rows)
    said = say("keeping.damaged", job=about.name, path=aside, count=count)
    if left:
        said = f"{said} {say('keeping.left_behind', words=quoted(left[:MOST_TOLD]))}"
    return file, said


def quoted(words: list[str]) -> str:
    """Statements in quotes, one after the other, none of them longer than a line."""
    return ", ".join(f"“{one[:80]}”" for one in words)


def _usable(about: About) -> About:
    """What a damaged file says of its job, where it can be used."""
    try:
        edition = check_edition(about.edition)
    except RulesError:
        edition = DEFAULT_EDITION
    return replace(about, edition=edition)


def set_aside(path: Path) -> Path:
    """Rename a damaged file, and what belongs to it, so that nothing is written over it."""
    target = path.with_name(f"{path.name}{ASIDE}{stamp()}")
    number = 2
    while target.exists():
        target = path.with_name(f"{path.name}{ASIDE}{stamp()}-{number}")
        number += 1
    os.rename(path, target)
    for ending in COMPANIONS:
        companion = path.with_name(path.name + ending)
        if companion.exists():
            os.rename(companion, target.with_name(target.name + ending))
    return target


def renewed(path: Path, about: About, rows: list[Row]) -> tuple[JobFile, Path]:
    """Write a new file with these rows and the pictures that are whole, then set the damaged one
    at `path` aside.

    Gives the new file and where the damaged one is now. The new file never has the path of the
    old: a front end that still has that open would take the log beside it for its own. It is
    whole before the old one goes, so that a job is never without a file.
    """
    pictures = readable_pictures(path)
    file = JobFile.create(fresh_path(path), about)
    try:
        if rows:
            file.append(rows, START)
        file.add_pictures(pictures)
        return file, set_aside(path)
    except (NotKept, OSError) as fault:
        file.close()
        with contextlib.suppress(OSError):
            file.path.unlink()
        raise fault if isinstance(fault, NotKept) else told_os(fault, path) from None


def fresh_path(path: Path) -> Path:
    """A path beside this one that no job has had."""
    stem, number = re.sub(r"-\d+$", "", path.stem), 2
    while True:
        fresh = path.with_name(f"{stem}-{number}{path.suffix}")
        taken = [*fresh.parent.glob(f"{fresh.name}*")]
        if not taken and fresh != path:
            return fresh
        number += 1
