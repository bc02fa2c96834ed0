"""So many of those that are there, of which something else is told than how many there are:
"somebody nicked one of the 14-2s"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.lazy_patterns import lazy_pattern

_OF_THOSE = lazy_pattern(r"\bof (?:the|those|these|my)\b")
#: Words beside so many of those that leave it a count of them: "there's only one of the 14-2s".
_OF_A_COUNT = frozenset(
    {
     "only", "just", "there", "have", "has", "had", "having", "got", "is", "are", "was", "were",
     "be", "been", "i", "we", "you", "he", "she", "they", "it", "that", "this", "these", "those",
     "who", "see", "saw", "seen", "count", "counted", "found", "find", "need", "needed", "want",
     "wanted", "mean", "meant", "said", "say", "says", "entered", "mentioned", "missed", "added",
     "overlooked", "used", "use", "using", "also", "already", "then", "now", "even", "so", "and",
     "but", "or", "no", "nope", "nah", "not", "actually", "wait", "well", "ok", "okay", "oh",
     "yes", "yeah", "make", "made", "really", "maybe", "like", "with", "in", "here", "on", "to",
     "of", "do", "did", "could", "would", "will", "can", "should", "must", "might", "sorry",
     "hold", "hang", "hmm", "um", "uh", "er", "think", "guess", "all", "total", "out", "turns",
     "looks", "looking", "look", "at", "box", "still", "instead", "the", "a", "two", "three",
     "four", "correction", "plus", "what", "how", "many", "keep", "keeping", "leave", "leaves",
     "left", "stay", "stays", "remain", "remains", "please", "let", "us", "me", "my", "mistake",
     "bad", "whoops", "oops", "scratch", "rather",
    }
)  # fmt: skip


def some_befallen(act: Act, elements: Sequence[Element], place: int) -> Act | None:
    """ "Somebody nicked one of the 14-2s", "for one of those …": no count of them, which the code
    would take the others out by, 314.16(B)(1); what is meant is asked."""
    if not isinstance(act, (acts.AddCable, acts.AddConductors, acts.AddDevice)):
        return None
    if act.count is None or not _OF_THOSE.search(act.words.lower()):
        return None
    if {element.tag for element in elements[:place] if element.found is None} <= _OF_A_COUNT:
        return None
    return replace(act, doubts=(*act.doubts, acts.Doubt("count", "some")))
