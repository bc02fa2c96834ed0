"""Files and messages that others wrote: recordings, jobs, what a page sends to the server.

Each target takes bytes and raises where a promise is broken, as those of `targets.py` do; each has
inputs of its own kind, most often nearly right.
"""

from __future__ import annotations

import contextlib
import json
import os
import random
import struct
import tempfile
import warnings
from collections.abc import Iterator
from dataclasses import fields
from functools import cache
from pathlib import Path

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.wav import MAX_SECONDS, RATE, decode_wav
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.job_check import check
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web import page_requests

# -- recordings ------------------------------------------------------------------------------------


def wav(data: bytes) -> None:
    """A recording is 16 kHz sound no longer than was declared and is there, or told in a line."""
    sound, refusal = _decoded(data)
    if sound is None:
        assert "\n" not in refusal
        assert refusal.endswith(".")
        return
    assert sound.rate == RATE
    assert sound.samples
    assert len(sound.samples) % 2 == 0
    assert len(sound.samples) <= MAX_SECONDS * RATE * 2
    # the fewest bytes that a moment can have are one, the fewest moments a second has are 4,000
    assert len(sound.samples) <= 2 * max(1, len(data)) * RATE // 4000 + 2


def _decoded(data: bytes) -> tuple[Sound | None, str]:
    with warnings.catch_warnings():
        warnings.simplefilter("error")  # a warning would be printed over what is said
        try:
            return decode_wav(data), ""
        except AsrError as refusal:
            return None, str(refusal)


def sample_wav(chance: random.Random) -> bytes:
    """A WAV file whose header says this or that, with a chunk or two that are odd."""
    coding = chance.choice([1, 3, 0xFFFE, chance.randrange(65536)])
    bits = chance.choice([8, 16, 24, 32, 64, chance.randrange(65536)])
    channels = chance.choice([1, 2, 64, chance.randrange(65536)])
    rate = chance.choice([8000, 16000, 44100, 4000, 384_000, chance.randrange(1 << 32)])
    layout = struct.pack("<HHIIHH", coding, channels, rate, chance.randrange(1 << 32), 2, bits)
    if chance.random() < 0.3:
        layout += chance.randbytes(chance.randrange(30))
    sound = chance.randbytes(chance.choice([0, 1, 2, 3, 200, 2000]))
    chunks = [(b"fmt ", layout), (b"data", sound)]
    if chance.random() < 0.4:
        odd = (chance.choice([b"LIST", b"fmt ", b"data", chance.randbytes(4)]), b"abc")
        chunks.insert(chance.randrange(3), odd)
    made = b"RIFF\0\0\0\0WAVE"
    for kind, body in chunks:
        size = len(body) if chance.random() < 0.8 else chance.randrange(1 << 32)
        made += kind + struct.pack("<I", size) + body + b"\0" * (len(body) % 2)
    return _spoilt(made, chance) if chance.random() < 0.5 else made


# -- jobs ------------------------------------------------------------------------------------------

_NAME, _OTHER = "Heron Street", "Barn Lane"


@contextlib.contextmanager
def _data_folder() -> Iterator[Path]:
    before = os.environ.get("BOXALOUD_DATA")
    with tempfile.TemporaryDirectory() as folder:
        os.environ["BOXALOUD_DATA"] = folder
        try:
            yield Path(folder)
        finally:
            del os.environ["BOXALOUD_DATA"]
            if before is not None:
                os.environ["BOXALOUD_DATA"] = before


@cache
def _sound_job() -> bytes:
    """The file of a job of two boxes."""
    with _data_folder():
        session = Session.start(_NAME)
        for words in ("two 14-2 cables", "18 cubic inches", "next box hall", "a switch", "undo"):
            session.hear(words)
        session.close()
        return repository.find(_NAME).path.read_bytes()


def job(data: bytes) -> None:
    """A job's file of any bytes is opened, or set aside, or told; no other job is touched."""
    with _data_folder():
        Session.start(_OTHER).close()
        other = repository.find(_OTHER).path
        before = other.read_bytes()
        place = other.with_name("heron-street.boxaloud")
        place.write_bytes(data)
        with contextlib.suppress(Problem):
            session = Session.open(_NAME)
            assert session.hear("two 14-2 cables").said
            session.close()
        assert list(repository.places())
        assert list(check())
        assert other.read_bytes() == before
        session = Session.open(_OTHER)
        assert session.hear("two 14-2 cables").sheet.lines
        session.close()


def sample_job(chance: random.Random) -> bytes:
    """A sound job with bytes of it changed, moved or gone."""
    return _spoilt(_sound_job(), chance)


# -- what a page sends -----------------------------------------------------------------------------


def frame(data: bytes) -> None:
    """What a page asks is one of the requests that there are, or refused in a sentence."""
    text = data.decode("utf-8", "replace")
    try:
        found = page_requests.read(text)
    except page_requests.NoRequest:
        return
    assert len(text) <= page_requests.MOST_LETTERS
    assert type(found) in page_requests.KINDS.values()
    for field in fields(found):
        assert isinstance(getattr(found, field.name), str | int)


def sample_frame(chance: random.Random) -> bytes:
    """A request nearly as the page sends it."""
    kind = chance.choice([*page_requests.KINDS, "", "x", None])
    names = ("words", "stand", "answer", "key", "count", "name", "first", "most", "query", "gangs",
             "row", "volume", "file", "other")  # fmt: skip
    said = {name: chance.choice(_ODD) for name in chance.sample(names, chance.randrange(4))}
    made = json.dumps(chance.choice([{"kind": kind, **said}, [kind], kind, said])).encode()
    return _spoilt(made, chance) if chance.random() < 0.4 else made


_ODD = [0, 1, -1, 80, 999_999, 10**400, 1.5, "", "80", "x" * 70_000, "\ud800", None, True, [], {}]


# -- spoiling --------------------------------------------------------------------------------------


def _spoilt(made: bytes, chance: random.Random) -> bytes:
    """Bytes with some of them flipped, cut, doubled or written over."""
    raw = bytearray(made)
    for _ in range(chance.randrange(1, 6)):
        place = chance.randrange(len(raw) + 1)
        match chance.randrange(5):
            case 0 if raw:
                raw[chance.randrange(len(raw))] ^= 1 << chance.randrange(8)
            case 1:
                del raw[place:]
            case 2:
                del raw[place : place + chance.randrange(1, 600)]
            case 3:
                raw[place:place] = raw[place : place + chance.randrange(1, 600)]
            case _:
                raw[place : place + 4] = chance.randbytes(4)
    return bytes(raw)
