"""Cables that are counted over, or told once more: all there are of them, and no further ones."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.said_on_top import ON_TOP_OF

#: "There are", with nothing before it that makes it one more thing told.
_EXISTING = lazy_pattern(r"(?i)(?<!and )(?<!also )(?<!then )(?<!plus )\bthere(?:'s| is| are) $")
_ON_TOP_OF_THOSE = lazy_pattern(
    rf"(?i)\b{ON_TOP_OF} (?:that|those|these|this|it|them|the (?:first|other|last))\b"
)
#: Behind a count: it is of all.
_IN_ALL = lazy_pattern(
    r"(?i),? *(?:in )?(?:total|all told|altogether|all together|in all|i (?:re)?counted"
    r"|that(?:'s| is) what (?:i|we|he|she) (?:said|told you|say)(?: already| before)?)\b"
    r"(?=\s*(?:[.,;:!)-]|$))"
)


def counted_in_all(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "There's three 14-2s in here, I counted": all of them. Without a word that says so, "there's
    three 14-2s" may be those that are there, or so many more."""
    return [_counted_in_all(act, heard) for act in made]


_COUNTING = lazy_pattern(
    r"(?i)\bi (?:re)?count(?:ed)? (?:just |only )?$"
    # "I did it, now there are three": so many there are since
    r"|\b(?:so |and )?now (?:there(?:'s| is| are)|i(?:'ve| have)(?: got)?|it(?:'s| has)|we have) $"
    r"|\bthere(?:'s| is| are) now $"
    # "that's what I told you, two 14-2", "let me repeat that, …": no further ones
    r"|\bthat(?:'s| is) what (?:i|we|he|she) (?:said|told you|say|count(?:ed)?)[\s,:.]+$"
    r"|\b(?:repeat(?:ed)?(?: (?:that|it|myself|again|for you))*"
    r"|say\s+(?:it|that)\s+(?:again|once\s+more))[\s,:.]+$"
)
#: "I can count three from here, yes, three 14-2": the same number before its name.
_COUNTED_OVER = lazy_pattern(
    r"(?i)\b(?:i|we)(?: can| could| have)? (?:see|count|counted|get) (?P<n>\w+)"
    r"(?: (?:of (?:them|those)|from here|in t?here|again|now))*[.,;:]? (?:yes|yeah|yep)[.,;:]? "
    r"(?P=n) [a-z0-9 /-]+$"
)
COUNTED_PIECES = (
    "count",
    "total",
    "all",
    "altogether",
    "there",
    "yes",
    "yeah",
    "yep",
    "what",
    "repeat",
    "say",
)
#: Said of cables that come on top.
_SOME_MORE = lazy_pattern(r"\b(?:more|another|extra|additional|other|same|second|third|further)\b")


#: "Seven twelves total": of wires only where the sentence says nothing else, since "six twelves
#: total, three in and three out" tells them first.
_SENTENCE_ENDS = lazy_pattern(r"\s*(?:[.;!]|$)")
_SENTENCE_BEGINS = lazy_pattern(
    r"(?i)(?:^|[.;!?])\s*(?:(?:so|now|and now|then|that's|that is|it's|make it|ok|okay),? )*$"
)


def _wires_in_all(act: acts.AddConductors, heard: str) -> Act:
    behind = _IN_ALL.match(heard, act.span[1] - len(" in") * act.words.endswith(" in"))
    if behind is None or _SOME_MORE.search(act.words.lower()):
        return act
    if not _SENTENCE_ENDS.match(heard, behind.end()):
        return act
    if not _SENTENCE_BEGINS.search(heard[: act.span[0]]):
        return act
    return acts.Restate(
        thing=act, instead_of=just_like(act), words=act.words, span=act.span,
        doubts=act.doubts, function="correction",
    )  # fmt: skip


def _counted_in_all(act: Act, heard: str) -> Act:
    if not isinstance(act, (acts.AddCable, acts.AddConductors)):
        return act
    if act.awg is None or (act.count or 0) < 2:
        return act
    if isinstance(act, acts.AddConductors):
        return _wires_in_all(act, heard)
    if _SOME_MORE.search(act.words.lower()):
        return act
    before = heard[max(0, act.span[0] - 60) : act.span[0]]
    counted = _COUNTING.search(before) or _COUNTED_OVER.search(before + act.words)
    if counted or _IN_ALL.match(heard, act.span[1]):
        return acts.Restate(
            thing=act, instead_of=just_like(act), words=act.words, span=act.span,
            doubts=act.doubts, function="correction",
        )  # fmt: skip
    if _EXISTING.search(before) and not (act.doubts or _ON_TOP_OF_THOSE.search(before)):
        return replace(act, doubts=(*act.doubts, acts.Doubt("count", "some")))
    return act
