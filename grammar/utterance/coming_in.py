"""What comes into the box at hand, goes on from it or sits on it, in any piece of an utterance:
"later on I pulled another one through the floor", "it continues on to the garage", "a doorbell
transformer sits on it". Each conductor that enters counts, 314.16(B)(1), so that no verdict stands
over one of which nothing was made, whoever did it, when, and whatever is said beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.rewriter import without
from boxaloud.grammar.utterance.coming_in_frames import frames_in, not_of_it
from boxaloud.grammar.utterance.masked_words import is_bare, masked, thing_of
from boxaloud.grammar.utterance.whereabouts import pieces_elsewhere

_BREAK = lazy_pattern(
    r"(?:,(?! (?:it|that|which) (?:hangs|sits|is|goes|rides|mounts)\b)|[;:!?\n()])+|[.]+(?=\s|$)"
    r"|\s[-–—]+\s|(?<=\S)\s+(?:but|and)(?= )|$"
)
_SILENT = (acts.OtherTalk, acts.Social, acts.Yes, acts.No, acts.AskUnknown, acts.Number)
_THING_BEFORE = lazy_pattern(r"[CDW][\s,]+$")
_ONES = lazy_pattern(r"\b(?:one|1) (?:to|for|from|goes|comes|up|down|out|in|feeds|is|going)\b")
#: "A third one, another 10-3": what it is, is said.
_NAMED = lazy_pattern(r"[\s,:]*(?:(?:also|that's|it's|is|another|an?)\s+)*[CDW]")
_UNCUT = lazy_pattern(r"\b(?:uncut|unbroken|straight through|unspliced|loop(?:ed|s)?)\b")


def coming_in(made: Sequence[Act], heard: str, left: Sequence[Unread]) -> Iterator[Unread]:
    """What the pieces of an utterance say to come into this box, or to be on it, and nothing was
    made of; none of what was `left` unread already."""
    text = masked(made, without("remarks", heard))
    if next(frames_in(text), None) is None:  # a piece holds no word that its text does not
        return
    taken = [run.span for run in left]
    others = [piece for piece in pieces_elsewhere(heard) if piece.of_box]
    told = [act for act in made if thing_of(act) is not None]
    acted = [act.span for act in made if not _silent(act)]
    for start, end in _pieces(text):
        if _meets(taken, start, end) or _meets(acted, start, end):
            continue
        if any(other.start < end and start < other.end for other in others):
            continue
        piece = text[start:end].rstrip()
        for of, form in frames_in(piece):
            found = form.search(piece)
            if found is None or (told and _of_the_told(of, told, text, start)):
                continue
            ends = (start + found.end("new"), end)
            if not any(_NAMED.match(text, at) for at in ends) and not_of_it().search(piece) is None:
                span = (start + found.start("new"), start + found.end("new"))
                yield Unread(heard[slice(*span)], span, True)
            break


def _pieces(text: str) -> Iterator[tuple[int, int]]:
    """Where the pieces of a text begin and end, but for those that are asked."""
    start = 0
    for found in _BREAK.finditer(text):
        if text[start : found.start()].strip() and "?" not in found.group():
            yield start, found.start()
        start = found.end()


def _silent(act: Act) -> bool:
    """Whether an act leaves its piece to be looked at: a thing, or one that says nothing of any."""
    return isinstance(act, _SILENT) or thing_of(act) is not None or is_bare(act)


def _meets(spans: Sequence[tuple[int, int]], start: int, end: int) -> bool:
    """Whether one of the spans lies in a piece, or reaches into it."""
    return any(s < end and start < e for s, e in spans)


def _of_the_told(of: str, told: Sequence[Act], text: str, start: int) -> bool:
    """Whether a piece may tell of the things that the utterance names: "three 14-2s, the helper
    stuck another one in", "two 14-2s, one to the fan, another up to the light"."""
    if of == "sitting":
        return False
    if of == "onward":
        cables = [thing for act in told if isinstance(thing := thing_of(act), acts.AddCable)]
        return sum(cable.count or 1 for cable in cables) > 1 or _UNCUT.search(text) is not None
    if of == "one":
        return True
    return (
        _THING_BEFORE.search(text, 0, start) is not None or _ONES.search(text, 0, start) is not None
    )
