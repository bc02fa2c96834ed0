"""One job to report: the demonstration, talked through once."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from boxaloud.assistant.reports import JobReport, job_report
from boxaloud.assistant.storage import Session
from boxaloud.assistant.storage.demo_job import build


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Session]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BOXALOUD_DATA", str(tmp_path_factory.mktemp("data")))
        session = build()
        yield session
        session.close()


@pytest.fixture(scope="session")
def report(demo: Session) -> JobReport:
    return job_report(demo.conversation, demo.name, "in3", "2026-01-02", "2026-01-03")


@pytest.fixture(scope="session")
def page(report: JobReport, tmp_path_factory: pytest.TempPathFactory) -> Path:
    from boxaloud.assistant.reports.report_export import write

    path = tmp_path_factory.mktemp("page") / "demo.html"
    write(report, path)
    return path
