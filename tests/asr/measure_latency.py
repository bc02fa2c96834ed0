"""How long after the endpointer's wait a live statement is heard, recordings for a microphone.

    python tests/asr/measure_latency.py [--ear whisper] [--noise DECIBELS]

Frames come at their own pace on a clock of our own; hearing takes the time that it takes, and
frames that come meanwhile wait. Printed: from the frame that ends a statement to its words,
median and 90th percentile, in milliseconds.
"""

from __future__ import annotations

import argparse
import statistics
import sys
import time

from boxaloud.assistant.asr.audio.recorded_device import RecordedDevice
from boxaloud.assistant.asr.audio.wav import at_rate, read_wav
from boxaloud.assistant.asr.endpointer import Endpointer
from boxaloud.assistant.asr.live_recognition import FinalResult, LiveRecogniser
from boxaloud.assistant.asr.vad import VoiceActivityDetector
from recordings import ABOUT_BOXES, said_in
from site_noise import KINDS, in_noise
from which_recogniser import EARS, the_ear

WARM = 5


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--ear", choices=EARS, default="embedded")
    parser.add_argument("--noise", type=float)
    asked = parser.parse_args()
    ear = the_ear(asked.ear, True)
    waits = []
    for number, path in enumerate(path for path in ABOUT_BOXES if len(said_in(path)) == 1):
        kind = KINDS[number % 3]
        sound = in_noise(at_rate(read_wav(path)), kind, asked.noise, number)
        live = LiveRecogniser(ear, Endpointer(VoiceActivityDetector(2), "open"), lambda: None)
        done = 0.0
        for frame in RecordedDevice([sound]).frames():
            began = time.perf_counter()
            outcomes = list(live.frame(frame))
            done = max(done, frame.now) + time.perf_counter() - began
            if any(isinstance(outcome, FinalResult) for outcome in outcomes):
                waits.append(1000 * (done - frame.now))
    waits = waits[WARM:]
    ninth = statistics.quantiles(waits, n=10)[-1]
    sys.stdout.write(
        f"{asked.ear}, {'clean' if asked.noise is None else f'{asked.noise:.0f} dB'}: "
        f"{len(waits)} statements, median {statistics.median(waits):.0f} ms, "
        f"90th percentile {ninth:.0f} ms\n"
    )


if __name__ == "__main__":
    main()
