"""A speech library that gives an empty file at times is asked again, and never believed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from boxaloud.assistant.tts.synthesis_worker import ATTEMPTS, _synthesise

HEADER = bytes(44)


class Library:
    """Stands in for the speech library: gives an empty file so many times."""

    def __init__(self, empty: int) -> None:
        self.empty = empty
        self.asked = 0

    def setProperty(self, name: str, value: Any) -> None:
        pass

    def save_to_file(self, text: str, path: str) -> None:
        self.asked += 1
        sound = b"" if self.asked <= self.empty else bytes(2000)
        Path(path).write_bytes(HEADER + sound)

    def runAndWait(self) -> None:
        pass


def rendered(library: Library, path: Path) -> dict[str, str]:
    return _synthesise(library, [], {"text": "one switch", "path": str(path), "voice": ""})


def test_an_empty_file_is_asked_for_again(tmp_path: Path) -> None:
    path = tmp_path / "said.wav"
    assert rendered(Library(1), path) == {"path": str(path)}
    assert path.stat().st_size == 2044


def test_a_library_that_never_gives_sound_is_told_of(tmp_path: Path) -> None:
    library = Library(ATTEMPTS)
    assert "no sound" in rendered(library, tmp_path / "said.wav")["why"]
    assert library.asked == ATTEMPTS
