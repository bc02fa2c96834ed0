"""What goes wrong with sound, in one plain sentence each."""

from __future__ import annotations


class AsrError(ValueError):
    """A recording, a model or a microphone that cannot be used. `str()` is for the user."""
