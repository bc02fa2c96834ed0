"""An ear and a voice that play a part: for tests of the screen that speaks and listens."""

from __future__ import annotations

import threading
from collections.abc import Callable

from app_pilot import SWITCH, begun
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.session_adapter import MemoryDesk
from boxaloud.assistant.tui.voice_ports import Final, Level, Partial, Tell, Trouble
from boxaloud.grammar.lexer.heard_words import Word
from textual.pilot import Pilot


class PlayedListener:
    """A microphone that hears what a test lays before it, from a thread of its own."""

    def __init__(self, *heard: Final) -> None:
        self.heard = list(heard)
        self.tell: Tell | None = None
        self.expected: str | None = None

    def start(self, expect: str | None, tell: Tell) -> None:
        self.expected, self.tell = expect, tell

    def report(self, *reports: Level | Partial | Final | Trouble) -> None:
        assert self.tell is not None
        for report in reports:
            thread = threading.Thread(target=self.tell, args=(report,))
            thread.start()
            thread.join()

    def stop(self) -> None:
        pass


class LostMicrophone(PlayedListener):
    def start(self, expect: str | None, tell: Tell) -> None:
        raise OSError("no input device was found")


class PlayedVoice:
    def __init__(self) -> None:
        self.said: list[str] = []
        self.hushed = 0
        self.done: Callable[[], None] = lambda: None

    def say(self, words: str, done: Callable[[], None]) -> None:
        self.said.append(words)
        self.done = done

    def hush(self) -> None:
        self.hushed += 1


class DeadVoice(PlayedVoice):
    def say(self, words: str, done: Callable[[], None]) -> None:
        raise RuntimeError("the voice has gone")


def words(text: str, confidence: float = 0.97) -> tuple[Word, ...]:
    return tuple(Word(word, confidence) for word in text.split())


def talking(listener: object, voice: object = None, *said: str) -> BoxaloudApp:
    desk = MemoryDesk(begun(*(said or (SWITCH,))))
    return BoxaloudApp(desk, listener, voice)  # type: ignore[arg-type]


async def spoken(pilot: Pilot[None], listener: PlayedListener, said: str) -> None:
    await pilot.press("f2")
    listener.report(Final(words(said)))
    await pilot.pause()
