"""A person's own words ("when I say blue box I mean …"), in a file they may edit by hand.

`own_words.toml` in the user's configuration folder: one line for each, `"blue box" = "single
gang eighteen cubic inches"`. BOXALOUD_CONFIG points elsewhere, and so does BOXALOUD_DATA.
"""

from __future__ import annotations

import contextlib
import json
import os
import tomllib
from collections.abc import Mapping
from pathlib import Path

import platformdirs

HEADING = "# When I say the words on the left, I mean those on the right.\n"


def own_words_file() -> Path:
    """Where the file is, whether or not it is there."""
    told = os.environ.get("BOXALOUD_CONFIG") or os.environ.get("BOXALOUD_DATA")
    folder = Path(told).expanduser() if told else platformdirs.user_config_path("boxaloud")
    return folder / "own_words.toml"


def read() -> dict[str, str]:
    """Every own word and what it means; none where the file is not there or not readable."""
    with contextlib.suppress(OSError, ValueError):
        found = tomllib.loads(own_words_file().read_text(encoding="utf-8"))
        return {word: mean for word, mean in found.items() if isinstance(mean, str)}
    return {}


def unreadable() -> str:
    """What is wrong with a file that is there and cannot be read; empty where nothing is."""
    path = own_words_file()
    try:
        tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return ""
    except (OSError, ValueError) as trouble:
        return f"Your own words in {path} cannot be read: {trouble}. Mend or remove that file."
    return ""


def write(words: Mapping[str, str]) -> None:
    """Keep these besides those in the file, whole or not at all; a file that cannot be read is
    left as it is. Trouble is no matter to the talk: the words hold until it ends."""
    if unreadable():
        return
    path = own_words_file()
    draft = path.with_name(f".{path.name}.{os.getpid()}.new")
    with contextlib.suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        with draft.open("w", encoding="utf-8") as out:
            out.write(HEADING)
            out.writelines(
                f"{_quoted(word)} = {_quoted(mean)}\n" for word, mean in {**read(), **words}.items()
            )
            out.flush()
            os.fsync(out.fileno())
        os.replace(draft, path)


def _quoted(text: str) -> str:
    """A TOML basic string: JSON's quoting is one, but for the delete character."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
