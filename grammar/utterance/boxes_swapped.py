"""A box that comes out for another: "that box is coming out, and a twenty is going in"."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from re import Match

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

_NUMBER = (
    r"(?:\d+(?:\.\d+)?|(?:twenty|thirty|forty)[- ](?:one|two|three|four|five|six|seven|eight|nine)"
    r"|[a-z]+teen|twelve|twenty|thirty|forty)(?: point [a-z]+)?"
)
#: "Change that one out for a 22.5": what comes in its place is no count.
_FOR_A = lazy_pattern(
    rf"(?i).*\b(?:that|this|the|it)(?: one| box)?(?: out| over| up)? (?:for|to|with) an? {_NUMBER}"
)
_GOES_IN = lazy_pattern(
    rf"(?i)\b(?P<volume>an? (?P<n>{_NUMBER})(?: one| box)?(?:['’]s| is| will)?"
    r" (?:going|go|goes|went) in)\b(?! (?:the|there|to|through|with)\b)"
)
#: "It's coming out. New one is 20", and no device of 20 amperes, no count of wires.
_NEW_ONE = lazy_pattern(
    rf"(?i)[\s.,;:!…–-]*(?:(?:and|so|then|the|my|our) )*(?:new|replacement|bigger|other)"
    rf"(?: one| box| can)?(?:['’]?s| is| will be|['’]ll be| says| reads)(?: marked| stamped)?"
    rf" (?P<volume>(?:an? )?(?P<n>{_NUMBER}))(?: (?:cubes?|cubic(?: inch(?:es)?)?|cu\.? ?in\.?)"
    r"| one| box)?(?=\s*(?:[.,;!]|$|with\b|no clamps\b|clamps\b))"
)
_IS_A = lazy_pattern(
    rf"(?i)\b(?:the|this|that) (?:other |bigger |new |next )?(?:one|box|can)\b[^.;,?]{{0,30}}"
    rf"(?:['’]s| is) (?P<volume>an? (?P<n>{_NUMBER}))(?: one| box)?\s*[,.;–—-]"
)
_LEAST = Decimal(12)
"""Cubic inches below which such a number is left as it was read."""


def boxes_swapped(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with the volume of the box that goes in, and no order to take the other out."""
    made = [_for_another(act) for act in made]
    sized = any(isinstance(act, (acts.SetVolume, acts.SetSize)) for act in made)
    ordered = any(isinstance(act, (acts.DoIt, acts.Remove)) for act in made)
    if not sized and ordered and (volume := _named(made, heard, left)) is not None:
        made = [*made, volume]
        sized = True
    if not sized:
        return made
    return [
        act
        for act in made
        if not (isinstance(act, acts.Remove) and (_is_box(act, heard) or _goes(act, made, heard)))
        and not (isinstance(act, acts.DoIt) and volume_of(act, made))
    ]


def _for_another(act: Act) -> Act:
    if (
        isinstance(act, acts.RestateNumber)
        and act.value is not None
        and act.value >= _LEAST
        and act.instead_of in (None, 1)
        and _FOR_A.fullmatch(" ".join(act.words.split()))
    ):
        return acts.SetVolume(
            volume=act.value, words=act.words, span=act.span, function="correction"
        )
    return act


def _named(made: list[Act], heard: str, left: list[Unread]) -> acts.SetVolume | None:
    """The volume of the box that is told of, where its number was left unread."""
    removed = any(isinstance(act, acts.Remove) and _is_box(act, heard) for act in made)
    done = any(isinstance(act, acts.DoIt) for act in made)
    found = (_goes_in(made, heard) if removed else None) or (_IS_A.search(heard) if done else None)
    if found is None:
        return None
    span = found.span("n")
    value = numbers.value(tuple(found["n"].lower().replace("-", " ").split()))
    if value is None or value < _LEAST or not any(_within(run.span, span) for run in left):
        return None
    left[:] = [run for run in left if not _within(run.span, span) and run.span[0] < span[1]]
    return acts.SetVolume(
        volume=Decimal(value), words=heard[slice(*span)], span=span, function="correction"
    )


def _within(inner: tuple[int, int], outer: tuple[int, int]) -> bool:
    return outer[0] <= inner[0] and inner[1] <= outer[1]


def volume_of(order: acts.DoIt, made: list[Act]) -> bool:
    """Whether an order to use "that" is of the box whose volume was told just before."""
    return any(
        isinstance(act, acts.SetVolume) and act.function == "correction" and act.span < order.span
        for act in made
    )


_INCHES = lazy_pattern(r"(?i)(?:four|4)[ -]inch(?:es)?")
_THE_ONE = lazy_pattern(r"(?i)\bthe $")


def measures_said_apart(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The inch and a half octagon, four inch", "the three and a half one, three by two by three
    and a half": a measure that stands apart is of the box that is named beside it."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.Number)
            and isinstance(last, acts.SetSize)
            and last.width is None
            and last.family in ("square", "octagon")
            and _INCHES.fullmatch(act.words.strip(" .,"))
            and heard[last.span[1] : act.span[0]].strip() in (",", "")
        ):
            span = (last.span[0], act.span[1])
            kept[-1] = replace(last, width=Decimal(4), words=heard[slice(*span)], span=span)
            continue
        kept.append(act)
    for size in kept:
        if isinstance(size, acts.SetSize):
            left[:] = [run for run in left if not _is_named_by(run, size, heard)]
    return kept


def _is_named_by(run: Unread, size: acts.SetSize, heard: str) -> bool:
    """Whether words that were left are a measure of the box that it is called by: "the … one"."""
    return (
        run.words.lower() in size.words.lower()
        and _THE_ONE.search(heard[: run.span[0]]) is not None
        and heard[run.span[1] : run.span[1] + 4].lower() == " one"
    )


_BOX = lazy_pattern(r"(?i)\b(?:(?:the|that|this|my|old) (?:box|can)|(?:it|that)(?:['’]?s)?)\b")


def _is_box(order: acts.Remove, heard: str) -> bool:
    """ "That box is coming out", "it's coming out" before what goes in."""
    if order.target.kind == "box":
        return True
    bare = order.target.kind == "anything" and order.target.count is None
    behind = heard[order.span[1] :]
    goes_in = _GOES_IN.search(behind) or (_IT.search(order.words) and _NEW_ONE.match(behind))
    return bare and bool(_BOX.search(order.words) and goes_in)


def _goes_in(made: list[Act], heard: str) -> Match[str] | None:
    """The box that goes in: "a twenty is going in", "new one is 20" behind the order."""
    if found := _GOES_IN.search(heard):
        return found
    orders = (act for act in made if isinstance(act, acts.Remove))
    return next((new for act in orders if (new := _NEW_ONE.match(heard, act.span[1]))), None)


_PUTS_IN = lazy_pattern(
    r"(?i)[\s,]*(?:and|then)\s+(?:(?:then|just|i['’]ll|we['’]ll|i|we|will|to|go|going to|gonna) )*"
    r"(?:use|used|using|put(?:ting)?(?: in)?|stick(?: in)?|stuck in"
    r"|(?:go|going|went) (?:with|to|for)"
    r"|(?:switched|switching|changed|stepped up|moved up) to|install(?:ed)?|set|throw in|threw in"
    r"|drop(?:ped)? in|get|got|cut in|nail(?:ed)? up|pop(?:ped)? in|bought|mounted)?\s*"
)
_IT = lazy_pattern(r"(?i)\b(?:it|its|that|thats|this|that one|this one|box|can)\b")


def _goes(order: acts.Remove, made: list[Act], heard: str) -> bool:
    """ "I'll cut it out and use an 18 cubic inch old work": the box, for another."""
    target = order.target
    if target.kind != "anything" or target.count is not None or not _IT.fullmatch(target.words):
        return False
    return any(
        isinstance(act, (acts.SetVolume, acts.SetSize))
        and _PUTS_IN.fullmatch(heard, order.span[1], act.span[0])
        for act in made
    )
