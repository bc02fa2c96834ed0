"""A pull box and a conduit body as plain lines: what the screen draws is said in words here."""

from __future__ import annotations

from collections.abc import Iterator

from boxaloud.assistant.cli.cli_messages import say
from boxaloud.assistant.dialogue.enclosures import (
    body_telling,
    conduit_body,
    pull_standing,
    pull_telling,
)
from boxaloud.assistant.dialogue.enclosures.conduit_body import BodyStanding
from boxaloud.assistant.dialogue.enclosures.pull_standing import PullStanding
from boxaloud.assistant.dialogue.reply import Reply
from boxaloud.rules import PullSheet, Requirement, edition_named
from boxaloud.rules.pull import shown


def governs(reply: Reply) -> bool:
    """True where a pull box stands alone, or where a raceway decides: no volume counts."""
    return _body(reply) is not None or _pull(reply) is not None


def verdict_line(reply: Reply) -> str:
    """The verdict in one line, with its section and edition: what is read first."""
    edition, body, pull = edition_named(reply.sheet.edition), _body(reply), _pull(reply)
    if body is not None and reply.enclosure is not None:
        if body.sheet is None:
            told = body.refusal or say("enclosure.body_open")
            return say(f"enclosure.{reply.verdict}", told=told.rstrip("."), edition=edition)
        lines = [
            f"{body_telling.what(line, reply.enclosure.body)}, NEC {line.section}"
            for line in body.sheet.lines
        ]
        return say(f"enclosure.{reply.verdict}", told="; ".join(lines), edition=edition)
    if pull is None or pull.sheet is None:
        return ""
    if pull.verdict != "incomplete":
        return _held(pull, edition)
    sides = ", ".join(_sides(pull.sheet))
    return say("enclosure.least", sides=sides, edition=edition)


def too_small_line(reply: Reply) -> str:
    """The verdict over a box that is over by its dimensions alone; empty for any other."""
    sheet, state = reply.sheet, reply.enclosure
    room = sheet.capacity
    by_volume = room is not None and reply.low > room
    if reply.verdict != "over" or by_volume or state is None or state.pulls is None:
        return ""
    return _held(pull_standing.standing(state), edition_named(sheet.edition))


def _held(pull: PullStanding, edition: str) -> str:
    """Each dimension of the box at hand against the least, with its section."""
    told = [
        say("enclosure.held", axis=one.axis, have=shown(one.have), least=shown(one.least),
            section=one.section)
        for one in pull.compared
    ]  # fmt: skip
    key = "enough" if pull.verdict == "fits" else "small"
    return say(f"enclosure.{key}", sides=", ".join(told), edition=edition)


def worksheet_lines(reply: Reply) -> Iterator[str]:
    """What the screen draws and lists: each limit or distance, each with its section."""
    body, pull = _body(reply), _pull(reply)
    if body is not None and body.sheet is not None and reply.enclosure is not None:
        yield say("enclosure.body_title", edition=edition_named(reply.sheet.edition))
        for line in body.sheet.lines:
            what = body_telling.what(line, reply.enclosure.body)
            what = what[:1].upper() + what[1:]
            yield say("enclosure.body_line", what=what, working=line.working, section=line.section)
        for told in body_telling.of_large(body):
            yield f"  {told}"
    if pull is not None:
        yield from _pull_lines(pull, reply.sheet.edition)
    for assumed in reply.assumed:
        yield say("enclosure.assumed", what=assumed)


def beside_volume(reply: Reply) -> Iterator[str]:
    """The distances of a pull box in which something is counted by volume as well."""
    state = reply.enclosure
    if state is not None and state.pulls is not None and reply.sheet.lines:
        yield from _pull_lines(pull_standing.standing(state), reply.sheet.edition)


def _pull_lines(pull: PullStanding, edition: str) -> Iterator[str]:
    if pull.sheet is None:
        return
    yield say("enclosure.pull_title", edition=edition_named(edition))
    yield "  " + pull_telling.walls(pull)
    for told in pull_telling.cables_of(pull.said, pull.assumed) if pull.said else ():
        yield "  " + told
    for distance in dict.fromkeys(pull_standing.real_lines(pull.sheet)):
        yield _distance(distance)
    for one in pull.compared:
        yield "  " + pull_telling.held(one)


def _distance(line: Requirement) -> str:
    key = "pull_apart" if line.axis is None else "pull_line"
    return say(
        f"enclosure.{key}",
        what=line.what,
        inches=shown(line.inches),
        working=line.working,
        section=line.section,
        disputed=say("enclosure.disputed") if line.disputed else "",
    )


def _sides(sheet: PullSheet) -> Iterator[str]:
    for axis, side in (("width", sheet.width), ("height", sheet.height), ("depth", sheet.depth)):
        if side is not None:
            yield say(f"enclosure.{axis}", inches=shown(side))


def _body(reply: Reply) -> BodyStanding | None:
    return None if reply.enclosure is None else conduit_body.standing(reply.enclosure)


def _pull(reply: Reply) -> PullStanding | None:
    """Where a pull box stands that nothing is counted in by volume; None while it is open."""
    state = reply.enclosure
    if state is None or state.pulls is None or reply.sheet.lines:
        return None
    found = pull_standing.standing(state)
    return None if found.sheet is None else found
