"""How soon the mouth is heard, and how soon it is silent. Run by hand.

    python tests/tts/bench_synthesis.py [TIMES]

Times the process's own part with every player that works here. With a PulseAudio server it also
listens at the loudspeaker's monitor (`parec`), and so times what a person would hear, the sound
system's buffers included.
"""

from __future__ import annotations

import shutil
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from threading import Event, Thread

from boxaloud.assistant.tts import Player, Speech, SpeechOutput, Voice
from boxaloud.assistant.tts.audio_playback import (
    PLAYER_COMMANDS,
    CommandPlayer,
    DevicePlayer,
    _sound_library,
)
from boxaloud.assistant.tts.synthesiser import SystemSynthesiser

REPLY = (
    "Two cables of fourteen two with ground. One switch. That is fourteen cubic inches so far. "
    "What volume is marked on the box?"
)
SPOKEN_SECONDS = 1.0


class Timed:
    """A player that notes when it begins and when it has ended."""

    def __init__(self, player: Player) -> None:
        self._player = player
        self.began, self.over = Event(), Event()
        self.begin = self.end = 0.0

    def play(self, speech: Speech, stopped: Event) -> None:
        self.begin = time.perf_counter()
        self.began.set()
        self._player.play(speech, stopped)
        self.end = time.perf_counter()
        self.over.set()


class Monitor(Thread):
    """Listens at the loudspeaker; `sounding` are the times at which it was not silent."""

    def __init__(self) -> None:
        super().__init__(daemon=True)
        command = ["parec", "--raw", "--format=s16le", "--rate=16000", "--channels=1"]
        command += ["--latency-msec=5", "-d", "@DEFAULT_MONITOR@"]
        self._process = subprocess.Popen(command, stdout=subprocess.PIPE)
        self.sounding: list[float] = []
        self.start()

    def run(self) -> None:
        assert self._process.stdout is not None
        while block := self._process.stdout.read(160):
            if any(block):
                self.sounding.append(time.perf_counter())

    def close(self) -> None:
        self._process.kill()
        self._process.wait()


@contextmanager
def listening() -> Iterator[Monitor | None]:
    if (
        shutil.which("parec") is None
        or subprocess.run(["pactl", "info"], capture_output=True).returncode
    ):
        yield None
        return
    monitor = Monitor()
    time.sleep(0.5)
    yield monitor
    monitor.close()


def players() -> Iterator[tuple[str, Callable[[], Player]]]:
    sound = _sound_library()
    if sound is not None:
        yield "PortAudio", lambda: DevicePlayer(sound)
    for command in PLAYER_COMMANDS:
        if shutil.which(command[0]):
            yield command[0], partial(CommandPlayer, command)


def _same(player: Timed) -> Timed:
    return player


def once(mouth: SpeechOutput, timed: Timed, monitor: Monitor | None) -> dict[str, float]:
    """Milliseconds of one reply that is begun and hushed a second later."""
    timed.began.clear()
    timed.over.clear()
    if monitor is not None:
        monitor.sounding.clear()
    said = time.perf_counter()
    mouth.say(REPLY)
    timed.began.wait(20)
    time.sleep(SPOKEN_SECONDS)
    hushed = time.perf_counter()
    mouth.hush()
    returned = time.perf_counter()
    timed.over.wait(20)
    time.sleep(0.8)
    found = {
        "say to player": timed.begin - said,
        "hush returns": returned - hushed,
        "hush to player ended": timed.end - hushed,
    }
    if monitor is not None and monitor.sounding:
        found["say to first sound"] = monitor.sounding[0] - said
        found["hush to silence"] = monitor.sounding[-1] - hushed
    return {name: seconds * 1000 for name, seconds in found.items()}


def main(times: int) -> None:
    """Print a line for each player and span: median and worst."""
    for name, make in players():
        failed: list[str] = []
        timed = Timed(make())
        mouth = SpeechOutput(SystemSynthesiser(Voice()), partial(_same, timed), failed.append)
        mouth.say("Ready.")
        mouth.wait(20)
        if failed:
            sys.stdout.write(f"{name}: {failed[0]}\n")
            continue
        with listening() as monitor:
            runs = [once(mouth, timed, monitor) for _ in range(times)]
        for span in dict.fromkeys(span for run in runs for span in run):
            spans = [run[span] for run in runs if span in run]
            sys.stdout.write(
                f"{name}, {span}: median {statistics.median(spans):.0f} ms, "
                f"worst {max(spans):.0f} ms of {len(spans)}\n"
            )
        mouth.close()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
