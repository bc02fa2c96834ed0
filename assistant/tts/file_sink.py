"""Speech kept as files instead of being played: for tests, and to listen to later."""

from __future__ import annotations

import shutil
from pathlib import Path
from threading import Event

from boxaloud.assistant.tts.tts_errors import TtsError
from boxaloud.assistant.tts.tts_messages import say
from boxaloud.assistant.tts.tts_types import Speech

LISTING = "spoken.txt"


class FileSink:
    """Writes 001.wav, 002.wav … and a listing of what is said in each, a line for a file."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise _refused(folder, error) from error
        self._count = len(list(folder.glob("[0-9]*.wav")))

    def play(self, speech: Speech, stopped: Event) -> None:
        """Keep the file, unless `stopped` came first. Raises MouthError."""
        if stopped.is_set():
            return
        self._count += 1
        name = f"{self._count:03}.wav"
        try:
            shutil.copyfile(speech.path, self.folder / name)
            with (self.folder / LISTING).open("a", encoding="utf-8") as listing:
                listing.write(f"{name}\t{' '.join(speech.text.split())}\n")
        except OSError as error:
            raise _refused(self.folder, error) from error


def _refused(folder: Path, error: OSError) -> TtsError:
    why = (error.strerror or "the disk refused").lower()
    return TtsError(say("loudspeaker.folder", folder=folder, why=why))
