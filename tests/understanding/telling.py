"""Properties 1 to 3: only telling changes a box; denials; unknown operators."""

from __future__ import annotations

import re
from collections.abc import Iterator

from boxaloud.grammar import acts, recognise
from trial import Trial
from trial_sentences import BASES, FITS, OVER, Voice, corpus
from trials import Played, all_then, changed, then, turned

ASKING = (
    acts.Suppose, acts.RoomFor, acts.Ask, acts.AskWhy, acts.AskEdition, acts.AskMeaning,
    acts.AskUnknown, acts.Social, acts.OtherTalk, acts.ListBoxes, acts.SendReport,
)  # fmt: skip
QUESTION = re.compile(
    r"^(what|which|how|why|who|where|does|do|did|is it|should|would|am i|are the)\b",
    re.IGNORECASE,
)
TELLING = re.compile(
    r"\b(for|with|and then|hold|about|put|and|smallest|do it|do that|have)\b"
    r"|^what (?:i|we) (?:mean|took|thought|read|called)\w*\b"
    r"|^what do you (?:make of|say to) th(?:is|at)\b"
    r"|\?\s+\w[^?]*,[^?]*\.?$|^what [^?]*:",
    re.IGNORECASE,
)
"""With such a word a question may tell something beside: "smallest box for two 14-2s"; and
"what I meant was", "what I took for" begin a correction, "what do you make of this one" begins
what a box holds, "did you ask of the clamps? Two, inside." answers itself, and "what comes in: …"
is a heading."""

QUESTIONS = (
    "should I add {}?", "did I say {}?", "what if I add {}", "would it fit with {}",
    "do I have {}?", "is there {} in there?", "will {} still fit", "can I still get {} in",
    "what happens if I put in {}", "was it {}?", "how much does {} take up", "suppose I add {}",
    "if I add {} is it over", "do I need {}?", "isn't there {}?", "could there be {} in it?",
)  # fmt: skip
THINGS = (
    "a dimmer", "another 14-2", "three 12-2s", "a GFCI receptacle", "a luminaire stud",
    "one more switch", "a 14-3", "internal clamps", "a bonding jumper", "a 12.5 box",
)  # fmt: skip
OTHER = (
    "how's the traffic on 95", "hand me the 12 foot ladder", "we're out of wire nuts order 500",
    "the panel has 42 spaces", "it's a 20 amp breaker", "lunch at 12", "thank you", "good morning",
    "hold on a second", "sorry", "the customer wants 2 more lights", "it's 85 degrees up here",
    "my cousin has three switches in his garage", "I got 2 more boxes to do after this",
    "that cable cost me 90 bucks", "the old box was full of 12-2", "we pulled 14-2 all day",
    "put two switches on the list for the supply house", "the inspector comes at 3",
)  # fmt: skip

ABSENT = {
    "dimmer": "dimmers", "GFCI": "GFCIs", "timer": "timers", "luminaire stud": "luminaire studs",
    "hickey": "hickeys", "terminal block": "terminal blocks", "bonding jumper": "bonding jumpers",
    "12-2": "12-2s", "plaster ring": "plaster rings", "extension ring": "extension rings",
    "barrier": "barriers", "pigtail": "pigtails", "traveller": "travellers",
}  # fmt: skip
"""Things that are in none of the boxes that the trials begin with."""
IN_A_BREATH = ("dimmer", "luminaire stud", "terminal block", "plaster ring", "traveller")
DENIALS = (
    "no {one}", "no {many}", "there is no {one}", "there isn't a {one}", "there are no {many}",
    "there aren't any {many}", "without a {one}", "it has no {one}", "it doesn't have a {one}",
    "I don't have a {one}", "there's no {one} in it", "{many}: none", "0 {many}",
    "not a single {one}", "I don't see any {many}", "zero {many} in the box",
)  # fmt: skip
OPEN_QUESTIONS = (
    ("two 14-2 cables", "two hundred"),
    ("four #14 wires and a switch", "13 cubic inches", "no clamps"),
    ("two 14-2s and a switch", "15 cubic inches"),
    ("one 14-2 and one 12-2 and a switch", "18 cubic inches", "no clamps"),
)
VERBS = ("frobnicate", "zorp", "unfold", "polish", "grommle", "blorf", "86", "kibosh")


def asked_is_not_told(voice: Voice) -> Iterator[Trial]:
    """1. What is asked or supposed is not entered, and turns no verdict."""
    for base in BASES.values():
        said = (form.format(thing) for form in QUESTIONS for thing in THINGS)
        yield from all_then(base, said, voice, turned)


def questions_of_the_corpus(voice: Voice) -> Iterator[Trial]:
    """1. Questions by their first word, whatever the grammar takes them for."""
    asked = [said for said in corpus() if QUESTION.match(said) and not TELLING.search(said)]
    for base in BASES.values():
        yield from all_then(base, iter(asked), voice, changed)


def acts_that_do_not_tell(voice: Voice) -> Iterator[Trial]:
    """1. Whatever is read as questions, suppositions and chatter alone enters nothing."""
    for said in corpus():
        read = recognise(voice(said), None, {}).acts
        if read and all(isinstance(act, ASKING) for act in read):
            yield then(FITS, said, voice, changed)


def other_talk(voice: Voice) -> Iterator[Trial]:
    """1. Talk about something else enters nothing."""
    for base in BASES.values():
        yield from all_then(base, iter(OTHER), voice, changed)


def denied(things: dict[str, str]) -> Iterator[str]:
    """Every way to deny every thing."""
    return (form.format(one=one, many=many) for form in DENIALS for one, many in things.items())


def denying_the_absent(voice: Voice) -> Iterator[Trial]:
    """2. To deny what is not there changes nothing."""
    for base in (FITS, OVER):
        yield from all_then(base, denied(ABSENT), voice, turned)


def asked_back(played: Played) -> bool:
    """True where a doubt is asked about before anything is said to fit or to be over."""
    return played.stands.verdict == "incomplete" and played.reply.asks in ("confirm", "unread")


def denying_within_a_breath(voice: Voice) -> Iterator[Trial]:
    """2. A denial is not counted, and takes nothing else away, wherever in the breath it is.

    Expected: 4 (1) + 2 (4) + 1 (5) = 7 x 2.00 = 14.00 of 16.0, NEC 314.16(B), with nothing else.
    """
    told = ["two 14-2s", "a switch", "16 cubic inches", "no clamps"]

    def wrong(played: Played) -> bool:
        got, state = played.stands, played.talk.talk.state
        right = (got.verdict, str(got.total), str(got.capacity)) == ("fits", "14.00", "16")
        wrong = not right or len(state.items) != 2 or bool(state.extras)
        return wrong and not asked_back(played)

    some = {one: ABSENT[one] for one in IN_A_BREATH}
    for place in range(4):
        for said in denied(some):
            yield then((), ", ".join([*told[:place], said, *told[place:]]), voice, wrong)


def denying_the_present(voice: Voice) -> Iterator[Trial]:
    """2. It takes out that alone: without its switch 4 (1) + 2 (4) + 1 (5) = 14.00 of 16.0."""

    def wrong(played: Played) -> bool:
        got = played.stands
        right = (got.verdict, str(got.total), len(played.talk.talk.state.items))
        return right != ("fits", "14.00", 2) and not asked_back(played)

    yield from all_then(OVER, denied({"switch": "switches"}), voice, wrong)


def denial_under_a_question(voice: Voice) -> Iterator[Trial]:
    """2. A denial of something else is no answer to what was asked."""

    def wrong(played: Played) -> bool:
        return changed(played) or not (played.reply.asks == played.asked or asked_back(played))

    things = {"terminal block": "terminal blocks", "dimmer": "dimmers"}
    for opening in OPEN_QUESTIONS:
        yield from all_then(opening, denied(things), voice, wrong)


def unknown_operator(voice: Voice) -> Iterator[Trial]:
    """3. An operator not known, beside a thing that is, adds nothing: it is asked."""

    def wrong(played: Played) -> bool:
        return changed(played) or played.stands.verdict != "incomplete" or not played.reply.asks

    said = (
        f"{verb} {thing}" for verb in VERBS for thing in ("the switch", "the 14-2s", "one 14-2")
    )
    yield from all_then(FITS, said, voice, wrong)
