"""Writing a report to a file, in the form that its name asks for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from boxaloud.assistant.reports import csv_renderer, html_renderer, json_renderer
from boxaloud.assistant.reports.report_model import JobReport
from boxaloud.assistant.text.output_file import output
from boxaloud.assistant.text.problem import Problem

FORMS: dict[str, Callable[[JobReport], Iterator[str]]] = {
    ".html": html_renderer.pieces,
    ".htm": html_renderer.pieces,
    ".csv": csv_renderer.pieces,
    ".json": json_renderer.pieces,
}


def check_form(path: Path) -> str:
    """The ending of a report's name. Raises Problem for one that is no form of a report."""
    ending = path.suffix.lower()
    if ending not in FORMS and ending != ".pdf":
        raise Problem(
            f"{path.name} does not say which form: end it with .html, .pdf, .csv or .json."
        )
    return ending


def write(report: JobReport, path: Path, step: Callable[[], None] = lambda: None) -> None:
    """Write the report, whole or not at all. Raises Problem, in a sentence, where it cannot.

    `step` is called as each box of a page or a PDF is written.
    """
    ending = check_form(path)
    with output(path) as draft:
        if ending == ".pdf":
            from boxaloud.assistant.reports import pdf_renderer

            pdf_renderer.write(report, draft, step)
        else:
            with draft.open("w", encoding="utf-8", errors="replace", newline="") as out:
                for piece in FORMS[ending](report):
                    out.write(piece)
                    if "<article" in piece:
                        step()
