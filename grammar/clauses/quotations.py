"""What was said before and is said again only to be put right: "I said inside, but …"."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

_QUOTED = lazy_pattern(
    r"(?:(?:sorry|oops|no|and|wait|so|ok|okay|well|oh|um|uh|yeah) )*(?:i|we|you|he|she|they)"
    r" (?:said|told you|told me|wrote|typed|put down|called it) (?:it was |that |there was"
    r" |there were |there is |it is |on |the |a |an |it |at )*(?:<[^>]*>|inside|outside|both"
    r"|none|clamps|box)(?: (?:inside|outside|on|the|<clamps[^>]*>|clamps|box))*"
)


def quotes(line: str) -> bool:
    """Whether a clause only repeats what was said before: "I said clamps inside" (but …)."""
    return _QUOTED.fullmatch(line) is not None
