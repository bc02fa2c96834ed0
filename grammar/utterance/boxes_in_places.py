"""Boxes that are numbered, said to be in a place, and described, in whole sentences: "The next box
is in the hall. It has three 14-2 cables"."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.box_naming import CHANGES, of_another_box, shifted

_WHICH = r"first|second|third|fourth|fifth|sixth|seventh|eighth|next|other|another"
_IN_PLACE = lazy_pattern(
    r"(?i)\s*(?:(?:ok|okay|so|and|then|now|well|alright|right|um|uh|hi|hello|please),? )*"
    rf"(?:(?:there(?:['’]s| is)|i have|we have) )?(?:(?:the|an?|my|our) )?(?P<which>{_WHICH}) box"
    r"(?:(?:['’]s| is| sits| goes)(?: out| up| down| over)?)?"
    r" (?:in|at|by|for|on|under|near) (?:the|my|our|her|his|their)"
    r" (?P<name>[a-z]+(?: (?!and\b|with\b|has\b|it\b)[a-z]+){0,3}?)"
    r"(?:\s*[.;,:–—-]+\s*(?:and )?|(?= with )| and | (?=it (?:has|holds|contains)\b))"
    r"(?P<rest>(?:\s*with|it|it['’]s|this one|that one|which|inside|in it|here|there)\b .+)"
)
_NO_NAMES = frozenset(
    {"box", "new", "next", "other", "same", "way", "truck", "van", "wall", "ceiling"}
)


def of_numbered_box(heard: str, read_part: Callable[[str], Utterance]) -> Utterance | None:
    """What is told of a box by its number, in a place or not; None where nothing is."""
    return _in_place(heard, read_part) or of_another_box(heard, read_part)


def _in_place(heard: str, read_part: Callable[[str], Utterance]) -> Utterance | None:
    """The box that begins or is gone back to, its name, and what is told of it; None where no box
    is numbered so, or nothing is told of it."""
    said = _IN_PLACE.fullmatch(heard)
    if said is None or heard.rstrip().endswith("?") or _NO_NAMES.intersection(said["name"].split()):
        return None
    read = read_part(said["rest"])
    if not any(isinstance(act, CHANGES) for act in read.acts):
        return None
    start = said.start("rest")
    unread = (replace(run, span=(run.span[0] + start, run.span[1] + start)) for run in read.unread)
    named = _named(said["which"].lower(), said["name"].lower(), heard[:start].strip(), start)
    return Utterance(heard, (*named, *shifted(read.acts, start)), tuple(unread))


def _named(which: str, name: str, words: str, end: int) -> Sequence[Act]:
    """What is done before anything is told: whatever is in the first box stays in it."""
    span = (0, end)
    if which == "first":
        return (
            acts.OpenBox(which="first", words=words, span=span),
            acts.NameBox(name=name, words=words, span=span),
        )
    return (acts.NextBox(name=name, words=words, span=span),)
