"""A microphone that hears what a test says, when it says it: as somebody who waits for the page.

A recording that a browser plays by itself goes on by the wall's clock, whatever the page is doing:
on a busy machine it says the next sentence while the page still answers the last, and begins before
the page listens. Here the sound is the clock: silence passes only where a test says it. What takes
sound from a real microphone is tried where the key is held.
"""

from __future__ import annotations

import base64
import wave
from pathlib import Path

from driving import PATIENCE_MS
from playwright.sync_api import Page

RATE = 16_000
PIECE_BYTES = 3200
"""A tenth of a second."""
MICROPHONE = """
let clock = 0;
let said = [];
navigator.mediaDevices.getUserMedia = async () => ({ getTracks: () => [] });
globalThis.AudioContext = class {
  audioWorklet = { addModule: async () => {} };
  state = "running";
  createMediaStreamSource() { return { connect() {} }; }
  async close() { this.state = "closed"; clearInterval(clock); }
};
globalThis.AudioWorkletNode = class {
  port = {};
  constructor() {
    const hear = (data) => this.port.onmessage({ data });
    clock = setInterval(() => { if (said.length) hear(said.shift()); }, 20);
    globalThis.hearAtOnce = () => { while (said.length) hear(said.shift()); };
  }
};
globalThis.sayPieces = (pieces) => {
  const bytes = (piece) => Uint8Array.from(atob(piece), (each) => each.charCodeAt(0));
  said.push(...pieces.map((piece) => bytes(piece).buffer));
};
"""
# a browser without a screen has no voices: what would be spoken is noted in its place
VOICE = """
window.spoken = [];
window.silent = true;
speechSynthesis.speak = (said) => {
  window.spoken.push(said.text);
  window.silent = false;
  said.onstart?.();
  setTimeout(() => { said.onend?.(); window.silent = true; }, 300);
};
"""


def samples_of(recording: Path) -> bytes:
    """The sound of a recording, 16 kHz mono 16-bit."""
    with wave.open(str(recording)) as said:
        assert (said.getframerate(), said.getnchannels(), said.getsampwidth()) == (RATE, 1, 2)
        found: bytes = said.readframes(said.getnframes())
    return found


def silence(seconds: float) -> bytes:
    return bytes(2 * round(seconds * RATE))


def say(page: Page, sound: bytes, at_once: bool = False) -> None:
    """Say it to the page's microphone, a tenth of a second at a time; or `at_once`, as what has
    been waiting for a slow page."""
    whole = sound + bytes(-len(sound) % PIECE_BYTES)
    pieces = [whole[at : at + PIECE_BYTES] for at in range(0, len(whole), PIECE_BYTES)]
    page.evaluate("sayPieces", [base64.b64encode(piece).decode() for piece in pieces])
    if at_once:
        page.evaluate("hearAtOnce()")


def waits(page: Page, spoken: int) -> None:
    """Wait until the page has spoken so many sentences, and is silent."""
    page.wait_for_function(
        "(count) => spoken.length >= count && silent", arg=spoken, timeout=PATIENCE_MS
    )
