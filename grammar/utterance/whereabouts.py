"""What each piece of an utterance is about: the box at hand, another box, or no box at all.

A piece is what stands between two breaks. It is of the box at hand unless it says where else it
is: by its place ("the box next door", "in the panel"), its time ("tomorrow we …"), who it is told
of, or what is done with the thing ("cut me six feet of …"). "In here", "in this box" put it back
into the box at hand, whoever did what and when. What belongs to such a piece, like the "three of
them" behind it, is no more of the box than the piece is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.enclosures import BODY, pull_talk
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.tokens import plain_text
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.utterance.elsewhere_rows import here, rows_in, words_of
from boxaloud.grammar.utterance.program_talk import said_to_program


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of an utterance that is not about the box at hand, and its place in it."""

    start: int
    end: int
    held: bool
    """True where it may be of the box after all, so that no verdict stands over it."""


_BREAK = lazy_pattern(r"[,;:!?\n()]+|[.]+(?=\s|$)|\s[-–—]+\s|(?<=\S)\s+but(?= )")


def heard_elsewhere(
    words: str | Sequence[Word], expect: str | None = None
) -> tuple[Sequence[Piece], Utterance | None]:
    """The pieces of an utterance that are not about the box at hand; and where all of them are
    not, what the utterance is then. Of a pull box large conductors, voltages and walls are told."""
    heard = words if isinstance(words, str) else " ".join(word.text for word in words)
    if (expect or "").startswith(("pull", BODY)) or pull_talk.is_about(plain_text(heard)):
        return (), None
    found = pieces_elsewhere(heard)
    if not found or len(found) < len(list(_pieces(heard))):
        return found, None
    held = [
        Unread(heard[piece.start : piece.end], (piece.start, piece.end), True)
        for piece in found
        if piece.held
    ]
    whole = acts.OtherTalk(words=heard, span=(0, len(heard)))
    return found, Utterance(heard, (whole,), tuple(held))


def told_elsewhere(
    clause: Clause, elsewhere: Sequence[Piece], heard: str, left: list[Unread]
) -> acts.OtherTalk | None:
    """A clause of a piece that is not about the box at hand; what may be of the box after all
    goes to `left`. None for any other clause."""
    start, end = clause.span
    for piece in elsewhere:
        if not piece.start <= start <= end <= piece.end:
            continue
        span = (piece.start, piece.end)
        if piece.held and all(run.span != span for run in left):
            left.append(Unread(heard[slice(*span)], span, True))
        return acts.OtherTalk(words=heard[start:end], span=clause.span)
    return None


def of_this_box(words: str) -> bool:
    """Whether words say that they are of the box at hand and of no other place: "in here"."""
    plain = _plain(words)
    return _whereabouts(plain, False)[0] == "here" and not words_of("two_places").search(plain)


def pieces_elsewhere(heard: str) -> list[Piece]:
    """The pieces of an utterance that are not about the box at hand, in order."""
    found: list[Piece] = []
    before = ""
    described = words_of("describes").search(_plain(heard)) is not None
    for start, end in _pieces(heard):
        words = _plain(heard[start:end])
        of, held = _whereabouts(words, described)
        if words_of("asks").match(words) or heard[end : end + 1] in ("?", ":"):
            # it is answered, or names what comes, whatever it is of
            before = of or ("matter" if words_of("asks_other").match(words) else "")
            continue
        if of == "" and _goes_with(words, before):
            of, held = before, False
        if of in ("box", "matter") and not said_to_program(heard[start:end]):
            found.append(Piece(start, end, held and _weighs(words)))
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
    for row in rows_in(words):
        if (loose and row.held and not row.despite) or (described and not row.firm):
            continue
        return row.of, row.held
    return "here" if loose else "", False


def kept_of_this_box(parts: Sequence[Clause], heard: str) -> bool:
    """Whether a clause tells so of a thing that a remark beside it takes nothing of it away:
    "put a receptacle in here, the owner changed her mind", "also a switch, …"."""
    return any(
        of_this_box(words) or words_of("added").search(_plain(words)) is not None
        for clause in parts
        if clause.found
        for words in [heard[slice(*clause.span)]]
    )


def untold_here(made: Sequence[Act], parts: Sequence[Clause], heard: str) -> list[Unread]:
    """What was done to a thing of this box and made nothing, "somebody took the switch out of
    here": no verdict stands over it."""
    if any(not isinstance(act, (acts.No, acts.Yes, acts.OtherTalk, acts.Social)) for act in made):
        return []
    return [
        Unread(words, clause.span, True)
        for clause in parts
        for words in [heard[slice(*clause.span)]]
        if clause.mood == "declarative" and of_this_box(words) and _weighs(_plain(words))
    ]


def _goes_with(words: str, before: str) -> bool:
    """Whether a piece goes on with what the one before it is of."""
    if before == "box":
        return True  # until it is said to be of this one
    return before == "matter" and words_of("goes_with").fullmatch(words) is not None


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
