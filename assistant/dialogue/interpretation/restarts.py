"""A noun group that was broken off and begun again: "two fourteen", "fourteen twos"."""

from __future__ import annotations

from collections.abc import Mapping

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
