"""What else this electrician says: questions, remarks to others, slips of the tongue put right."""

from __future__ import annotations

import random
from dataclasses import dataclass

from electrician.mind import DEVICES, Fact, Mind
from electrician.phrasing import WORDS, Talker

QUESTIONS = [
    "how much room is left",
    "what is a yoke",
    "does a wire nut count",
    "would it fit with the clamps outside",
    "would it fit with the clamps inside",
    "what if i add another fourteen two",
    "what if the box was a four square two and an eighth deep",
    "how many more fourteen twos can i add",
    "which code are you using",
    "why do the clamps count",
    "what's the smallest box that would fit",
    "should i take out the receptacle",
    "did i say two or three fourteen twos",
    "does a dimmer count twice",
    "is it over",
    "how much is a number twelve worth",
]
REMARKS = [
    "hold on the phone is ringing",
    "thanks",
    "okay",
    "let me see",
    "the inspector is coming on friday",
    "hand me the drill please",
    "it's hot in this attic",
    "that ladder is in my way",
    "good morning",
    "sorry about that",
    "where did i put my flashlight",
    "the homeowner wants it done by four",
    "lunch is at twelve",
    "my truck is a two thousand fourteen",
]


@dataclass(frozen=True)
class Slip:
    """A fact told wrong, how it was told, and how it is put right."""

    fact: Fact
    count: int
    wrong: str
    right: str


def extra(dice: random.Random) -> tuple[str, str]:
    """A question or a remark: which of the two, and its words."""
    if dice.random() < 0.6:
        return "question", dice.choice(QUESTIONS)
    return "remark", dice.choice(REMARKS)


def slip(
    talker: Talker, mind: Mind, fact: Fact, count: int, sized: bool, dice: random.Random
) -> Slip | None:
    """A wrong count or a wrong device, with the words that put it right at once."""
    if fact[0] == "device" and count == 1:
        name = dice.choice([other for other in DEVICES if not _there(other, mind)])
        other: Fact = ("device", name, fact[2])
        right, wrong = (_spoken(str(each)) for each in (fact[1], name))
        mended = dice.choice(
            [
                f"no it's a {right}",
                f"it's a {right} not a {wrong}",
                f"change the {wrong} to a {right}",
            ]
        )
        return Slip(fact, 1, talker.fact(other, 1, sized), mended)
    if fact[0] not in ("cable", "conductors", "grounds", "device"):
        return None
    many = count + 1 if count == 1 or dice.random() < 0.5 else count - 1
    said, meant = WORDS[many], WORDS[count]
    again = talker.fact(fact, count, sized)
    mended = dice.choice(
        [f"no {meant}", f"make that {meant}", f"i meant {meant} not {said}", f"actually {again}"]
    )
    return Slip(fact, count, talker.fact(fact, many, sized), mended)


def _there(name: str, mind: Mind) -> bool:
    """Whether a device of this or a kindred name is in mind: a slip to it would be ambiguous."""
    names = [str(fact[1]) for fact in mind.things if fact[0] == "device"]
    return any(name.split()[-1] == other.split()[-1] for other in names)


def _spoken(name: str) -> str:
    return name.replace("three-way", "three way").lower()
