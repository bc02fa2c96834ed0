"""A yes, a no or a "go ahead" that somebody else is given: "go ahead, Dale. No, leave it"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.vocabulary import known_words

_COMMA = lazy_pattern(r"\s*,\s*")
_SILENT = (acts.OtherTalk, acts.Social, acts.Skip, acts.Yes, acts.No)
#: A name that is not our own.
_NAMED = lazy_pattern(r"\s*,?\s*(?!Boxaloud\b)(?P<name>[A-Z][a-z]+)(?=\s*(?:[.,!?;]|$))")


def nods_to_others(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without the nods that are said to somebody by name, or right before talk of
    something else: they answer no question of the box."""
    if any(_is_nod(act) and _to_somebody(act, heard) for act in made) and all(
        isinstance(act, _SILENT) or _is_nod(act) for act in made
    ):
        left.clear()
        return [acts.OtherTalk(words=heard, span=(0, len(heard)))]
    kept: list[Act] = []
    for place, act in enumerate(made):
        if _is_nod(act):
            behind = made[place + 1] if place + 1 < len(made) else None
            if _to_somebody(act, heard):
                kept.append(acts.OtherTalk(words=act.words, span=act.span))
                continue
            if isinstance(behind, acts.OtherTalk) and not isinstance(act, acts.DoIt):
                between = heard[act.span[1] : behind.span[0]]
                if _COMMA.fullmatch(between) and place:
                    continue
        kept.append(act)
    return kept


def _is_nod(act: Act) -> bool:
    return isinstance(act, acts.Yes | acts.No | acts.DoIt)


def _to_somebody(act: Act, heard: str) -> bool:
    """Whether a name follows: a word with a capital that is none of the trade's."""
    named = _NAMED.match(heard, act.span[1])
    return named is not None and named["name"].lower() not in known_words()
