"""What all, both or so many of the cables that are there are: their size, and no further cable."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NUMBER = r"(?:two|three|four|five|six|seven|eight|[2-8])"
_NOUN = r"(?:cables?|wires?|runs?|homeruns?)"
_HERE = r"(?: (?:in|inside) (?:here|there|it|this box|the box|that box)| here| there)?"
_BE = (
    r"(?: (?:is|are|was|were|'s|should be|should have been|is supposed to be|are supposed to be"
    r"|turn out to be|turned out to be|actually|really|just|all|both|each|in fact))+"
)
_LEAD = (
    r"(?:(?:and|but|so|no|wait|oh|well|actually|sorry|um|uh|yeah|yes|ok|okay|hello|hey"
    r"|please|turns out|i mean"
    r"|it looks like|looks like),? )*"
)
#: "All three cables are", "both runs is", "every cable is", "the cables are both".
_ALL_ARE = lazy_pattern(
    rf"(?i){_LEAD}(?:(?P<both>both)(?: of)?(?: the| these| those| my| them)?"
    rf"|(?P<all>all|each|every)(?: <<n>>)?(?: of)?(?: the| these| those| my)?(?: <<n>>)?".replace(
        "<<n>>", _NUMBER
    )
    + rf"|(?:the|these|those|my|them)(?: {_NUMBER})?) {_NOUN}{_HERE}{_BE} (?:an? )?#?\Z"
)
#: "They're all": whatever some of them were said to be.
_THEY_ARE_ALL = lazy_pattern(
    rf"(?i){_LEAD}(?:they|these|those)(?:'re| are| were)"
    r"(?: (?:actually|really|just|in fact|supposed to be))* (?:all|both) #?\Z"
)
#: "All four are": of cables by what they are said to be.
_ALL_SO_MANY = lazy_pattern(rf"(?i){_LEAD}all (?P<n>{_NUMBER})(?: of them)?{_BE} (?:an? )?#?\Z")
_SOME_ARE = lazy_pattern(
    rf"(?i){_LEAD}(?P<n>one|{_NUMBER}) of (?:the|these|those|my) {_NOUN}{_HERE}{_BE} (?:an? )?#?\Z"
)
#: What is said of a size: the words before it begin the sentence.
#: "These are twelves, all three 12-2": the size first, and then so many of it.
_OF_A_SIZE = lazy_pattern(
    r"(?i)\b(?:these|they|those)(?:'re| are)(?: (?:all|both|really|actually|only|just|in fact))*"
    r" (?:#|number )?(?P<size>fourteen|twelve|ten|1[024])'?s?(?: gauge| wires?| cables?)?"
    r"\s*[,.;:–—-]+\s*(?P<all>all|both)(?: of them| the)? $"
)
_SIZES = {"fourteen": 14, "twelve": 12, "ten": 10, "14": 14, "12": 12, "10": 10}
_SIZE = lazy_pattern(r"(?i)(?:#|no\.? ?|number )?(?:\d|ten|twelve|fourteen|eight(?!een)|six)\S*")
_IS = lazy_pattern(r"(?i)\b(?:is|are|was|were|'s|be|both|all|just|an?|each)\s+#?\Z")
_SENTENCE = lazy_pattern(r"[.;:!?\n,]\s*")
#: What begins a list of them, or says of what kind all are.
_LISTING = lazy_pattern(
    rf"(?i){_LEAD}(?:the|these|those|my)(?: {_NUMBER})? {_NOUN}{_HERE}"
    r" (?:is|are|were|was|'s)(?: an?)? #?"
)
_JOINED = lazy_pattern(
    r"(?i)[\s,]*(?:(?:and|plus|&|then|hang on|hold on|wait|um|uh|hm+|ow|let me see)[\s,.…]*)*"
)
_PLURAL = lazy_pattern(r"(?i)\b(?:cables|wires|runs|homeruns|each|every|all|both)\b")
_WORTH = {
    word: worth
    for worth, words in enumerate(
        ("one", "two", "three", "four", "five", "six", "seven", "eight"), start=1
    )
    for word in (words, str(worth))
}


OF_ALL_PIECES = ("all", "both", "each", "every", "cable", "wire", "run", " of ")
"""One of them stands wherever kinds are said of all."""


def all_of_a_kind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "All three cables are 12-2": whatever they were before; and "all three" adds no number."""
    kept: list[Act] = []
    alone = sum(map(_names_cables, made)) == 1
    joined = [False, *(_goes_on(one, other, heard) for one, other in pairwise(made)), False]
    for place, act in enumerate(made):
        act = _of_those_there(act, heard, alone, any(joined[place : place + 2]))
        while kept and isinstance(act, acts.Replace) and _named_in(kept[-1], act):
            kept.pop()  # "all four are 12-2", "each cable is a 12-2"
        last = kept[-1] if kept else None
        if (counted := _counted_behind(last, act)) is not None:
            kept[-1] = counted
            continue
        changed = isinstance(last, (acts.Restate, acts.Replace, acts.Resize, acts.Land))
        everything = isinstance(act, acts.Number) and re.search(
            r"(?i)\b(?:all|both)(?: of)?(?: the)? $", just_before(heard, act.span[0])
        )
        if not (changed and everything):
            kept.append(act)
    return kept


def _counted_behind(kind: Act | None, count: Act) -> Act | None:
    """ "All the cables are 14-2; there are six of them": six cables, and no other things."""
    if not isinstance(kind, acts.Replace) or not isinstance(count, acts.Recount):
        return None
    all_cables = kind.target.kind == "cable" and kind.target.which == "all"
    if not all_cables or count.target.kind != "anything" or not isinstance(count.count, int):
        return None
    if not isinstance(kind.thing, acts.AddCable) or kind.thing.count is not None:
        return None
    return replace(kind, thing=replace(kind.thing, count=count.count))


def _names_cables(act: Act) -> bool:
    """Whether an act is of cables of a size."""
    told = act.thing if isinstance(act, acts.Restate) else act
    return isinstance(told, acts.AddCable) and told.awg is not None


def _named_in(act: Act, whole: acts.Replace) -> bool:
    """Whether an act is of a number or of cables that a correction names by the way."""
    if isinstance(act, acts.Size):  # "these are twelves, all three 12-2"
        return act.awg == getattr(whole.thing, "awg", None)
    bare = isinstance(act, (acts.Number, acts.RestateNumber)) or (
        isinstance(act, acts.AddCable) and act.awg is None
    )
    return bare and whole.span[0] <= act.span[0] < whole.span[1]


def _goes_on(one: Act, other: Act, heard: str) -> bool:
    """Whether two cables are neighbours in a list."""
    if not _names_cables(one) or not _names_cables(other):
        return False
    return _JOINED.fullmatch(heard, one.span[1], other.span[0]) is not None


def _of_those_there(act: Act, heard: str, alone: bool, listed: bool) -> Act:
    """A cable that only says what those that are there are, as what stands in their place; some
    of those only where no other cable is said in the same breath, and none `listed`: "the cables
    are a 14-3, a 14-2 and a 14-2"."""
    told = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(told, acts.AddCable) or told.awg is None or told.path or told.role:
        return act
    start, before, said = _said(heard, told.span)
    words = heard[start : told.span[1]]
    if alone and (some := _SOME_ARE.match(before)):
        count = _WORTH[some["n"].lower()]
        target = Reference("cable", count=count, words=words)
        told = replace(told, count=count)
    elif (size := _OF_A_SIZE.search(just_before(heard, told.span[0]) + _quantified(told))) and (
        _SIZES.get(size["size"].lower()) == told.awg
    ):
        both = size["all"].lower() == "both"
        target = Reference("cable", which="both" if both else "all", words=words)
        told = replace(told, count=2 if both else told.count)
    elif (
        (found := _all_are(before))
        and _PLURAL.search(before)
        and not (listed and _LISTING.fullmatch(before))
    ):
        both = "both" in before.lower().split()
        target = Reference("cable", which="both" if both else "all", words=words)
        told = replace(told, count=_count_in(found.group(), both))
    else:
        return act
    return acts.Replace(
        target=target, thing=replace(told, words=said or told.words), words=words,
        span=(start, told.span[1]), doubts=act.doubts, function="correction",
    )  # fmt: skip


def _all_are(before: str) -> re.Match[str] | None:
    """Whether what stands before a size says that all are of it."""
    return _ALL_ARE.match(before) or _ALL_SO_MANY.match(before) or _THEY_ARE_ALL.match(before)


def _quantified(told: acts.AddCable) -> str:
    """ "Both " of "both 10-2", where it is said with the cable."""
    first = told.words.split(" ")[0].lower() if told.words else ""
    return f"{first} " if first in ("all", "both") else ""


def _count_in(said: str, both: bool) -> int | None:
    """How many there are said to be of them: two where both are meant."""
    if both:
        return 2
    return next((_WORTH[word] for word in said.lower().split() if word in _WORTH), None)


def _breaks_before(heard: str, place: int) -> Iterator[re.Match[str]]:
    """The breaks between sentences before a place, the nearest first."""
    for at in range(place - 1, -1, -1):
        if heard[at] in ".;:!?\n," and (found := _SENTENCE.match(heard, at, place)):
            yield found


def _said(heard: str, span: tuple[int, int]) -> tuple[int, str, str]:
    """Where the sentence of a cable begins, its words up to the size, and from there on."""
    start = next(
        (found.end() for found in _breaks_before(heard, span[1]) if found.end() < span[1]), 0
    )
    sentence = heard[start : span[1]]
    sizes = [found.start() for found in _SIZE.finditer(sentence) if _begins(sentence, found)]
    at = sizes[-1] if sizes else len(sentence)
    return start, " ".join(sentence[:at].split()) + " ", sentence[at:]


def _begins(sentence: str, found: re.Match[str]) -> bool:
    """Whether a size begins here: a word of its own, behind what says that they are it."""
    return _IS.search(sentence[: found.start()]) is not None
