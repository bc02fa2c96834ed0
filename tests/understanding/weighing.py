"""Properties 4 to 6: what is not understood and weighs holds the verdict, and nothing else does."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from boxaloud.grammar import recognise
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.rules.table import table_boxes
from standing import heard
from trial import Trial
from trial_sentences import FITS, Voice, corpus
from trials import Played, all_then, changed, then

PARTS = ("two 14-2s", "a switch", "18 cubic inches", "no clamps")
"""4 (1) + 2 (4) + 1 (5) = 14.00 of 18.0: NEC 314.16(B)."""
WEIGHTY = (
    "7", "a zorb", "and a zorb", "3 zorbs", "5 DPLXZ", "QXZ", "several zorbs", "another 4 of them",
    "scratch the zorb", "replace the zorb", "not two", "half of them", "two or three zorbs",
)  # fmt: skip
"""A number, a quantity, a negation, an abbreviation, a verb of change or a likely device that
nobody can use."""
INERT = (
    "zintex",
    "yellow",
    "in the garage",
    "by the door",
    "brand new",
    "for the customer",
    "today",
)
UNRELATED = (
    "thanks", "what's the total", "no luminaire stud", "there is no terminal block",
    "what is a yoke", "how's the weather", "use 2020", "why", "hold on", "read it back",
    "what if I use a 20.3 box",
)  # fmt: skip
MISTAKEN = (
    "that's wrong", "no that's not right", "I miscounted", "wait, that's not it",
    "I made a mistake", "hold on, that is wrong", "no no no", "that's not what I said",
    "correction", "you got that wrong",
)  # fmt: skip
TWICE = (
    "two 14-2s and a switch, 18 cubic inches, 12.5 cubic inches, no clamps",
    "two 14-2s and a switch, 15 cubic inches, clamps inside, clamps outside",
    "two or three 14-2s and a switch, 18 cubic inches, no clamps",
    "two 14-2s and a switch, 18 or 20 cubic inches, no clamps",
    "six 12-2s, no devices, no clamps, 30.3 cubic inches, use 2017, use 2023",
)
MARKED = (
    ("two 14-2s and a switch, 12.5 no 18 cubic inches, no clamps", "fits"),
    ("two 14-2s and a switch, 18 cubic inches, I mean 12.5 cubic inches, no clamps", "over"),
    ("two 14-2s and a switch, 15 cubic inches, clamps outside, sorry, inside", "over"),
    ("two, no, three 14-2s and a switch, 16 cubic inches, no clamps", "over"),
    ("two 14-2s, actually three 14-2s, and a switch, 16 cubic inches, no clamps", "over"),
)
"""A second value marked as a correction counts: 14.00 of 18.0 and of 12.5; 16.00 of 15.0; 18.00
of 16.0, by NEC 314.16(B)."""


def fits_over_it(played: Played) -> bool:
    """True where the box is said to fit, or nothing is asked."""
    return played.stands.verdict == "fits" or not played.reply.asks


def weighty_word(voice: Voice) -> Iterator[Trial]:
    """4. While a word that weighs is unread there is no "fits"."""
    for place in range(1, 5):
        for word in WEIGHTY:
            yield then((), ", ".join([*PARTS[:place], word, *PARTS[place:]]), voice, fits_over_it)


def weighty_word_after(voice: Voice) -> Iterator[Trial]:
    """4. Nor where it is said of a box that fitted."""
    yield from all_then(FITS, iter(WEIGHTY), voice, fits_over_it)


def unrelated_settles_nothing(voice: Voice) -> Iterator[Trial]:
    """4. What has nothing to do with it does not settle it."""
    for word in ("3 zorbs", "QXZ"):
        opening = (", ".join([*PARTS, word]),)
        yield from all_then(opening, iter(UNRELATED), voice, lambda p: p.stands.verdict == "fits")


def inert_words(voice: Voice) -> Iterator[Trial]:
    """4. An inert word is not even mentioned: 14.00 of 18.0 fits."""

    def wrong(played: Played) -> bool:
        got = played.stands
        right = (got.verdict, str(got.total), str(got.capacity)) == ("fits", "14.00", "18")
        return not right or bool(played.reply.left_over)

    typed = not isinstance(voice("a"), list)
    for place in range(1, 5):
        for word in INERT if typed else ():
            said = list(PARTS)
            said[place - 1] = f"{said[place - 1]} {word}"
            yield then((), ", ".join(said), voice, wrong)


OF_THE_TABLE = frozenset(str(row.volume) for row in table_boxes())
"""Volumes that Table 314.16(A) gives: beside the box that has one, such a number is explained."""


NUMBERS = ("two second", "three third", "four fourth", "five fifth", "six sixth", "seven seventh")
WORTH = {word: worth for worth, words in enumerate(NUMBERS, start=2) for word in words.split()}
"""Numbers that may only say again what is counted beside them: "three. Three 14-2s"."""


def count_of(act: Act) -> int | None:
    """How many an act tells of, or of what it puts right."""
    return getattr(getattr(act, "thing", act), "count", None)


def unread_of_the_corpus(voice: Voice) -> Iterator[Trial]:
    """4. Of every sentence: where a word that weighs was left unread there is no "fits"."""
    for said in corpus():
        read = recognise(voice(said), None, {})
        told = {count_of(act) for act in read.acts} - {None}
        weighty = [run for run in read.weighty if WORTH.get(run.words.lower()) not in told]
        if weighty and not all(run.words in OF_THE_TABLE for run in weighty):
            yield then(FITS, said, voice, lambda p: p.stands.verdict == "fits")


def mistaken(voice: Voice) -> Iterator[Trial]:
    """5. A correction that was not understood withdraws the standing verdict."""

    def wrong(played: Played) -> bool:
        return changed(played) or played.stands.verdict != "incomplete"

    yield from all_then(FITS, iter(MISTAKEN), voice, wrong)


def two_values(voice: Voice) -> Iterator[Trial]:
    """6. Two values for one slot in one breath are asked."""
    yield from all_then((), iter(TWICE), voice, fits_over_it)


def marked_values(voice: Voice) -> Iterator[Trial]:
    """6. A second value marked as a correction is the one; by ear it may be asked back."""
    typed = not isinstance(voice("a"), list)
    for said, verdict in MARKED:
        may = (verdict,) if typed else (verdict, "incomplete")
        yield then((), said, voice, partial(_stands_otherwise, may))


def _stands_otherwise(may: tuple[str, ...], played: Played) -> bool:
    return played.stands.verdict not in may


def _in_place(heard_words: list[Word], _: str) -> list[Word]:
    """A voice that says these words whatever it is given."""
    return heard_words


def unsure_words(voice: Voice) -> Iterator[Trial]:
    """4. By ear: a deciding word of which the ear was unsure is asked before any "fits"."""
    del voice
    for said in ("two fourteen twos", "a switch", "eighteen cubic inches", "no clamps"):
        told = [word for one in PARTS_HEARD if one != said for word in heard(one)]
        doubtful = [*told, *heard(said, 0.3)]
        yield then((), said, partial(_in_place, doubtful), fits_over_it)


PARTS_HEARD = ("two fourteen twos", "a switch", "eighteen cubic inches", "no clamps")
