"""The process that owns the speech library: a line of JSON in, a WAV file and a line out.

Run as `python -m boxaloud.assistant.tts.synthesis_worker` by `synthesiser.py`. In a process of its
own the library can neither block, nor print on our screen, nor take us down with it; it can be
killed. Here it only ever writes files: what it was told to write it writes again instead of
speaking later.
"""

from __future__ import annotations

import json
import os
import sys
from typing import Any, TextIO

from boxaloud.assistant.tts.tts_types import DEFAULT_WORDS_PER_MINUTE, FASTEST, MIN_WORDS_PER_MINUTE

ATTEMPTS = 3
WAV_HEADER = 44

#: Tried in this order where no voice is asked for: spoken English as in the trade's home.
PREFERRED_VOICES = ("en-us", "en_us", "english-us", "english (america", "english")


def main() -> None:
    """Answer each line until the input ends."""
    answers = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)  # the library prints; what it prints is no answer
    try:
        import pyttsx3
    except ImportError:
        _answer(answers, {"error": "no_library"})
        return
    try:
        engine = pyttsx3.init()
        voices = _voices(engine)
    except Exception as fault:  # whatever a system's speech engine raises
        _answer(answers, {"error": "no_engine", "why": _short(fault)})
        return
    _answer(answers, {"voices": [name for _, name in voices]})
    for line in sys.stdin:
        _answer(answers, _synthesise(engine, voices, json.loads(line)))


def _synthesise(engine: Any, voices: list[tuple[str, str]], wish: dict[str, Any]) -> dict[str, str]:
    """One wish fulfilled: `text`, `path`, `rate` and `voice`."""
    voice = choose_voice(voices, wish["voice"])
    if voice is None and wish["voice"]:
        return {"error": "unknown", "name": wish["voice"]}
    try:
        if voice is not None:
            engine.setProperty("voice", voice)
        engine.setProperty(
            "rate",
            min(max(wish.get("rate", DEFAULT_WORDS_PER_MINUTE), MIN_WORDS_PER_MINUTE), FASTEST),
        )
        for _ in range(ATTEMPTS):
            engine.save_to_file(wish["text"], wish["path"])
            engine.runAndWait()
            if _has_audio(wish["path"]):
                return {"path": wish["path"]}
    except Exception as fault:  # as above
        return {"error": "failed", "why": _short(fault)}
    return {"error": "failed", "why": "the library wrote no sound"}


def _has_audio(path: str) -> bool:
    """False for a file that is only a header: on a busy machine the library gives one at times."""
    return os.path.getsize(path) > WAV_HEADER


def choose_voice(voices: list[tuple[str, str]], name: str) -> str | None:
    """The id of the voice that is meant by a part of its name or id; ours for no name.

    None where there is no such voice.
    """
    for wanted in (name.lower(),) if name else PREFERRED_VOICES:
        exact = [one for one, called in voices if wanted in (one.lower(), called.lower())]
        part = [one for one, called in voices if wanted in f"{one} {called}".lower()]
        if exact or part:
            return (exact or part)[0]
    return None


def _voices(engine: Any) -> list[tuple[str, str]]:
    return [(str(voice.id), str(voice.name)) for voice in engine.getProperty("voices") or ()]


def _answer(answers: TextIO, answer: dict[str, Any]) -> None:
    answers.write(json.dumps(answer) + "\n")
    answers.flush()


def _short(fault: Exception) -> str:
    return (" ".join(str(fault).split()) or type(fault).__name__)[:120]


if __name__ == "__main__":
    main()
