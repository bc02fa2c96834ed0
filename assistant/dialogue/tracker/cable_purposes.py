"""What a cable was said to be for, kept with it, so that "the porch one" finds it."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act, AddCable, Reference
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable

_FOR = lazy_pattern(
    r"(?i)\s*(?:(?:that|which|goes|going|go|runs|running|coming|comes|heads|headed|heading|up|down"
    r"|out|over|back|in|on|is|feeds|feed)\s+)*(?:to|for|from|feeding|serving)\s+"
    r"(?:(?:the|a|my|our)\s+)?(?P<what>[a-z]+(?:\s+[a-z]+)?)"
)
#: "Another 14-2, the farmer says, for the fly zapper".
_BEHIND = lazy_pattern(r"(?i), [a-z' ]{1,30}, (?:to|for|from) (?:the |a |my )?[a-z]+(?: [a-z]+)?")
_LONGEST = 200
"""Characters that are kept of what things of a kind were called."""
_NAMED = lazy_pattern(
    r"(?i)the (?!(?:first|second|third|fourth|fifth|last|other|whole|only|next|new|old|same|extra"
    r"|damn|previous|plain|regular|latest|final) )(?:[a-z]+ ){1,2}(?:one|run|cable|wire|feed|leg"
    r"|line|drop|loop)|the one (?:that )?(?:to|for|from|feeding|feeds|going|goes|coming|up|out"
    r"|down) .+"
)

#: "The doorbell", "the attic": a name, and none of the words that point at what came last.
_NAME = lazy_pattern(
    r"(?i)the (?!(?:first|second|third|fourth|fifth|last|others?|whole|only|next|new|old|same|extra"
    r"|previous|latest|final|ones?|things?|lot|rest|pair|two|three|four|stuff|item|line|entry|step"
    r"|bit|part|addition|change|half|number|mistake|damn|stupid)\b)"
    r"[a-z]{3,}(?: [a-z]{3,})?"
)


def called(turn: Turn, thing: Act) -> str:
    """What a thing is called, with what it is for where that stands behind it."""
    start, end = thing.span
    if not isinstance(thing, AddCable) or turn.heard[start:end] != thing.words:
        return thing.words
    purpose = _FOR.match(turn.heard, end) or _BEHIND.match(turn.heard, end)
    return thing.words if purpose is None else turn.heard[start : purpose.end()]


def also_called(turn: Turn, twin: Item, thing: Act) -> State:
    """The state with what one more cable is for kept beside what the others are for."""
    words = f"{twin.words}; {called(turn, thing)}"
    if not isinstance(thing, AddCable) or len(words) > _LONGEST:
        return turn.state
    items = tuple(
        replace(item, words=words) if item.key == twin.key else item for item in turn.state.items
    )
    return altered(turn.state, items=items)


def unknown(state: State, target: Reference) -> bool:
    """Whether words say what a cable is for, and none is known to be for that: "the attic run"."""
    if target.awg is not None or target.count is not None or target.item is not None:
        return False
    said = target.words.strip()
    named = target.kind in ("cable", "wire", "anything") and _NAMED.fullmatch(said)
    pointed = target.ordinal is not None or target.which != "said" or target.name is not None
    alone = target.kind == "anything" and not pointed and _NAME.fullmatch(said)
    if not named and not alone:
        return False
    return not references.by_words(state, target.words)


_ENDS = frozenset({"one", "run", "cable", "wire", "feed", "leg", "line"})


def is_for(state: State, name: str) -> bool:
    """Whether cables were said to be for what all words of a name tell: "the pond pump"."""
    words = [word for word in name.lower().split() if word not in _ENDS]
    return bool(words) and any(
        isinstance(item.content, Cable)
        and all(re.search(rf"\b{re.escape(word)}\b", item.words.lower()) for word in words)
        for item in state.items
    )
