"""Talking to the page that a laptop serves: its microphone to the laptop's ears, held by a key."""

from __future__ import annotations

import contextlib
import wave
from collections.abc import Iterator
from pathlib import Path

import pytest
from driving import FLAGS, PATIENCE_MS, Hand, chromium, laptop
from playwright.sync_api import Playwright, expect
from speaking import VOICE

# sentences of the demonstration, recorded: see audio_fixtures/README.md for voice and licence
SAID = Path(__file__).parents[2] / "audio_fixtures" / "demo"
CABLES, VOLUME, CLAMPS = (next(SAID.glob(f"{place}_*.wav")) for place in (1, 2, 3))


def seconds(recording: Path) -> float:
    with wave.open(str(recording)) as said:
        length: float = said.getnframes() / said.getframerate()
    return length


def with_silence(target: Path, *recordings: Path) -> Path:
    """The recordings as a microphone has them: a second of silence before, three behind each."""
    with wave.open(str(recordings[0])) as source:
        form = source.getparams()
    second = bytes(form.framerate * form.nchannels * form.sampwidth)
    with wave.open(str(target), "wb") as made:
        made.setparams(form)
        made.writeframes(second)
        for recording in recordings:
            with wave.open(str(recording)) as source:
                made.writeframes(source.readframes(source.getnframes()) + 3 * second)
    return target


@contextlib.contextmanager
def talker(driver: Playwright, folder: Path, sound: Path | None, allowed: bool) -> Iterator[Hand]:
    """A page whose microphone hears a recording; where it is not allowed, the browser refuses."""
    fake = ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"]
    flags = [*FLAGS, *(fake if allowed else [])]
    if sound is not None:
        flags.append(f"--use-file-for-fake-audio-capture={sound}%noloop")
    browser = driver.chromium.launch(executable_path=chromium(), args=flags)
    try:
        with laptop(folder) as url:
            context = browser.new_context(viewport={"width": 390, "height": 844})
            context.grant_permissions(["microphone"] if allowed else [])
            context.add_init_script(VOICE)
            hand = Hand(context.new_page(), touch=False)
            hand.open(url)
            yield hand
    finally:
        browser.close()


def stops(hand: Hand) -> None:
    """Hands-free talk ends by a key; what it said while it listened was a reply."""
    page = hand.page
    page.keyboard.press("Escape")
    expect(page.locator("#hearing")).to_be_hidden(timeout=PATIENCE_MS)
    expect(page.locator("#free")).to_have_attribute("aria-pressed", "false")
    first, *replies, last = page.evaluate("window.spoken")
    assert first == "Listening."
    assert any("four" in reply for reply in replies)
    assert last == "Stopped listening."
    expect(page.locator("#trouble")).to_be_hidden()


@pytest.fixture
def heard(driver: Playwright, tmp_path: Path) -> Iterator[Hand]:
    sound = with_silence(tmp_path / "said.wav", CABLES)
    with talker(driver, tmp_path, sound, allowed=True) as hand:
        yield hand


def test_what_is_said_while_the_key_is_held_is_entered(heard: Hand) -> None:
    page = heard.page
    key = page.locator("#mic")
    expect(key).to_be_visible()
    key.dispatch_event("pointerdown")
    expect(page.locator("#hearing")).to_contain_text("Listening")
    # the microphone takes as long as the recording does; a slow machine is waited for below
    page.wait_for_timeout((seconds(CABLES) + 3) * 1000)
    key.dispatch_event("pointerup")
    expect(page.locator("#heard")).to_contain_text("fourteen two", timeout=PATIENCE_MS)
    expect(page.locator("#contents")).to_contain_text("two 14-2 cables with ground")
    expect(page.locator("#contents")).to_contain_text("one switch")
    expect(page.locator("#hearing")).to_be_hidden()


def test_a_key_held_in_silence_enters_nothing(heard: Hand) -> None:
    page = heard.page
    key = page.locator("#mic")
    key.dispatch_event("pointerdown")
    expect(page.locator("#hearing")).to_contain_text("Listening")
    key.dispatch_event("pointerup")
    expect(page.locator("#hearing")).to_be_hidden(timeout=PATIENCE_MS)
    expect(page.locator("#contents")).to_contain_text("Nothing yet")


def test_hands_free_each_statement_is_entered_at_its_pause(
    driver: Playwright, tmp_path: Path
) -> None:
    sound = with_silence(tmp_path / "said.wav", CABLES, VOLUME, CLAMPS)
    with talker(driver, tmp_path, sound, allowed=True) as hand:
        page = hand.page
        free = page.get_by_role("button", name="Hands free")
        free.click()
        expect(page.locator("#hearing")).to_contain_text("Listening", timeout=PATIENCE_MS)
        expect(page.locator("#mic")).to_be_disabled()
        # four conductors, the grounds once, the yoke twice: 7 of 2.0 by 314.16(B) in an 18.0
        expect(page.locator("#contents")).to_contain_text("one switch", timeout=PATIENCE_MS)
        expect(page.locator("#contents")).to_contain_text("18.0", timeout=PATIENCE_MS)
        expect(page.locator("#margin")).to_contain_text("4.00", timeout=PATIENCE_MS)
        hand.sees("fits", "4.00")
        stops(hand)
        hand.say("undo")


def test_hands_free_a_tap_stops_and_nothing_was_entered(driver: Playwright, tmp_path: Path) -> None:
    silence = tmp_path / "silence.wav"
    with wave.open(str(silence), "wb") as made:
        made.setnchannels(1)
        made.setsampwidth(2)
        made.setframerate(16_000)
        made.writeframes(bytes(16_000 * 2 * 5))
    with talker(driver, tmp_path, silence, allowed=True) as hand:
        page = hand.page
        page.get_by_role("button", name="Hands free").click()
        expect(page.locator("#hearing")).to_contain_text("Listening", timeout=PATIENCE_MS)
        page.get_by_role("button", name="Stop listening").click()
        expect(page.locator("#hearing")).to_be_hidden(timeout=PATIENCE_MS)
        expect(page.locator("#contents")).to_contain_text("Nothing yet")
        expect(page.locator("#trouble")).to_be_hidden()


def test_a_microphone_that_is_refused_is_told_plainly(driver: Playwright, tmp_path: Path) -> None:
    with talker(driver, tmp_path, None, allowed=False) as hand:
        page = hand.page
        page.get_by_role("button", name="Hands free").click()
        expect(page.locator("#trouble")).to_contain_text("microphone", timeout=PATIENCE_MS)
        expect(page.get_by_role("button", name="Hands free")).to_be_visible()
        expect(page.locator("#mic")).to_be_enabled()
        page.locator("#mic").dispatch_event("pointerdown")
        expect(page.locator("#hearing")).to_be_hidden(timeout=PATIENCE_MS)
        expect(page.locator("#trouble")).to_contain_text("microphone")
        page.locator("#mic").dispatch_event("pointerup")
        hand.say("two 14-2 cables")


def test_a_second_page_is_told_that_another_is_listened_to(
    driver: Playwright, tmp_path: Path
) -> None:
    sound = with_silence(tmp_path / "said.wav", CABLES)
    with talker(driver, tmp_path, sound, allowed=True) as hand:
        hand.page.get_by_role("button", name="Hands free").click()
        expect(hand.page.locator("#hearing")).to_contain_text("Listening", timeout=PATIENCE_MS)
        other = Hand(hand.page.context.new_page(), touch=False)
        other.open(hand.page.url)
        other.page.get_by_role("button", name="Hands free").click()
        expect(other.page.locator("#trouble")).to_contain_text("Another", timeout=PATIENCE_MS)
        expect(other.page.locator("#hearing")).to_be_hidden()
