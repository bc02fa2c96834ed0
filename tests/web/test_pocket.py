"""A page that stands alone: what it hands out to be stored gives the same job back, row by row."""

from __future__ import annotations

import json
import os
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.web.pocket_entry import Pocket, rehearse, warm

FULL = "three 14-2 cables and a receptacle in an 18 cubic inch box"


class Browser:
    """The storage of a browser, as the page's worker keeps it."""

    def __init__(self) -> None:
        self.jobs: dict[str, dict[str, Any]] = {}
        self.words: str | None = None
        self.full = False

    def store(self, unsaved: dict[str, Any]) -> bool:
        if self.full:
            return False
        for job in unsaved["jobs"]:
            held = self.jobs.setdefault(job["file"], {"about": job["about"], "rows": []})
            for row in job["rows"]:
                assert row[0] == len(held["rows"]) + 1, "a place in the journal is taken once"
                held["rows"].append(row)
        self.words = unsaved["words"] if unsaved["words"] is not None else self.words
        return True

    def news(self, held: dict[str, int] | None = None) -> str:
        known = held or {}
        jobs = [
            {"file": file, "about": job["about"], "written": float(number),
             "rows": job["rows"][known.get(file, 0):]}
            for number, (file, job) in enumerate(self.jobs.items(), 1)
            if len(job["rows"]) > known.get(file, 0) or file not in known
        ]  # fmt: skip
        return json.dumps({"jobs": jobs, "words": self.words})


@dataclass
class Page:
    """A page: its engine, and the folder in memory that it alone sees."""

    pocket: Pocket
    folder: Path

    def here(self) -> Pocket:
        os.environ["BOXALOUD_DATA"] = str(self.folder)
        return self.pocket


def ask(page: Page, browser: Browser, kind: str, **said: object) -> Any:
    pocket = page.here()
    handed = json.loads(pocket.answer(json.dumps({"kind": kind, **said})))
    if browser.store(handed["unsaved"]):
        pocket.saved()
    return handed["told"]


@pytest.fixture
def folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path / "first"))
    return tmp_path


def opened(browser: Browser, folder: Path) -> Page:
    page = Page(Pocket(str(folder)), folder)
    page.pocket.take_in(browser.news())
    return page


def behind(browser: Browser, rows: int) -> str:
    """What a page is given that has so many rows of the one job."""
    ((file, _),) = browser.jobs.items()
    return browser.news({file: rows})


def test_a_page_loaded_again_goes_on_where_it_was(folders: Path) -> None:
    browser = Browser()
    first = opened(browser, folders / "a")
    ask(first, browser, "hear", words=FULL)
    before = ask(first, browser, "hear", words="clamps inside")
    after = ask(opened(browser, folders / "b"), browser, "look", first=True)
    assert (after["verdict"], after["contents"], after["sheets"], after["stand"]) == (
        before["verdict"], before["contents"], before["sheets"], before["stand"]
    )  # fmt: skip


def test_what_could_not_be_stored_waits_and_is_stored_later(folders: Path) -> None:
    browser = Browser()
    pocket = opened(browser, folders / "a")
    ask(pocket, browser, "hear", words="two 14-2 cables")
    browser.full = True
    ask(pocket, browser, "hear", words="one switch")
    ask(pocket, browser, "start_job", name="Heron Street")
    assert len(browser.jobs) == 1
    browser.full = False
    ask(pocket, browser, "hear", words="one 12-2 cable")
    assert [len(job["rows"]) for job in browser.jobs.values()] == [2, 1]


def test_two_pages_of_one_browser_lose_nothing(folders: Path) -> None:
    browser = Browser()
    one = opened(browser, folders / "a")
    ask(one, browser, "hear", words="two 14-2 cables")
    two = opened(browser, folders / "b")
    ask(two, browser, "hear", words="one switch")
    one.here().take_in(behind(browser, 1))
    shown = ask(one, browser, "hear", words="18 cubic inch box")
    assert [row["count"] for row in shown["contents"] if row["kind"] == "item"] == [2, 1]
    ((_, job),) = browser.jobs.items()
    assert [row[0] for row in job["rows"]] == [1, 2, 3]


def test_rows_that_wait_come_behind_what_another_page_stored(folders: Path) -> None:
    browser = Browser()
    one = opened(browser, folders / "a")
    ask(one, browser, "hear", words="two 14-2 cables")
    two = opened(browser, folders / "b")
    browser.full = True
    ask(two, browser, "hear", words="one receptacle")
    browser.full = False
    ask(one, browser, "hear", words="one switch")
    two.here().take_in(behind(browser, 1))
    shown = ask(two, browser, "hear", words="18 cubic inch box")
    assert [row["count"] for row in shown["contents"] if row["kind"] == "item"] == [2, 1, 1]
    ((_, job),) = browser.jobs.items()
    assert [row[0] for row in job["rows"]] == [1, 2, 3, 4]


def test_own_words_are_stored_too(folders: Path) -> None:
    browser = Browser()
    pocket = opened(browser, folders / "a")
    ask(pocket, browser, "hear", words="blue box means single gang device box 18 cubic inches")
    assert browser.words is None or "blue box" in browser.words


def test_a_job_file_goes_out_and_comes_in(folders: Path) -> None:
    browser = Browser()
    page = opened(browser, folders / "a")
    before = ask(page, browser, "hear", words=FULL + ", no clamps")
    file = Path(page.here().export())
    other = Browser()
    taken = opened(other, folders / "b")
    told = json.loads(taken.here().take_in_file(str(file)))
    assert told["told"]["contents"] == before["contents"]
    assert told["told"]["verdict"]["margin"] == "0.00"
    other.store(told["unsaved"])
    assert sum(len(job["rows"]) for job in other.jobs.values()) == 1


def test_a_file_that_is_no_job_is_refused_and_the_talk_goes_on(folders: Path) -> None:
    browser = Browser()
    page = opened(browser, folders / "a")
    ask(page, browser, "hear", words=FULL)
    bad = folders / "bad.boxaloud"
    bad.write_bytes(b"no job" * 100)
    told = json.loads(page.here().take_in_file(str(bad)))["told"]
    assert told["document"] in ("Refused", "PageView")
    assert ask(page, browser, "hear", words="no clamps")["document"] == "PageView"


def test_warming_and_rehearsing_leave_nothing_behind(folders: Path) -> None:
    browser = Browser()
    warm()
    page = opened(browser, folders / "a")
    ask(page, browser, "hear", words=FULL)
    rehearse()
    warm()
    assert ask(page, browser, "hear", words="no clamps")["verdict"]["margin"].startswith("0.00")
    (file,) = browser.jobs
    assert len(browser.jobs[file]["rows"]) == 2
