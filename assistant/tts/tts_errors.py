"""What keeps the mouth from speaking, in one plain sentence with its mend."""

from __future__ import annotations


class TtsError(Exception):
    """A voice or a loudspeaker that cannot be used. `str()` is for the user."""
