"""Ways to say a sentence with a stated change of what it does: ask it, suppose it, forbid it.

What is asked, supposed or forbidden is not told: nothing that was entered changes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from matrix_rows import Row

ORDERS = frozenset(
    [
        "change", "swap", "make", "replace", "switch", "turn", "take", "scratch", "ditch", "lose",
        "leave", "get", "put", "use", "add", "delete",
    ]
)  # fmt: skip


def is_order(said: str) -> bool:
    """Whether a sentence is an order to change the box; "scratch that, …" only corrects."""
    if said.startswith("scratch that, "):
        return False
    return said.split()[0] in ORDERS and len(said.split()) > 1


def asked(said: str) -> str:
    """A question about what would have been told."""
    return f"should I {said}?" if is_order(said) else f"did I say {said}?"


def supposed(said: str) -> str:
    """A supposition of it."""
    return f"what if I {said}?" if is_order(said) else f"what if it was {said}?"


def forbidden(said: str) -> str:
    """An order taken back before it is given; of a thing there is none such."""
    return f"don't {said}"


DIRECTIONS: dict[str, Callable[[str], str]] = {
    "asked": asked,
    "supposed": supposed,
    "forbidden": forbidden,
}


def directed(row: Row) -> Iterator[tuple[str, tuple[str, ...], str]]:
    """The name, the talk before and the sentence of each direction of a row; none of the
    sentences may change what the talk before entered."""
    last = row.say[-1]
    if len(row.say) > 1 and is_order(last):
        for name, way in DIRECTIONS.items():
            yield name, row.say[:-1], way(last)
            yield name, row.say, way(last)
    for part in row.parts:
        if part.startswith(("use ", "neither ")):
            continue
        yield "asked", row.say, asked(part)
        yield "supposed", row.say, supposed(part)
    yield "denied", row.say, "there is no terminal block"
