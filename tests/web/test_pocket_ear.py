"""The ear of the page hears what the laptop's ear hears, and comes to the same decisions."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.engines.ctc import OWN_WEIGHTS
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import SpanNetwork, encoder, learnt_ear
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.web import page_json
from boxaloud.assistant.web.ear_files import language_archive
from boxaloud.assistant.web.page_engine import PageEngine
from boxaloud.assistant.web.page_requests import Hear
from boxaloud.assistant.web.pocket_entry import Pocket

SAID = Path(__file__).parents[2] / "audio_fixtures"
RUNNER = Path(__file__).with_name("hears_in_the_runtime.mjs")
BOX = "two 14-2 cables and a switch in an 18 cubic inch box"
ASKED = ("no_clamps_inside", "clamps_inside", "inside", "the_clamp_is_outside", "undo")
"""What answers a question or takes something back: said of a box that has something in it."""


@dataclass(frozen=True)
class Case:
    """A recording, and what is typed before it."""

    path: Path
    typed: tuple[str, ...]


def cases() -> list[Case]:
    """Every third recording of statements and of other talk, and every one that answers."""
    found = []
    for place, path in enumerate(sorted(SAID.glob("*.wav"))):
        answers = path.stem.partition("__")[0] in ASKED
        if answers or place % 3 == 0:
            found.append(Case(path, (BOX,) if answers else ()))
    return found


def on_the_laptop(case: Case, folder: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """What a recording comes to with the ear and the engine of this Python."""
    monkeypatch.setenv("BOXALOUD_DATA", str(folder))
    engine = PageEngine()
    for typed in case.typed:
        engine.answer(Hear(typed))
    expect, sound = engine.conversation.asks, read_wav(case.path)
    found = EAR.hear_statement(sound, sound, expect)
    told = engine.answer_heard([words for one in found if (words := choose(one, expect))])
    engine.close()
    return json.loads(page_json.written(told))


EAR = learnt_ear(OWN_WEIGHTS)


def in_the_page(folder: Path, place: Path, asked: Sequence[Case]) -> list[dict[str, Any]]:
    """The same with the files of a built page."""
    listed = []
    for case in asked:
        samples = place / f"{case.path.stem}.pcm"
        samples.write_bytes(read_wav(case.path).samples)
        listed.append({"typed": case.typed, "samples": str(samples)})
    given, out = place / "in.json", place / "out.json"
    given.write_text(json.dumps(listed))
    done = subprocess.run(
        ["node", RUNNER, folder, given, out], capture_output=True, text=True, cwd=place
    )
    assert done.returncode == 0, done.stderr[-2000:]
    found: list[dict[str, Any]] = json.loads(out.read_text())
    return found


def test_the_page_hears_and_decides_as_the_laptop_does(
    pocket_folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = cases()
    heard = in_the_page(pocket_folder, tmp_path, asked)
    entered = 0
    for case, one in zip(asked, heard, strict=True):
        due = on_the_laptop(case, tmp_path / case.path.stem, monkeypatch)
        assert one["told"] == due, case.path.name
        entered += due["document"] == "PageView" and bool(due["reply"]["understood"])
    assert entered >= 10


def test_what_is_heard_is_stored_like_what_is_typed(tmp_path: Path) -> None:
    """Without a browser: the network is this Python's, at the stretches that are asked for."""
    sound = read_wav(next((SAID / "demo").glob("1_*.wav")))
    pocket = Pocket(str(tmp_path))
    pocket.learn(language_archive())
    assert pocket.microphone is not None
    network = SpanNetwork(encoder(OWN_WEIGHTS))
    stretches = pocket.microphone.stretches(sound.samples)
    spans = [((start + 4800) / 16_000, (end - 4800) / 16_000) for start, end in stretches]
    letters = [np.array(network.letters(sound, span), np.float32).tobytes() for span in spans]
    found = json.loads(pocket.hear(letters))
    assert found["told"]["reply"]["heard"] == "two fourteen two cables and one switch"
    (job,) = found["unsaved"]["jobs"]
    assert "fourteen" in json.dumps(job["rows"])
    pocket.close()


def test_no_speech_is_refused_in_a_sentence(tmp_path: Path) -> None:
    pocket = Pocket(str(tmp_path))
    pocket.learn(language_archive())
    assert pocket.microphone is not None
    assert pocket.microphone.stretches(bytes(2 * 16_000)) == []
    assert json.loads(pocket.hear([]))["told"]["document"] == "Refused"
    pocket.close()
