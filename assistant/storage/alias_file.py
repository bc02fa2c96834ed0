"""A person's own words ("when I say blue box I mean …"), in a file they may edit by hand.

`own_words.toml` in the user's configuration folder: one line for each, `"blue box" = "single
gang eighteen cubic inches"`. BOXALOUD_CONFIG points elsewhere, and so does BOXALOUD_DATA.
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Mapping
from pathlib import Path
from typing import BinaryIO

from boxaloud.assistant.text.atomic_file import write_whole

HEADING = "# When I say the words on the left, I mean those on the right.\n"
MOST_BYTES = 1_000_000
"""A longer file is none of a person's own words."""


def own_words_file() -> Path:
    """Where the file is, whether or not it is there."""
    told = os.environ.get("BOXALOUD_CONFIG") or os.environ.get("BOXALOUD_DATA")
    if told:
        return Path(told).expanduser() / "own_words.toml"
    from platformdirs import user_config_path

    return user_config_path("boxaloud") / "own_words.toml"


def read() -> dict[str, str]:
    """Every own word and what it means; none where the file is not there or not readable."""
    with contextlib.suppress(OSError, Damaged):
        return {word: mean for word, mean in _parsed().items() if isinstance(mean, str)}
    return {}


class Damaged(Exception):
    """The file is there and holds something else. The message says what."""


def _parsed() -> dict[str, object]:
    """What the file holds. Raises OSError where it cannot be read, Damaged where it is no list
    of words."""
    path = own_words_file()
    with _opened(path) as file:
        raw = file.read(MOST_BYTES + 1)
    if len(raw) > MOST_BYTES:
        raise Damaged(f"it is longer than {MOST_BYTES} bytes")
    import tomllib  # most people have no such file

    try:
        return tomllib.loads(raw.decode("utf-8"))
    except (ValueError, RecursionError) as fault:
        raise Damaged(str(fault)) from None


def _opened(path: Path) -> BinaryIO:
    """The file, opened without waiting for anyone who would write to it."""
    if not path.is_file():
        raise FileNotFoundError(path) if not path.exists() else OSError("it is no plain file")
    return path.open("rb")


def trouble() -> str:
    """What is wrong with the file, empty where nothing is. A damaged one is set aside under
    another name, so that it is told once, and own words can be kept again."""
    path = own_words_file()
    try:
        _parsed()
    except FileNotFoundError:
        return ""
    except OSError as fault:
        return f"Your own words in {path} cannot be read: {fault.strerror or fault}."
    except Damaged as fault:
        return f"Your own words in {path} cannot be read: {fault}. {_set_aside(path)}"
    return ""


def _set_aside(path: Path) -> str:
    """Give the file a name that nothing has; say where it is."""
    number = 1
    while (aside := path.with_name(f"{path.stem}.damaged-{number}.toml")).exists():
        number += 1
    try:
        os.rename(path, aside)
    except OSError:
        return "Mend or remove that file."
    return f"I set the file aside as {aside} and begin a new one."


def write(words: Mapping[str, str]) -> None:
    """Keep these besides those in the file, whole or not at all; a damaged file is set aside,
    and one that cannot be read is left. Trouble is no matter to the talk: the words hold until
    it ends."""
    path = own_words_file()
    trouble()
    with contextlib.suppress(OSError, Damaged):
        kept = _parsed() if path.exists() else {}
        path.parent.mkdir(0o700, parents=True, exist_ok=True)
        lines = (
            f"{_quoted(word)} = {_quoted(mean)}\n"
            for word, mean in {**kept, **words}.items()
            if isinstance(mean, str)
        )
        write_whole(path, HEADING + "".join(lines))


def _quoted(text: str) -> str:
    """A TOML basic string: JSON's quoting is one, but for the delete character."""
    import json

    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
