"""When live listening begins and ends. Frames are letters: s is speech, a dot is silence; each
lasts 20 ms, and the clock runs with them. The waits are half a second after a complete statement,
1.5 s after an unfinished one."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from boxaloud.assistant.asr.audio.audio_devices import FRAME_SECONDS, AudioFrame
from boxaloud.assistant.asr.endpointer import Endpointer, EndpointEvent, ListeningMode, Timeouts

SPEECH, SILENCE = b"s", b"."
BEGAN, PAUSED, ENDED = EndpointEvent.BEGAN, EndpointEvent.PAUSED, EndpointEvent.ENDED
BESIDES = (EndpointEvent.MORE, EndpointEvent.LULL, EndpointEvent.RESUMED)


class Clock:
    """Feeds frames to a machine and keeps what it asks for, with the time."""

    def __init__(
        self, mode: ListeningMode = "open", headset: bool = False, complete: bool = True
    ) -> None:
        self.machine = Endpointer(lambda samples: samples == SPEECH, mode, headset)
        self.complete = complete
        self.now = 0.0
        self.happened: list[tuple[EndpointEvent, float]] = []

    def hear(self, sound: bytes, seconds: float) -> list[EndpointEvent]:
        events: list[EndpointEvent] = []
        for _ in range(round(seconds / FRAME_SECONDS)):
            self.now = round(self.now + FRAME_SECONDS, 4)
            found = self.machine.frame(AudioFrame(sound, self.now))
            if PAUSED in found:
                found = [*found, *self.machine.judge(self.complete)]
            events += [event for event in found if event not in BESIDES]
            self.happened += [(event, self.now) for event in found]
        return events

    def when(self, event: EndpointEvent) -> float:
        return next(time for found, time in self.happened if found is event)


def test_a_complete_statement_ends_after_half_a_second() -> None:
    clock = Clock()
    clock.hear(SILENCE, 1.0)
    assert clock.hear(SPEECH, 1.0) == [BEGAN]
    assert clock.hear(SILENCE, 2.0) == [PAUSED, ENDED]
    assert clock.when(ENDED) - 2.0 == pytest.approx(0.5, abs=FRAME_SECONDS)


def test_an_unfinished_one_ends_after_one_and_a_half() -> None:
    clock = Clock(complete=False)
    clock.hear(SPEECH, 1.0)
    assert clock.hear(SILENCE, 2.0) == [PAUSED, ENDED]
    assert clock.when(PAUSED) - 1.0 == pytest.approx(0.5, abs=FRAME_SECONDS)
    assert clock.when(ENDED) - 1.0 == pytest.approx(1.5, abs=FRAME_SECONDS)


def test_who_goes_on_within_the_wait_is_not_cut_off_and_is_judged_again() -> None:
    clock = Clock(complete=False)
    clock.hear(SPEECH, 0.6)
    assert clock.hear(SILENCE, 1.2) == [PAUSED]
    assert clock.hear(SPEECH, 0.6) == []
    clock.complete = True
    assert clock.hear(SILENCE, 1.0) == [PAUSED, ENDED]


def test_a_lull_is_told_at_once_and_taken_back_where_speech_goes_on() -> None:
    clock = Clock()
    clock.hear(SPEECH, 0.6)
    clock.hear(SILENCE, 0.4)
    clock.hear(SPEECH, 0.4)
    clock.hear(SILENCE, 1.0)
    told = [(event, time) for event, time in clock.happened if event is not EndpointEvent.MORE]
    assert [event for event, _ in told] == [
        BEGAN, EndpointEvent.LULL, EndpointEvent.RESUMED, EndpointEvent.LULL, PAUSED, ENDED,
    ]  # fmt: skip
    assert told[1][1] == pytest.approx(0.6 + Timeouts().lull, abs=FRAME_SECONDS)


@pytest.mark.parametrize("seconds", [0.02, 0.06, 0.1])
def test_a_knock_is_no_statement(seconds: float) -> None:
    clock = Clock()
    clock.hear(SILENCE, 1.0)
    assert clock.hear(SPEECH, seconds) == []
    assert clock.hear(SILENCE, 3.0) == []


def test_the_sound_holds_what_came_before_the_first_frame_of_speech() -> None:
    clock = Clock()
    clock.hear(SILENCE, 1.0)
    clock.hear(SPEECH, 1.0)
    taken = clock.machine.take()
    assert taken.startswith(SILENCE * 10)
    assert taken.endswith(SPEECH)
    assert taken.count(SPEECH) == 50
    assert len(taken) <= 50 + Timeouts().before / FRAME_SECONDS
    clock.hear(SILENCE, 0.1)
    assert clock.machine.take() == SILENCE * 5


def test_a_machine_that_runs_on_is_ended() -> None:
    clock = Clock()
    assert clock.hear(SPEECH, Timeouts().longest + 1) == [BEGAN, ENDED, BEGAN]


def test_a_closed_microphone_hears_nothing_until_the_key() -> None:
    clock = Clock("key")
    assert clock.hear(SPEECH, 3.0) == []
    assert not clock.machine.is_open
    assert clock.machine.key(clock.now) == [EndpointEvent.OPENED]
    assert clock.machine.is_open
    assert clock.hear(SPEECH, 1.0) == [BEGAN]
    assert clock.hear(SILENCE, 1.0) == [PAUSED, ENDED, EndpointEvent.CLOSED]
    assert clock.hear(SPEECH, 3.0) == []


def test_the_key_again_ends_at_once() -> None:
    clock = Clock("key")
    clock.machine.key(clock.now)
    clock.hear(SPEECH, 1.0)
    assert clock.machine.key(clock.now) == [ENDED, EndpointEvent.CLOSED]


def test_a_word_begun_as_the_key_goes_down_is_whole() -> None:
    clock = Clock("key")
    clock.hear(SILENCE, 1.0)
    clock.hear(SPEECH, 0.3)
    clock.machine.key(clock.now)
    clock.hear(SPEECH, 0.3)
    assert clock.machine.take().count(SPEECH) == 30


def test_where_nobody_speaks_it_closes_and_says_so() -> None:
    clock = Clock("key")
    clock.machine.key(clock.now)
    assert clock.hear(SILENCE, 7.9) == []
    assert clock.hear(SILENCE, 0.2) == [EndpointEvent.NOTHING, EndpointEvent.CLOSED]


def test_it_does_not_hear_itself() -> None:
    clock = Clock()
    clock.machine.voice(True, clock.now)
    assert not clock.machine.is_open
    assert clock.hear(SPEECH, 5.0) == []
    clock.machine.voice(False, clock.now)
    assert clock.hear(SPEECH, Timeouts().echo) == []  # the room still answers
    assert clock.hear(SPEECH, 1.0) == [BEGAN]


def test_what_was_begun_when_the_voice_began_is_dropped() -> None:
    clock = Clock()
    clock.hear(SPEECH, 0.5)
    clock.machine.voice(True, clock.now)
    clock.machine.voice(False, clock.now)
    assert clock.hear(SILENCE, 3.0) == []
    assert clock.machine.take() == b""


def test_any_key_silences_the_voice_and_the_talk_key_opens_as_well() -> None:
    for mode, opened in (("key", [EndpointEvent.OPENED]), ("open", [])):
        clock = Clock(mode)  # type: ignore[arg-type]
        clock.machine.voice(True, clock.now)
        assert clock.machine.quiet_key(clock.now) == [EndpointEvent.HUSH]
        assert clock.machine.quiet_key(clock.now) == []
        clock.machine.voice(True, clock.now)
        assert clock.machine.key(clock.now) == [EndpointEvent.HUSH, *opened]
        assert clock.hear(SPEECH, 0.5) == [BEGAN]


def test_with_a_headset_the_voice_is_talked_over_in_less_than_a_fifth_of_a_second() -> None:
    clock = Clock("open", headset=True)
    clock.machine.voice(True, clock.now)
    assert clock.hear(SILENCE, 1.0) == []
    assert clock.hear(SPEECH, 0.2) == [EndpointEvent.HUSH, BEGAN]
    assert clock.when(EndpointEvent.HUSH) - 1.0 < 0.2
    assert clock.hear(SILENCE, 1.0) == [PAUSED, ENDED]


def random_sounds(seed: int) -> Iterator[tuple[bytes, float]]:
    import random

    chance = random.Random(seed)
    for _ in range(40):
        yield chance.choice((SPEECH, SILENCE)), chance.choice((0.02, 0.1, 0.3, 0.7, 2.0))


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("mode", ["key", "open", "wake"])
def test_whatever_happens_beginnings_and_ends_take_turns(mode: ListeningMode, seed: int) -> None:
    clock = Clock(mode, headset=seed % 2 == 0, complete=seed % 3 == 0)
    in_statement = False

    def follow(events: list[EndpointEvent]) -> None:
        nonlocal in_statement
        for event in events:
            assert event is not BEGAN or not in_statement
            assert event not in (ENDED, PAUSED) or in_statement
            in_statement = (in_statement or event is BEGAN) and event is not ENDED

    for count, (sound, seconds) in enumerate(random_sounds(seed)):
        follow(clock.hear(sound, seconds))
        if count % 5 == 2:
            follow(clock.machine.key(clock.now))
        if count % 7 == 3:
            clock.machine.voice(count % 2 == 0, clock.now)
            in_statement = in_statement and clock.machine.is_open
    assert any(event is BEGAN for event, _ in clock.happened)
