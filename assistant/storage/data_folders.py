"""Where things are kept: the one module that knows folders."""

from __future__ import annotations

import os
from pathlib import Path

SUFFIX = ".boxaloud"
"""Every job is one file with this ending, an SQLite database."""


def data_folder() -> Path:
    """The user's data folder, or where BOXALOUD_DATA points. Not made by asking."""
    told = os.environ.get("BOXALOUD_DATA")
    if told:
        return Path(told).expanduser()
    import platformdirs  # not there on a phone, which always tells where

    return platformdirs.user_data_path("boxaloud")


def jobs_folder() -> Path:
    """The folder of the jobs at hand."""
    return data_folder() / "jobs"


def removed_folder() -> Path:
    """The folder that removed jobs wait in, until they are restored."""
    return data_folder() / "removed"
