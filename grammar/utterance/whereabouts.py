"""What is said of the box at hand, and what is talk about another box or about no box at all.

This is the one way in; the rows and lists of `data/whereabouts.toml` are the one place to add a
word. It is judged in two stages, in this order:

1. Pieces, before anything is read (`whereabouts_of_pieces`). A piece is what stands between two
   breaks, in plain words. It is of the box at hand unless a row with `over = "words"` shows where
   else it is: by its place ("the box next door", "in the panel"), its time ("tomorrow we …"), who
   it is told of, or what is done with the thing ("cut me six feet of …"). "In here", "in this box"
   (`here.say`) put it back into the box at hand, whoever did what and when. What belongs to such a
   piece, like the "three of them" behind it, is no more of the box than the piece is.
2. Clauses, as they are told (`whereabouts_of_clauses`), by their lines, in which each thing is a
   tag, so that the rows with `over = "tags"` need no size and no count. `here.tags` keep a clause
   in the box; `firm` rows take it out, whatever it tells; a thing of a box that is described, or
   one said exactly, keeps it in; then the other rows and the words that lead away take it out.

A clause that says in plain words that a thing of a box is in this one never comes to the second
stage. What is taken out becomes `OtherTalk`; what may be of the box after all is left unread.
"""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.clauses.act_fields import BOX, THINGS
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.enclosures import BODY, body_talk, likely_pulls, pull_talk
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.tokens import plain_text
from boxaloud.grammar.utterance.whereabouts_of_clauses import about_something_else, evidence
from boxaloud.grammar.utterance.whereabouts_of_pieces import (
    Piece,
    added_here,
    are_all,
    done_here,
    of_this_box,
    pieces_elsewhere,
)

__all__ = [
    "Piece",
    "about_something_else",
    "clause_elsewhere",
    "describes_a_box",
    "heard_elsewhere",
    "kept_of_this_box",
    "pieces_elsewhere",
    "told_elsewhere",
    "untold_here",
]

_OF_A_BOX = frozenset({*THINGS, *BOX} - {"number", "size"})
"""What can be said to be in this box, or to be it: "there's a 14-3 in here, breaker nine"."""


#: Of a conductor that no box counted by volume holds: "2/0", "500 kcmil".
_LARGE = lazy_pattern(r"(?<![\w/])[1-4]/0'?s?\b|\b(?:kcmil|mcm)\b")


def _of_large(text: str) -> bool:
    """ "Two inch LB with three 3/0": large conductors, told of a conduit body or of raceways."""
    if _LARGE.search(text) is None:
        return False
    return body_talk.names_body(text) or likely_pulls.is_likely(text)


def heard_elsewhere(
    words: str | Sequence[Word], expect: str | None = None
) -> tuple[Sequence[Piece], Utterance | None]:
    """The pieces of an utterance that are not about the box at hand; and where all of them are
    not, what the utterance is then. Of a pull box large conductors, voltages and walls are told."""
    heard = words if isinstance(words, str) else " ".join(word.text for word in words)
    text = plain_text(heard)
    if (expect or "").startswith(("pull", BODY)) or pull_talk.is_about(text) or _of_large(text):
        return (), None
    found = pieces_elsewhere(heard)
    if not are_all(found, heard):
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


def clause_elsewhere(clause: Clause, heard: str, described: bool) -> bool:
    """Whether a clause is about something else, unless it says that a thing is in this box.

    `described`: the utterance describes a box, in this clause or another.
    """
    if any(found.kind in _OF_A_BOX for found in clause.found) and of_this_box(
        heard[slice(*clause.span)]
    ):
        return False
    return about_something_else(clause, described)


def describes_a_box(parts: Sequence[Clause]) -> bool:
    """Whether a thing is said so exactly in any of the clauses that a box is described."""
    return any(evidence(element) for part in parts for element in part.elements)


def kept_of_this_box(parts: Sequence[Clause], heard: str) -> bool:
    """Whether a clause tells so of a thing that a remark beside it takes nothing of it away:
    "put a receptacle in here, the owner changed her mind", "also a switch, …"."""
    return any(
        of_this_box(words) or added_here(words)
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
        if clause.mood == "declarative" and done_here(words)
    ]
