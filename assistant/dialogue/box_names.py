"""The name that a box of a job is meant by: "the hall", "box three", "box hall"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from difflib import get_close_matches

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.words import SMALL

_LEAD = (
    r"(?:(?:ok|okay|so|and|now|no|oh|um|uh|er|hi|hello|hey|well|please|alright|right|i mean|i meant"
    r"|it is|it's|that's|going|go|back|to|at|on|in|for|with|the|about|as for|regarding)(?: |, ?))*"
)
_TAIL = r"(?: again| one| box| please| then)*"
_BREAK = lazy_pattern(r"\s*(?:\.{2,}|[.:;,\n/…—!]|\s-\s|$)\s*")
_AGAIN = lazy_pattern(r"(?i)(?<=again)[\s.,:;…-]+")
_HELLO = lazy_pattern(
    r"(?i)\s*(?:(?:um|uh|er|hi|hello|hey|ok|okay|so|well|oh|no|please)\s*[,.!]?\s+)+"
)
_POINTS = lazy_pattern(r"\b(?:back|again|one|box)\b")
"""What shows that a box is named, where its whole name is not said."""
_NUMBERED = lazy_pattern(r"box \d+")
_FIGURE = lazy_pattern(r"\d")  # "box 18" is no slip for "box 1"
_PASSED = frozenset({"box", "the", "my", "a", "by", "in", "at", "on", "of", "to", "near"})
_POSITION = 2
"""Digits of a number that may say the place of a box in the job; "301" is a name."""
_SLIP = 0.85
"""How like another a name must be that was misspelt, by the ratio of Ratcliff and Obershelp."""


def named(name: str) -> str:
    """The name in "box hall" and in "the hall"; "box 3" is a name as it stands."""
    bare = name.removeprefix("is ").removeprefix("the ").strip()
    rest = bare.removeprefix("box ").removeprefix("number ")
    if rest.isdigit() or rest in SMALL:
        return f"box {rest}" if rest != bare or rest.isdigit() else bare
    return rest or bare


def numbered(name: str) -> str:
    """ "box one" is "box 1"."""
    head, _, last = name.rpartition(" ")
    if head in ("box", "") and last in SMALL[1:]:
        return f"box {SMALL.index(last)}"
    return name


def meant(name: str, names: Sequence[str]) -> str | None:
    """The one of `names` that is meant, None where none or several can be.

    By its whole name, by its number, by its place, else by the only one that holds it.
    """
    close = near(name, names)
    if len(close) == 1:
        return close[0]
    number = re.fullmatch(r"(?:box )?(\d+)", numbered(name.lower().strip()))
    if number and 1 <= int(number[1]) <= len(names):
        return names[int(number[1]) - 1]
    place = placed(name, len(names)) if name.lower().removesuffix(" one") in _PLACES else None
    return names[place] if place is not None and place < len(names) else None


def first_words(said: str) -> str:
    """What stands before the first break of what was said: "Nursery, two gang" is of a nursery."""
    return _BREAK.split(said.lower().strip(), 1)[0]


def copied(like: str, names: Sequence[str], at: str, blank: bool) -> str | None:
    """The box that is to be copied: the one named, else the one at hand, or, where nothing was
    said of that yet, the one before it."""
    if like.lower().removesuffix(" one") not in ("", "last", "previous", "that", "it"):
        return meant(like, names)
    place = names.index(at)
    return names[place - 1] if blank and place else at


_ADVERB = lazy_pattern(
    r"(?i)(?:,? (?:now|again|please|then|real quick|quick|quickly|once more|one more time|(?:for )?"
    r"(?:a|one|just a) (?:sec|second|moment|minute|bit|while)))+[\s.!]*$"
)


def near(name: str, names: Sequence[str]) -> tuple[str, ...]:
    """The boxes that a name can mean: the one called so, else all that are nearly called so; "the
    kitchen now" and "room 101 for a second" with what says when left out."""
    found = _near(name, names)
    bare = _ADVERB.sub("", name)
    return found or (_near(bare, names) if bare and bare != name else ())


def _near(name: str, names: Sequence[str]) -> tuple[str, ...]:
    wanted = numbered(name.lower().strip())
    bare = named(wanted)
    for known in (wanted, wanted.removesuffix(" box"), bare, bare.removesuffix(" one")):
        if known in names:
            return (known,)
    if numbers := _by_its_number(wanted, names):
        return numbers
    part = named(wanted.removesuffix(" box"))
    close = tuple(known for known in names if part and part in known)
    if len(close) == 1:
        return close
    said = _words(bare)
    for words in (said, said - {"1"}):
        alike = tuple(one for one in names if words and _alike(words, _words(one)))
        if len(alike) == 1:
            return alike
    slips = () if _FIGURE.search(bare) else tuple(get_close_matches(bare, names, 1, _SLIP))
    return close or alike or tuple(name for name in slips if not _apart(said, _words(name)))


_SIDES = (
    frozenset({"north", "south", "east", "west"}),
    frozenset({"left", "right"}),
    frozenset({"front", "back", "rear"}),
    frozenset({"upper", "lower", "top", "bottom", "upstairs", "downstairs"}),
    frozenset({"inside", "outside", "indoor", "outdoor"}),
)
"""Words that tell places apart, so that none of them is a slip for another."""


def short_names(names: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """ "Left" for "family room left": a name, and the side that tells it from the others."""
    sides = [(name, name.split()[-1]) for name in names if " " in name]
    last = [side for _, side in sides]
    known = [(name, side) for name, side in sides if any(side in pair for pair in _SIDES)]
    return tuple((name, side) for name, side in known if last.count(side) == 1)


def _apart(said: frozenset[str], known: frozenset[str]) -> bool:
    """Whether two names are of places at other sides: "east wall" and "west wall"."""
    return any(
        (one := side & said) and (other := side & known) and one.isdisjoint(other)
        for side in _SIDES
    )


def number_of(name: str) -> str:
    """The number of "room 212", "classroom 7" and "e2"; empty where a name has none, or is a number
    of its own in the job, "box 2"."""
    last = name.rpartition(" ")[2]
    return last if _FIGURE.search(last) and not _NUMBERED.fullmatch(name) else ""


def _by_its_number(wanted: str, names: Sequence[str]) -> tuple[str, ...]:
    """ "101" is room 101, "7" classroom 7, "box 1" the "1 room 140", if no other is so called."""
    bare = wanted.removeprefix("room ").removeprefix("number ")
    found = tuple(name for name in names if number_of(name) == bare)
    found = found or tuple(filter(None, [_numbered_with_room(wanted, names)]))
    return found if len(found) == 1 else ()


def begun(name: str, names: Sequence[str]) -> str:
    """The name of a box that is begun or gone on with: that of one which is called by it."""
    told = numbered(named(name.lower().strip()))
    return _numbered_with_room(told, names) or told


def _numbered_with_room(wanted: str, names: Sequence[str]) -> str | None:
    """The "1 room 140" that "box 1" means: a box with a number and with that of its room."""
    if not _NUMBERED.fullmatch(wanted):
        return None
    lead = f"{wanted.removeprefix('box ')} "
    found = [name for name in names if name.startswith(lead) and number_of(name)]
    return found[0] if len(found) == 1 else None


def _alike(words: frozenset[str], known: frozenset[str]) -> bool:
    """Whether one name says no more than the other."""
    told = any(not word.isdigit() or len(word) > _POSITION for word in known & words)
    return told and (words <= known or known <= words)


_ONWARD = lazy_pattern(
    r"(?i)\s*(?:(?:ok|okay|so|and|alright|good|great|done|um|uh|er|oh|well|hi|hello|hey|please)[\s,]+)*"
    r"(?:now|next|then|on\s+to|i'm\s+at|we're\s+at|moving\s+on\s+to)\b"
)
_NAMES_IT = lazy_pattern(
    r"(?i)\b(?:call(?:ed)?|named?|rename|label(?:led)?|this|it|is|first|start)\b"
)


def goes_on(words: str, at: str) -> bool:
    """Whether the name of a place, said by itself, is of another box than that at hand, of which
    something was said: "now second bedroom"; or any, where that has a name of its own."""
    if _NAMES_IT.search(words):
        return False
    return _ONWARD.match(words) is not None or not _NUMBERED.fullmatch(at)


def _words(name: str) -> frozenset[str]:
    """The words of a name that tell it from others, with numbers as digits."""
    words = set(re.findall(r"[\w'-]+", name)) - _PASSED
    return frozenset(str(SMALL.index(one)) if one in SMALL[1:] else one for one in words)


def _by_place(said: str, names: Sequence[str]) -> str | None:
    """ "On the first box, …": the box of that place in the job."""
    if len(names) > 1 and re.fullmatch(f"{_LEAD}first box", said):
        return names[0]
    return None


def _begins_all(bare: str, name: str) -> bool:
    """Whether every word begins one of the name's: "guest bath" for "guest bathroom"."""
    return all(any(known.startswith(word) for known in name.split()) for word in bare.split())


def addressed(heard: str, names: Sequence[str]) -> tuple[str, int] | None:
    """The box that an utterance begins with, and where what is said of it begins.

    "Top of the stairs. I ripped …", "the den one", "bottom of the stairs again... …": the name of
    a box that is known, by itself before a break. Boxes that only have a number are none.
    """
    called = [name for name in names if not _NUMBERED.fullmatch(name)]
    called = called or list(names[1:])
    if not called:
        return None
    start = _HELLO.match(heard)
    first = start.end() if start else 0
    end = _AGAIN.search(heard, first) or _BREAK.search(heard, first)
    if end is None:
        return None
    said = " ".join(heard[first : end.start()].lower().split())
    bare = re.sub(f"{_TAIL}$", "", re.sub(f"^{_LEAD}", "", said))
    found = next((name for name in (said, bare) if name in called), None)
    found = found or _by_place(said, names)
    if found is None and bare not in (*_PASSED, "box") and _POINTS.search(said):
        close = near(bare, called)
        found = close[0] if len(close) == 1 and _begins_all(bare, close[0]) else None
        # "back hall box" is no way back to the front hall
        found = None if found and _apart(_words(said), _words(found)) else found
    return (found, end.end()) if found else None


_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
_PLACES = frozenset({*_ORDINALS, "last"})
#: Words that say which box by its place in the job, and by themselves are no name.


def placed(said: str, count: int) -> int | None:
    """The place from 0 that "the first box" or "the last one" says among so many; None where it
    says none."""
    word = said.lower().removeprefix("the ").partition(" ")[0]
    if word == "last":
        return count - 1
    if word == "other" and count == 2:
        return None
    return _ORDINALS.index(word) if word in _ORDINALS else None
