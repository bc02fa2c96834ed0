"""Talking to the page that a laptop serves: its microphone to the laptop's ears, held by a key."""

from __future__ import annotations

import wave
from collections.abc import Iterator
from pathlib import Path

import pytest
from driving import FLAGS, PATIENCE_MS, Hand, chromium, laptop
from playwright.sync_api import Playwright, expect

# a sentence of the demonstration, recorded: see audio_fixtures/README.md for voice and licence
SAID = Path(__file__).parents[2] / "audio_fixtures" / "demo"
RECORDING = next(SAID.glob("1_two_fourteen_two_cables_and_one_switch*.wav"))


with wave.open(str(RECORDING)) as _said:
    SECONDS = _said.getnframes() / _said.getframerate() + 3


def with_silence(recording: Path, target: Path) -> Path:
    """The recording with a second of silence before and two behind, as a microphone has it."""
    with wave.open(str(recording)) as source:
        form, samples = source.getparams(), source.readframes(source.getnframes())
    second = bytes(form.framerate * form.nchannels * form.sampwidth)
    with wave.open(str(target), "wb") as made:
        made.setparams(form)
        made.writeframes(second + samples + 2 * second)
    return target


@pytest.fixture
def heard(driver: Playwright, tmp_path: Path) -> Iterator[Hand]:
    sound = with_silence(RECORDING, tmp_path / "said.wav")
    microphone = [
        "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream",
        f"--use-file-for-fake-audio-capture={sound}%noloop",
    ]  # fmt: skip
    browser = driver.chromium.launch(executable_path=chromium(), args=[*FLAGS, *microphone])
    with laptop(tmp_path) as url:
        context = browser.new_context(viewport={"width": 390, "height": 844})
        context.grant_permissions(["microphone"])
        hand = Hand(context.new_page(), touch=False)
        hand.open(url)
        yield hand
    browser.close()


def test_what_is_said_while_the_key_is_held_is_entered(heard: Hand) -> None:
    page = heard.page
    key = page.locator("#mic")
    expect(key).to_be_visible()
    key.dispatch_event("pointerdown")
    expect(page.locator("#hearing")).to_contain_text("Listening")
    # the microphone takes as long as the recording does; a slow machine is waited for below
    page.wait_for_timeout(SECONDS * 1000)
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
