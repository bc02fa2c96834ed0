"""Raceways of a box that was said to be spliced in, "junction box, spliced", before they were told:
a splice, 314.28(A)(2), whose row of raceways may need more than a straight pull of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern

_SPLICED = lazy_pattern(
    r"(?i)\b(?:junction|splice|pull|j)[- ]?box\b[^.;!?]{0,30}\bsplic(?:ed|es|ing)\b"
)
_NOT = lazy_pattern(r"(?i)\b(?:no|not|never|without|nothing|un)\W*(?:[a-z]+ )?splic")


def spliced_before(read: Utterance, journal: Sequence[Entry]) -> Utterance:
    """The utterance with its raceways as those of a splice, where nothing says how they go but the
    first words of the box."""
    first = next((act for act in read.acts if isinstance(act, acts.AddRaceways)), None)
    known = [*read.acts, *(one for entry in journal for one in entry.acts)]
    if first is None or any(isinstance(act, acts.DescribePull) for act in known):
        return read
    said = [entry.heard for entry in journal if _SPLICED.search(entry.heard)]
    if not said or any(map(_NOT.search, said)):
        return read
    splice = acts.DescribePull(kind="splice", words=first.words, span=first.span)
    return replace(read, acts=(splice, *read.acts))
