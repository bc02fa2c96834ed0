"""How well other talk is told from the trade's: the figures behind `sphinx.SURE`.

    python tests/asr/measure_rejection.py FOLDER... [--expect QUESTION]

Recordings are named as in audio_fixtures/README.md. For each voice it prints how many recordings
about boxes would be refused, and how many of other talk let through, at several thresholds; a
threshold chosen on some voices is thereby seen on the others.
"""

from __future__ import annotations

import argparse
import sys
from collections import defaultdict
from pathlib import Path

from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
    SURE,
    PocketsphinxRecogniser,
)
from make_recordings import Recording

THRESHOLDS = sorted({0.0, 0.15, 0.3, SURE, 0.6, 0.75})


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("folders", nargs="+", type=Path)
    parser.add_argument("--expect")
    asked = parser.parse_args()
    ear = PocketsphinxRecogniser()
    ours: dict[str, list[float]] = defaultdict(list)
    others: dict[str, list[float]] = defaultdict(list)
    for path in sorted(path for folder in asked.folders for path in folder.rglob("*.wav")):
        recording = Recording.named(path)
        kept = ours if recording.about_boxes else others
        for name in (recording.voice, "all"):
            kept[name] += ear.sureness(read_wav(path), asked.expect)
    out = sys.stdout.write
    out("| voice | at | about boxes, refused | other talk, let through |\n")
    out("| --- | --- | --- | --- |\n")
    for voice in sorted(ours.keys() | others.keys()):
        for at in THRESHOLDS:
            refused = sum(value < at for value in ours[voice])
            let = sum(value >= at for value in others[voice])
            out(f"| {voice} | {at} | {refused} of {len(ours[voice])} ")
            out(f"| {let} of {len(others[voice])} |\n")


if __name__ == "__main__":
    main()
