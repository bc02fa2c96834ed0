"""Talking at the screen: states, partial words, doubt, the meter; and engines that fail."""

from __future__ import annotations

import threading
from decimal import Decimal
from pathlib import Path

import pytest
from app_pilot import SWITCH, app_for, begun, drive, rows, seen, typed
from boxaloud.assistant.asr import AsrError, Recogniser, Sound, read_wav
from boxaloud.assistant.asr.audio.audio_devices import AudioDevice
from boxaloud.assistant.asr.audio.recorded_device import RecordedDevice
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.presenters.answer_choices import choices_for
from boxaloud.assistant.tui.push_to_talk import LiveListener
from boxaloud.assistant.tui.session_adapter import MemoryDesk
from boxaloud.assistant.tui.voice_ports import Final, Level, Partial, Trouble, meter
from boxaloud.grammar.acts import Doubt, SetVolume
from boxaloud.grammar.lexer.heard_words import Word
from played_audio import (
    DeadVoice,
    LostMicrophone,
    PlayedListener,
    PlayedVoice,
    spoken,
    talking,
    words,
)
from textual.pilot import Pilot
from textual.widgets import Static

RECORDINGS = Path(__file__).parents[2] / "audio_fixtures"


def test_a_key_opens_the_microphone_words_appear_and_are_answered() -> None:
    listener = PlayedListener()
    app = talking(listener)

    async def play(pilot: Pilot[None]) -> None:
        assert "MUTED" in rows(app)[0]
        await pilot.press("f2")
        await pilot.pause()
        assert "LISTENING" in rows(app)[0]
        assert listener.expected == "box"
        listener.report(Level(0.5), Partial(words("eighteen cubic")))
        await pilot.pause()
        assert "Hearing: eighteen cubic" in seen(app)
        assert "█" in rows(app)[0].split("LISTENING")[1]
        await pilot.press("f2")
        await pilot.pause()
        assert "THINKING" in rows(app)[0]
        listener.report(Final(words("eighteen cubic inch box")))
        await pilot.pause()
        assert "MUTED" in rows(app)[0]
        assert "Heard: eighteen cubic inch box" in seen(app)
        assert "of 18.0" in seen(app)

    drive(app, play)


def test_doubt_is_marked_by_a_sign_while_words_appear() -> None:
    listener = PlayedListener()
    app = talking(listener)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f2")
        listener.report(Partial((Word("fifteen", 0.31), Word("inches", 0.9))))
        await pilot.pause()
        assert "Hearing: fifteen(?) inches" in seen(app)

    drive(app, play)


def test_a_number_heard_in_doubt_is_asked_back_and_confirmed_by_key() -> None:
    listener = PlayedListener()
    app = talking(listener, None, "clamps outside", "18 cubic inch box")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f2")
        heard = (Word("three", 0.2), *words("fourteen two cables"))
        listener.report(Final(heard))
        await pilot.pause()
        assert "y yes n no" in seen(app)
        assert "NOT YET" in str(
            app.card.query_one("#caption", Static).content
        ) or "incomplete" in seen(app)
        await pilot.press("alt+y")
        await pilot.pause()
        assert "three 14-2 cables" in seen(app) or "six 14 AWG conductors" in seen(app)

    drive(app, play)


def test_the_meter_is_a_bar_or_a_word_that_keeps_still() -> None:
    assert [meter(level, False) for level in (0.0, 0.5, 1.0)] == ["     ", "██▄  ", "█████"]
    assert [meter(level, True) for level in (0.0, 0.5, 1.0)] == ["quiet", "good", "too loud"]


def test_a_reply_is_spoken_and_any_key_hushes_it() -> None:
    voice, listener = PlayedVoice(), PlayedListener()
    app = talking(listener, voice)

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, "one more switch")
        assert voice.said == []  # what is typed is answered in silence
        await spoken(pilot, listener, "eighteen cubic inches")
        assert "SPEAKING" in rows(app)[0]
        assert "18" in voice.said[0] or "eighteen" in voice.said[0]
        await pilot.press("a")
        await pilot.pause()
        assert voice.hushed == 1
        assert "MUTED" in rows(app)[0]

    drive(app, play)


def test_the_voice_that_has_finished_is_muted_again() -> None:
    voice, listener = PlayedVoice(), PlayedListener()
    app = talking(listener, voice)

    async def play(pilot: Pilot[None]) -> None:
        await spoken(pilot, listener, "eighteen cubic inches")
        thread = threading.Thread(target=voice.done)
        thread.start()
        thread.join()
        await pilot.pause()
        assert "MUTED" in rows(app)[0]

    drive(app, play)


@pytest.mark.parametrize(
    ("listener", "sentence"),
    [
        (None, "Listening is not set up on this machine. Type instead."),
        (LostMicrophone(), "I cannot listen: no input device was found. Type instead."),
    ],
)
def test_without_a_microphone_one_sentence_and_typing_goes_on(
    listener: object, sentence: str
) -> None:
    app = talking(listener)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f2")
        await pilot.pause()
        assert sentence in seen(app)
        await typed(pilot, "18 cubic inch box")
        assert "of 18.0" in seen(app)

    drive(app, play)


def test_an_engine_that_dies_while_listening_is_one_sentence() -> None:
    listener = PlayedListener()
    app = talking(listener)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f2")
        listener.report(Trouble("it ended with signal 11."))
        await pilot.pause()
        assert "The listening engine stopped: it ended with signal 11." in seen(app)
        assert "MUTED" in rows(app)[0]
        await typed(pilot, "18 cubic inch box")
        assert "of 18.0" in seen(app)

    drive(app, play)


def test_a_voice_that_dies_leaves_the_reply_on_the_screen() -> None:
    listener = PlayedListener()
    app = talking(listener, DeadVoice())

    async def play(pilot: Pilot[None]) -> None:
        await spoken(pilot, listener, "eighteen cubic inches")
        assert "I cannot speak: the voice has gone." in seen(app)
        assert "of 18.0" in seen(app)
        await typed(pilot, "no clamps")
        assert "margin 4.00" in seen(app)

    drive(app, play)


def recording(name: str) -> list[Sound]:
    """A recording by the words in its name, or a skip that says why."""
    found = sorted(RECORDINGS.glob(f"{name}__*.wav"))
    if not found:
        pytest.skip(f"no recording of {name!r} in {RECORDINGS}")
    return [read_wav(found[0])]


def test_a_recording_goes_the_whole_way_from_microphone_to_verdict() -> None:
    """The recording is named by what is said in it: eighteen cubic inches."""
    sounds = recording("eighteen_cubic_inches")
    begun_to_speak = threading.Event()
    listener = LiveListener(lambda: RecordedDevice(sounds, hold=begun_to_speak.wait))
    app = talking(listener, None, SWITCH, "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f2")
        assert "LISTENING" in rows(app)[0]
        begun_to_speak.set()
        for _ in range(200):
            await pilot.pause(0.05)
            if "MUTED" in rows(app)[0]:
                break
        shown = seen(app)
        assert "18.0" in shown
        if "1 yes" in shown:
            await pilot.press("alt+1")
            await pilot.pause()
        assert "margin 4.00" in seen(app)

    drive(app, play)


def refuse_to_open() -> AudioDevice:
    raise AsrError("There is no microphone: plug one in.")


def dead_ear() -> Recogniser:
    raise AsrError("The speech engine is broken: install it again.")


@pytest.mark.parametrize(
    ("listener", "sentence"),
    [
        (LiveListener(refuse_to_open), "I cannot listen: There is no microphone: plug one in."),
        (
            LiveListener(lambda: RecordedDevice([]), dead_ear),
            "The listening engine stopped: The speech engine is broken: install it again.",
        ),
    ],
    ids=["no microphone", "dead engine"],
)
def test_trouble_in_the_listening_thread_is_one_sentence(
    listener: LiveListener, sentence: str
) -> None:
    app = talking(listener)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f2")
        for _ in range(40):
            await pilot.pause(0.05)
            if "MUTED" in rows(app)[0]:
                break
        assert sentence in seen(app)
        await typed(pilot, "18 cubic inch box")
        assert "of 18.0" in seen(app)

    drive(app, play)


def test_talking_waits_while_another_screen_is_open() -> None:
    app = app_for(SWITCH)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f1", "f2")
        await pilot.pause()
        assert app.screen is not app.card

    drive(app, play)


def test_a_number_that_may_have_been_another_offers_both() -> None:
    """ "fifteen" and "fifty" sound alike: the other reading is one of the answers."""
    conversation = begun("two 14-2 cables")
    doubt = Doubt("volume", "confusable", Decimal(50))
    heard = SetVolume(volume=Decimal(15), words="fifteen cubic inches", doubts=(doubt,))
    conversation.enter((heard,), "fifteen cubic inches")
    offered = choices_for("confirm", conversation.talk.state)
    assert [choice.label for choice in offered] == ["yes", "no, 50", "no", "skip"]
    conversation.enter(offered[1].acts, offered[1].label)
    assert conversation.talk.assessment.sheet.capacity == 50


def test_with_nothing_moving_the_meter_is_a_word() -> None:
    listener = PlayedListener()
    app = BoxaloudApp(MemoryDesk(begun(SWITCH)), listener, steady=True)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f2")
        listener.report(Level(0.5))
        await pilot.pause()
        assert "LISTENING good" in rows(app)[0]

    drive(app, play)
