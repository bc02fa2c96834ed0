"""What is made quickly behaves as a frozen dataclass of the standard library.

Past defect this prevents: acts that differ count as one, or are shown without their fields.
"""

from __future__ import annotations

import copy
import dataclasses
import pickle
from typing import Any

import pytest
from boxaloud.grammar import acts
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Quick:
    """A value with a field of its own and one left unsaid."""

    name: str
    count: int | None = None


@dataclasses.dataclass(frozen=True, slots=True)
class Plain:
    """The same, made by the standard library."""

    name: str
    count: int | None = None


KINDS = [
    kind
    for kind in vars(acts).values()
    if isinstance(kind, type) and dataclasses.is_dataclass(kind)
]


def test_it_is_shown_as_a_dataclass_is() -> None:
    assert repr(Quick("a", 2)) == repr(Plain("a", 2)).replace("Plain", "Quick")


def test_equal_fields_make_equal_values_of_one_hash() -> None:
    assert Quick("a", 2) == Quick("a", 2)
    assert hash(Quick("a", 2)) == hash(Quick("a", 2)) == hash(Plain("a", 2))
    assert Quick("a", 2) != Quick("a", 3)
    other: object = Plain("a", 2)
    assert Quick("a", 2) != other


def test_it_is_changed_into_another_copied_and_kept() -> None:
    assert dataclasses.replace(Quick("a", 2), count=3) == Quick("a", 3)
    assert copy.deepcopy(Quick("a")) == pickle.loads(pickle.dumps(Quick("a"))) == Quick("a")


def test_what_may_change_is_not_made_here() -> None:
    with pytest.raises(TypeError, match="frozen"):
        dataclass(frozen=False)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: str(kind.__name__))
def test_every_kind_of_act_is_compared_by_its_fields(kind: Any) -> None:
    given = {
        field.name: f"given {field.name}"
        for field in dataclasses.fields(kind)
        if field.default is field.default_factory is dataclasses.MISSING
    }
    one, same = kind(**given), kind(**given)
    assert one == same
    assert hash(one) == hash(same)
    for field in dataclasses.fields(kind):
        other = dataclasses.replace(one, **{field.name: "another"})
        assert other != one
        assert f"{field.name}='another'" in repr(other)
