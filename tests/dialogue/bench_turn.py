"""How long a turn takes, from words to reply, and how it grows with the length of an utterance.

Times are of the processor: what else runs on a machine disturbs them little. Run:
python tests/dialogue/bench_turn.py   (tests/grammar/bench_grammar.py measures the
understanding alone, beside a public sentence-template recogniser)
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from collections.abc import Iterable

from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar import understand
from boxaloud.grammar.utterance import listed_things, read_before
from electrician.mind import random_mind
from electrician.noise import Recogniser
from electrician.talking import Electrician
from talks import dialogues

TALKS = 300
LENGTHS = (10, 50, 200, 500, 1000, 2000)
PIECES = [
    "two 14-2 cables with ground",
    "a three way switch",
    "one 12-3",
    "six number ten wires",
    "a luminaire stud",
    "three wire nuts",
    "two receptacles on the twelves",
]


def show(text: str) -> None:
    sys.stdout.write(text + "\n")


def spread(times: Iterable[float]) -> str:
    ordered = sorted(times)
    last = ordered[int(len(ordered) * 0.99)]
    return f"median {statistics.median(ordered) * 1e6:6.0f} µs, 99th {last * 1e6:6.0f} µs"


def typed(
    least: int = 0, most: int = 1000, new: bool = False, strange: bool = False
) -> list[float]:
    """Every typed line of the dialogues of so many words, three times over; as `new`, what was
    read of the same words before is forgotten, as `strange` what was read of any of its things."""
    found = []
    for _ in range(3):
        for dialogue in dialogues():
            conversation = Conversation()
            for said in dialogue.says:
                if new:
                    read_before._typed.cache_clear()
                if strange:
                    listed_things._known.clear()
                start = time.process_time()
                conversation.hear(said.words)
                taken = time.process_time() - start
                if isinstance(said.words, str) and least <= len(said.words.split()) <= most:
                    found.append(taken)
    return found


def talked(errors: float) -> list[float]:
    """Utterances of the scripted electrician."""
    found = []
    for seed in range(TALKS):
        dice = random.Random(seed)
        electrician, ear = Electrician(random_mind(dice), dice), Recogniser(errors, dice)
        conversation, reply = Conversation(), None
        while (words := electrician.say(reply)) is not None:
            heard = ear.hear(words)
            start = time.process_time()
            reply = conversation.hear(heard)
            found.append(time.process_time() - start)
    return found


def long(words: int) -> tuple[float, float]:
    """Seconds for one utterance of `words` words: understanding alone, and the whole turn."""
    dice = random.Random(words)
    text = ""
    while len(text.split()) < words:
        text += dice.choice(PIECES) + ", "
    best = [1e9, 1e9]
    for _ in range(3):
        start = time.process_time()
        understand(text)
        middle = time.process_time()
        Conversation().hear(text)
        end = time.process_time()
        best = [min(best[0], middle - start), min(best[1], end - middle)]
    return best[0], best[1]


def main() -> None:
    typed()  # the phrases and patterns of all lines are met
    for least, most in ((0, 1000), (8, 12)):
        kind = f"typed, {least} to {most} words"
        show(
            f"{kind:25} {spread(typed(least, most, True, True))}, as if nothing of it was ever said"
        )
        show(f"{kind:25} {spread(typed(least, most, new=True))}, each as if never said before")
        show(f"{kind:25} {spread(typed(least, most))}, said before")
    for errors in (0.0, 0.1):
        talked(errors)
        show(f"electrician, {errors:4.0%} wrong   {spread(talked(errors))}")
    for words in LENGTHS:
        understood, turn = long(words)
        each = turn / words * 1e6
        show(
            f"{words:5} words  understood {understood * 1e3:7.2f} ms, turn {turn * 1e3:7.2f} ms, "
            f"{each:5.1f} µs a word"
        )


if __name__ == "__main__":
    main()
