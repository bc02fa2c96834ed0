"""What was broken off, or not understood, and is begun again: "two fourteen", "fourteen twos"."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from boxaloud.grammar import acts, recognise
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lexer import numbers


def continued(
    unread: tuple[str, ...], read: Utterance, asked: str | None, aliases: Mapping[str, str]
) -> Utterance:
    """The utterance with the numbers left unread just before it in front of it.

    Only where it takes up the last of them again and both together say a counted cable; else
    `read` as it is.
    """
    begun = unread[0].lower().split() if len(unread) == 1 else []
    said = read.heard.split()
    if len(begun) < 2 or not said or said[0].lower() != begun[-1]:
        return read
    if any(numbers.value((word,)) is None for word in begun):
        return read
    whole = recognise(" ".join([*begun, *said[1:]]), asked, aliases)
    first = whole.acts[0] if whole.acts else None
    counted = isinstance(first, acts.AddCable) and first.count is not None and not first.doubts
    return whole if counted else read


#: An utterance that changes something said before: what puts it right changes that as well.
_CHANGES = re.compile(
    r"\b(?:make|change|swap|switch(?:ed|ing)|replace|instead|actually|not|no|isn['’]t|aren['’]t|really"
    r"|wrong|mistake|correct|take|took|remove|drop)\b",
    re.IGNORECASE,
)


def of_the_unread(read: Utterance, last: str) -> Utterance:
    """An utterance that puts right the last one, of which nothing was entered: "two hoozits", "I
    mean two 14-3s". It corrects those words, and nothing that was entered before them."""
    if _CHANGES.search(last) or len(read.acts) != 1:
        return read
    act = read.acts[0]
    if not isinstance(act, acts.Restate) or act.instead_of is not None:
        return read
    return replace(read, acts=(act.thing,))
