"""What the learnt ear's network writes, and how its places lie in the sound."""

from __future__ import annotations

ALPHABET = "abcdefghijklmnopqrstuvwxyz' "
BLANK = 0
SPACE = 1 + ALPHABET.index(" ")
STRIDE_SAMPLES = 320
#: How loud the greatest sample is made before the spectrum is taken.
PEAK = 0.5
