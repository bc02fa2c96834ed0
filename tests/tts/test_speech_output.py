"""The mouth with a voice and a loudspeaker that stand in for real ones: who speaks when, and for
how long; and what happens where there is no voice."""

from __future__ import annotations

import wave
from collections.abc import Iterator
from pathlib import Path
from threading import Event, get_ident

import pytest
from boxaloud.assistant.tts import Player, Speech, SpeechOutput, TtsError
from boxaloud.assistant.tts.file_sink import FileSink

LONG = 30.0


class Scribe:
    """Writes a WAV file of a tenth of a second for any text."""

    def __init__(self) -> None:
        self.threads: set[int] = set()
        self.closed = False

    def render(self, text: str, path: Path) -> Speech:
        self.threads.add(get_ident())
        with wave.open(str(path), "wb") as file:
            file.setparams((1, 2, 22050, 0, "NONE", ""))
            file.writeframes(bytes(4410))
        return Speech(text, path)

    def close(self) -> None:
        self.closed = True


class Patient:
    """Speaks until it is stopped, or told that it is over."""

    def __init__(self) -> None:
        self.begun: list[str] = []
        self.cut_off: list[str] = []
        self.began = Event()
        self.over = Event()

    def play(self, speech: Speech, stopped: Event) -> None:
        self.begun.append(speech.text)
        self.began.set()
        while not self.over.is_set():
            if stopped.wait(0.005):
                self.cut_off.append(speech.text)
                return


class Broken:
    def play(self, speech: Speech, stopped: Event) -> None:
        raise TtsError("There is no loudspeaker; plug one in.")


@pytest.fixture
def told() -> list[str]:
    return []


@pytest.fixture
def player() -> Patient:
    return Patient()


@pytest.fixture
def mouth(player: Patient, told: list[str]) -> Iterator[SpeechOutput]:
    mouth = SpeechOutput(Scribe(), lambda: player, told.append)
    yield mouth
    mouth.close()


def speak(mouth: SpeechOutput, player: Patient, text: str) -> Event:
    done = Event()
    player.began.clear()
    mouth.say(text, done.set)
    assert player.began.wait(LONG)
    return done


def test_it_speaks_to_the_end_and_says_so(mouth: SpeechOutput, player: Patient) -> None:
    done = speak(mouth, player, "two cables")
    assert mouth.speaking
    assert not done.is_set()
    player.over.set()
    assert mouth.wait(LONG)
    assert done.wait(LONG)
    assert not mouth.speaking
    assert player.cut_off == []


def test_hush_cuts_it_off_and_it_speaks_again_after(mouth: SpeechOutput, player: Patient) -> None:
    done = speak(mouth, player, "a long reply")
    mouth.hush()
    assert not mouth.speaking
    assert done.wait(LONG)
    assert player.cut_off == ["a long reply"]
    speak(mouth, player, "the next one")
    assert player.begun == ["a long reply", "the next one"]


def test_a_new_reply_takes_the_place_of_the_one_being_said(
    mouth: SpeechOutput, player: Patient
) -> None:
    first = speak(mouth, player, "old")
    speak(mouth, player, "new")
    assert first.wait(LONG)
    assert player.cut_off == ["old"]
    assert mouth.speaking


def test_what_was_hushed_before_it_began_is_never_heard(
    mouth: SpeechOutput, player: Patient
) -> None:
    speak(mouth, player, "one")
    done = Event()
    mouth.say("two", done.set)
    mouth.hush()
    assert done.wait(LONG)
    assert player.begun == ["one"]


def test_one_thread_owns_the_voice(player: Patient, told: list[str]) -> None:
    scribe = Scribe()
    mouth = SpeechOutput(scribe, lambda: player, told.append)
    player.over.set()
    for text in ("one", "two", "three"):
        mouth.say(text)
        mouth.wait(LONG)
    mouth.close()
    assert len(scribe.threads) == 1
    assert get_ident() not in scribe.threads
    assert scribe.closed


@pytest.mark.parametrize("where", ["finding the loudspeaker", "playing"])
def test_without_a_loudspeaker_it_says_so_once_and_is_silent(where: str, told: list[str]) -> None:
    def none() -> Player:
        raise TtsError("There is no loudspeaker; plug one in.")

    mouth = SpeechOutput(Scribe(), none if where.startswith("finding") else Broken, told.append)
    for text in ("one", "two"):
        done = Event()
        mouth.say(text, done.set)
        assert done.wait(LONG)
    assert told == ["There is no loudspeaker; plug one in."]
    assert mouth.silent == told[0]
    assert not mouth.speaking
    mouth.close()


def test_nothing_is_said_of_nothing(mouth: SpeechOutput, player: Patient) -> None:
    done = Event()
    mouth.say("  ", done.set)
    assert done.is_set()
    assert player.begun == []


def test_speech_is_saved_in_order_with_a_listing(tmp_path: Path, told: list[str]) -> None:
    folder = tmp_path / "new" / "speech"
    for run in range(2):
        mouth = SpeechOutput(Scribe(), lambda: FileSink(folder), told.append)
        for text in ("fourteen two", "no\nclamps"):
            mouth.say(f"{text} {run}")
            assert mouth.wait(LONG)
        mouth.close()
    assert (folder / "spoken.txt").read_text().splitlines() == [
        "001.wav\tfourteen two 0",
        "002.wav\tno clamps 0",
        "003.wav\tfourteen two 1",
        "004.wav\tno clamps 1",
    ]
    with wave.open(str(folder / "004.wav")) as file:
        assert file.getnframes() == 2205
    assert told == []


def test_a_folder_that_cannot_be_made_is_one_sentence(tmp_path: Path, told: list[str]) -> None:
    (tmp_path / "file").write_text("")
    mouth = SpeechOutput(Scribe(), lambda: FileSink(tmp_path / "file" / "in"), told.append)
    mouth.say("one")
    assert mouth.wait(LONG)
    mouth.close()
    assert len(told) == 1
    assert "name another folder" in told[0]
