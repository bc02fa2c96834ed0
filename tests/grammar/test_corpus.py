"""Every utterance of the corpus gives its statements, and leaves over what it should."""

from __future__ import annotations

import pytest
from spoken_cases import Case, cases, written

from grammar import understand

CASES = cases()


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.file}: {case.say[:60]}")
def test_an_utterance_gives_its_statements(case: Case) -> None:
    understanding = understand(case.say, case.asked)
    assert tuple(map(written, understanding.statements)) == case.gives
    assert understanding.left_over == case.left


def test_the_corpus_is_broad() -> None:
    """At least 400 utterances, none of them twice."""
    said = [(case.say, case.asked) for case in CASES]
    assert len(said) >= 400
    assert len(set(said)) == len(said)


@pytest.mark.parametrize("case", CASES[::7], ids=lambda case: case.say[:40])
def test_capitals_and_a_full_stop_change_nothing(case: Case) -> None:
    if case.say[-1:].isalnum() and not case.say.endswith((" in", " cu")):
        capitals = understand(case.say.capitalize() + ".", case.asked)
        assert [s.kind for s in capitals.statements] == [g.split()[0] for g in case.gives]
