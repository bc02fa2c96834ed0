"""Every utterance of the corpus gives its statements and acts, and leaves over what it should."""

from __future__ import annotations

import pytest
from boxaloud.grammar import recognise, understand
from spoken_cases import Case, cases, written
from written_acts import differences, normal

CASES = cases()
FLAT = [case for case in CASES if case.gives is not None]


def _told(case: Case) -> object:
    """A case of acts; one that the program does not get right yet must go on failing."""
    marks = [pytest.mark.xfail(reason=case.fails, strict=True)] if case.fails else []
    return pytest.param(case, marks=marks, id=case.name)


ACTS = [_told(case) for case in CASES if case.acts is not None]


@pytest.mark.parametrize("case", FLAT, ids=lambda case: case.name)
def test_an_utterance_gives_its_statements(case: Case) -> None:
    understanding = understand(case.say, case.asked)
    assert tuple(map(written, understanding.statements)) == case.gives
    assert understanding.left_over == case.left


@pytest.mark.parametrize("case", ACTS)
def test_an_utterance_gives_its_acts(case: Case) -> None:
    found = recognise(case.say, case.asked)
    assert case.acts is not None
    assert differences(case.acts, found) == []
    assert tuple(run.words for run in found.weighty) == case.unread


def test_every_case_expects_something() -> None:
    for case in CASES:
        assert case.gives is not None or case.acts is not None, case.say
        assert not (case.fails and case.acts is None), case.say


def test_the_corpus_is_broad() -> None:
    """At least 400 utterances, none of them twice."""
    for told in (FLAT, [case for case in CASES if case.acts is not None]):
        said = [(case.say, case.asked) for case in told]
        assert len(set(said)) == len(said)
    assert len(FLAT) >= 400


@pytest.mark.parametrize("case", FLAT[::7], ids=lambda case: case.say[:40])
def test_capitals_and_a_full_stop_change_nothing(case: Case) -> None:
    if case.gives and case.say[-1:].isalnum() and not case.say.endswith((" in", " cu")):
        capitals = understand(case.say.capitalize() + ".", case.asked)
        assert [s.kind for s in capitals.statements] == [g.split()[0] for g in case.gives]


def test_an_expectation_is_read_in_any_order_of_its_slots() -> None:
    line = "Recount target.kind=cable count=3 target.awg=14"
    assert normal(line) == normal("Recount count=3 target.awg=14 target.kind=cable")
    assert normal(line) != normal(line.replace("count=3", "count=4"))
    assert normal("Remove target.name='three-way switch' as=request") == (
        "Remove target.name='three-way switch'"
    )


@pytest.mark.parametrize(
    "wrong",
    [
        ["Remove target.kind=device target.name=dimmer"],
        ["Remove target.kind=device"],
        ["Remove target.kind=device target.name=switch target.count=1"],
        ["Remove target.kind=device target.name=switch as=inform"],
        ["AddDevice name=switch"],
        [],
    ],
)
def test_a_wrong_expectation_is_noticed(wrong: list[str]) -> None:
    found = recognise("remove the switch")
    assert differences(["Remove target.kind=device target.name=switch as=request"], found) == []
    assert differences(wrong, found) != []
