"""Whole utterances that name a box: "box B", "call the first box the pantry"."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.headings import LETTERED, ROOM_WORDS, ROOMS

_LEAD = (
    r"(?:(?:ok|okay|so|and|please|hey|no|actually|wait|sorry|um|uh|hello|hi|well|now|let us|let's"
    r"|you can|can you|could you),? )*"
)
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
_WHICH = rf"(?:the )?(?P<of>(?:{'|'.join(_ORDINALS)}|last|previous|other) (?:box|one))"
_NUMBERED = r"(?P<of>box (?:number )?(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten))"
_NAME = r"(?:the )?(?P<name>[a-z][\w'-]*(?: [\w'-]+){0,4}?)(?:,? (?:please|instead|now))*[.!]?"
_NAMING = tuple(
    lazy_pattern(say)
    for say in (
        rf"{_LEAD}(?:call|name|rename|label) {_WHICH}(?: to| as)? {_NAME}",
        rf"{_LEAD}(?:call|name|rename|label) {_NUMBERED}(?: to| as)? {_NAME}",
        rf"{_LEAD}rename (?:the )?(?P<of>[a-z][\w'-]*(?: [\w'-]+)??)(?: box)? (?:to|as) {_NAME}",
        rf"{_LEAD}{_WHICH} (?:is|was)(?: called| named| for| in)? {_NAME}",
    )
)
#: "Rename this to den": of the box at hand.
_AT_HAND = frozenset({"it", "this", "that", "the", "this box", "that box", "the box", "this one"})


_PLACE_WORDS = ROOMS | ROOM_WORDS
_NO_NAMES = frozenset({"box", "new", "next", "other", "another", "old", "same"})
_OF_A_PLACE = r"(?:the |my |our )?(?P<name>[a-z]+(?: [a-z]+){0,3}?)(?: box)?"
#: "Second box, the sewing room": a box by its number, then by its name.
_NUMBERED_NAME = lazy_pattern(
    rf"{_LEAD}(?:the )?(?P<at>{'|'.join(_ORDINALS)}|next|last) (?:box is (?:in|at|by|for) "
    rf"(?=the |my |our )|(?:box|one)(?: is|'s)?[,:]? ){_OF_A_PLACE}[.!]?"
)
#: "Second box, right of the sink": a box by its number, then by where it is.
_NUMBERED_SIDE = lazy_pattern(
    rf"{_LEAD}(?:the )?(?P<at>{'|'.join(_ORDINALS)}) box(?: is|'s)?[,:]? (?P<name>"
    r"(?:(?:to|on|at) the )?(?:left|right|top|bottom|front|back|far|other)(?: (?:hand|side|end))*"
    r"(?: (?:of|from) (?:the |my )?[a-z]+(?: [a-z]+)?)?"
    r"|(?:by|near|behind|beside|over|under|next to|above|below|across from) (?:the |my )?[a-z]+"
    r"(?: [a-z]+)?)[.!]?"
)
#: "Now the stairway, top": on to the box at one end of a place.
_PART_OF_PLACE = lazy_pattern(
    rf"{_LEAD}(?:(?:then|alright),? )*(?:(?<=now )|(?<=now, )|(?:next|on to|onto),? )"
    rf"{_OF_A_PLACE}, (?P<part>(?:at |by )?(?:the )?(?:top|bottom|upper|lower|left|right|front|back"
    r"|north|south|east|west|far)(?: (?:end|side|one|box|landing))?)[.!]?"
)
_PLEASE = lazy_pattern(r",? (?:please|then)[.!]?$")
#: "Upstairs bath again": the box that is gone back to.
_AGAIN = lazy_pattern(
    rf"{_LEAD}(?:(?:to|in|at|on|it's|it is|that's) )*{_OF_A_PLACE}(?: one)?,? "
    r"(?:again|once more)[.!]?"
)
#: "Upstairs bath", "living room first": what is said next is of the box there.
_ALONE = lazy_pattern(rf"{_LEAD}{_OF_A_PLACE}(?:,? (?:first|to start|to begin with))?[.!:]?")


_NUMBERS = "one|two|three|four|five|six|seven|eight|nine"
#: "And box two", "box one again", "second box now": a box by its number, letter or place.
_ONLY_THAT = lazy_pattern(
    rf"{_LEAD}(?:(?:(?:(?:go )?back )?(?:to|at|on|in|for|with)|this is|that is|that's|it is"
    rf"|it's) )?"
    rf"(?:(?P<name>box (?:number )?(?:[1-9]|{_NUMBERS}|[a-h]))"
    rf"|(?:the )?(?P<nth>{'|'.join(_ORDINALS)}|last) (?:box|one(?=,? (?:again|once more))))"
    r"(?P<again>(?:,? (?:again|once more|now|next|please|then))*)[.!:]?"
)


#: "Box two is the right bedroom plug", "now for the nursery closet": the box that begins there.
_NUMBERED_IS = lazy_pattern(
    rf"{_LEAD}box (?:number )?(?:[2-9]|{_NUMBERS}) is (?:for |in )?the (?P<name>[a-z' ]+?)[.!]?"
)
_NOW_FOR = lazy_pattern(
    r"(?:(?:ok|okay|so|well|and|alright|all right|right|then),? )*(?:now|next|now then|so now),?"
    r" (?:for|on to|onto|over to|to) the (?P<name>[a-z]+(?: [a-z]+){0,3}?)(?: box)?[.!]?"
)


def _begins_there(low: str, heard: str) -> Act | None:
    """The box that an utterance begins by where it is; None where it names no place."""
    said = _NUMBERED_IS.fullmatch(low) or _NOW_FOR.fullmatch(low)
    words = said["name"].split() if said else []
    if not _PLACE_WORDS.intersection(words) or _NO_NAMES.intersection(words):
        return None
    name = " ".join(words)
    return acts.NextBox(name=name, words=heard, span=(0, len(heard)))


def _only_that(low: str, heard: str) -> Act | None:
    """ "And box two", "box one again", "the second box": nothing is said but which box."""
    said = _ONLY_THAT.fullmatch(low)
    if said is None:
        return None
    span = (0, len(heard))
    if said["nth"]:
        return replace(_opened(said["nth"], "", heard), span=span)
    name = said["name"].replace("number ", "")
    if re.search("again|once more", said["again"]) or "go back " in low:
        return acts.OpenBox(name=name, words=heard, span=span)
    return acts.NextBox(name=name, words=heard, span=span)


def _place(said: re.Match[str] | None) -> str:
    """The name of a place in a building among what a pattern found; empty where it is none."""
    words = said["name"].split() if said is not None else []
    if (
        _NO_NAMES.intersection(words)
        or not ROOMS.intersection(words)
        or not _PLACE_WORDS.issuperset(words)
    ):
        return ""
    return " ".join(words)


def _by_its_place(low: str, heard: str) -> Act | None:
    """ "Second box, the sewing room", "upstairs bath again", "upstairs bath"."""
    span = (0, len(heard))
    low = _PLEASE.sub("", low)
    numbered = _NUMBERED_NAME.fullmatch(low)
    if numbered is not None and (name := _place(numbered)):
        if numbered["at"] == "first":  # whatever is in it stays in it
            return acts.NameBox(name=name, of="first box", words=heard, span=span)
        return acts.NextBox(name=name, words=heard, span=span)
    if sided := _NUMBERED_SIDE.fullmatch(low):
        if sided["at"] == "first":
            return acts.NameBox(name=sided["name"], of="first box", words=heard, span=span)
        return acts.NextBox(name=sided["name"], words=heard, span=span)
    if (part := _PART_OF_PLACE.fullmatch(low)) is not None and (name := _place(part)):
        return acts.NextBox(name=f"{name} {part['part']}", words=heard, span=span)
    if name := _place(_AGAIN.fullmatch(low)):
        return acts.OpenBox(name=name, words=heard, span=span)
    if " box" not in low and (name := _place(_ALONE.fullmatch(low))):
        return acts.NameBox(name=name, words=heard, span=span)
    return None


def box_named(heard: str) -> Act | None:
    """The act of an utterance that does nothing but name a box; None for any other."""
    low = heard.lower()
    if placed := _by_its_place(low.strip(), heard) or _begins_there(low.strip(), heard):
        return placed
    if "box" not in low and " one" not in low and "rename" not in low:
        return None
    if only := _only_that(" ".join(low.split()), heard):
        return only
    if letter := LETTERED.fullmatch(low.strip()):
        return acts.NextBox(name=letter[1], words=heard, span=(0, len(heard)))
    for place, naming in enumerate(_NAMING):
        said = naming.fullmatch(low.strip())
        if said is None or said["of"] in _AT_HAND:
            continue
        called = place < len(_NAMING) - 1 or re.search(r"\b(?:called|named)\b", low)
        if not called and said["name"].split()[-1] not in ROOMS - {"box"}:
            return None  # "the second one is a dimmer"
        return acts.NameBox(name=said["name"], of=said["of"], words=heard, span=(0, len(heard)))
    return None


def counts_not_names(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Next box, 3 12-2s": the number counts what stands behind it, and names no box."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(last, acts.NextBox) and last.name.isdecimal() and is_thing(act):
            gap = heard[last.span[1] : act.span[0]]
            if act.count is None and gap and not gap.strip():
                start = last.span[1] - len(last.name)
                words = heard[last.span[0] : start].rstrip(" ,:")
                kept[-1] = replace(
                    last, name="", words=words, span=(last.span[0], last.span[0] + len(words))
                )
                act = replace(
                    act, count=int(last.name), words=heard[start : act.span[1]],
                    span=(start, act.span[1]),
                    doubts=tuple(d for d in act.doubts if d.slot != "count"),
                )  # fmt: skip
        kept.append(act)
    return kept


_ONWARD = lazy_pattern(
    r"(?i)\b(?:feeds?|feeding|goes|going|runs?|running|continues|leads?|heads?|on|over|out)"
    r" (?:up |down |over |on |out |back )*to the $"
)


def leads_on(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without a box that something only goes on to: "it feeds on to the next one, so
    that'll be two 12-2s"."""
    return [
        act
        for act in made
        if not (isinstance(act, acts.NextBox) and _ONWARD.search(heard[: act.span[0]]))
    ]


_THAT_BOX = (
    r"(?:the )?(?:(?P<nth>first|second|third|fourth|fifth|sixth|seventh|eighth|last) box"
    rf"|box (?:number )?(?P<number>[1-9]|{_NUMBERS}|[a-h](?![\w'])))"
)
_TELLS = r"(?:has|had|gets|got|needs|should have|also has|really has|only has|is|was)"
_OF_ANOTHER = tuple(
    lazy_pattern(say, re.IGNORECASE)
    for say in (
        rf"{_LEAD}(?:back )?(?:in|on|for|to|over in) {_THAT_BOX}[,:]? (?P<rest>.+)",
        rf"{_LEAD}{_THAT_BOX} (?P<rest>{_TELLS} .+)",
        rf"{_LEAD}{_THAT_BOX},? (?:again|once more)[,:.;]? (?P<rest>.+)",
        rf"{_LEAD}(?:the )?(?P<nth>{'|'.join(_ORDINALS[1:])})(?: box[,:.]|(?: one)?:) (?P<number>)"
        r"(?P<rest>(?!the |in |for |is ).+)",
        rf"(?P<rest>.+?) (?:to|in|into|from|(?P<out>out) of|for) {_THAT_BOX}(?:,? please)?[.!]?",
    )
)
#: "Second: three 12-2s": the box that is told of.
_NTH_HEADS = lazy_pattern(rf"\s*{_LEAD}(?:the )?(?:{'|'.join(_ORDINALS[1:])})(?: one)?:")
#: What goes from one box to another is of both: nothing is made of it here.
_GOES_OVER = lazy_pattern(rf"(?i){_LEAD}(?:mov(?:e|ed|ing)|shift|relocate|transfer)\b")
#: What a box is for: "box three is for the pendant lights".
_IS_FOR = lazy_pattern(
    r"(?i)is (?:going to be )?for (?:the|my|our|her|his|their) [a-z' -]+(?:, please)?[.!]?"
)
#: What copies a box or leaves it as it is has readers of its own.
_LEFT = lazy_pattern(r"(?i)\b(?:same as|like|identical|copy|do not|don't|never)\b")
_PLACES = {word: place for place, word in enumerate(_ORDINALS, 1)}
_WORDS = tuple(_NUMBERS.split("|"))


def of_another_box(heard: str, read_part: Callable[[str], Utterance]) -> Utterance | None:
    """ "Add a 14-2 to the first box", "box 1 has a dimmer": that box is opened, and what is told is
    of it; None where no box is named by its number, or nothing is told of one."""
    low = heard.lower()
    if "box" not in low and not (":" in low and _NTH_HEADS.match(low)):
        return None
    if low.rstrip().endswith("?") or _LEFT.search(heard):
        return None
    plain = " ".join(heard.split())
    said = next((found for say in _OF_ANOTHER if (found := say.fullmatch(plain))), None)
    if said is None:
        return None
    out = said.re.groupindex.get("out") and said["out"]
    read = read_part(f"{said['rest']} out" if out else said["rest"])
    if not any(isinstance(act, CHANGES) for act in read.acts):
        number = (said["number"] or "").lower()
        if not _IS_FOR.fullmatch(said["rest"]) or not number:
            return None
        # "box three is for the pendants": that box, and nothing of what it is for
        return Utterance(heard, (_opened("", number, heard),), ())
    if _GOES_OVER.match(plain):
        return Utterance(heard, (), (Unread.whole(heard),))
    number = (said["number"] or "").lower()
    opened: Act = _opened((said["nth"] or "").lower(), number, heard)
    if number.isalpha() and number not in _WORDS and plain.find(said["rest"]):
        # "box A is a four square": named ahead, a letter begins a box as well
        opened = acts.NextBox(name=f"box {number}", words=heard)
    return Utterance(
        heard, (opened, *shifted(read.acts, max(heard.find(said["rest"]), 0))), read.unread
    )


def _opened(nth: str, number: str, heard: str) -> acts.OpenBox:
    """The box of an ordinal or a number."""
    if nth in ("first", "last"):
        return acts.OpenBox(which="first" if nth == "first" else "last", words=heard)
    place = _WORDS.index(number) + 1 if number in _WORDS else number or _PLACES[nth]
    return acts.OpenBox(name=f"box {place}", words=heard)


def shifted(made: Sequence[Act], by: int) -> list[Act]:
    """The acts of a part of an utterance, at their places in the whole."""
    return [replace(act, span=(act.span[0] + by, act.span[1] + by)) for act in made]


CHANGES = (
    *THINGS.values(), acts.SetVolume, acts.SetSize, acts.SetClamps, acts.Restate, acts.Recount,
    acts.RestateList, acts.Remove, acts.Replace, acts.More, acts.Land, acts.Deny, acts.Resize,
    acts.AddPart,
)  # fmt: skip
"""What tells of a box, wherever it stands."""
