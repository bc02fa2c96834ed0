"""The boxes of a job said in a breath: how many fit, and which do not."""

from __future__ import annotations

from collections.abc import Mapping

from boxaloud.assistant.dialogue.nlg.sentences import counted, listed, say
from boxaloud.rules.worksheet import Verdict

MOST_LISTED = 8
"""Boxes named one by one in a list that is spoken."""


def listing(verdicts: Mapping[str, Verdict], only: str) -> str:
    """All boxes with their verdicts, or the names of those that have but the one asked for."""
    if only:
        return _only(verdicts, only)
    fits = sum(verdict == "fits" for verdict in verdicts.values())
    over = sum(verdict == "over" for verdict in verdicts.values())
    count = len(verdicts)
    text = say(
        "job.summary",
        count=f"{counted(count)} box{'es' if count != 1 else ''}",
        fits=_some(fits),
        over=_some(over),
        open=_some(count - fits - over),
    )
    text = text[0].upper() + text[1:]
    if count > MOST_LISTED:
        wanted = [name for name, verdict in verdicts.items() if verdict == "over"]
        return text + (" " + say("job.over_list", names=listed(wanted[:5])) if wanted else "")
    rows = [
        say("job.row", name=_title(name), verdict=say(f"job.verdict.{verdict}"))
        for name, verdict in verdicts.items()
    ]
    return f"{text} {'; '.join(rows)}."


def _only(verdicts: Mapping[str, Verdict], only: str) -> str:
    """The names of the boxes that have one verdict. A box that has none yet may have it too."""
    wanted = [_title(name) for name, verdict in verdicts.items() if verdict == only]
    open_ = [_title(name) for name, verdict in verdicts.items() if verdict == "incomplete"]
    if only == "incomplete" or not open_:
        return listed(wanted) + "." if wanted else say("job.none_such")
    told = listed(wanted) + "." if wanted else say("job.none_for_certain")
    return f"{told} {say('job.not_certain', names=listed(open_))}"


def _title(name: str) -> str:
    return name[:1].upper() + name[1:]


def _some(count: int) -> str:
    return counted(count) if count else say("none_of_them")
