"""The mouth: one thread owns the voice; anyone may ask it to speak or to be quiet."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from queue import SimpleQueue
from threading import Condition, Event, Thread

from boxaloud.assistant.tts.tts_errors import TtsError
from boxaloud.assistant.tts.tts_types import Player, Synthesiser

DoneCallback = Callable[[], None]


class SpeechOutput:
    """Speaks what it is last told to. `say` and `hush` return at once, from any thread.

    The first trouble is told to `complain`, a sentence; from then on the mouth is silent.
    """

    def __init__(
        self,
        renderer: Synthesiser,
        player: Callable[[], Player],
        complain: Callable[[str], None],
    ) -> None:
        self.silent = ""
        """Why it does not speak; empty while it does."""
        self._renderer = renderer
        self._find_player = player
        self._player: Player | None = None
        self._on_error = complain
        self._queue: SimpleQueue[_Utterance | None] = SimpleQueue()
        self._current: _Utterance | None = None
        self._changed = Condition()
        self._thread = Thread(target=self._run, name="mouth", daemon=True)
        self._thread.start()

    @property
    def speaking(self) -> bool:
        """True from `say` until all of it is spoken or hushed."""
        return self._current is not None

    def say(self, text: str, done: DoneCallback | None = None) -> None:
        """Begin to speak, in place of what is being said. `done` is called at its end."""
        if self.silent or not text.strip():
            if done is not None:
                done()
            return
        wish = _Utterance(text, done)
        with self._changed:
            if self._current is not None:
                self._current.stopped.set()
            self._current = wish
        self._queue.put(wish)

    def hush(self) -> None:
        """Silence, at once."""
        with self._changed:
            if self._current is not None:
                self._current.stopped.set()
                self._current = None
                self._changed.notify_all()

    def wait(self, seconds: float | None = None) -> bool:
        """Wait until it is quiet. False where `seconds` were not enough."""
        with self._changed:
            return self._changed.wait_for(lambda: self._current is None, seconds)

    def close(self) -> None:
        """Be quiet and let go of the voice."""
        self.hush()
        self._queue.put(None)
        self._thread.join(timeout=5)

    def _run(self) -> None:
        with tempfile.TemporaryDirectory(prefix="boxaloud-") as folder:
            while (wish := self._queue.get()) is not None:
                try:
                    self._speak(wish, Path(folder) / "said.wav")
                except TtsError as trouble:
                    self._disable(str(trouble))
                except Exception as fault:  # a fault of ours must not end the thread in silence
                    self._disable(f"The voice failed ({type(fault).__name__}: {fault}).")
                finally:
                    self._end(wish)
        self._renderer.close()

    def _speak(self, wish: _Utterance, path: Path) -> None:
        if wish.stopped.is_set() or self.silent:
            return
        if self._player is None:
            self._player = self._find_player()
        path.unlink(missing_ok=True)
        speech = self._renderer.render(wish.text, path)
        if not wish.stopped.is_set():
            self._player.play(speech, wish.stopped)

    def _disable(self, why: str) -> None:
        self.silent = why
        self._on_error(why)

    def _end(self, wish: _Utterance) -> None:
        with self._changed:
            if self._current is wish:
                self._current = None
                self._changed.notify_all()
        if wish.done is not None:
            wish.done()


class _Utterance:
    """Something to be said, until it is stopped."""

    def __init__(self, text: str, done: DoneCallback | None) -> None:
        self.text = text
        self.done = done
        self.stopped = Event()
