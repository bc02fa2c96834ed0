"""Whole boxes talked through by sound: the scripted electrician speaks, the real ear hears.

    python tests/asr/closed_loop.py [--ear whisper] [--boxes 50] [--noise DECIBELS]

It reads our reply as text, says what it says next by a synthetic voice, on a site so many
decibels softer, and is heard by the real engine. Every box has a voice of its own. The truth
is the electrician's own arithmetic (tests/dialogue/electrician/truth.py).
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from site_noise import KINDS, in_noise
from synthetic_voices import VOICES, other_talk, spoken  # first: it leads to the electrician

# isort: split
from boxaloud.assistant.asr.asr_types import Recogniser, Sound
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.cli.cli_messages import say
from boxaloud.assistant.dialogue import Conversation, Reply
from electrician import truth
from electrician.mind import random_mind
from electrician.talking import Electrician
from which_recogniser import EARS, the_ear


@dataclass
class Outcome:
    """One box talked through."""

    accepted: bool = False
    right: bool = False
    turns: int = 0
    least: int = 0
    log: list[str] = field(default_factory=list)


def one_box(ear: Recogniser, seed: int, decibels: float | None, talk: Sequence[Sound]) -> Outcome:
    """A random box, in one voice and one noise."""
    dice = random.Random(seed)
    mind = random_mind(dice)
    electrician = Electrician(mind, dice)
    voice, kind = VOICES[seed % len(VOICES)], KINDS[seed // len(VOICES) % len(KINDS)]
    conversation, reply = Conversation(), None
    found = Outcome()
    while (words := electrician.say(reply)) is not None:
        sound = in_noise(spoken(words, voice), kind, decibels, electrician.turns, talk)
        reply = heard(ear, conversation, sound) or reply
        found.log.append(f"{words} -> {reply.heard if reply else ''}: {reply and reply.said}")
    found.turns, found.least = electrician.turns, electrician.least
    if electrician.accepted is not None:
        total, verdict = electrician.accepted
        true = truth.count(mind)
        found.accepted = True
        found.right = Fraction(total) == true.total and verdict == true.verdict
    return found


def heard(ear: Recogniser, conversation: Conversation, sound: Sound) -> Reply | None:
    """The last reply to what was said, as `boxaloud hear` gives it."""
    reply = None
    for hearing in ear.hear(sound, conversation.asks):
        words = choose(hearing, conversation.asks)
        if words:
            reply = conversation.hear(words)
        elif reply is None:
            again = say(f"trouble.{hearing.trouble or 'unclear'}")
            reply = replace(conversation.talk.standing(again), heard="")
    return reply


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--ear", choices=EARS, default="embedded")
    parser.add_argument("--boxes", type=int, default=50)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--noise", type=float)
    parser.add_argument("--show", action="store_true", help="talks that went wrong")
    asked = parser.parse_args()
    ear = the_ear(asked.ear, True)
    talk = [spoken(text, VOICES[at % 5]) for at, text in enumerate(other_talk())]
    found = []
    for seed in range(asked.first, asked.first + asked.boxes):
        found.append(one_box(ear, seed, asked.noise, talk))
        if asked.show and not found[-1].right:
            sys.stdout.write("\n  ".join([f"box {seed}", *found[-1].log]) + "\n")
            sys.stdout.flush()
    right = sum(one.accepted and one.right for one in found)
    wrong = sum(one.accepted and not one.right for one in found)
    turns, least = sum(one.turns for one in found), sum(one.least for one in found)
    sys.stdout.write(
        f"{'clean' if asked.noise is None else f'{asked.noise:.0f} dB'}: {right} of {len(found)} "
        f"boxes rightly, {wrong} wrong and not noticed, {len(found) - right - wrong} given up; "
        f"{turns / len(found):.1f} turns a box, {turns / least:.2f} of the least\n"
    )


if __name__ == "__main__":
    main()
