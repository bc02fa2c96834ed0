"""A mouth for this machine."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from boxaloud.assistant.mouth.loudspeaker import the_player
from boxaloud.assistant.mouth.mouth import Mouth
from boxaloud.assistant.mouth.renderer import SystemVoice
from boxaloud.assistant.mouth.saving import SavingPlayer
from boxaloud.assistant.mouth.speech import Speech, Voice


def the_mouth(
    complain: Callable[[str], None], voice: Voice | None = None, save_to: Path | None = None
) -> Mouth:
    """The system's voice on the system's loudspeaker, or into WAV files in `save_to`.

    Trouble is told to `complain` when something is first to be said, never raised here.
    """
    renderer = SystemVoice(voice or Voice())
    if save_to is None:
        return Mouth(renderer, the_player, complain)
    return Mouth(renderer, lambda: SavingPlayer(save_to), complain)


def silent_mouth() -> Mouth:
    """A mouth that was asked not to speak; everything else about it is the same."""
    mouth = Mouth(_Nothing(), the_player, lambda _: None)
    mouth.silent = "asked to be silent"
    return mouth


class _Nothing:
    def render(self, text: str, path: Path) -> Speech:
        return Speech(text, path)

    def close(self) -> None:
        return
