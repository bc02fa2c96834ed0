"""A job's report as one HTML page that stands by itself: no network, no script."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from importlib.resources import files

from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.html_box_section import box_section
from boxaloud.assistant.reports.html_elements import element, listing, table, text
from boxaloud.assistant.reports.report_builder import rules_used
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BoxReport, JobReport


def pieces(report: JobReport) -> Iterator[str]:
    """The page, piece by piece, so that a large job is never held whole."""
    title = text(say("title.job", job=report.name))
    yield '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
    yield '<meta name="color-scheme" content="light dark">\n'
    yield f"<title>{title}</title>\n<style>\n{_style()}</style>\n</head>\n<body>\n"
    yield from _head(report)
    yield "<main>\n"
    yield _cautions(report)
    yield _summary(report)
    yield _materials(report)
    yield element("h2", text(say("section.boxes")))
    yield element("p", text(say("gauge.key")), class_="key") + "\n"
    for number, box in enumerate(report.boxes, 1):
        yield box_section(box, number, report.units)
    yield _rules(report)
    yield "</main>\n"
    yield element("footer", element("p", text(say("fact.program"))))
    yield "\n</body>\n</html>\n"


@lru_cache(maxsize=1)
def _style() -> str:
    path = files("boxaloud.assistant.reports") / "data" / "report.css"
    return path.read_text(encoding="utf-8")


def _head(report: JobReport) -> Iterator[str]:
    facts = [
        say("fact.editions", editions=", ".join(report.editions) or "none"),
        say("fact.units_cm3" if report.units == "cm3" else "fact.units"),
    ]
    if report.begun:
        facts.append(say("fact.begun", date=report.begun[:10]))
    if report.written:
        facts.append(say("fact.written", date=report.written[:10]))
    title = element("h1", text(say("title.job", job=report.name)))
    yield element("header", title + listing(facts, "facts")) + "\n"


def _cautions(report: JobReport) -> str:
    inner = element("h2", text(say("section.cautions"))) + listing(report.standing)
    return element("section", inner, class_="first") + "\n"


def _summary(report: JobReport) -> str:
    counts = [("boxes", len(report.boxes))]
    counts += [(v, report.count(v)) for v in ("fits", "over", "incomplete")]
    tiles = "".join(
        element(
            "li",
            element("strong", str(number)) + " " + element("span", text(say(f"count.{name}"))),
            class_=name,
        )
        for name, number in counts
    )
    heads = [
        say(f"table.{n}") for n in ("box", "edition", "total", "capacity", "margin", "verdict")
    ]
    rows = [_summary_row(box, number) for number, box in enumerate(report.boxes, 1)]
    inner = (
        element("h2", text(say("section.summary")))
        + element("ul", tiles, class_="counts")
        + table(say("table.summary_caption"), heads, rows, "summary")
    )
    return element("section", inner) + "\n"


def _summary_row(box: BoxReport, number: int) -> list[str]:
    link = element("a", text(number_format.capital(box.name)), href=f"#box-{number}")
    cells = [
        box.edition,
        number_format.total(box),
        number_format.capacity(box),
        number_format.margin(box),
    ]
    return [link, *map(text, cells), verdict_mark(box)]


def verdict_mark(box: BoxReport) -> str:
    """The verdict in a word; its frame differs in shape as well as in colour."""
    return element("span", text(number_format.verdict(box)), class_=f"verdict {box.verdict}")


def _materials(report: JobReport) -> str:
    materials = report.materials
    if not report.count("over"):
        return ""
    inner = element("h2", text(say("section.materials")))
    if materials:
        heads = [say("table.material"), say("table.quantity"), say("table.for_boxes")]
        rows = [
            [text(m.name), str(m.quantity), text(number_format.capital(", ".join(m.boxes)))]
            for m in materials
        ]
        inner += table(say("table.materials_caption"), heads, rows, "materials")
    else:
        inner += element("p", text(say("part.no_materials")))
    return element("section", inner) + "\n"


def _rules(report: JobReport) -> str:
    uses = rules_used(report)
    if not uses:
        return ""
    heads = [say(f"table.{name}") for name in ("section", "says", "source", "mark")]
    rows = [
        [text(use.section), text(use.note.says), text(use.note.source), text(use.note.mark)]
        for use in uses
    ]
    inner = element("h2", text(say("section.rules")))
    inner += table(say("table.rules_caption"), heads, rows, "rules")
    return element("section", inner) + "\n"
