"""The boxes of a job by margin, in a PDF."""

from __future__ import annotations

from collections.abc import Iterator

from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports import pdf_layout as page
from boxaloud.assistant.reports.margin_chart import WIDTH, Strip, margin_chart
from boxaloud.assistant.reports.pdf_blocks import heading, paragraph, space
from boxaloud.assistant.reports.pdf_fonts import Fonts
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import JobReport

_HIGH, _BAR, _SIZE = 14.0, 8.0, 8.0
_NAME, _TOLD = 120.0, 130.0
"""Points for the name before a bar, and for what is told behind it."""
_SURE, _OPEN = (185, 211, 205), (217, 230, 223)


def chart_blocks(fonts: Fonts, report: JobReport) -> list[page.Block]:
    """A row a box, under a heading that stays with the first of them; whole on a page where it
    fits on one."""
    strips = margin_chart(report)
    if not strips:
        return []
    title = heading(fonts, say("chart.title"), 1)
    told = paragraph(fonts, say("chart.caption"), 8, page.FAINT)
    head = page.holding([*title, *told, space(3)])
    whole = [*head, *(page.Block(_HIGH, tuple(_row(fonts, strip))) for strip in strips)]
    return page.held(whole) if page.fits_a_page(whole) else whole


def _row(fonts: Fonts, strip: Strip) -> Iterator[page.Mark]:
    base = _HIGH / 2 + _SIZE / 3
    name = fonts.short(number_format.capital(strip.box.name), _SIZE, _NAME - 8)
    yield page.Words(page.MARGIN, base, name, _SIZE)
    at, room = page.MARGIN + _NAME, page.ROOM - _NAME - _TOLD
    if strip.limit is None or strip.least is None or strip.most is None:
        yield page.Words(at, base, fonts.shown(say("chart.no_capacity")), _SIZE, False, page.FAINT)
    else:
        scale, top = room / float(WIDTH), (_HIGH - _BAR) / 2
        limit, least, most = (float(x) * scale for x in (strip.limit, strip.least, strip.most))
        yield page.Area(at, top, limit, _BAR, page.FAINT)
        if most > least:
            yield page.Area(at, top, most, _BAR, page.FAINT, _OPEN)
        yield page.Area(at, top, least, _BAR, page.FAINT, _SURE)
        if least > limit:
            yield page.Hatching(at + limit, top, least - limit, _BAR, page.COPPER)
        yield page.Stroke(at + limit, 0, at + limit, _HIGH, 2.0, page.INK)
    over = strip.box.look == "over"
    yield page.Words(
        at + room + 10,
        base,
        fonts.shown(strip.told),
        _SIZE,
        over,
        page.COPPER if over else page.INK,
    )
