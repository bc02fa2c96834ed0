"""Further wires or cables whose kind the words before them tell: "two number twelves in the top and
two more out the bottom", "eight straight through and four more spliced". Each counts by its own way
through the box, 314.16(B)(1)."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value

_MORE = lazy_pattern(r"(?i)(?P<n>two|three|four|five|six|seven|eight|[2-8]) more\b")
_ALONE = lazy_pattern(r"(?i)\s*(?:$|[,.;]|and\b|going\b|out\b|in\b|up\b|down\b)")
_PATHLESS = lazy_pattern(r"(?i)\w+ more (?:spliced|ending|terminated|landed|looped through)")


def further_wires(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with what is further of the kind that was named last; where none was, it is left
    unread."""
    told: list[Act] = []
    for act in made:
        if isinstance(act, acts.AddConductors) and act.awg is None and _PATHLESS.match(act.words):
            last = _last_wires(told, act.span[0])
            if last is None:
                left.append(Unread(act.words, act.span, True))
                continue
            act = _like(last, act.count or 0, act.words, act.span)
        told.append(act)
    for run in tuple(left):
        found = _MORE.match(heard, run.span[0])
        last = _last_wires(told, run.span[0])
        if found is None or last is None or not _ALONE.match(heard, found.end()):
            continue
        if not isinstance(last, acts.AddConductors) or last.awg is None:
            continue
        left[:] = [one for one in left if not found.start() <= one.span[0] < found.end()]
        told = sorted(
            [*told, _like(last, int(spoken_value(found["n"])), found[0], found.span())],
            key=lambda act: act.span[0],
        )
    return told


def _last_wires(told: list[Act], place: int) -> acts.AddConductors | acts.AddCable | None:
    """The wires or cables that were the last thing told before a place."""
    before = [act for act in told if is_thing(act) and act.span[1] <= place]
    last = before[-1] if before else None
    return last if isinstance(last, (acts.AddConductors, acts.AddCable)) else None


def _like(
    last: acts.AddConductors | acts.AddCable, count: int, words: str, span: tuple[int, int]
) -> acts.AddConductors | acts.AddCable:
    path: acts.WirePath | None = "loop" if "looped" in words.lower() else None
    return replace(last, count=count, path=path, role=None, words=words, span=span, doubts=())


_BEHIND = lazy_pattern(r"(?i)\b(?:on|to|onto|for|from|at|off) $")
_ONE = lazy_pattern(r"(?i)(?:one|an?)\b(?! (?:more|other|second))")


#: "The dimmer for those, one dimmer": from the one to the other.
_APPOSED = lazy_pattern(
    r"(?i)(?: (?:for|to|on|in|with) (?:it|this|that|them|['’]?em|these|those|here))?\s*[,:–-]+\s*"
    r"(?:(?:and|so|just|only|that['’]?s|it['’]?s) )*"
)
_SOME = lazy_pattern(r"(?i)(?:(?!one\b|more\b|other|second|further|another)\w+ )(?!more\b|other)")


def definite_first(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Four twelves end on the receptacle, …, one receptacle": the same one, named twice. "Two
    12-2s feed the receptacles. Two receptacles": how many those are."""
    counted = [act for act in made if isinstance(act, acts.AddDevice) and act.count is not None]
    kept: list[Act] = []
    sizes: dict[int, int] = {}
    for act in made:
        again = _counted_behind(act, counted, heard) if isinstance(act, acts.AddDevice) else None
        if again is None:
            kept.append(act)
        elif again.awg is None and isinstance(act, acts.AddDevice) and act.awg is not None:
            sizes[id(again)] = act.awg
    return [
        replace(act, awg=sizes[id(act)])
        if isinstance(act, acts.AddDevice) and id(act) in sizes
        else act
        for act in kept
    ]


def _counted_behind(
    act: acts.AddDevice, counted: list[acts.AddDevice], heard: str
) -> acts.AddDevice | None:
    """What counts the devices behind that are named here and not counted."""
    if act.count is not None or not act.words.lower().startswith("the "):
        return None
    named = [one for one in counted if one.span[0] > act.span[0] and one.name == act.name]
    if any(doubt.reason == "vague" for doubt in act.doubts):
        several = [one for one in named if (one.count or 0) > 1 and _SOME.match(one.words)]
        return several[0] if len(several) == 1 else None
    one = next((one for one in named if one.count == 1 and _ONE.match(one.words)), None)
    if one is None or _BEHIND.search(heard[: act.span[0]]):
        return one
    return one if _APPOSED.fullmatch(heard[act.span[1] : one.span[0]]) else None
