"""Questions for the box that is needed: whether a clause asks for one, and of what kind."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

_BOX_FOR = lazy_pattern(
    r"\b(?:what|which|how big a|how big of a|smallest|size)\b.*\bbox\b.*"
    r"\b(?:for|with|need|use|fit|hold|holds|if)\b"
)
_NAMED = lazy_pattern(r"<box_kind[^>]*>")
_SIZE_WANTED = lazy_pattern(
    r"\b(?:what size|which size|how (?:big|deep|large))(?: of)?(?: an?)? <box_(?:kind|size):"
)


def box_wanted(line: str, kinds: Sequence[str], things: Sequence[Statement]) -> str | None:
    """The kind of box that a clause asks for, empty where any will do; None where it asks for none.

    "What size octagon do I need" asks for the size of an octagon; in "what box do I need for two
    14-2s" the rest is what the box is for.
    """
    if _SIZE_WANTED.search(line):
        boxes = (found for found in things if found.kind in ("box_kind", "box_size"))
        if family := next((str(found.get("family") or "") for found in boxes), ""):
            return family
    sized = any(kind in ("box_volume", "box_size") for kind in kinds)
    if "smallest_box" in kinds or (not sized and _BOX_FOR.search(_NAMED.sub("box", line))):
        return ""
    return None


_OUTCOME = lazy_pattern(
    r"\b(?:would|could|will|can|should|might|room|space|left|fit|fits|pass|over|ok|okay)\b"
)


def asks_of_the_outcome(asked: str) -> bool:
    """Whether what stands before an "if" asks how it would be then, and not for a box for it."""
    return bool(_OUTCOME.search(asked)) and not _BOX_FOR.search(f"{asked} if")
