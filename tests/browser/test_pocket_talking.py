"""Talking to the page that stands alone: its own ear, taken in once, hears without a network."""

from __future__ import annotations

import contextlib
import json
import re
import shutil
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from driving import FLAGS, PATIENCE_MS, Hand, StaticHost, chromium, only_from
from playwright.sync_api import Playwright, expect
from speaking import MICROPHONE, VOICE, samples_of, say, silence, waits
from test_talking import CABLES, CLAMPS, VOLUME, seconds, stops, with_silence

# of flite's voice “slt”, which the ear was never trained on: see audio_fixtures/README.md
FIXTURES = Path(__file__).parents[2] / "audio_fixtures"
SAID = next(FIXTURES.glob("two_twelve_two_cables_and_a_receptacle_in_a_twenty*__slt.wav"))
# four conductors, the grounds once, the yoke twice: 7 of 2.25 by 314.16(B), 15.75 in a 20.3
MARGIN = "4.55"
# the ear's worker fails as it does where there is no memory for its network
NO_MEMORY = """
const Whole = Worker;
globalThis.Worker = function (address, settings) {
  if (!String(address).includes("ear_worker")) return new Whole(address, settings);
  const fault = "The ear could not hear that (out of memory).";
  const made = new EventTarget();
  const told = ({ id }) => made.dispatchEvent(new MessageEvent("message", { data: { id, fault } }));
  return Object.assign(made, { terminate() {}, postMessage: told });
};
"""
# its file is gone, as where a browser cleared some of what it kept
NO_WORKER = """
const Whole = Worker;
globalThis.Worker = function (address, settings) {
  return new Whole(String(address).replace("ear_worker", "no_worker"), settings);
};
"""


@contextlib.contextmanager
def alone(
    driver: Playwright, folder: Path, sound: Path | None, script: str = ""
) -> Iterator[tuple[Hand, StaticHost]]:
    """The page that stands alone at a microphone that hears a recording, and its host; without one
    the browser refuses the microphone."""
    flags = [*FLAGS]
    if sound is not None:
        flags += ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"]
        flags.append(f"--use-file-for-fake-audio-capture={sound}%noloop")
    browser = driver.chromium.launch(executable_path=chromium(), args=flags)
    host = StaticHost(folder)
    try:
        context = browser.new_context(viewport={"width": 390, "height": 844})
        context.grant_permissions(["microphone"] if sound is not None else [])
        if script:
            context.add_init_script(script)
        hand = Hand(context.new_page(), touch=False)
        hand.open(host.url)
        yield hand, host
    finally:
        browser.close()
        with contextlib.suppress(OSError):
            host.off()


@pytest.fixture
def sound(tmp_path: Path) -> Path:
    return with_silence(tmp_path / "said.wav", SAID)


def hold(hand: Hand, length: float) -> None:
    """Hold the key while the microphone hears so many seconds."""
    key = hand.page.locator("#mic")
    key.dispatch_event("pointerdown")
    expect(hand.page.locator("#hearing")).to_contain_text("Listening")
    hand.page.wait_for_timeout(length * 1000)
    key.dispatch_event("pointerup")


def take_in(hand: Hand) -> None:
    """The first press offers the ear; it is taken in."""
    hand.page.locator("#mic").press("Enter")
    expect(hand.page.locator("#ear-offer")).to_contain_text("MB")
    hand.page.locator("#ear-take").click()
    expect(hand.page.locator("#hearing")).to_contain_text("ear is here", timeout=PATIENCE_MS)


def test_a_box_is_told_by_sound_to_its_verdict_without_a_network(
    driver: Playwright, pocket_folder: Path, sound: Path
) -> None:
    with alone(driver, pocket_folder, sound) as (hand, host):
        strange = only_from(hand.page.context, host.url)
        take_in(hand)
        host.off()
        hand.page.reload()
        hand.page.wait_for_selector("html[data-ready]", timeout=PATIENCE_MS)
        hold(hand, seconds(SAID) + 2)
        expect(hand.page.locator("#heard")).to_contain_text("twelve two", timeout=PATIENCE_MS)
        hand.sees("fits", MARGIN)
        expect(hand.page.locator("#contents")).to_contain_text("two 12-2 cables with ground")
        expect(hand.page.locator("#hearing")).to_be_hidden()
        expect(hand.page.locator("#trouble")).to_be_hidden()
        assert strange == []


@pytest.fixture
def listening(driver: Playwright, pocket_folder: Path) -> Iterator[Hand]:
    """A page that listens hands free, without a network, at a microphone that hears the test."""
    with alone(driver, pocket_folder, None, MICROPHONE + VOICE) as (hand, host):
        page, free = hand.page, hand.page.locator("#free")
        free.click()  # it needs the ear first
        page.locator("#ear-take").click()
        expect(page.locator("#hearing")).to_contain_text("ear is here", timeout=PATIENCE_MS)
        host.off()
        free.click()
        expect(page.locator("#hearing")).to_contain_text("Listening", timeout=PATIENCE_MS)
        waits(page, spoken=1)
        yield hand


def test_hands_free_each_statement_is_entered_at_its_pause_without_a_network(
    listening: Hand,
) -> None:
    page = listening.page
    for recording in (CABLES, VOLUME, CLAMPS):
        spoken = page.evaluate("spoken.length")
        say(page, silence(1) + samples_of(recording) + silence(2))
        waits(page, spoken + 1)
    expect(page.locator("#contents")).to_contain_text("one switch")
    # four conductors, the grounds once, the yoke twice: 7 of 2.0 by 314.16(B) in an 18.0
    listening.sees("fits", "4.00")
    stops(listening)
    listening.say("undo")


def test_an_answer_is_not_spoken_over_who_speaks_again(listening: Hand) -> None:
    """Past defect: it was, and what had been said by then of the next statement was lost."""
    page = listening.page
    volume = samples_of(VOLUME)
    half = len(volume) // 2 // 2 * 2
    say(page, silence(1) + samples_of(CABLES) + silence(1) + volume[:half], at_once=True)
    expect(page.locator("#contents")).to_contain_text("one switch", timeout=PATIENCE_MS)
    say(page, volume[half:] + silence(2))
    waits(page, spoken=2)
    # 7 of 2.0 as above, and 2.0 more if there is a clamp inside
    listening.sees("fits", "2.00")
    first, then = page.evaluate("spoken")[:2]
    assert first == "Listening."
    assert then.startswith("Fits")


def test_nothing_of_the_ear_is_taken_in_unasked(
    driver: Playwright, pocket_folder: Path, sound: Path, axe: str
) -> None:
    with alone(driver, pocket_folder, sound) as (hand, _):
        page = hand.page
        asked: list[str] = []
        page.context.on("request", lambda request: asked.append(request.url))
        page.locator("#mic").press("Enter")
        expect(page.locator("#ear-take")).to_be_focused()
        page.evaluate(f"{axe}; true")
        found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
        assert found["violations"] == [], json.dumps(found["violations"], indent=1)
        page.locator("#ear-leave").click()
        expect(page.locator("#ear-offer")).to_be_hidden()
        assert [one for one in asked if "letters.bin" in one or "ear_models" in one] == []
        hand.say("two 14-2 cables")


def test_a_new_build_of_the_page_keeps_an_ear_that_is_the_same(
    driver: Playwright, pocket_folder: Path, tmp_path: Path, sound: Path
) -> None:
    """The host has the ear's files no more, so that it is kept or it is gone."""
    folder = tmp_path / "site"
    shutil.copytree(pocket_folder, folder)
    with alone(driver, folder, sound) as (hand, _):
        take_in(hand)
        script = folder / "service_worker.js"
        version = re.search(r'VERSION = "(\w+)"', script.read_text("utf-8"))
        assert version is not None
        script.write_text(script.read_text("utf-8").replace(version[1], "another"))
        for name in ("letters.bin.gz", "ear_models.zip.gz"):
            (folder / name).unlink()
        page = hand.page
        page.reload()
        waits = "navigator.serviceWorker.getRegistration().then((one) => Boolean(one.waiting))"
        until = time.monotonic() + PATIENCE_MS / 1000
        while not page.evaluate(waits) and time.monotonic() < until:
            page.wait_for_timeout(100)
        address, again = page.url, Hand(page.context.new_page(), touch=False)
        page.close()
        # it takes over once the browser has let go of the page that was closed
        again.page.wait_for_timeout(2000)
        again.open(address)
        assert again.page.evaluate("caches.keys()") == ["boxaloud-another"]
        hold(again, seconds(SAID) + 2)
        expect(again.page.locator("#heard")).to_contain_text("twelve two", timeout=PATIENCE_MS)


def test_an_ear_that_cannot_be_taken_in_is_told_and_typing_goes_on(
    driver: Playwright, pocket_folder: Path, sound: Path
) -> None:
    with alone(driver, pocket_folder, sound) as (hand, host):
        host.off()
        hand.page.locator("#mic").press("Enter")
        hand.page.locator("#ear-take").click()
        expect(hand.page.locator("#trouble")).to_contain_text("ear could not", timeout=PATIENCE_MS)
        expect(hand.page.locator("#mic")).to_be_enabled()
        hand.say("two 14-2 cables")


@pytest.mark.parametrize(
    ("script", "why"), [(NO_MEMORY, "memory"), (NO_WORKER, "stopped")], ids=["memory", "file"]
)
def test_an_ear_that_fails_is_told_and_typing_goes_on(
    driver: Playwright, pocket_folder: Path, sound: Path, script: str, why: str
) -> None:
    with alone(driver, pocket_folder, sound, script) as (hand, _):
        take_in(hand)
        hold(hand, seconds(SAID) + 1)
        expect(hand.page.locator("#trouble")).to_contain_text(why, timeout=PATIENCE_MS)
        expect(hand.page.locator("#contents")).to_contain_text("Nothing yet")
        hand.say("two 14-2 cables")


def test_a_microphone_that_is_refused_is_told_and_typing_goes_on(
    driver: Playwright, pocket_folder: Path
) -> None:
    with alone(driver, pocket_folder, None) as (hand, _):
        take_in(hand)
        hand.page.locator("#mic").dispatch_event("pointerdown")
        expect(hand.page.locator("#trouble")).to_contain_text("microphone", timeout=PATIENCE_MS)
        expect(hand.page.locator("#hearing")).to_be_hidden()
        hand.page.locator("#mic").dispatch_event("pointerup")
        hand.say("two 14-2 cables")


def test_a_key_held_in_silence_enters_nothing(
    driver: Playwright, pocket_folder: Path, sound: Path
) -> None:
    with alone(driver, pocket_folder, sound) as (hand, _):
        take_in(hand)
        hold(hand, 0.5)  # the recording begins with a second of silence
        expect(hand.page.locator("#trouble")).to_contain_text("nothing", timeout=PATIENCE_MS)
        expect(hand.page.locator("#contents")).to_contain_text("Nothing yet")
