"""The page that stands alone: without a network, through restarts, kills, a full storage, and
beside another page."""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from driving import FLAGS, FULL, MAIN, PATIENCE_MS, Hand, StaticHost, chromium, only_from
from playwright.sync_api import BrowserContext, Playwright, expect

KILLS = int(os.environ.get("BOXALOUD_PAGE_KILLS", "10"))
PHONE: dict[str, Any] = {
    "viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True,
    "executable_path": chromium(), "args": FLAGS,
}  # fmt: skip


class Phone:
    """A browser with a storage of its own, which can be closed and opened again."""

    def __init__(self, driver: Playwright, profile: Path, url: str) -> None:
        self._driver, self._profile, self.url = driver, profile, url
        self.context: BrowserContext | None = None

    def begun(self) -> BrowserContext:
        """The browser itself, without the page."""
        if self.context is None:
            self.context = self._driver.chromium.launch_persistent_context(
                str(self._profile), **PHONE
            )
        return self.context

    def opened(self) -> Hand:
        hand = Hand(self.begun().new_page(), touch=True)
        hand.open(self.url)
        return hand

    def closed(self) -> None:
        if self.context is not None:
            self.context.close()
        self.context = None


@pytest.fixture
def host(pocket_folder: Path) -> Iterator[StaticHost]:
    made = StaticHost(pocket_folder)
    yield made
    with contextlib.suppress(OSError):
        made.off()


@pytest.fixture
def phone(driver: Playwright, tmp_path: Path, host: StaticHost) -> Iterator[Phone]:
    made = Phone(driver, tmp_path / "profile", host.url)
    yield made
    made.closed()


def test_it_works_with_the_network_off_and_after_a_restart(phone: Phone, host: StaticHost) -> None:
    hand = phone.opened()
    assert phone.context is not None
    strange = only_from(phone.context, host.url)
    hand.say(FULL)
    host.off()
    phone.context.set_offline(True)
    hand.choose("inside")
    hand.sees("over", "2.00")
    expect(hand.page.locator("#net")).to_contain_text("no network needed")
    phone.closed()
    again = phone.opened()
    again.sees("over", "2.00")
    again.press("Undo")
    again.sees("incomplete")
    again.part("standard")
    expect(again.page.locator("#standard li").first).to_be_visible(timeout=PATIENCE_MS)
    assert strange == []


def test_a_later_start_takes_up_the_memory_that_the_first_one_left(phone: Phone) -> None:
    marks = "performance.getEntriesByType('mark').map((mark) => mark.name)"
    first = phone.opened()
    assert "memory" not in first.page.workers[0].evaluate(marks)
    first.say("two 14-2 cables")
    phone.closed()
    later = phone.opened()
    assert "memory" in later.page.workers[0].evaluate(marks)
    expect(later.page.locator("#contents")).to_contain_text("two 14-2")
    later.say("one switch")


def test_a_new_user_gets_there_without_a_network(phone: Phone, host: StaticHost) -> None:
    hand = phone.opened()
    host.off()
    assert phone.context is not None
    phone.context.set_offline(True)
    hand.say("two 14-2 cables and one switch")
    hand.say("18.0")
    hand.choose("inside")
    # 4 conductors, a yoke twice, the grounds once, the clamps once: 8 of 2.0 by 314.16(B) are 16.0
    hand.sees("fits", "2.00")
    hand.use(hand.page.get_by_role("button", name="One more: two 14-2"))
    hand.sees("over", "2.00")
    hand.press("What to change")
    expect(hand.page.locator("#reply")).to_contain_text("fit", timeout=PATIENCE_MS)
    phone.context.grant_permissions(["clipboard-read", "clipboard-write"])
    hand.press("Share")
    expect(hand.page.locator("#trouble")).to_contain_text("Copied", timeout=PATIENCE_MS)
    assert "314.16(B)(2)" in hand.page.evaluate("navigator.clipboard.readText()")


def test_a_full_storage_is_told_and_what_waits_is_kept_later(phone: Phone) -> None:
    hand = phone.opened()
    hand.say("two 14-2 cables")
    expect(hand.page.locator("#trouble")).to_be_hidden()
    phone.closed()  # a browser remembers for a while how much room it found
    phone.begun()
    assert phone.context is not None
    quota = phone.context.new_cdp_session(phone.context.pages[0])
    origin = phone.url.rstrip("/")
    quota.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": 1})
    hand = phone.opened()
    hand.say("one receptacle")
    expect(hand.page.locator("#trouble")).to_contain_text("Not kept", timeout=PATIENCE_MS)
    expect(hand.page.locator("#trouble")).to_contain_text("full")
    quota.send("Storage.overrideQuotaForOrigin", {"origin": origin})
    hand.say("18 cubic inch box")
    expect(hand.page.locator("#trouble")).to_be_hidden()
    phone.closed()
    again = phone.opened()
    for words in ("two 14-2", "one receptacle", "18.0"):
        expect(again.page.locator("#contents")).to_contain_text(words, timeout=PATIENCE_MS)


def test_two_pages_show_one_job(phone: Phone) -> None:
    first = phone.opened()
    first.say("two 14-2 cables")
    second = phone.opened()
    expect(second.page.locator("#contents")).to_contain_text("two 14-2", timeout=PATIENCE_MS)
    second.say("one receptacle")
    expect(first.page.locator("#contents")).to_contain_text("one receptacle", timeout=PATIENCE_MS)
    first.say("18 cubic inch box")
    expect(second.page.locator("#contents")).to_contain_text("18.0", timeout=PATIENCE_MS)
    second.choose("none")
    # four conductors, the yoke twice, the grounds once: 7 of 2.0 by 314.16(B) are 14.0
    second.sees("fits", "4.00")
    first.sees("fits", "4.00")


def test_a_killed_page_loses_nothing_that_was_answered(phone: Phone) -> None:
    """Killed at moments that differ, while something further is being entered: what the page
    had answered is there, and what it had not is there once or not at all."""
    answered = entered = 0
    hand = phone.opened()
    for kill in range(1, KILLS + 1):
        hand.say("one more 14-2 cable" if kill > 1 else "one 14-2 cable")
        page = hand.page
        page.fill("#words", "one more switch" if entered else "one switch")
        page.evaluate("document.getElementById('talk-form').requestSubmit()")
        page.wait_for_timeout(kill * 37 % 100)
        answered += "switch" in page.locator("#heard").inner_text()
        with page.expect_event("crash"), contextlib.suppress(Exception):
            page.goto("chrome://crash", timeout=3000)
        page.close()
        hand = phone.opened()
        rows = hand.page.locator("#contents li")
        cables = rows.filter(has_text="14-2").locator("output")
        expect(cables).to_have_text(str(kill), timeout=PATIENCE_MS)
        there = rows.filter(has_text="switch")
        entered = int(there.locator("output").inner_text()) if there.count() else 0
        assert answered <= entered <= kill
        answered = entered


def test_a_job_goes_to_a_laptop_as_a_file_and_comes_back(phone: Phone, tmp_path: Path) -> None:
    hand = phone.opened()
    hand.say(FULL + ", clamps inside")
    hand.sees("over", "2.00")
    hand.part("jobs")
    with hand.page.expect_download() as saved:
        hand.use(hand.page.locator("#export"))
    file = tmp_path / "data" / "jobs" / saved.value.suggested_filename
    file.parent.mkdir(parents=True)
    saved.value.save_as(file)
    done = subprocess.run(
        [sys.executable, "-c", MAIN, "chat", "--job", "first job"], input="clamps outside\n",
        capture_output=True, text=True, check=True, cwd=tmp_path,
        env={**os.environ, "BOXALOUD_DATA": str(tmp_path / "data")},
    )  # fmt: skip
    assert "18.00 of 18.0" in done.stdout
    kept = JobFile.open(file)
    assert len(kept.rows()) == 2
    kept.close()
    hand.page.set_input_files("#import", file)
    hand.sees("fits", "0.00")
    expect(hand.page.locator("#job")).to_have_text("first job 2", timeout=PATIENCE_MS)


def test_a_file_that_is_no_job_is_told(phone: Phone, tmp_path: Path) -> None:
    hand = phone.opened()
    hand.say("two 14-2 cables")
    bad = tmp_path / "bad.boxaloud"
    bad.write_bytes(b"no job")
    hand.page.set_input_files("#import", bad)
    expect(hand.page.locator("#trouble")).to_be_visible(timeout=PATIENCE_MS)
    hand.say("one switch")


def test_a_file_changed_on_its_way_is_not_taken_in(
    driver: Playwright, pocket_folder: Path, tmp_path: Path
) -> None:
    for file in pocket_folder.iterdir():
        (tmp_path / file.name).write_bytes(file.read_bytes())
    (tmp_path / "words.js").write_bytes((tmp_path / "words.js").read_bytes() + b"//")
    host = StaticHost(tmp_path)
    context = driver.chromium.launch_persistent_context(str(tmp_path / "profile"), **PHONE)
    try:
        page = context.new_page()
        page.goto(host.url)
        expect(page.locator("#trouble")).to_contain_text("taken in", timeout=PATIENCE_MS)
    finally:
        context.close()
        host.off()
