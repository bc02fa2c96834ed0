"""Undoing that names what it takes back, and what stays where something else goes."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Thing, Unread
from boxaloud.grammar.clauses.act_kinds import counted, is_thing, pointed_at
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_THOSE = lazy_pattern(
    r"(?i)\s*(?:(?:the|those|that|these|my|your|very|last|latest|final|newest|extra|of"
    r"|adding|second|third|fourth|fifth|sixth)\s+)*"
)
_MARKS = lazy_pattern(r"(?i)\b(?:it|that|one|thing|back)$|^(?!undo|take|reverse)")
_LATEST = lazy_pattern(r"(?i)\b(?:last|latest|final|newest|second|third|fourth|fifth|sixth)\b")


@joining
def undone_things(last: Act, act: Act, heard: str) -> Act | None:
    """ "Undo the last two tens": what is named goes, whatever was said last, and none comes in."""
    if (
        isinstance(last, acts.Undo)
        and is_thing(act)
        and _THOSE.fullmatch(heard, last.span[1], act.span[0])
        and not _begins_anew(last, act)
    ):
        return _taken_back(last, act, heard)
    return None


def _begins_anew(undo: acts.Undo, thing: Thing) -> bool:
    """ "Scratch that three 14-2s", heard without its comma: what comes in its place."""
    return counted(thing) is not None and _MARKS.search(undo.words) is not None


def _taken_back(undo: acts.Undo, thing: Thing, heard: str) -> Act:
    """The one, or so many, that are named; "the last 14-2s", which nobody counted, are what came
    in last."""
    span = (undo.span[0], thing.span[1])
    words = heard[slice(*span)]
    count = counted(thing)
    if count is None and thing.words.lower().endswith("s"):
        return replace(undo, words=words, span=span)
    latest = _LATEST.search(words) is not None
    ordinal = -1 if latest and isinstance(thing, acts.AddDevice) and count is None else None
    target = replace(pointed_at(thing, words), count=count or 1, ordinal=ordinal)
    return acts.Remove(target=target, words=words, span=span, function="request")


_STILL = lazy_pattern(
    r"(?i)\b(?:ones?|others?|rest|it|that|they|those)(?:['’]s| is|['’]re| are) still"
    r"(?: (?:just|all|a|an|the))*\s*$"
)
_OTHERS = lazy_pattern(r"(?i)(?:(?:and|but|so) )*the (?:others?|rest)\b.*\bstay")
_STAYS = lazy_pattern(r"(?i)\bstay(?:s|ing)?\b")
_CHANGING = (
    acts.Remove,
    acts.Replace,
    acts.Restate,
    acts.Recount,
    acts.Resize,
    acts.Reclassify,
    acts.Deny,
    acts.Suppose,
    acts.Ask,
    acts.Keep,
)


def others_stay(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The first 14-2 is a 12-2, the other one stays": what stays was never taken out."""
    kept: list[Act] = []
    changing = False
    for act in made:
        stays = isinstance(act, acts.PutBack) and _STAYS.search(act.words)
        still = is_thing(act) and _STILL.search(just_before(heard, act.span[0]))
        if (stays or still) and (changing or _OTHERS.match(act.words)):
            continue
        changing = changing or isinstance(act, _CHANGING)
        kept.append(act)
    return kept


_GONE = lazy_pattern(
    r"(?i)\s*(?:(?:now|just|all|really|actually) )*(?:gone|out|history|toast|going away|coming out"
    r"|not (?:there|used|(?:going |coming |staying )?in (?:it|here|there|this box|this one))"
    r"|no longer (?:there|here|needed)"
    r"|(?:going |getting moved |moved )?(?:in|to|into) (?:an?other|a different|a separate) box)\b"
)
_POINTS = lazy_pattern(r"(?i)(?:the|that|this|[0-9]|fourteen|twelve|ten)")


def said_gone(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The dimmer's out", "14-3's gone": what is there goes."""
    return [_gone(act, heard) for act in made]


def _gone(act: Act, heard: str) -> Act:
    thing = act.thing if isinstance(act, acts.Restate) else act
    if not is_thing(thing):
        return act
    low = thing.words.lower()
    if not low.endswith(("'s", "’s")) or counted(thing) is not None or not _POINTS.match(low):
        return act
    behind = _GONE.match(heard, thing.span[1])
    if behind is None:
        return act
    span = (thing.span[0], behind.end())
    target = replace(pointed_at(thing, thing.words[:-2]), count=1)
    return acts.Remove(target=target, words=heard[slice(*span)], span=span, function="request")
