"""A person's own words ("when I say blue box I mean …"), in a file they may edit by hand.

`own_words.toml` in the user's configuration folder: one line for each, `"blue box" = "single
gang eighteen cubic inches"`. BOXALOUD_CONFIG points elsewhere, and so does BOXALOUD_DATA.
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Mapping
from pathlib import Path

HEADING = "# When I say the words on the left, I mean those on the right.\n"


def own_words_file() -> Path:
    """Where the file is, whether or not it is there."""
    told = os.environ.get("BOXALOUD_CONFIG") or os.environ.get("BOXALOUD_DATA")
    if told:
        return Path(told).expanduser() / "own_words.toml"
    from platformdirs import user_config_path

    return user_config_path("boxaloud") / "own_words.toml"


def read() -> dict[str, str]:
    """Every own word and what it means; none where the file is not there or not readable."""
    with contextlib.suppress(OSError, ValueError):
        return {word: mean for word, mean in _parsed().items() if isinstance(mean, str)}
    return {}


def _parsed() -> dict[str, object]:
    """What the file holds. Raises OSError or ValueError where it cannot be read."""
    text = own_words_file().read_text(encoding="utf-8")
    import tomllib  # most people have no such file

    return tomllib.loads(text)


def unreadable() -> str:
    """What is wrong with a file that is there and cannot be read; empty where nothing is."""
    path = own_words_file()
    try:
        _parsed()
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
        path.parent.mkdir(0o700, parents=True, exist_ok=True)
        with open(draft, "w", encoding="utf-8", opener=_private) as out:
            out.write(HEADING)
            out.writelines(
                f"{_quoted(word)} = {_quoted(mean)}\n" for word, mean in {**read(), **words}.items()
            )
            out.flush()
            os.fsync(out.fileno())
        os.replace(draft, path)


def _private(path: str, flags: int) -> int:
    """Open a file that only its owner may read."""
    return os.open(path, flags, 0o600)


def _quoted(text: str) -> str:
    """A TOML basic string: JSON's quoting is one, but for the delete character."""
    import json

    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
