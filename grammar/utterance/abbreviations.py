"""Letters that stand for a word of the trade, by how they are written."""

from __future__ import annotations

import re


def is_abbreviation(said: str, text: str) -> bool:
    """ "DPLX", "S3W": letters in capitals amid words that are not."""
    return (
        len(said) < 6 and said.isupper() and not text.isupper() and not re.search("[AEIOUY]", said)
    )
