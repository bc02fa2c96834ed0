"""Writing a report to a file, in the form that its name asks for."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

from boxaloud.assistant.problems import Problem
from boxaloud.assistant.report import as_json, csv_rows, html
from boxaloud.assistant.report.model import JobReport

FORMS: dict[str, Callable[[JobReport], Iterator[str]]] = {
    ".html": html.pieces,
    ".htm": html.pieces,
    ".csv": csv_rows.pieces,
    ".json": as_json.pieces,
}


def check_form(path: Path) -> str:
    """The ending of a report's name. Raises Problem for one that is no form of a report."""
    ending = path.suffix.lower()
    if ending not in FORMS and ending != ".pdf":
        raise Problem(
            f"{path.name} does not say which form: end it with .html, .pdf, .csv or .json."
        )
    return ending


def write(report: JobReport, path: Path) -> None:
    """Write the report, whole or not at all. Raises Problem, in a sentence, where it cannot."""
    ending = check_form(path)
    draft = path.with_name(f".{path.name}.{os.getpid()}.new")
    try:
        if ending == ".pdf":
            from boxaloud.assistant.report import pdf

            pdf.write(report, draft)
        else:
            with draft.open("w", encoding="utf-8", newline="") as out:
                out.writelines(FORMS[ending](report))
        os.replace(draft, path)
    except OSError as fault:
        raise Problem(f"{path} cannot be written: {fault.strerror or fault}.") from None
    finally:
        draft.unlink(missing_ok=True)
