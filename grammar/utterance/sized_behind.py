"""Cables counted first and sized behind: "just the one cable so far, a fourteen two"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_BETWEEN = lazy_pattern(
    r"(?i)(?: (?:so far|for now|yet|in it|in here|in there|in this one|in the box|here|there|now"
    r"|total|right now|coming in|to start|at the moment))*\s*[,:;–-]+\s*"
    r"(?:(?:and |so )?(?:it|that|they|those)(?:['’]s|['’]re| is| are) )?"
    r"(?:(?:just|all|both|each) )*"
)


def sized_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The cables whose sizes follow at once, as many as were counted: those, and no further."""
    for place, act in enumerate(made):
        count = _unsized(act)
        sizes = made[place + 1 :]
        if count is None or not sizes or not all(map(_is_sized, sizes[:1])):
            continue
        if not _BETWEEN.fullmatch(heard, act.span[1], sizes[0].span[0]):
            continue
        named = 0
        for other in sizes:
            if not _is_sized(other):
                break
            named += _count(other)
        if named == count:
            return [*made[:place], *made[place + 1 :]]
        if len(sizes) == 1 and _count(sizes[0]) == 0:
            only = replace(sizes[0], count=count, doubts=())  # type: ignore[call-arg]
            return [*made[:place], only]
    return _by_purpose(made, heard, left)


_COUNTS = {
    word: worth
    for worth, words in enumerate(
        (("one", "another", "1"), ("two", "2"), ("three", "3"), ("four", "4")), start=1
    )
    for word in words
}
#: "One for the fan, same, …": before a size, a cable by what it is for.
_FOR = lazy_pattern(
    r"(?i)(?:^\s*|[,.;:]\s*|\b(?:and|plus|also|with|then|is|there's|got|have|add)\s+)"
    r"(?P<n>one|another|two|three|four|[1-4])(?:\s+more)?"
    r"(?:\s+(?:going|coming|goes|comes|out|up|down|over|that goes))*\s+(?:for|to|from|feeding)"
    r"\s+[a-z'][a-z' ]{1,29},(?:\s+(?:the\s+)?same(?:\s+(?:thing|kind|size|cable))?,)?"
    r"(?:\s+(?:also|it's|that's|those are|an?))*\s+$"
)


def _by_purpose(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One for the fan, same, 14-2": so many cables as were told by what they are for."""
    kept: list[Act] = []
    for act in made:
        told = _FOR.search(just_before(heard, act.span[0])) if _is_sized(act) else None
        if told is None or act.count not in (None, 1):  # type: ignore[attr-defined]
            kept.append(act)
            continue
        start, end = act.span[0] - (len(told.string) - told.start("n")), act.span[1]
        while kept and start <= kept[-1].span[0] and _counts_it(kept[-1], act):
            kept.pop()
        left[:] = [run for run in left if not start <= run.span[0] < end]
        kept.append(
            replace(
                act, count=_COUNTS[told["n"].lower()], words=heard[start:end], span=(start, end)
            )  # type: ignore[call-arg]
        )
    return kept


def _counts_it(before: Act, cable: Act) -> bool:
    """Whether an act is the number, or the cable of the same size, that is said ahead of a size."""
    if isinstance(before, acts.AddCable) and isinstance(cable, acts.AddCable):
        same = (before.awg, before.conductors) == (cable.awg, cable.conductors)
        return same and any(doubt.reason == "carried" for doubt in before.doubts)
    return isinstance(before, (acts.Number, acts.More))


def _unsized(act: Act) -> int | None:
    """How many cables without a size are counted."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(thing, acts.AddCable) or thing.awg is not None:
        return None
    return thing.count


def _is_sized(act: Act) -> bool:
    return isinstance(act, acts.AddCable) and act.awg is not None and act.conductors is not None


def _count(act: Act) -> int:
    return act.count or 0 if isinstance(act, acts.AddCable) else 0


_COMMA = lazy_pattern(
    r"(?i)[\s,:–-]+(?:(?:it|that|they|those)(?:['’]s|['’]re| is| are) )?(?:(?:just|all|both) )*"
)
_SIZE_BEFORE = lazy_pattern(r"(?i)\b(?:1[024]|8|6|ten|twelve|fourteen|eight|six)\b[^.;!?]*$")
_MORE = lazy_pattern(r"(?i)\b(?:another|other|more|extra|also|second|third|fourth)\b")


@joining
def sized_after_way(last: Act, act: Act, heard: str) -> Act | None:
    """ "One going out, fourteen two": counted by its way, and then sized; one and the same."""
    if not isinstance(last, acts.AddCable) or not isinstance(act, acts.AddCable):
        return None
    carried = any(doubt.reason == "carried" for doubt in last.doubts)
    if not carried or last.role not in ("in", "out") or last.count is None:
        return None
    if act.role or act.doubts or act.count not in (None, 1) or _MORE.search(act.words):
        return None
    if act.count == 1 and (last.count != 1 or not act.words.lower().startswith(("a ", "an "))):
        return None
    if (last.awg, last.conductors) != (act.awg, act.conductors):
        return None
    if not _COMMA.fullmatch(heard, last.span[1], act.span[0]):
        return None
    if _SIZE_BEFORE.search(heard, 0, last.span[0]):
        return None  # "14-2 in, one out, 14-2 to the light": the size is that of the first
    span = (last.span[0], act.span[1])
    return replace(
        act, count=last.count, role=last.role, words=heard[slice(*span)], span=span, doubts=()
    )
