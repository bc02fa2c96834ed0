"""The process that owns the speech library: stand-ins that fail as libraries do, then the real."""

from __future__ import annotations

import importlib.util
import json
import sys
import wave
from pathlib import Path

import pytest
from boxaloud.assistant.tts import TtsError, Voice
from boxaloud.assistant.tts import synthesiser as renderer_module
from boxaloud.assistant.tts.synthesis_worker import choose_voice
from boxaloud.assistant.tts.synthesiser import SystemSynthesiser

READY = "import json,sys; print(json.dumps({'voices': ['one']}), flush=True)\n"


def stand_in(code: str) -> tuple[str, ...]:
    return (sys.executable, "-c", code)


def test_a_library_that_hangs_is_ended_and_said_to_be_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(renderer_module, "PATIENCE_SECONDS", 0.3)
    voice = SystemSynthesiser(Voice(), stand_in(READY + "import time; time.sleep(60)"))
    with pytest.raises(TtsError, match="stopped working"):
        voice.render("two", tmp_path / "a.wav")


def test_a_library_that_dies_once_is_started_again(tmp_path: Path) -> None:
    code = (
        READY
        + f"""
import os, pathlib
mark = pathlib.Path({str(tmp_path / "died")!r})
for line in sys.stdin:
    if not mark.exists():
        mark.touch()
        os._exit(9)
    pathlib.Path(json.loads(line)["path"]).write_text("RIFF")
    print(json.dumps({{"path": ""}}), flush=True)
"""
    )
    voice = SystemSynthesiser(Voice(), stand_in(code))
    assert voice.render("two", tmp_path / "a.wav").text == "two"
    voice.close()


@pytest.mark.parametrize(
    ("answer", "sentence"),
    [
        ({"error": "no_library"}, "pip install pyttsx3"),
        ({"error": "no_engine", "why": "libespeak-ng.so.1"}, "speech engine did not start"),
    ],
)
def test_what_is_missing_is_said_with_its_mend(
    answer: dict[str, str], sentence: str, tmp_path: Path
) -> None:
    voice = SystemSynthesiser(
        Voice(), stand_in(f"print({json.dumps(json.dumps(answer))}, flush=True)")
    )
    with pytest.raises(TtsError, match=sentence):
        voice.render("two", tmp_path / "a.wav")


@pytest.mark.parametrize(
    ("name", "chosen"),
    [
        ("", "gmw/en-us"),
        ("scotland", "gmw/en-gb-scotland"),
        ("English (America)", "gmw/en-us"),
        ("GMW/EN", "gmw/en"),
        ("nobody", None),
    ],
    ids=["ours is American", "part of a name", "a whole name", "a whole id", "none such"],
)
def test_a_voice_is_chosen_by_a_part_of_its_name(name: str, chosen: str | None) -> None:
    """Ids and names as espeak-ng 1.51 lists them."""
    voices = [
        ("gmw/af", "Afrikaans"),
        ("gmw/en", "English (Great Britain)"),
        ("gmw/en-gb-scotland", "English (Scotland)"),
        ("gmw/en-us", "English (America)"),
    ]
    assert choose_voice(voices, name) == chosen


def seconds(path: Path) -> float:
    with wave.open(str(path)) as file:
        return float(file.getnframes() / file.getframerate())


@pytest.fixture
def real() -> type[SystemSynthesiser]:
    if importlib.util.find_spec("pyttsx3") is None:
        pytest.skip("pyttsx3 is not installed")
    try:
        voice = SystemSynthesiser(Voice())
        voice.voices()
        voice.close()
    except TtsError as trouble:
        pytest.skip(f"the system has no voice: {trouble}")
    return SystemSynthesiser


def test_the_real_voice_speaks_slower_at_a_lower_rate(
    real: type[SystemSynthesiser], tmp_path: Path
) -> None:
    lasting = {}
    for rate in (120, 240):
        voice = real(Voice(rate=rate))
        speech = voice.render("The box is twenty point three cubic inches.", tmp_path / "a.wav")
        lasting[rate] = seconds(speech.path)
        voice.close()
    assert lasting[120] > 1.5 * lasting[240] > 1.0


def test_the_real_voice_says_each_thing_once_and_prints_nothing(
    real: type[SystemSynthesiser], tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    """The library keeps the name of a file it was told to write; ours must not be affected."""
    voice = real(Voice())
    first = voice.render(
        "Two cables of fourteen two with ground, and a switch.", tmp_path / "1.wav"
    )
    before = first.path.read_bytes()
    second = voice.render("Yes.", tmp_path / "2.wav")
    voice.close()
    assert first.path.read_bytes() == before
    assert 0.2 < seconds(second.path) < seconds(first.path)
    assert capfd.readouterr() == ("", "")


def test_a_voice_that_is_not_there_is_one_sentence(
    real: type[SystemSynthesiser], tmp_path: Path
) -> None:
    voice = real(Voice(name="nobody at all"))
    with pytest.raises(TtsError, match="no voice called “nobody at all”"):
        voice.render("two", tmp_path / "a.wav")
    voice.close()
