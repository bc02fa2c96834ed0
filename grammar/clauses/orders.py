"""Orders that begin like a question: "do one more"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.lazy_patterns import lazy_pattern

_DO_SO_MANY = lazy_pattern(
    r"do (?:just |only )?(?:(?:another|<n:\d+> more)(?: <n:1>)?|<n:[1-9]>"
    r"|<(?:cable|device):[1-9][^>]*>)"
    r"(?: (?:then|please|instead|anyway|for now|in here|in there|in this one|here|too|also))*"
)


def orders_so_many(words: Sequence[str], closes: str) -> bool:
    """ "Do one more", "do another one then": an order, and no question of what those do."""
    return closes != "?" and _DO_SO_MANY.fullmatch(" ".join(words)) is not None
