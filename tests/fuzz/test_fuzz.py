"""Any input at all, for a while: the same inputs in every run. `fuzz.py` here goes on at length."""

from __future__ import annotations

import random
from pathlib import Path

import fuzz
import pytest
import targets

SEEDS = sorted(path for path in fuzz.SEEDS.glob("*/*") if path.is_file())
#: Inputs of each target in one run of the tests: a few seconds.
BUDGET = {"understand": 4000, "fold": 250, "batch": 600, "wav": 3000, "job": 30, "frame": 3000}


@pytest.mark.parametrize("path", SEEDS, ids=lambda path: f"{path.parent.name} {path.name}")
def test_what_once_broke_a_promise_breaks_it_no_more(path: Path) -> None:
    targets.TARGETS[path.parent.name](path.read_bytes())


@pytest.mark.parametrize("target", targets.TARGETS)
def test_no_input_breaks_a_promise(target: str) -> None:
    for number in range(BUDGET[target]):
        data = targets.sample(target, random.Random(f"suite {number}"))
        try:
            targets.TARGETS[target](data)
        except Exception as fault:
            raise AssertionError(f"{target}: {data!r}") from fault


def test_talks_typed_and_heard_meet_no_fault() -> None:
    assert fuzz.talks(3000, seed=0) == 0


@pytest.mark.parametrize("target", targets.TARGETS)
def test_a_broken_promise_is_noticed_and_its_input_kept(
    target: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def faulty(*_: object) -> object:
        raise ZeroDivisionError("by nothing")

    targets.sample(target, random.Random(1))  # what its inputs are made of is made while all works
    monkeypatch.setattr(fuzz, "SEEDS", tmp_path)
    monkeypatch.setattr("fuzz_grammar.recognise", faulty)
    monkeypatch.setattr("boxaloud.assistant.dialogue.conversation.recognise", faulty)
    monkeypatch.setattr("boxaloud.assistant.reports.batch.row_evaluator.work_out", faulty)
    monkeypatch.setattr("file_targets.decode_wav", faulty)
    monkeypatch.setattr("file_targets.repository.places", faulty)
    monkeypatch.setattr("file_targets.page_requests.read", faulty)
    assert fuzz.at_random(target, 4 if target == "job" else 40, seed=1) > 2
    kept = list((tmp_path / target).iterdir())
    assert kept
    with pytest.raises(ZeroDivisionError):
        targets.TARGETS[target](kept[0].read_bytes())
