"""Worksheets and replies as plain lines: for a terminal, a pipe and a screen reader alike.

No column carries meaning by its place alone, nothing is said by colour, and each worksheet
line reads as a sentence does.
"""

from __future__ import annotations

from collections.abc import Iterator

from assistant.conversation.reply import Reply
from assistant.conversation.saying import marked, plain, volume
from rules.worksheet import Line


def worksheet_lines(reply: Reply) -> Iterator[str]:
    """The worksheet: capacity, each item with its section, total, margin, verdict."""
    sheet = reply.sheet
    yield f"Worksheet, NEC 314.16, edition {sheet.edition}"
    for part in sheet.volumes:
        yield f"  {marked(part.volume)} in³ capacity: {part.what}, {part.section}"
    for line in sheet.lines:
        yield "  " + _line(line)
    total = volume(sheet.total)
    if sheet.capacity is None:
        yield f"  Total {total} in³, capacity unknown"
    else:
        margin = sheet.capacity - sheet.total
        word = "margin" if margin >= 0 else "over by"
        yield (
            f"  Total {total} of {marked(sheet.capacity)} in³, {word} {volume(abs(margin))}: "
            f"{reply.verdict.upper()}"
        )
    if reply.low != reply.high:
        yield f"  Still open: between {volume(reply.low)} and {volume(reply.high)} in³"
    for assumed in reply.assumed:
        yield f"  Assumed: {assumed}"


def _line(line: Line) -> str:
    if line.allowances == 0:
        return f"0.00 in³: {line.what}, not counted, {line.section}"
    noun = "allowance" if line.allowances == 1 else "allowances"
    return (
        f"{volume(line.subtotal)} in³: {line.what}, {plain(line.allowances)} {noun} of "
        f"{volume(line.each)} ({line.awg} AWG), {line.section}"
    )


def caution_lines(reply: Reply) -> Iterator[str]:
    """The cautions, one a line."""
    for caution in reply.cautions:
        yield f"  Caution: {caution}"


def full_lines(reply: Reply) -> Iterator[str]:
    """The reply, its worksheet and its cautions."""
    yield reply.said
    if reply.sheet.lines or reply.sheet.volumes:
        yield from worksheet_lines(reply)
        yield from caution_lines(reply)
