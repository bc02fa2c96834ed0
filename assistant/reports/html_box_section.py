"""One box of the HTML report: verdict, gauge, worksheet, and what it rests on."""

from __future__ import annotations

from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.bar_layout import WIDTH, Gauge, gauge
from boxaloud.assistant.reports.html_elements import element, listing, table, text
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BoxReport, Change
from boxaloud.rules.worksheet import Line

_HEIGHT, _TOP, _BAR = 72, 26, 42


def box_section(box: BoxReport, number: int, units: str) -> str:
    """The section of a box."""
    heading = f"box-{number}"
    inner = (
        element("h3", f"{number}. {text(number_format.capital(box.name))}", id=heading)
        + element(
            "p",
            element("span", text(number_format.verdict(box)), class_=f"verdict {box.verdict}")
            + " "
            + text(number_format.verdict_line(box)),
            class_="standing",
        )
        + _drawn(box, number, units)
        + _fill(box)
        + _capacity(box)
        + _notes(box)
    )
    return element("article", inner, class_=box.verdict, aria_labelledby=heading) + "\n"


def _drawn(box: BoxReport, number: int, units: str) -> str:
    """The gauge and, under it, the same in words."""
    total = number_format.with_cm3(number_format.total(box), box.sheet.total, units)
    if box.sheet.capacity is None:
        words = say("gauge.text_none", total=total)
    else:
        room = number_format.with_cm3(marked(box.sheet.capacity), box.sheet.capacity, units)
        words = say("gauge.text", total=total, capacity=room)
    caption = element("figcaption", text(words), id=f"fill-{number}")
    return element("figure", _svg(box, gauge(box), f"fill-{number}", number) + caption)


def _svg(box: BoxReport, drawn: Gauge, label: str, number: int) -> str:
    hatch = f"hatch-{number}"
    parts = [
        f'<defs><pattern id="{hatch}" width="7" height="7" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="7" class="hatch"/>'
        "</pattern></defs>"
    ]
    parts.append(f'<rect x="0" y="{_TOP}" width="{WIDTH}" height="{_BAR}" class="track"/>')
    for place, segment in enumerate(drawn.segments):
        parts.append(
            f'<rect x="{segment.left}" y="{_TOP}" width="{segment.width}" height="{_BAR}" '
            f'class="part{place % 2}"/>'
        )
        if segment.width > 16:
            middle = segment.left + segment.width / 2
            parts.append(
                f'<text x="{middle:.1f}" y="{_TOP + 27}" class="number">{segment.number}</text>'
            )
    if drawn.capacity is not None:
        parts += _capacity_line(box, drawn, hatch)
    return (
        f'<svg viewBox="-1 0 {WIDTH + 2} {_HEIGHT}" role="img" aria-labelledby="{label}">'
        + "".join(parts)
        + "</svg>"
    )


def _capacity_line(box: BoxReport, drawn: Gauge, hatch: str) -> list[str]:
    at = drawn.capacity
    assert at is not None
    assert box.sheet.capacity is not None
    parts = []
    if drawn.filled > at:
        parts.append(
            f'<rect x="{at}" y="{_TOP}" width="{drawn.filled - at}" height="{_BAR}" '
            f'fill="url(#{hatch})"/>'
        )
    parts.append(f'<line x1="{at}" y1="{_TOP - 6}" x2="{at}" y2="{_HEIGHT}" class="capacity"/>')
    words = say("gauge.capacity", capacity=marked(box.sheet.capacity))
    if at > WIDTH / 2:
        parts.append(f'<text x="{at}" y="16" class="label end">{text(words)}</text>')
    else:
        parts.append(f'<text x="{at}" y="16" class="label">{text(words)}</text>')
    return parts


def _fill(box: BoxReport) -> str:
    if not box.sheet.lines:
        return element("p", text(say("part.no_contents")))
    names = ("number", "item", "allowances", "each", "subtotal", "section")
    heads = [say(f"table.{name}") for name in names]
    rows = [_line(number, line) for number, line in enumerate(box.sheet.lines, 1)]
    rows.append(["", element("strong", text(say("table.total"))), "", "",
                 element("strong", text(volume(box.sheet.total))), ""])  # fmt: skip
    caption = say("table.fill_caption", box=box.name)
    return table(caption, heads, rows, "fill")


def _line(number: int, line: Line) -> list[str]:
    cells = (
        number_format.capital(line.what), number_format.allowances(line), number_format.each(line),
        volume(line.subtotal), line.section,
    )  # fmt: skip
    return [str(number), *map(text, cells)]


def _capacity(box: BoxReport) -> str:
    if not box.sheet.volumes:
        return ""
    heads = [say("table.part"), say("table.volume"), say("table.section")]
    rows = [
        [text(number_format.capital(part.what)), text(marked(part.volume)), text(part.section)]
        for part in box.sheet.volumes
    ]
    return table(say("table.capacity_caption", box=box.name), heads, rows, "room")


def _notes(box: BoxReport) -> str:
    quoted = [f"“{words}”" for words in box.said]
    notes = [
        ("advice", _advice(box)),
        ("contents", [number_format.capital(thing) for thing in box.contents]),
        ("said", quoted),
        ("assumed", [number_format.capital(thing) for thing in box.assumed]),
        ("open", [number_format.capital(thing) for thing in box.open]),
        ("unused", [f"“{words}”" for words in box.unused]),
        ("cautions", list(box.cautions)),
    ]
    inner = "".join(
        element("div", element("h4", text(say(f"part.{key}"))) + listing(items), class_=key)
        for key, items in notes
        if items
    )
    return element("div", inner, class_="notes")


def _advice(box: BoxReport) -> list[str]:
    if box.verdict != "over":
        return []
    return [advice_line(change) for change in box.advice] or [say("part.no_advice")]


def advice_line(change: Change) -> str:
    """One change in words, with what it leaves."""
    key = "enough" if change.enough else "not_enough"
    return say(
        f"part.{key}",
        what=change.what,
        margin=volume(abs(change.margin)),
        section=change.section,
    )
