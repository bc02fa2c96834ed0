"""What an utterance tells of and nothing was made of, looked for once all of it has been read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.rewriting.rewriter import without
from boxaloud.grammar.utterance.changed_unknown import changed_unknown
from boxaloud.grammar.utterance.coming_in import coming_in
from boxaloud.grammar.utterance.entering_unsized import entering_unsized
from boxaloud.grammar.utterance.further_by_likeness import further_by_likeness
from boxaloud.grammar.utterance.sheaths_untold import sheaths_untold
from boxaloud.grammar.utterance.vague_additions import vague_additions


def untold_things(made: Sequence[Act], heard: str, left: Sequence[Unread]) -> list[Unread]:
    """What was left unread, and what weighs besides: more that nobody named, one more by its
    likeness, and what comes in of a size or number that nobody said."""
    heard = without("asides", heard)
    kept = [*left, *vague_additions(made, heard)]
    kept += further_by_likeness(made, heard, kept)
    kept += entering_unsized(made, heard, kept)
    kept += coming_in(made, heard, kept)
    kept += sheaths_untold(made, heard, kept)
    kept += changed_unknown(made, heard, kept)
    return kept


def untold_elsewhere(whole: Utterance) -> Utterance:
    """An utterance that is all of something else, with what comes into this box for all that."""
    found = list(entering_unsized(whole.acts, whole.heard, whole.unread))
    found += coming_in(whole.acts, whole.heard, [*whole.unread, *found])
    return replace(whole, unread=(*whole.unread, *found))
