"""From the end of speech to the reply, beyond the wait for silence. Run by hand.

    python tests/cli/bench_talk.py

Each recording of audio_fixtures is spoken, frame by frame, into the live loop with the embedded
engine and a job on the disk. A frame that comes while the one before it is still being worked on
waits, as it would live. The span is from the frame in which the silence was long enough to the
reply being ready to be shown and spoken. Prints the median, the 95th percentile and the worst,
and the share of real time that all of it takes.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import time
from pathlib import Path

from boxaloud.assistant.asr import default_recogniser, read_wav
from boxaloud.assistant.asr.audio.recorded_device import RecordedDevice
from boxaloud.assistant.asr.endpointer import Endpointer
from boxaloud.assistant.asr.live_recognition import FinalResult, LiveRecogniser
from boxaloud.assistant.asr.vad import VoiceActivityDetector

FIXTURES = Path(__file__).parents[2] / "audio_fixtures"


def main() -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ["BOXALOUD_DATA"] = folder
        measure()


def measure() -> None:
    from boxaloud.assistant.storage import Session

    ear, session = default_recogniser(), Session.start("bench")
    spans: list[float] = []
    for _ in range(2):  # the first loads the models of each question
        spans, busy, whole = [], 0.0, 0.0
        for path in sorted(FIXTURES.rglob("[!o]*.wav")):
            live = LiveRecogniser(
                ear, Endpointer(VoiceActivityDetector(), "open"), lambda: session.asks
            )
            free = 0.0
            for frame in RecordedDevice([read_wav(path)]).frames():
                began = time.perf_counter()
                heard = [one for one in live.frame(frame) if isinstance(one, FinalResult)]
                for hearing in (hearing for one in heard for hearing in one.hearings):
                    session.hear(hearing.words)
                took = time.perf_counter() - began
                free = max(free, frame.now) + took
                busy += took
                if heard:
                    spans.append((free - frame.now) * 1000)
            whole += frame.now
    spans.sort()
    sys.stdout.write(
        f"{len(spans)} statements: median {statistics.median(spans):.0f} ms, "
        f"95 % {spans[int(len(spans) * 0.95)]:.0f} ms, worst {spans[-1]:.0f} ms; "
        f"{busy / whole:.3f} of real time\n"
    )


if __name__ == "__main__":
    main()
