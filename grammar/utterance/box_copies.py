"""A box that is told to be the same as another: "next box is the same as the first"."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.box_naming import shifted
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS

_ORDINAL = r"(?:first|second|third|fourth|fifth|sixth|seventh|eighth|last|previous|other)"
_NUMBER = r"(?:\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten)"
#: "With the same in it", "and the same cables": the contents besides the box.
_CONTENTS_TOO = (
    r"(?: (?:with|and) (?:all )?(?:of )?the same(?: (?:cables?|wires?|wiring|stuff|things?|contents"
    r"|size|volume))?(?: in (?:it|there))?)?"
)
#: Behind the new box: that it is the same as another, and what is different in it.
_SAME = (
    r"(?:(?:is|are|was|will be|it's|it is|has|have|looks|gets|got|gonna be|going to be|just|exactly"
    r"|pretty much|basically|also|the|a|an|exact|looks like) )*"
    r"(?:same|identical|copy|duplicate|repeat|ditto|(?:just|looks) like)\b"
    rf"(?: (?:thing|setup|stuff|deal|way|contents|box))?{_CONTENTS_TOO}(?: (?:again|over))?"
    r"(?: (?:as|to|of|with|like|what|that))*"
    rf"(?: (?:the |in the )?(?P<like>{_ORDINAL}(?: (?:box|one))?|box (?:number )?{_NUMBER}"
    r"|(?:this|that)(?: (?:box|one))?|it|before|it was))?"
    r"(?:,? please)?[.!]*(?P<rest>[,;]? (?:but|except|only|plus|with)\b.*)?"
)
_NEXT_NAME = lazy_pattern(rf"(?i){_SAME}".replace(" ", r"\s+"))
_SAME_BOX = lazy_pattern(
    rf"(?i)(?:(?:ok|okay|so|and|now|then|well|alright|right|um|uh|hello|please),? )*(?:the )?"
    rf"(?:(?:next|{_ORDINAL}) (?:box|one)(?: (?:down|up|over|along|on|in|at|by|near|past|to the"
    r"|above|below|beside)(?: [a-z]+){0,3}?)??"
    rf"|box (?:number )?{_NUMBER})(?:[,:])? {_SAME}".replace(" ", r"\s+")
)
#: What leads to what is different.
_DIFFERENT = lazy_pattern(
    r"(?i)^[,;]?\s+(?:(?:but|except|only|with|for|that|it's|it is|it has|has|there's|this one has"
    r"|this one's|in this one|instead)\b,?\s*)+"
)
#: "Same box next one but with a dimmer", "same again for the next box": the same said first.
_SAME_FIRST = lazy_pattern(
    r"(?i)(?:(?:ok|okay|so|and|now|then|well|alright|right|um|uh|hello|hi|hey|please|do|make it"
    r"|make|it's|it is|that's|i want|i need|give me|put|use|the|exact|exactly|just),? )*"
    r"(?:same|identical|ditto|duplicate|(?:copy|repeat|clone|duplicate|do) (?:the )?(?:same|it|this"
    r"|that)(?: (?:one|box))?)"
    r"(?: (?:exact )?(?:box|thing|setup|set up|stuff|deal|contents|kind|one|count|list|again|over"
    rf"|also|too))*,? (?:(?:for|in|on|at|with|to|is|goes|as) )*(?:the |my |our )?"
    rf"(?:next|following|new|another|{_ORDINAL}) (?:box|one)(?: (?:over|up|down|along|too|again"
    r"|as well|please|now|here|there))*(?P<like>)(?:,? please)?[.!]*"
    r"(?P<rest>[,;.]? (?:but|except|only|plus|with"
    r"|and|just|it has|it's got|this one)\b.*)?".replace(" ", r"\s+")
)
#: "Next box, pantry, same but an 18", "pantry is the same as the island": a box by its name.
_SAME_NAMED = lazy_pattern(
    r"(?i)(?:(?:ok|okay|so|and|now|then|well|alright|right|um|uh|hello|hi|hey|please),? )*"
    r"(?P<next>(?:the )?(?:next|new) (?:box|one)[,:]? (?:(?:is|in|at|it's),? )?)?"
    r"(?P<about>(?:what|how) about (?:(?:the )?one )?)?(?:(?:at|in|by|over|up|down|for) )*"
    r"(?:the |my |our )?"
    r"(?P<name>[a-z]+(?: [a-z]+){0,2}?)(?: box)?[,:]? "
    r"(?:(?:is|it's|was|will be|gets|has|just|exactly|also|the|a|an|exact) )*"
    r"(?:same|identical)(?: (?:thing|setup|stuff|deal|contents|(?P<box>box)))?"
    rf"{_CONTENTS_TOO}(?: again)?"
    rf"(?: (?:as|to|like)(?: the| in the| my)? (?P<like>{_ORDINAL}(?: (?:box|one))?"
    rf"|box (?:number )?{_NUMBER}|[a-z]+(?: [a-z]+)?))?"
    r"(?:,? please)?[.!]*(?P<rest>[,;]? (?:but|except|only|plus|with)\b.*)?".replace(" ", r"\s+")
)
_HINTS = ("same", "identical", "cop", "duplicate", "repeat", "ditto", "like", "clone", "do ")
"""Pieces of words of which an utterance that copies a box holds one."""
_HERE = ("this", "that", "it", "before", "last", "previous")


def box_copied(heard: str, read: Callable[[str], Utterance]) -> Utterance | None:
    """What an utterance tells that begins with a box that is the same as another, and of what is
    different in it; None for any other."""
    low = heard.lower()
    if not any(word in low for word in _HINTS):
        return None
    said = heard.strip()
    found = _SAME_BOX.fullmatch(said) or _SAME_FIRST.fullmatch(said)
    if found is not None and "box" not in low and " one" not in low:
        return None
    name = ""
    if found is None:
        found = _SAME_NAMED.fullmatch(said)
        name = _place_named(found) if found is not None else ""
    if found is None or (not name and "name" in found.groupdict()):
        return None
    heard = heard.rstrip()
    rest = _DIFFERENT.sub("", found["rest"] or "")
    end = len(heard) - len(rest)
    like = _like(found["like"])
    copy = acts.CopyBox(like=like, name=name, words=heard[:end].rstrip(" .!"), span=(0, end))
    if not rest:
        return Utterance(heard, (copy,))
    different = read(rest)
    left = tuple(
        replace(run, span=(run.span[0] + end, run.span[1] + end)) for run in different.unread
    )
    acts_of_rest = tuple(_measured(act) for act in different.acts)
    return Utterance(heard, (copy, *shifted(acts_of_rest, end)), left)


_PLACES = ROOMS | ROOM_WORDS


def _place_named(found: re.Match[str]) -> str:
    """The name of the box that is the same as another: a place, or any word behind "next box"."""
    words = found["name"].lower().split()
    about = found["about"] is not None and _PLACES.issuperset(words)
    called = found["box"] is not None and found["rest"] is not None  # "the press is the same box …"
    if found["next"] is None and not about and not called and not ROOMS.intersection(words):
        return ""
    return "" if _NO_NAMES.intersection(words) else " ".join(words)


_NO_NAMES = frozenset(
    {"box", "one", "same", "it", "this", "that", "they", "everything", "all", "rest", "these"}
)
_LEAST = Decimal("7.5")
"""Cubic inches of the smallest box of Table 314.16(A); a smaller number counts something."""


def _measured(act: Act) -> Act:
    """ "The same but a 22": what is different by a number alone is how large the box is."""
    if not isinstance(act, acts.Number) or act.value is None or act.value < _LEAST:
        return act
    return acts.SetVolume(volume=act.value, words=act.words, span=act.span, doubts=act.doubts)


def named_as_copy(made: list[Act], read: Callable[[str], Utterance]) -> list[Act]:
    """ "Next box, same as the first but with a dimmer": no name of a box, and what is different in
    it is told of the copy."""
    kept: list[Act] = []
    for act in made:
        found = _NEXT_NAME.fullmatch(act.name) if isinstance(act, acts.NextBox) else None
        if found is None:
            kept.append(act)
            continue
        kept.append(acts.CopyBox(like=_like(found["like"]), words=act.words, span=act.span))
        if rest := _DIFFERENT.sub("", found["rest"] or ""):
            kept += shifted(read(rest).acts, act.span[1] - len(rest))
    return kept


def _like(said: str | None) -> str:
    """The box that is copied; empty for the one at hand."""
    bare = " ".join((said or "").lower().split())
    if not bare.startswith("box"):
        bare = bare.removesuffix(" box").removesuffix(" one")
    return "" if bare.startswith(_HERE) else bare
