"""A mouth for this machine."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from boxaloud.assistant.tts.audio_playback import the_player
from boxaloud.assistant.tts.file_sink import FileSink
from boxaloud.assistant.tts.speech_output import SpeechOutput
from boxaloud.assistant.tts.synthesiser import SystemSynthesiser
from boxaloud.assistant.tts.tts_types import Speech, Voice


def default_speech_output(
    complain: Callable[[str], None], voice: Voice | None = None, save_to: Path | None = None
) -> SpeechOutput:
    """The system's voice on the system's loudspeaker, or into WAV files in `save_to`.

    Trouble is told to `complain` when something is first to be said, never raised here.
    """
    renderer = SystemSynthesiser(voice or Voice())
    if save_to is None:
        return SpeechOutput(renderer, the_player, complain)
    return SpeechOutput(renderer, lambda: FileSink(save_to), complain)


def muted_speech_output() -> SpeechOutput:
    """A mouth that was asked not to speak; everything else about it is the same."""
    mouth = SpeechOutput(_NullSynthesiser(), the_player, lambda _: None)
    mouth.silent = "asked to be silent"
    return mouth


class _NullSynthesiser:
    def render(self, text: str, path: Path) -> Speech:
        return Speech(text, path)

    def close(self) -> None:
        return
