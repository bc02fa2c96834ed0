"""How long an utterance of ten thousand characters takes, for many pieces said over and over.

Run: python tests/fuzz/bench_length.py [CHARACTERS]   Not a test. Prints the slowest, in seconds of
the processor. What is refused whole is timed as well.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1] / "grammar"))

import mixing
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.input_check import MOST_WORDS

SHOWN = 12


def pieces() -> list[str]:
    """What is said over and over: signs, words of the trade, whole sentences; some of each."""
    return [
        *mixing.ODD,
        *(f"{word} " for word in mixing.words()[::12]),
        *(f"{say} " for say in mixing.said()[::40]),
        *("1,", "14-", "make it two 14-2s ", "what if ", "replace the switch with a dimmer "),
    ]


def long(piece: str, length: int) -> str:
    """A piece repeated up to a length, and no further than an utterance may go."""
    text = (piece * (length // len(piece) + 1))[:length]
    return " ".join(text.split()[: MOST_WORDS - 10]) if len(text.split()) > MOST_WORDS else text


def seconds(said: str) -> float:
    """Seconds of the processor that an utterance takes, in a box that is begun."""
    talking = Conversation()
    talking.hear("two 14-2 cables and a switch")
    since = time.process_time()
    talking.hear(said)
    return time.process_time() - since


def main(length: int) -> None:
    """Time every piece, and print the slowest."""
    seconds("a switch")
    took = sorted(((seconds(long(piece, length)), piece) for piece in pieces()), reverse=True)
    for spent, piece in took[:SHOWN]:
        sys.stdout.write(f"{spent:.3f} s  {piece[:60]!r}\n")
    sys.stdout.write(f"{len(took)} pieces, half of them under {took[len(took) // 2][0]:.3f} s\n")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
