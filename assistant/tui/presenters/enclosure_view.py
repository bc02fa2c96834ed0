"""A pull box and a conduit body as the screen shows them, where no volume counts: pure text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.enclosures import body_telling, pull_standing, pull_telling
from boxaloud.assistant.dialogue.enclosures.conduit_body import BodyStanding
from boxaloud.assistant.dialogue.enclosures.pull_standing import PullStanding
from boxaloud.assistant.tui.presenters.pull_picture import drawn
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.rules import PullSheet, edition_named
from boxaloud.rules.pull import shown
from boxaloud.rules.pull_front import Front, front
from boxaloud.rules.worksheet import Verdict

WORDED = 16
"""Rows from which a drawing has its walls in words under it."""


@dataclass(frozen=True, slots=True)
class Headline:
    """What is shown large of it, and one line under that."""

    word: str
    figure: str
    unit: str
    caption: str
    tiny: str
    sign: str = ""


def headline(found: Assessment) -> Headline | None:
    """The least size of a pull box, or how many of how many pass; None while that is open."""
    if found.body is not None:
        return _of_body(found.body, found.verdict, edition_named(found.sheet.edition))
    if found.pull is not None and found.pull.sheet is not None:
        return _of_pull(found.pull, found.pull.sheet, edition_named(found.sheet.edition))
    return None


def _of_pull(pull: PullStanding, sheet: PullSheet, edition: str) -> Headline:
    sides = [side for side in (sheet.width, sheet.height, sheet.depth) if side is not None]
    figure = "×".join(map(shown, sides))
    key = {"fits": "enough", "over": "small", "incomplete": "least"}[pull.verdict]
    word = text(f"pull.word.{key}")
    told = ", ".join(
        text(f"pull.side.{axis}", inches=shown(side))
        for axis, side in (("width", sheet.width), ("height", sheet.height), ("depth", sheet.depth))
        if side is not None
    )
    caption = text(f"pull.caption.{key}", sides=told, edition=edition)
    tiny = text("pull.tiny", word=word, figure=figure)
    return Headline(word, figure, "in", caption, tiny, "least" if key == "least" else "")


def _of_body(body: BodyStanding, verdict: Verdict, edition: str) -> Headline:
    word = text(f"verdict.word.{verdict}")
    if body.sheet is None:
        told = body.refusal or text("body.open")
        caption = text("body.caption", told=told.rstrip("."), edition=edition)
        return Headline(word, "", "", caption, text("body.tiny", word=word, figure=""))
    lines = [body_telling.what(line, body.said) for line in body.sheet.lines]
    sections = ", ".join(dict.fromkeys(line.section for line in body.sheet.lines))
    caption = text("body.caption", told=f"{'; '.join(lines)}, {sections}", edition=edition)
    counted = [line for line in body.sheet.lines if line.unit == "conductors"]
    figure = "/".join(str(int(n)) for n in (counted[0].have, counted[0].limit)) if counted else ""
    return Headline(word, figure, "", caption, text("body.tiny", word=word, figure=figure))


def rows(found: Assessment) -> Iterator[tuple[str, str]]:
    """Each least distance or limit, with how it comes about and its section."""
    if found.body is not None and found.body.sheet is not None:
        for line in found.body.sheet.lines:
            what = body_telling.what(line, found.body.said)
            what = what[:1].upper() + what[1:]
            yield text("body.row", what=what, working=line.working), line.section
        for told in body_telling.of_large(found.body):
            yield told, ""
    if found.pull is not None and found.pull.sheet is not None:
        if found.pull.said is not None:
            for told in pull_telling.cables_of(found.pull.said, found.pull.assumed):
                yield told, ""
        for distance in dict.fromkeys(pull_standing.real_lines(found.pull.sheet)):
            yield (
                text(
                    "pull.row",
                    inches=shown(distance.inches),
                    working=distance.working,
                    what=distance.what,
                ),
                distance.section,
            )
        for one in found.pull.compared:
            key = "fits" if one.holds else "small"
            have, least = shown(one.have), shown(one.least)
            yield text(f"pull.held.{key}", axis=one.axis, have=have, least=least), one.section


def front_of(found: Assessment) -> Front | None:
    """The front of a pull box that can be drawn; None for anything else."""
    pull = found.pull
    if not found.pull_alone or pull is None or pull.sheet is None or pull.box is None:
        return None
    return front(pull.sheet, pull.box.raceways)


def picture(found: Assessment, width: int, height: int) -> list[str]:
    """The drawing with what it is, else what it would show in words, in so much room."""
    # a terminal's, which is not there on a phone
    from boxaloud.assistant.tui.presenters.fitted_text import wrapped

    if found.body is not None:
        return [row for left, _ in rows(found) for row in wrapped(left, width)][:height]
    seen, pull = front_of(found), found.pull
    if seen is None or pull is None:
        return []
    told = wrapped(pull_telling.walls(pull), width)
    under = [text("pull.scale"), *(told if height >= WORDED else ())]
    shown_rows = drawn(seen, width, height - len(under))
    return [*shown_rows, *(row[:width] for row in under)] if shown_rows else told[:height]
