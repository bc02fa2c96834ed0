"""`boxaloud completion`: the script for a shell, and what that script asks for at the Tab key."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from importlib.resources import files

from boxaloud.assistant.cli.arguments import HELP
from boxaloud.assistant.cli.cli_messages import say
from boxaloud.assistant.cli.command_rows import Command, Names
from boxaloud.assistant.cli.completion import Candidate, candidates
from boxaloud.assistant.cli.exit_codes import FITS
from boxaloud.assistant.cli.output import put
from boxaloud.assistant.text.problem import Problem

_NEEDS_A_MARK = re.compile(r"([^\w@%+=:,./-])")
_MARKED = re.compile(r"\\(.)|['\"]")


def run(command: Command, shell: str, words: Sequence[str]) -> int:
    """Print the script of a shell; with the words of a line so far, print how it may go on."""
    if shell not in _SHOWN:
        raise Problem(say("completion.no_shell", name=shell, names=", ".join(_SHOWN)))
    if not words:
        script = files("boxaloud.assistant.cli").joinpath(f"data/completion.{shell}")
        put(script.read_text("utf-8").rstrip("\n"))
        return FITS
    read = _of_bash(words) if shell == "bash" else list(words)
    for each in candidates(command, read, kept, (HELP,)):
        if each.word.isprintable():
            put(_SHOWN[shell](each, words[-1]))
    return FITS


def kept(what: Names, job: str) -> list[str]:
    """The names of jobs, or of the boxes of one; none where they cannot be had."""
    from boxaloud.assistant.storage import repository

    if what == "job":
        return [place.name for place in repository.places()]
    from boxaloud.assistant.storage.replay import replay
    from boxaloud.assistant.storage.sqlite.salvage import readable_rows

    try:
        return list(replay(readable_rows(repository.find(job).path)).texts)
    except Problem:
        return []


def _of_bash(words: Sequence[str]) -> list[str]:
    """The words meant by those that bash hands on: as they were typed, and parted at “=”."""
    read = [_MARKED.sub(lambda found: found[1] or "", word) for word in words if word != "="]
    return [*read, ""] if words[-1] == "=" else read


def _for_bash(each: Candidate, begun: str) -> str:
    """With a mark before what the shell would take for its own, unless a quotation is begun."""
    return each.word if begun[:1] in ("'", '"') else _NEEDS_A_MARK.sub(r"\\\1", each.word)


def _for_zsh(each: Candidate, _: str) -> str:
    word = each.word.replace("\\", "\\\\").replace(":", "\\:")
    return f"{word}:{each.about}" if each.about else word


def _for_fish(each: Candidate, _: str) -> str:
    return f"{each.word}\t{each.about}"


_SHOWN: dict[str, Callable[[Candidate, str], str]] = {
    "bash": _for_bash,
    "zsh": _for_zsh,
    "fish": _for_fish,
}
