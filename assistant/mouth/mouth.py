"""The mouth: one thread owns the voice; anyone may ask it to speak or to be quiet."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from queue import SimpleQueue
from threading import Condition, Event, Thread

from boxaloud.assistant.mouth.errors import MouthError
from boxaloud.assistant.mouth.speech import Player, Renderer

Done = Callable[[], None]


class Mouth:
    """Speaks what it is last told to. `say` and `hush` return at once, from any thread.

    The first trouble is told to `complain`, a sentence; from then on the mouth is silent.
    """

    def __init__(
        self,
        renderer: Renderer,
        player: Callable[[], Player],
        complain: Callable[[str], None],
    ) -> None:
        self.silent = ""
        """Why it does not speak; empty while it does."""
        self._renderer = renderer
        self._find_player = player
        self._player: Player | None = None
        self._complain = complain
        self._wishes: SimpleQueue[_Wish | None] = SimpleQueue()
        self._now: _Wish | None = None
        self._changed = Condition()
        self._thread = Thread(target=self._work, name="mouth", daemon=True)
        self._thread.start()

    @property
    def speaking(self) -> bool:
        """True from `say` until all of it is spoken or hushed."""
        return self._now is not None

    def say(self, text: str, done: Done | None = None) -> None:
        """Begin to speak, in place of what is being said. `done` is called at its end."""
        if self.silent or not text.strip():
            if done is not None:
                done()
            return
        wish = _Wish(text, done)
        with self._changed:
            if self._now is not None:
                self._now.stopped.set()
            self._now = wish
        self._wishes.put(wish)

    def hush(self) -> None:
        """Silence, at once."""
        with self._changed:
            if self._now is not None:
                self._now.stopped.set()
                self._now = None
                self._changed.notify_all()

    def wait(self, seconds: float | None = None) -> bool:
        """Wait until it is quiet. False where `seconds` were not enough."""
        with self._changed:
            return self._changed.wait_for(lambda: self._now is None, seconds)

    def close(self) -> None:
        """Be quiet and let go of the voice."""
        self.hush()
        self._wishes.put(None)
        self._thread.join(timeout=5)

    def _work(self) -> None:
        with tempfile.TemporaryDirectory(prefix="boxaloud-") as folder:
            while (wish := self._wishes.get()) is not None:
                try:
                    self._speak(wish, Path(folder) / "said.wav")
                except MouthError as trouble:
                    self._fall_silent(str(trouble))
                except Exception as fault:  # a fault of ours must not end the thread in silence
                    self._fall_silent(f"The voice failed ({type(fault).__name__}: {fault}).")
                finally:
                    self._end(wish)
        self._renderer.close()

    def _speak(self, wish: _Wish, path: Path) -> None:
        if wish.stopped.is_set() or self.silent:
            return
        if self._player is None:
            self._player = self._find_player()
        path.unlink(missing_ok=True)
        speech = self._renderer.render(wish.text, path)
        if not wish.stopped.is_set():
            self._player.play(speech, wish.stopped)

    def _fall_silent(self, why: str) -> None:
        self.silent = why
        self._complain(why)

    def _end(self, wish: _Wish) -> None:
        with self._changed:
            if self._now is wish:
                self._now = None
                self._changed.notify_all()
        if wish.done is not None:
            wish.done()


class _Wish:
    """Something to be said, until it is stopped."""

    def __init__(self, text: str, done: Done | None) -> None:
        self.text = text
        self.done = done
        self.stopped = Event()
