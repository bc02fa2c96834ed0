"""A device said once more: by what it counts as, or as the answer to one's own doubt."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern

_COUNTS_AS = lazy_pattern(
    r"(?i)[\s,]*(?:(?:it|that|which|this|they|and|so|each)\s+)*(?:counts?|counted|counting|going|treated)"
    r" as (?:just |only )?"
)
_ARTICLE = lazy_pattern(r"(?i)(?:an?|the|this|my) ")
_END_OF = lazy_pattern(
    r"(?i)\b(?:end|middle|start|beginning|head|part|half|leg|side) of (?:a|the|this|my|that) $"
)
_RUN = lazy_pattern(r"(?i) (?:run|circuit|loop|setup|set up|system|chain|arrangement)\b")
_ONE = lazy_pattern(r"(?i)(?:an?|one|1|single|the same)\b")
_YES = lazy_pattern(
    r"(?i)[\s,.…?]*(?:(?:or|is|it|was|that|there|are|were|did|i|say"
    r"|two|three|four|five|six)\b[\s,.…?]*)*"
)


def counted_as(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A stage pin receptacle counts as one receptacle", "two switches, or is it… yes two
    switches": it is one and the same, 314.16(B)(4)."""
    kept: list[Act] = []
    for act in made:
        if _of_a_run(act, heard):
            continue
        told = [one for one in kept if not isinstance(one, (acts.Yes, acts.AskUnknown))]
        last = told[-1] if told else None
        if last is not None and _as_one(last, act, heard):
            continue
        if last is not None and isinstance(kept[-1], acts.Yes) and _agrees(last, act, kept, heard):
            while kept[-1] is not last:
                kept.pop()
            continue
        kept.append(act)
    return kept


def _of_a_run(act: Act, heard: str) -> bool:
    """ "The end of a three way run": the run is called so."""
    if not isinstance(act, acts.AddDevice) or act.count not in (None, 1):
        return False
    if act.name not in ("three-way switch", "four-way switch"):
        return False
    article = _ARTICLE.match(act.words)
    before = just_before(heard, act.span[0] + (article.end() if article else 0))
    return _END_OF.search(before) is not None and _RUN.match(heard, act.span[1]) is not None


def _as_one(last: Act, act: Act, heard: str) -> bool:
    """Whether an act says only what the device before it counts as."""
    if not isinstance(act, acts.AddDevice) or not isinstance(last, acts.AddDevice):
        return False
    between = heard[last.span[1] : act.span[0]]
    return _COUNTS_AS.fullmatch(between) is not None and _ONE.match(act.words) is not None


def _agrees(last: Act, act: Act, kept: list[Act], heard: str) -> bool:
    """Whether a "yes" leads on to the very thing that was told right before it."""
    if not is_thing(act) or not is_thing(last) or type(act) is not type(last):
        return False
    alike = all(
        getattr(act, slot, None) == getattr(last, slot, None)
        for slot in ("count", "awg", "conductors", "name")
    )
    doubt = heard[last.span[1] : kept[-1].span[0]].replace(str(act.count), "")
    return alike and act.count is not None and _YES.fullmatch(doubt) is not None
