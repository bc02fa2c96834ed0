"""The matrix of capabilities by kinds of test: each cell holds, but for the faults known of it."""

from __future__ import annotations

import pytest
from cells import TESTS, capabilities, cell
from matrix_rows import known_faults, rows
from trial import DEFINITE

CELLS = [(capability, test) for capability in capabilities() for test in TESTS]
KNOWN = [
    pytest.param(
        test,
        capability,
        say,
        marks=pytest.mark.xfail(strict=True, reason=reason),
        id=f"{test} {say}"[:120],
    )
    for (test, capability), faults in known_faults().items()
    if test in TESTS
    for say, reason in faults.items()
]  # fmt: skip
ALL = {
    "quantity", "size", "device", "clamps", "grounds", "box", "edition", "negation", "question",
    "supposition", "correction", "reference", "several boxes", "chatter", "answers", "units",
    "abbreviations", "dictation",
}  # fmt: skip


@pytest.mark.parametrize(("capability", "test"), CELLS, ids=lambda one: one)
def test_a_cell_holds(capability: str, test: str) -> None:
    known = known_faults().get((test, capability), {})
    wrong = [trial for trial in cell(capability, test) if trial.fault and trial.name not in known]
    assert not wrong, "\n".join(f"{trial.name} | {trial.fault}" for trial in wrong)


@pytest.mark.parametrize(("test", "capability", "say"), KNOWN)
def test_a_known_fault_is_mended(test: str, capability: str, say: str) -> None:
    """Strictly expected to fail: once it is mended its row is taken out of `known.toml`."""
    (found,) = [trial for trial in cell(capability, test) if trial.name == say]
    assert not found.fault


def test_every_capability_has_rows_with_their_source() -> None:
    assert set(capabilities()) == ALL
    assert all("314.16" in row.source for row in rows())
    assert min(len([r for r in rows() if r.capability == one]) for one in ALL) >= 7


def test_every_verdict_follows_from_its_own_arithmetic() -> None:
    """A row can't expect "fits" of more allowances than its box has room for."""
    for row in rows():
        if row.verdict in DEFINITE and row.total is not None and row.capacity is not None:
            assert (row.total > row.capacity) == (row.verdict == "over"), row.name


def test_every_rewriting_and_direction_is_used() -> None:
    """A way that changes no sentence tests nothing."""
    names = {
        trial.name.split(":")[0]
        for one in capabilities()
        for test in ("invariance", "direction")
        for trial in cell(one, test)
    }
    wanted = {
        "filler", "please", "polite lead", "small letters", "capitals", "figures", "number words",
        "14/2 for 14-2", "full stop", "semicolons", "spaces", "adjective", "expanded", "unpointed",
        "order", "asked", "supposed", "forbidden", "denied", "one more",
    }  # fmt: skip
    assert names == wanted
