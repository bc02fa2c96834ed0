"""A page's open microphone: statements end at pauses of the sound itself, however it is cut."""

from __future__ import annotations

import pytest
from boxaloud.assistant.asr import RecognitionResult, Sound
from boxaloud.assistant.asr.endpointer import Endpointer
from boxaloud.assistant.asr.live_recognition import LiveRecogniser
from boxaloud.assistant.web.open_microphone import (
    IDLE_SECONDS,
    Heard,
    OpenMicrophone,
    Statement,
    Unclear,
)
from boxaloud.assistant.web.page_ear import PageLive
from boxaloud.grammar.lexer.heard_words import Word

SECOND = 32_000
VOICE, QUIET = b"\x01\x00", b"\x00\x00"


class Ear:
    """Hears the same words in any sound."""

    def __init__(self, words: str) -> None:
        self._words = tuple(Word(word) for word in words.split())

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        return (RecognitionResult((self._words,) if self._words else ()),)


def microphone(words: str = "two fourteen two cables") -> OpenMicrophone:
    ends = Endpointer(lambda samples: samples.startswith(VOICE), mode="open")
    return OpenMicrophone(PageLive(LiveRecogniser(Ear(words), ends, lambda: None), lambda: None))


def fed(open_: OpenMicrophone, sound: bytes, piece: int) -> list[Heard]:
    heard: list[Heard] = []
    for place in range(0, len(sound), piece):
        heard += open_.feed(sound[place : place + piece])
    return heard


def of(seconds: float, sample: bytes) -> bytes:
    return sample * int(seconds * SECOND / 2)


@pytest.mark.parametrize("piece", [640, 3_200, 3_333, SECOND * 10])
def test_two_statements_are_parted_however_the_sound_is_cut(piece: int) -> None:
    sound = (of(1, VOICE) + of(2, QUIET)) * 2
    heard = fed(microphone(), sound, piece)
    words = [" ".join(w.text for w in one.words) for one in heard if isinstance(one, Statement)]
    assert words == ["two fourteen two cables"] * 2


def test_what_is_being_said_as_it_is_closed_is_heard() -> None:
    open_ = microphone()
    assert not any(isinstance(one, Statement) for one in fed(open_, of(1, VOICE), 3_200))
    assert any(isinstance(one, Statement) for one in open_.end())


def test_nothing_is_heard_of_the_voice_of_the_page() -> None:
    open_ = microphone()
    open_.voice(True)
    assert fed(open_, of(1, VOICE) + of(2, QUIET), 3_200) == []
    assert open_.end() == []
    open_.voice(False)
    assert any(isinstance(one, Statement) for one in fed(open_, of(1, VOICE) + of(2, QUIET), 3_200))


def test_speech_that_is_no_statement_is_told() -> None:
    heard = fed(microphone(""), of(1, VOICE) + of(2, QUIET), 3_200)
    assert heard == [Unclear()]


def test_it_is_idle_once_nobody_has_spoken_for_long() -> None:
    open_ = microphone()
    fed(open_, of(IDLE_SECONDS - 1, QUIET), SECOND)
    assert not open_.idle
    fed(open_, of(1, VOICE) + of(IDLE_SECONDS - 1, QUIET), SECOND)
    assert not open_.idle
    fed(open_, of(2, QUIET), SECOND)
    assert open_.idle
