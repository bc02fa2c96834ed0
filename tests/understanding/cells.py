"""The cells of the matrix: what each kind of test finds of the rows of a capability.

Minimum functionality: the row itself. Invariance: the same box after a rewriting. Direction: the
stated change and no other. Heard: by ear the same box, or a question, never another verdict.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import permutations

from directing import directed
from matrix_rows import VOLUME, Row, rows
from rewriting import WAYS, spoken
from standing import Standing, entered, fault, heard, play, standing, unsafe
from thinning import is_due
from trial import DEFINITE, Trial

TESTS = ("minimum", "invariance", "direction", "heard")
STUD = "add a luminaire stud"


def capabilities() -> tuple[str, ...]:
    """The capabilities that there are rows of."""
    return tuple(dict.fromkeys(row.capability for row in rows()))


@cache
def cell(capability: str, test: str) -> tuple[Trial, ...]:
    """Every trial of one cell."""
    of = (row for row in rows() if row.capability == capability)
    tried = {"minimum": minimum, "invariance": invariance, "direction": direction, "heard": by_ear}
    return tuple(trial for row in of for trial in tried[test](row))


def minimum(row: Row) -> Iterator[Trial]:
    """The row as it stands."""
    said = [heard(one, 0.9) for one in row.say] if row.spoken else row.say
    talk, reply = play(said)
    yield Trial(row.name, fault(row, talk, reply), unsafe(row, standing(talk)))


def invariance(row: Row) -> Iterator[Trial]:
    """Each rewriting that changes the words of a row, of those that are due: the same box."""
    if row.spoken:
        return
    written = [(f"{name}: {' / '.join(say)}", say) for name, say in dict.fromkeys(_written(row))]
    written = [(name, say) for name, say in written if is_due(name)]
    base = standing(play(row.say)[0]) if written else None
    for name, say in written:
        assert base is not None
        got = standing(play(say)[0])
        wrong = not (
            _same(got, base) or (row.or_asked and "incomplete" in (got.verdict, base.verdict))
        )
        yield Trial(
            name,
            f"{got}, not {base}" if wrong else "",
            wrong and unsafe(row, got),
        )


def _written(row: Row) -> Iterator[tuple[str, tuple[str, ...]]]:
    for name, way in WAYS.items():
        if name == "semicolons" and not row.parts:
            continue
        say = tuple(way(one) for one in row.say)
        if say != row.say:
            yield name, say
    for order in list(permutations(row.parts))[1::5]:
        yield "order", (", ".join(order),)


def direction(row: Row) -> Iterator[Trial]:
    """What is asked, supposed, forbidden or denied leaves the box as it was; a stud adds one
    allowance of the largest conductor, NEC 314.16(B)(3)."""
    if row.spoken:
        return
    for name, before, said in directed(row):
        label = f"{name}: {' / '.join((*before, said))}"
        talk, _ = play(before)
        was, verdict = entered(talk), standing(talk).verdict
        try:
            talk.hear(said)
        except Exception as error:  # a fault of the program is a miss of this trial alone
            yield Trial(label, f"faults: {error!r}")
            continue
        got = standing(talk)
        changed = entered(talk) != was
        turned = got.verdict in DEFINITE and got.verdict != verdict
        yield Trial(
            label,
            f"{got}, was {verdict}" if changed or turned else "",
            (changed or turned) and got.verdict == "fits",
        )
    yield from _one_more(row)


def _one_more(row: Row) -> Iterator[Trial]:
    if row.verdict not in DEFINITE or not row.conductors or "stud" in row.name or row.or_asked:
        return
    talk, _ = play(row.say)
    before = standing(talk)
    talk.hear(STUD)
    got = standing(talk)
    assert row.total is not None
    assert row.capacity is not None
    total = before.total + VOLUME[row.conductors[0]]
    wanted = "over" if before.capacity is not None and total > before.capacity else "fits"
    wrong = (got.total, got.verdict) != (total, wanted) and before.verdict in DEFINITE
    yield Trial(
        f"one more: {row.name} / {STUD}",
        f"{got}, not {wanted} {total}" if wrong else "",
        wrong and got.verdict == "fits",
    )


def by_ear(row: Row) -> Iterator[Trial]:
    """The row as an ear gives it, sure of every word: the same box, or asked back."""
    say = tuple(spoken(one) for one in row.say)
    if row.spoken or any(any(c.isdigit() or c in "#&(" for c in one) for one in say):
        return
    talk, reply = play([heard(one) for one in say])
    got = standing(talk)
    right = not fault(row, talk, reply)
    asked = got.verdict == "incomplete" and bool(reply.asks)
    yield Trial(
        f"heard: {' / '.join(say)}",
        "" if right or asked else f"{got}: {reply.said}",
        unsafe(row, got),
    )


def _same(one: Standing, other: Standing) -> bool:
    return one == other
