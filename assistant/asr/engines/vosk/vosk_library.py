"""The Vosk library: loaded late, quiet, and never let near the network.

Its `Model` downloads when it is given a name or a language; here it is only ever given a folder
that was checked. Its log goes to file descriptor 2 whatever it is told, so that is led away.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say
from boxaloud.assistant.asr.audio.audio_devices import SAMPLE_RATE
from boxaloud.assistant.asr.audio.silenced_stderr import quiet
from boxaloud.assistant.asr.engines.vosk.model_registry import check_model

#: How models write the word that is none of theirs, in the order they are tried.
UNKNOWN_TOKENS = ("[unk]", "<unk>", "<UNK>", "[UNK]")


class Model:
    """A model, loaded. Raises EarsError where there is none in `folder` or it does not load."""

    def __init__(self, folder: Path) -> None:
        self.about = check_model(folder)
        self._library = library()
        try:
            with quiet():
                self._library.SetLogLevel(-1)
                self._model = self._library.Model(model_path=str(self.about.folder))
        except Exception as error:  # the library raises no narrower one
            raise AsrError(say("vosk.unusable", folder=folder)) from error
        self.unknown = next((word for word in UNKNOWN_TOKENS if self.knows(word)), None)

    def knows(self, word: str) -> bool:
        """True where the model can hear a word."""
        return int(self._model.vosk_model_find_word(word)) >= 0

    def recogniser(self, phrases: Iterable[str]) -> Any:
        """A recogniser of these phrases, or of everything where the model refuses phrases."""
        with quiet():
            if self.about.takes_phrases:
                listed = json.dumps(list(phrases), ensure_ascii=False)
                return self._library.KaldiRecognizer(self._model, SAMPLE_RATE, listed)
            return self._library.KaldiRecognizer(self._model, SAMPLE_RATE)


def library() -> Any:
    """The module vosk. Raises EarsError where it is not installed."""
    try:
        import vosk
    except (ImportError, OSError) as error:
        raise AsrError(say("vosk.no_library")) from error
    return vosk
