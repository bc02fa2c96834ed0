"""Speech made into files by a process that owns the speech library, watched and replaced."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from threading import Timer
from typing import Any

from boxaloud.assistant.tts.tts_errors import TtsError
from boxaloud.assistant.tts.tts_messages import say
from boxaloud.assistant.tts.tts_types import Speech, Voice

#: A library that has not answered by then hangs, as they do; it is ended and started again.
PATIENCE_SECONDS = 15.0
MAX_ATTEMPTS = 2
#: `-P`: what lies in the current folder is never run in place of a library.
WORKER_COMMAND = (sys.executable, "-P", "-m", "boxaloud.assistant.tts.synthesis_worker")


class SystemSynthesiser:
    """The operating system's voice, through pyttsx3. Nothing starts before it is needed."""

    def __init__(self, voice: Voice, command: tuple[str, ...] = WORKER_COMMAND) -> None:
        self.voice = voice
        self._command = command
        self._process: subprocess.Popen[str] | None = None
        self._voices: tuple[str, ...] = ()

    def render(self, text: str, path: Path) -> Speech:
        """Write `text` as a WAV file. Raises MouthError."""
        wish = {"text": text, "path": str(path)}
        wish |= {"rate": self.voice.rate, "voice": self.voice.name}  # type: ignore[dict-item]
        for _ in range(MAX_ATTEMPTS):
            answer = self._request(wish)
            if answer is not None and path.is_file():
                return Speech(text, path)
            self.close()
        raise TtsError(say("voice.failed", why="it did not answer"))

    def voices(self) -> tuple[str, ...]:
        """The names of the installed voices. Raises MouthError."""
        if self._worker() is None:
            raise TtsError(say("voice.failed", why="it did not answer"))
        return self._voices

    def close(self) -> None:
        """End the process."""
        if self._process is not None:
            self._process.kill()
            self._process.communicate()
            self._process = None

    def _request(self, wish: dict[str, Any]) -> dict[str, Any] | None:
        """The answer to a wish; None where the process ended or had to be ended."""
        process = self._worker()
        if process is None or process.stdin is None:
            return None
        try:
            process.stdin.write(json.dumps(wish) + "\n")
            process.stdin.flush()
        except OSError:
            return None
        return _read_response(process)

    def _worker(self) -> subprocess.Popen[str] | None:
        if self._process is not None and self._process.poll() is None:
            return self._process
        self.close()
        self._process = subprocess.Popen(
            self._command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
            encoding="utf-8",
        )
        ready = _read_response(self._process)
        if ready is None:
            return None
        self._voices = tuple(ready["voices"])
        return self._process


def _read_response(process: subprocess.Popen[str]) -> dict[str, Any] | None:
    """The next answer; raises MouthError for one that is a refusal."""
    if process.stdout is None:
        return None
    watchdog = Timer(PATIENCE_SECONDS, process.kill)
    watchdog.start()
    try:
        line = process.stdout.readline()
    finally:
        watchdog.cancel()
    if not line:
        return None
    answer: dict[str, Any] = json.loads(line)
    if "error" in answer:
        mend = say(f"mend.{'linux' if sys.platform.startswith('linux') else 'other'}")
        why, name = answer.get("why", ""), answer.get("name", "")
        raise TtsError(say(f"voice.{answer['error']}", why=why, name=name, mend=mend))
    return answer
