"""One more of a kind, and right behind it what it is: one thing, and no two."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_ONE_MORE = lazy_pattern(
    r"(?i)(?:(?:just|only)\s+)?(?:an?|one|another|1)(?:\s+(?:more|further|extra|additional|other))*"
    r"\s+(?:wire|conductor|device)"
)
#: "…, a single number 14 black", ": one 14 THHN"; a second "one" behind a comma may be a list.
_BY_NAME = lazy_pattern(
    r"(?i)\s*[,;]?\s*(?:(?:that is|that['’]s|namely),?\s+)?(?:an?|single|the)?\s*"
)
_BY_COLON = lazy_pattern(r"\s*(?:[:–—(]|-)\s*(?:an?\s+|single\s+)*")
_SORT_OF_ONE = lazy_pattern(r"(?i)(?!second|third|further|new|spare|one\b|\d)\S.*\sone")
_COMMA = lazy_pattern(r"(?i)\s*[,;:–—-]*\s*an?\s+")
_ONE = lazy_pattern(r"(?i)(?:one|1)\b")


@joining
def named_closely(last: Act, act: Act, heard: str) -> Act | None:
    """ "One more conductor, a single number 14 black": one conductor; "a switch, a single-pole
    one": one switch."""
    if isinstance(last, acts.AddDevice) and isinstance(act, acts.AddDevice) and _same(last, act):
        return act if _COMMA.fullmatch(heard, last.span[1], act.span[0]) else None
    if isinstance(last, acts.AddConductors):
        said = isinstance(act, (acts.AddConductors, acts.AddGrounds))
    else:
        general = isinstance(last, acts.AddDevice) and last.name in (None, "device")
        said = general and isinstance(act, acts.AddDevice) and act.name not in (None, "device")
    if not said or not _ONE_MORE.fullmatch(last.words.strip()):
        return None
    if getattr(last, "count", 1) not in (None, 1) or getattr(act, "count", 1) not in (None, 1):
        return None
    between = heard[last.span[1] : act.span[0]]
    named = _BY_NAME.fullmatch(between) and not _ONE.match(act.words) and _article(between, act)
    return act if named or _BY_COLON.fullmatch(between) else None


def _article(between: str, act: Act) -> bool:
    """Whether it is told as a single thing: "a", "a single"."""
    words = f"{between} {act.words}".lower().split()
    return any(word in ("a", "an", "single", "the") for word in words[:3])


def _same(last: acts.AddDevice, act: acts.AddDevice) -> bool:
    """ "A switch, a three-way one": the same, by what sort it is."""
    alike = last.name is not None and (act.name or "").endswith(last.name)
    one = {last.count, act.count} <= {None, 1} and not (last.doubts or act.doubts)
    return alike and one and _SORT_OF_ONE.fullmatch(act.words.strip()) is not None
