"""A box that has no name of its own, by the words that it was begun with: "Nursery, two gang …"."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.box_names import first_words, meant, named
from boxaloud.grammar.lazy_patterns import lazy_pattern

_LEAD = lazy_pattern(
    r"\W*(?:(?:um|uh|er|hello|hi|hey|please|ok|okay|so|alright|well|first|now|this is|it's|its|at"
    r"|the|my|our)[, ]+)*"
)
#: "Let me do the pantry. …", "I'm in the den, …": what somebody sets about is the box there.
_SETS_ABOUT = lazy_pattern(
    r"\W*(?:(?:um|uh|er|hello|hi|hey|please|ok|okay|so|alright|well|first|now|then)[, ]+)*"
    r"(?:(?:(?:let's|lets|let us|let me|lemme|i'll|we'll|i will|i'm|we're|i am|we are|gonna"
    r"|going to|about to|start(?:ing)?|begin(?:ning)?|do(?:ing)?|check(?:ing)?|take|try"
    r"|work(?:ing)? on|with|here at|over|in|at|here's|here is) )+)(?=(?:the|my|our) )"
)
#: Behind the name of a place: the box there by its device, or what is said of it.
_OF_IT = lazy_pattern(
    r" (?:switch|receptacle|outlet|plug|gfci|light|dimmer|fan|box|one|counter"
    r"|(?:three|four)[- ]way)\b"
    r"|(?: box)? (?:is|was|has|gets|takes|will be|had)\b"
)


def box_meant(name: str, names: Sequence[str], talk_of: Callable[[str], Talk]) -> str | None:
    """The box meant: by the words that it was begun with, by its name or its number, else by the
    place that it was begun with: "the front door box" for "Front door switch is a 20.3"."""
    found = begun_so(name, names, talk_of) or meant(name, names) or _begun_at(name, names, talk_of)
    return found or _said_to_be_at(name, names, talk_of)


def _begun_at(name: str, names: Sequence[str], talk_of: Callable[[str], Talk]) -> str | None:
    """The only box without a name whose first words begin with that place."""
    wanted = named(name.lower().strip()).removesuffix(" box")
    if len(wanted) < _SHORTEST or any(map(str.isdigit, wanted)):
        return None
    return _only(names, talk_of, lambda said: _begins_at(said.lower(), wanted))


def _said_to_be_at(name: str, names: Sequence[str], talk_of: Callable[[str], Talk]) -> str | None:
    """The only box without a name of which that place was said first: "back to the office" for
    "Two-gang at the principal's office", "box one is the teacher's desk"."""
    place = _plain(named(name.lower().strip()).removesuffix(" box"))
    if len(place) < _SHORTEST or any(map(str.isdigit, place)):
        return None
    said_so = re.compile(
        r"\b(?:at|in|by|for|over|under|near|on|behind|above|beside|inside|is|of) (?:(?:the|my|our"
        rf"|his|her|their) )?(?:[a-z]+(?:'s)? )?{re.escape(place)}(?![\w'-])"
    )
    return _only(names, talk_of, lambda said: said_so.search(_plain(said.lower())) is not None)


def _plain(said: str) -> str:
    return said.replace("’", "'")


def _begins_at(said: str, place: str) -> bool:
    lead = _LEAD.match(said)
    bare = first_words(said[lead.end() :] if lead else said)
    return bare.startswith(place) and _OF_IT.match(bare, len(place)) is not None


_SHORTEST = 3
"""Letters of the shortest name of a place: "den"."""


def begun_so(name: str, names: Sequence[str], talk_of: Callable[[str], Talk]) -> str | None:
    """The one of `names` whose first words are that name; None where a box is called so, or where
    none or several were begun so."""
    wanted = named(name.lower().strip())
    if wanted in names:
        return None
    return _only(names, talk_of, lambda said: wanted in _begun_with(said))


def _begun_with(said: str) -> tuple[str, ...]:
    """What a box may be called by the first words that were said of it."""
    about = first_words(_SETS_ABOUT.sub("", said.lower(), 1))
    return named(first_words(said)), named(about).removesuffix(" box")


def _only(
    names: Sequence[str], talk_of: Callable[[str], Talk], begins: Callable[[str], bool]
) -> str | None:
    """The only box without a name whose first words begin so."""
    begun = [
        box
        for box in names
        if box.startswith("box ") and (journal := talk_of(box).journal) and begins(journal[0].heard)
    ]
    return begun[0] if len(begun) == 1 else None


def nth(name: str, words: str, count: int) -> str | None:
    """The name of the box that "the second box has …" begins in a job of so many: empty for the
    next, its own where those between were never told ("fourth box now, …"); None for any other."""
    if name == f"box {count + 1}":
        return ""
    return name if _BY_PLACE.match(words) is not None else None


_BY_PLACE = lazy_pattern(
    r"(?i)(?:(?:ok|okay|so|and|now|the|our|my|well),? )*"
    r"(?:second|third|fourth|fifth|sixth|seventh|eighth)\b"
)
