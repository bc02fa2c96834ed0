"""Properties 7 to 9: a whole breath before its question; order; confirmations in a list."""

from __future__ import annotations

from collections.abc import Iterator

from boxaloud.assistant.dialogue import Conversation
from rewriting import WAYS
from standing import entered, heard, standing
from thinning import is_due
from trial import Trial
from trial_sentences import Voice, begun, corpus
from trials import Played, then

TOLD = "two 14-2s and a switch, 15 cubic inches, no clamps"
"""4 (1) + 2 (4) + 1 (5) = 14.00 of 15.0: NEC 314.16(B)."""
BEHIND = (
    "does it fit?", "is that ok?", "what's the total?", "how much room is left?", "is it over?",
    "what's the margin", "why", "how many more 14-2s", "what is a yoke?",
)  # fmt: skip
BEFORE = (
    "does this fit: {}", "is this ok: {}", "tell me if this fits, {}", "will this work? {}",
    "can you check {}", "is this over or not: {}",
)  # fmt: skip
SMALLEST = (
    "what's the smallest box for two 14/2 and a switch",
    "what box do I need for two 14-2s and a switch",
    "which box fits two 14-2s and a switch",
    "two 14-2s and a switch, what's the smallest box",
    "I have two 14-2s and a switch, how big a box do I need?",
)
REWRITTEN = ("filler", "please", "small letters", "spaces", "full stop", "expanded", "unpointed")
"""Rewritings that leave a sentence alone whatever its kind."""


def question_in_a_breath(voice: Voice) -> Iterator[Trial]:
    """7. Everything in a breath is entered before a question in it is answered."""

    def wrong(played: Played) -> bool:
        got = played.stands
        return (got.verdict, str(got.total), str(got.capacity)) != ("fits", "14.00", "15")

    for said in [f"{TOLD}, {one}" for one in BEHIND] + [one.format(TOLD) for one in BEFORE]:
        yield then((), said, voice, wrong)


def smallest_box(voice: Voice) -> Iterator[Trial]:
    """7. The things of the question itself are entered first: 7 x 2.00 = 14.00."""

    def wrong(played: Played) -> bool:
        got = played.stands
        return (
            str(got.total) != "14.00"
            or got.capacity is not None
            or "No single" in played.reply.said
        )

    for said in SMALLEST:
        yield then((), said, voice, wrong)


def rewritten_corpus(voice: Voice) -> Iterator[Trial]:
    """8. A rewriting without change of meaning enters the same, of those that are due."""
    for said in corpus():
        due = [name for name in REWRITTEN if is_due(f"{name}: {said}")]
        base = begun([voice(said)]) if due else None
        for name in due:
            written = WAYS[name](said)
            if base is None or written == said or (name == "please" and len(said.split()) < 3):
                continue
            got = begun([voice(written)])
            same = _contents(got) == _contents(base) and _alike(got, base)
            fault = "" if same else f"{standing(got)}, not {standing(base)}"
            yield Trial(f"{name}: {said}", fault)


def _contents(talk: Conversation) -> list[tuple[object, ...]]:
    return [
        (name, tuple(item.content for item in items), *rest) for name, items, *rest in entered(talk)
    ]


def _alike(one: object, other: object) -> bool:
    return standing(one).verdict == standing(other).verdict  # type: ignore[arg-type]


def confirmation_of_an_over_box(voice: Voice) -> Iterator[Trial]:
    """9. An open doubt that can only add leaves an over box over, there and in the list; one
    that could make it fit does not."""
    del voice
    over = ("den: two 14-2s, a switch and a receptacle, 16 cubic inches, no clamps",)

    def stays(played: Played) -> bool:
        listed = played.talk.hear("list the boxes").said
        return (
            played.reply.asks != "confirm"
            or played.stands.verdict != "over"
            or "over" not in listed
        )

    def opens(played: Played) -> bool:
        return played.reply.asks != "confirm" or played.stands.verdict != "incomplete"

    for said in ("add a dimmer", "one twelve two", "a luminaire stud"):
        yield then(over, said, lambda s: heard(s, 0.3), stays)
    for said in ("take out the receptacle", "thirty two cubic inches", "two fewer switches"):
        if said != "two fewer switches":
            yield then(over, said, lambda s: heard(s, 0.3), opens)
