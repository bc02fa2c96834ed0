"""The first stage of `whereabouts`: what each piece of an utterance is about, by its words."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.utterance.program_talk import said_to_program
from boxaloud.grammar.utterance.whereabouts_disowned import disowned_of
from boxaloud.grammar.utterance.whereabouts_rows import here, rows_in, words_of


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of an utterance that is not about the box at hand, and its place in it."""

    start: int
    end: int
    held: bool
    """True where it may be of the box after all, so that no verdict stands over it."""
    of_box: bool = False
    """True where it is of another box, and not of none."""


_BREAK = lazy_pattern(
    r"[,;:!?\n()]+|[.]+(?=\s|$)|\s[-–—]+\s|(?<=\S)\s+but(?= )"
    # "the other box is full add a switch", by ear
    r"|(?<=\bfull|\bdone|\bfine|\bgood)\s+(?=add (?:an?|one|another|two|three)\b)"
)


def of_this_box(words: str) -> bool:
    """Whether words say that they are of the box at hand and of no other place: "in here"."""
    plain = _plain(words)
    if words_of("two_places").search(plain) or disowned_of([plain]):
        return False
    return _whereabouts(plain, False)[0] == "here"


def pieces_elsewhere(heard: str) -> list[Piece]:
    """The pieces of an utterance that are not about the box at hand, in order."""
    found: list[Piece] = []
    before = ""
    described = words_of("describes").search(_plain(heard)) is not None
    places = list(_pieces(heard))
    disowned = disowned_of([_plain(heard[start:end]) for start, end in places])
    for place, (start, end) in enumerate(places):
        words = _plain(heard[start:end])
        if place in disowned:
            found.append(Piece(start, end, False, True))
            before = ""
            continue
        of, held = _whereabouts(words, described)
        if before == "box" and _holds(words, heard[places[place - 1][1] : start]):
            of = ""
        if words_of("asks").match(words) or heard[end : end + 1] in ("?", ":"):
            # it is answered, or names what comes, whatever it is of
            before = of or ("matter" if words_of("asks_other").match(words) else "")
            continue
        if of == "" and _goes_with(words, before):
            of, held = before, False
        if of in ("box", "matter") and not said_to_program(heard[start:end]):
            found.append(
                Piece(start, end, (held and _weighs(words)) or _listed(words), of == "box")
            )
        before = of
    return found


@lru_cache(maxsize=1024)
def _whereabouts(words: str, described: bool) -> tuple[str, bool]:
    """What a piece is of, "here", "box", "matter" or "", and whether it is held.

    `described`: the utterance describes a box, so that a thing of the trade is of it.
    """
    if here("say").search(words):
        return "here", False
    if words_of("thing").search(words) and words_of("added").search(words):
        described = True  # "add a 14-2 for the doorbell": an order of this box
    elif described:
        described = any(words_of(name).search(words) for name in ("thing", "describes"))
    loose = here("loose").search(words) is not None
    for row in rows_in(words, "words"):
        if (loose and row.held and not row.despite) or (described and not row.firm):
            continue
        return row.of, row.held
    return "here" if loose else "", False


def added_here(words: str) -> bool:
    """Whether words say that a thing is there as well: "also a switch"."""
    return words_of("added").search(_plain(words)) is not None


def done_here(words: str) -> bool:
    """Whether words tell of this box what was done to a thing of it."""
    return of_this_box(words) and _weighs(_plain(words))


def are_all(found: list[Piece], heard: str) -> bool:
    """Whether the pieces found are all that an utterance has."""
    return bool(found) and len(found) == len(list(_pieces(heard)))


def _goes_with(words: str, before: str) -> bool:
    """Whether a piece goes on with what the one before it is of."""
    if words_of("orders").match(words) or words_of("joins").search(words):
        return False  # "the other box is full, add a switch", "there's a 14-3 to it"
    if before == "box":
        return True  # until it is said to be of this one
    return before == "matter" and words_of("goes_with").fullmatch(words) is not None


def _holds(words: str, break_before: str) -> bool:
    """ "The furnace has its own box, there's a 14-2 in it": "it" is the box just spoken of."""
    return not set(break_before) & set(".!?\n") and words_of("holds").match(words) is not None


def _listed(words: str) -> bool:
    """ "Two three-ways by the back stairs": as a list of a box begins, wherever that is."""
    return words_of("listed").match(words) is not None


def _weighs(words: str) -> bool:
    """ "Mike took out the switch": it may have been taken out of this box."""
    return all(words_of(name).search(words) for name in ("thing", "done"))


def _plain(words: str) -> str:
    """Small letters, one space between words, and one kind of apostrophe."""
    return " ".join(words.lower().replace("'", "’").split())


def _pieces(heard: str) -> Iterator[tuple[int, int]]:
    """Where the pieces of an utterance begin and end, without the spaces around them."""
    start = 0
    for found in (*_BREAK.finditer(heard), None):
        end = found.start() if found is not None else len(heard)
        part = heard[start:end]
        if part.strip():
            first = start + len(part) - len(part.lstrip())
            yield first, first + len(part.strip())
        start = found.end() if found is not None else end
