"""Dialogue acts as the corpus writes them: one line an act, and only what was said.

`Remove target.kind=device target.name=switch` is the name of the act, then its slots, a slot of
what stands within it behind a point; values are numbers, `yes`, `no`, words, or 'several words'.
Doubts stand behind a question mark (`? count:vague`), what is supposed behind a colon
(`Suppose: Remove target.count=1 & SetClamps where=outside`). What an act does (`as=correction`) is
compared only where it is written.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import MISSING, fields
from typing import Any

from boxaloud.grammar.acts import Act, Reference, Suppose, Utterance

_TOLD_ELSEWHERE = ("words", "span", "doubts", "function")


def written(act: Act) -> str:
    """An act as the corpus writes it, without what it does."""
    if isinstance(act, Suppose):
        head = "Suppose asks_fit=yes" if act.asks_fit else "Suppose"
        return f"{head}: {' & '.join(map(written, act.acts))}"
    slots = " ".join(f"{name}={value}" for name, value in sorted(_slots(act)))
    doubts = " ".join(f"{doubt.slot}:{doubt.reason}" for doubt in act.doubts)
    return f"{type(act).__name__} {slots}".strip() + (f" ? {doubts}" if doubts else "")


def _slots(act: Act | Reference) -> Iterator[tuple[str, str]]:
    for field in fields(act):
        value = getattr(act, field.name)
        if field.name in _TOLD_ELSEWHERE or value is None or value == ():
            continue
        if isinstance(value, Act):
            yield field.name, type(value).__name__
        if isinstance(value, (Act, Reference)):
            yield from ((f"{field.name}.{name}", inner) for name, inner in _slots(value))
        elif field.default is MISSING or value != field.default:
            yield field.name, _value(value)


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return "/".join(map(str, value))
    text = str(value)
    return f"'{text}'" if " " in text else text


def normal(line: str) -> str:
    """An expectation with its slots in the order of `written`, and without `as=`."""
    if line.startswith("Suppose"):
        head, _, inner = line.partition(":")
        return f"{head}: {' & '.join(normal(part.strip()) for part in inner.split(' & '))}"
    said, _, doubts = line.partition(" ? ")
    name, *slots = re.findall(r"[\w.]+=(?:'[^']*'|\S+)|\S+", said)
    kept = sorted(
        (slot.partition("=") for slot in slots if not slot.startswith("as=")),
        key=lambda parts: parts[0],
    )
    told = " ".join([name, *("".join(parts) for parts in kept)])
    return f"{told} ? {doubts}" if doubts else told


def doing(line: str) -> str | None:
    """What an expectation says that the act does; None where it says nothing of it."""
    found = re.search(r" as=(\w+)", line)
    return found[1] if found else None


def differences(expected: Sequence[str], found: Utterance) -> list[str]:
    """How an utterance differs from the acts expected of it; nothing where it does not."""
    told = [written(act) for act in found.acts]
    wanted = [normal(line) for line in expected]
    if told != wanted:
        return [f"wanted {wanted}", f"got {told}"]
    return [
        f"{line}: it is a {act.function}"
        for line, act in zip(expected, found.acts, strict=True)
        if doing(line) not in (None, act.function)
    ]
