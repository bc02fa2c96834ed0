"""What the benchmarks have synthetic voices say, spoken once and kept in a temporary folder."""

from __future__ import annotations

import hashlib
import random
import re
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parents[1] / "audio_fixtures"))
sys.path.insert(0, str(HERE.parent / "dialogue"))

from boxaloud.assistant.asr.asr_types import Sound  # noqa: E402
from boxaloud.assistant.asr.audio.wav import read_wav, write_wav  # noqa: E402
from electrician.mind import random_mind  # noqa: E402
from electrician.phrasing import Talker  # noqa: E402
from make_recordings import SPEAKERS, speak, wanted  # noqa: E402

VOICES = tuple(SPEAKERS)
KEPT = Path(tempfile.gettempdir()) / "boxaloud-spoken"


def spoken(text: str, voice: str) -> Sound:
    """What a voice says, made the first time it is asked for. Letters are said one by one."""
    mark = hashlib.sha256(text.replace("gfci", "g f c i").encode()).hexdigest()[:16]
    path = KEPT / voice / f"{mark}.wav"
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        write_wav(speak(text.replace("gfci", "g f c i"), voice), path)
    return read_wav(path)


def statements(number: int = 48) -> list[str]:
    """Those of audio_fixtures/, then phrasings of the scripted electrician, which no part of the
    ears was made from."""
    listing = (HERE.parents[1] / "audio_fixtures" / "spoken.txt").read_text()
    said = dict.fromkeys(
        one.utterances[0] for one in wanted(listing) if one.about_boxes and len(one.utterances) == 1
    )
    dice = random.Random(5)
    while len(said) < number:
        mind = random_mind(dice)
        talker = Talker(mind, dice)
        parts = [talker.fact(fact, count) for fact, count in mind.things.items()][:2]
        said[" and ".join(parts)] = None
        said[talker.box()] = None
    return list(said)[:number]


def other_talk() -> list[str]:
    """Sentences that are not about boxes."""
    return _lines("other_talk.txt")


def other_sentences() -> list[str]:
    """More of them, which nothing is fitted with."""
    return _lines("other_sentences.txt")


def _lines(name: str) -> list[str]:
    lines = (HERE / "data" / name).read_text().splitlines()
    return [line for line in lines if re.match("[a-z]", line)]
