"""Every recording is heard as its name says, or as something that means exactly the same.

What is expected is in the file names: they were written before the voices spoke them.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
    PocketsphinxRecogniser,
)
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.dialogue import Conversation
from recordings import (
    ABOUT_BOXES,
    ALL,
    FOLDER,
    OTHER_TALK,
    VOICES,
    listed,
    otherwise,
    text_of,
)

DIGIT_WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
#: One take of every digit by each of three people, by telephone; not part of the project.
DIGITS = sorted((FOLDER.parent.parent / "shared/audio/human_digits").glob("*_5.wav"))[::2]


def test_there_are_recordings_enough() -> None:
    assert len(ABOUT_BOXES) >= 40
    assert len(OTHER_TALK) >= 10
    assert len(VOICES) >= 4
    assert {str(path.relative_to(FOLDER)) for path in ALL} == listed()


@pytest.mark.parametrize("path", ABOUT_BOXES, ids=lambda path: path.stem)
def test_a_recording_means_what_its_name_says(path: Path, ear: PocketsphinxRecogniser) -> None:
    assert otherwise(ear, path) == []


#: Not refused by the ear: words are heard in it, of which the talk then makes nothing.
HEARD_AS_WORDS = "oov_there_is_a_dog_barking_in_the_yard_next_door__hts"


@pytest.mark.parametrize("path", OTHER_TALK, ids=lambda path: path.stem)
@pytest.mark.parametrize("expect", [None, "clamps", "count"])
def test_other_talk_enters_nothing(
    path: Path, expect: str | None, ear: PocketsphinxRecogniser
) -> None:
    for hearing in ear.hear(read_wav(path), expect):
        if path.stem == HEARD_AS_WORDS and hearing.words:
            talk = Conversation()
            talk.hear("two 14-2s and a switch, 18 cubic inches")
            before = talk.talk.state
            talk.hear(choose(hearing, expect))
            now = talk.talk.state
            assert (now.items, now.box, now.clamps) == (before.items, before.box, before.clamps)
            continue
        assert hearing.words == ()
        assert hearing.trouble == "unclear"


@pytest.mark.parametrize("path", ABOUT_BOXES[::8], ids=lambda path: path.stem)
def test_every_reading_differs_and_every_word_says_how_sure_it_is(
    path: Path, ear: PocketsphinxRecogniser
) -> None:
    for hearing in ear.hear(read_wav(path)):
        texts = [tuple(word.text for word in reading) for reading in hearing.readings]
        assert len(set(texts)) == len(texts)
        for reading in hearing.readings:
            assert all(word.confidence is not None and 0 < word.confidence <= 1 for word in reading)


@pytest.mark.skipif(not DIGITS, reason="no human voices in ../shared/audio/human_digits")
def test_a_human_s_one_word_answer_is_heard_better_when_it_was_asked_for(
    ear: PocketsphinxRecogniser,
) -> None:
    def right(expect: str | None) -> int:
        return sum(
            text_of(hearing) == DIGIT_WORDS[int(path.name[0])]
            for path in DIGITS
            for hearing in ear.hear(read_wav(path), expect)
        )

    assert right("count") > right(None) + len(DIGITS) // 10


def test_an_answer_is_heard_whether_or_not_it_was_asked_for(ear: PocketsphinxRecogniser) -> None:
    for path in (path for path in ABOUT_BOXES if path.stem.startswith("inside__")):
        for expect in ("clamps", None):
            (hearing,) = ear.hear(read_wav(path), expect)
            assert text_of(hearing) == "inside"


def test_a_command_is_heard_while_a_question_is_open(ear: PocketsphinxRecogniser) -> None:
    path = next(path for path in ABOUT_BOXES if path.stem.startswith("read_it_back__"))
    (hearing,) = ear.hear(read_wav(path), "clamps")
    assert text_of(hearing) == "read it back"


def test_a_question_the_grammar_does_not_know_narrows_nothing(ear: PocketsphinxRecogniser) -> None:
    sound = read_wav(ABOUT_BOXES[0])
    assert ear.hear(sound, "no_such_question")
    assert ear.hear(sound, "../../etc/passwd")
    assert ear.language.narrows("no_such_question") is None
