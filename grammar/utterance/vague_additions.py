"""What is there too and is not told: "three 14-2s, plus whatever feeds the fan"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NOT_TOLD = (
    r"(?:whatever(?:'s| is| else| goes| feeds| comes| runs| they| he| she| was| i| we)?\b"
    r"|something(?: else)?(?! like| over| under| around| bigger| smaller| about)\b"
    r"|(?:god|heaven|lord|who|nobody) knows what(?:'s| is| else)?\b"
    r"|(?:i (?:don'?t|do not) know|i dunno|not sure|no idea|i have no idea) what"
    r"(?:'s (?:behind|in|back|feeding|coming|going)| else| goes| feeds| comes| is (?:behind|in))\b)"
).replace(" ", r"\s+")
#: With the two words behind it, which say of what it is.
_VAGUE = lazy_pattern(
    r"(?i)(?:\bplus|\band|\bwith|\balso|[,;&+])\s+"
    r"(?:(?:then|also|maybe|there'?s|there\s+is|i\s+got)\s+)*" + _NOT_TOLD + r"(?:\s+[\w']+){0,2}"
)
#: "And whatever clamps come with it", "and something for lunch": of no wire and no device.
_PASSED = lazy_pattern(
    r"(?i)\b(?:clamps?|box(?:es)? (?:is|it)|lunch|eat|drink|you (?:say|think|want|need)|works?"
    r"|happens|fits|he says|she says|like that|the code says|it takes|i can find"
    r"|we have|you have)\b"
)


#: "Three-way... no, single pole, whatever, one switch": said for itself.
_SHRUG = lazy_pattern(r"(?i)[,;]\s+whatever")
_BEGINS = lazy_pattern(
    r"(?i)\W*(?:(?:oh|um|uh|yeah|well|hello|hi|hey|so|ok|okay|please)\b\W*)*(?:plus|and|also)\s"
)


def vague_additions(made: Sequence[Act], heard: str) -> list[Unread]:
    """What of an utterance that tells of things says that there is more, and not what."""
    begins = _BEGINS.match(heard) is not None
    if heard.rstrip().endswith("?") or not (begins or any(map(is_thing, made))):
        return []
    return [
        Unread(found.group().strip(" ,;&+"), found.span(), True)
        for found in _VAGUE.finditer(heard)
        if _PASSED.search(found.group()) is None and not _SHRUG.fullmatch(found.group())
    ]
