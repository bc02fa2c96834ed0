"""The nine properties of the design of the dialogue, typed and heard, but for known faults."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache

import breathing
import pytest
import telling
import weighing
from matrix_rows import known_faults
from trial import Trial
from trial_sentences import VOICES, Voice

Property = Callable[[Voice], Iterator[Trial]]
PROPERTIES: dict[str, Property] = {
    "1 asked": telling.asked_is_not_told,
    "1 asked in the corpus": telling.questions_of_the_corpus,
    "1 read as asked": telling.acts_that_do_not_tell,
    "1 other talk": telling.other_talk,
    "2 absent": telling.denying_the_absent,
    "2 within": telling.denying_within_a_breath,
    "2 present": telling.denying_the_present,
    "2 asked": telling.denial_under_a_question,
    "3 operator": telling.unknown_operator,
    "4 weighty": weighing.weighty_word,
    "4 weighty after": weighing.weighty_word_after,
    "4 unsettled": weighing.unrelated_settles_nothing,
    "4 inert": weighing.inert_words,
    "4 corpus": weighing.unread_of_the_corpus,
    "4 unsure": weighing.unsure_words,
    "5 mistaken": weighing.mistaken,
    "6 two values": weighing.two_values,
    "6 marked": weighing.marked_values,
    "7 question": breathing.question_in_a_breath,
    "7 smallest": breathing.smallest_box,
    "8 rewritten": breathing.rewritten_corpus,
    "9 confirmation": breathing.confirmation_of_an_over_box,
}
CELLS = [(name, voice) for name in PROPERTIES for voice in VOICES]
KNOWN = [
    pytest.param(
        name,
        voice,
        say,
        marks=pytest.mark.xfail(strict=True, reason=reason),
        id=f"{name} {say}"[:120],
    )
    for (name, voice), faults in known_faults().items()
    if name in PROPERTIES
    for say, reason in faults.items()
]  # fmt: skip


@cache
def tried(name: str, voice: str) -> tuple[Trial, ...]:
    """Every trial of one property, typed or heard."""
    return tuple(PROPERTIES[name](VOICES[voice]))


@pytest.mark.parametrize(("name", "voice"), CELLS, ids=lambda one: one)
def test_a_property_holds(name: str, voice: str) -> None:
    known = known_faults().get((name, voice), {})
    found = tried(name, voice)
    wrong = [trial for trial in found if trial.fault and trial.name not in known]
    assert not wrong, "\n".join(f"{trial.name} | {trial.fault}" for trial in wrong)
    assert found or (name, voice) == ("4 inert", "heard")


@pytest.mark.parametrize(("name", "voice", "say"), KNOWN)
def test_a_known_fault_is_mended(name: str, voice: str, say: str) -> None:
    """Strictly expected to fail: once it is mended its row is taken out of `known.toml`."""
    (found,) = [trial for trial in tried(name, voice) if trial.name == say]
    assert not found.fault
