"""Devices and bare numbers among words that no description has: they may be of something else."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.other_talk import TELLS
from boxaloud.grammar.utterance.whereabouts import kept_of_this_box

_SLIGHT = (
    acts.AddDevice, acts.AddGrounds, acts.AddUncounted, acts.AddFitting, acts.AddJumper,
    acts.AddPart, acts.AddBarrier, acts.Number, acts.Size, acts.NoneOfThem, acts.Place, acts.Hang,
)  # fmt: skip
STRANGE, STRANGE_AT_LENGTH = 2, 3
"""Words that no description has from which on what is told beside them is in doubt, and from which
on one cable or a number alone is: measured over the blind rounds, where one description in a
hundred has as many."""


def strange_telling(made: Sequence[Act], parts: Sequence[Clause], heard: str) -> list[Unread]:
    """An utterance that tells of nothing but devices, numbers or one cable, among words that no
    description has: unread, so that it is asked about; empty for any other."""
    telling = [act for act in made if isinstance(act, TELLS)]
    if not telling or heard.rstrip().endswith("?"):
        return []
    if not all(map(_is_slight, telling)):
        return []
    if all(isinstance(act, acts.AddUncounted) for act in telling):
        return []  # it counts nothing, wherever it is
    if _is_headed_list(parts):
        return []
    numbers = all(isinstance(act, (acts.Number, acts.SetVolume)) for act in telling)
    cabled = any(isinstance(act, acts.AddCable) for act in telling)
    least = STRANGE_AT_LENGTH if cabled or numbers else STRANGE
    found = {
        element.tag
        for clause in _since_turned_back(parts, heard)
        for element in clause.elements
        if element.found is None and _is_strange(element.tag)
    }
    if len(found) < least or kept_of_this_box(parts, heard):
        return []
    return [Unread.whole(heard)]


_A_THING = lazy_pattern(
    r"(?:(?:and|plus|with) )?<(?:device|fitting|cable|conductors|grounds):[^>]*>"
)
_LONGEST_HEADING = 3
"""Words of a heading by itself."""


def _is_headed_list(parts: Sequence[Clause]) -> bool:
    """ "Vending alcove. Two duplexes.": nothing but a place and, in sentences of their own,
    things."""
    heading, *rest = parts
    return (
        bool(rest)
        and heading.closes in (".", ":")
        and not heading.found
        and len(heading.elements) <= _LONGEST_HEADING
        and all(_A_THING.fullmatch(part.line) for part in rest)
    )


#: "Should have brought the lamp. Okay, stairs, …": from here on it is of the box again.
_BACK_TO_IT = lazy_pattern(r"(?i)(?:okay|ok|alright|all right|anyway|anyhow|right)\b,? ")


def _since_turned_back(parts: Sequence[Clause], heard: str) -> Sequence[Clause]:
    """The clauses from the one that turns back to the box; of sentences that tell of no thing
    before it nothing is told, and no doubt comes from their words."""
    for place, clause in enumerate(parts):
        if any(one.found for one in parts[:place]) or clause.closes == "?":
            return parts
        if place and parts[place - 1].closes in _STOPS and _turns_back(clause, heard):
            return parts[place:]
    return parts


_STOPS = (".", "!", ";")


def _turns_back(clause: Clause, heard: str) -> bool:
    return _BACK_TO_IT.match(heard, clause.span[0]) is not None


def _is_slight(act: Act) -> bool:
    """Whether an act tells so little that it may be of something else."""
    if isinstance(act, acts.AddCable):
        return act.count in (None, 1)
    if isinstance(act, acts.AddConductors):
        return act.count is None or act.awg is None
    if isinstance(act, acts.SetVolume):
        return "cu" not in act.words.lower() and "box" not in act.words.lower()
    return isinstance(act, _SLIGHT)


def _is_strange(tag: str) -> bool:
    word = tag.replace("'", "")
    return word.isalpha() and len(word) > 2 and tag not in _beside()


@cache
def _beside() -> frozenset[str]:
    return frozenset(grammar_data.table("whereabouts")["beside"]["words"])
