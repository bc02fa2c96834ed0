"""Which things of a clause are denied: "no clamps inside the box", "devices: none"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Element

_TABLE = grammar_data.table("clauses")["polarity"]
_DENYING = grammar_data.table("clauses")["denying"]
_NEGATORS = frozenset(_TABLE["negators"])
_BETWEEN = frozenset(_TABLE["between"])
_ENDS = frozenset(_TABLE["ends"])
_AFTER = frozenset(_TABLE["after"])
#: What stands for a thing that a negator can deny.
DENIABLE = frozenset(
    {"cable", "conductors", "grounds", "jumper", "fixture_wires", "device", "fitting",
     "terminal_block", "uncounted", "clamps", "part", "barrier", "place", "nothing"}
)  # fmt: skip
#: "I can't tell", "ain't looked": what follows is not denied, it is not known.
_UNSURE = frozenset(_DENYING["unsure"])
#: Words that may stand between a negator and a thing without being known.
_UNKNOWN_BETWEEN = 2


_LEADS = frozenset(_DENYING["leads"])
_ANSWERING = frozenset(_DENYING["answering"])
#: Those that do so only where nothing stands between: "no a 14-2", but "no(body ran) a 14-2".
_ANSWERING_BESIDE = frozenset(_DENYING["answering_beside"])


def _marker(elements: Sequence[Element], place: int) -> bool:
    """ "no the clamps are in it": an answer or a correction, where "no clamps" denies."""
    if elements[place].tag not in ("no", "nope"):
        return False
    if any(e.found is not None or e.tag not in _LEADS for e in elements[:place]):
        return False
    if elements[place].end - elements[place].start > len("no"):
        return True  # "nope clamps are outside": "nope", "nah" stand before no noun
    if len(elements) < place + 2:
        return True
    word = _first_word(elements[place + 1])
    beside = elements[place + 1].start - elements[place].end < len(" . ")
    return word in _ANSWERING or (beside and word in _ANSWERING_BESIDE)


def _first_word(element: Element) -> str:
    """The word that an element begins with, whatever it is part of."""
    return element.tag if element.found is None else element.found.words.lower().split(" ", 1)[0]


def is_negator(element: Element) -> bool:
    """Whether an element denies what follows it."""
    return element.tag in _NEGATORS or element.tag == "<n:0>" or element.tag.startswith("<none")


def denied(elements: Sequence[Element]) -> set[int]:
    """The places of the things that are denied."""
    reach = _Reach(elements)
    for place, element in enumerate(elements):
        if is_negator(element) and not _marker(elements, place):
            if not reach.open(place):
                break
        elif reach.open_at is not None and not reach.go_on(place, reach.open_at):
            break
    return reach.found


@dataclass(slots=True)
class _Reach:
    """How far a negator reaches over what follows it, and what it denies there."""

    elements: Sequence[Element]
    found: set[int] = field(default_factory=set)
    open_at: int | None = None
    """The place of the negator that still reaches."""
    unknown: int = 0

    def open(self, place: int) -> bool:
        """Begin at a negator; False where nothing of the clause is denied from here on."""
        if _denies_back(self.elements, place):
            self.found.add(_thing_before(self.elements, place))
            self.open_at = None
            return True
        if self.elements[place].tag == "not" and _follows(self.elements, place, "can"):
            return False  # "I can't see the clamps from here": not known, not denied
        self.open_at, self.unknown = place, 0
        return True

    def go_on(self, place: int, open_at: int) -> bool:
        """Reach over one more element; False where the rest is not known rather than denied."""
        element = self.elements[place]
        kind = element.found.kind if element.found is not None else ""
        if kind in DENIABLE:
            self._thing(place)
        elif element.tag == "<n:1>" and self.elements[open_at].tag in ("neither", "not"):
            self.unknown = 0  # "neither one's got a ground"
        elif element.tag in ("or", "nor", "any", "neither"):
            self.unknown = 0
        elif element.tag in ("but", "just", "only", "except", "forget") or self._relates(place):
            self.open_at = None
        elif element.tag in _ENDS and place > open_at + 1:
            self.open_at = None if self.found else open_at
        elif element.tag in _UNSURE:
            return False
        elif kind or element.tag[0] == "<":
            self.open_at = None
        elif element.tag not in _BETWEEN:
            self.unknown += 1
            if self.unknown > _UNKNOWN_BETWEEN:
                self.open_at = None
        return True

    def _relates(self, place: int) -> bool:
        """ "Nothing to do with the switch", "not for the switch": the switch is there, whatever is
        told of something else."""
        tag, behind = self.elements[place].tag, self.elements[place + 1 : place + 2]
        if tag == "with":
            return _follows(self.elements, place, "do")
        named = any(
            element.found is not None and element.found.words.lower().startswith("the ")
            for element in behind
        )
        if named and tag in ("for", "on", "from", "off") and self.open_at == place - 1:
            return True
        return self._at_a_device(place)

    def _at_a_device(self, place: int) -> bool:
        """ "No power at the GFCI": what there is none of is said of a device that is there. "No use
        for the dimmer", "not putting in the switch" deny it."""
        open_at, behind = self.open_at or 0, self.elements[place + 1 : place + 2]
        if self.open_at is None or place < open_at + 2 or not behind or not _definite(behind[0]):
            return False
        negator, noun = self.elements[open_at].tag, self.elements[place - 1].tag
        none_of = negator in _NONE_OF or _first_word(self.elements[open_at + 1]) in _INDEFINITE
        if not none_of or noun in _WISHED:
            return False
        return self.elements[place].tag in _WHERE

    def _thing(self, place: int) -> None:
        """Deny the thing at a place, where it is no noun group of its own."""
        element = self.elements[place]
        if _told_of_none(self.elements, place):
            self.unknown = 0  # "neither of the 14-2s has a ground": they are there
        elif _counted(element) and not _follows(self.elements, place, "or", "nor"):
            self.open_at = None
        elif (
            self.found
            and _article(element)
            and not _follows(self.elements, place, "or", "nor", "and", ",")
        ):
            self.open_at = None  # "no dimmer a switch", by ear
        else:
            self.found.add(place)
            self.unknown = 0


_NONE_OF = frozenset({"no", "zero", "without"})
_INDEFINITE = frozenset({"a", "an", "any"})
_WHERE = frozenset(
    {"in", "on", "at", "behind", "to", "for", "from", "off", "under", "near", "left"}
)
#: "No need for the dimmer": of these there is none because there is to be none of the device.
_WISHED = frozenset({"need", "use", "want", "call", "reason", "point", "room", "place", "sign"})


def _definite(element: Element) -> bool:
    """Whether an element is a device that is pointed at: "that dimmer"."""
    if element.found is None or element.found.kind != "device":
        return False
    words = element.found.words.lower()
    return words.startswith(("the ", "that ", "this ", "my ", "those ", "these ", "our "))


_THERE = frozenset({"in", "here", "there", "inside", "left", "installed", "present", "staying"})


def _told_of_none(elements: Sequence[Element], place: int) -> bool:
    """Whether things are only those of which something is denied: "none of the 14-2s came with a
    ground", "neither switch is lit", and not "none of the 14-2s are in this box"."""
    found = elements[place].found
    if found is None or found.kind not in ("cable", "conductors", "device"):
        return False
    behind = [element.tag for element in elements[place + 1 :]]
    told = bool(behind) and behind[0].isalpha() and behind[0] not in ("and", "or", "nor", "but")
    return told and _follows(elements, place, "of", "neither") and _THERE.isdisjoint(behind)


def _counted(element: Element) -> bool:
    """Whether a thing is said with a number of its own: "no, three 14-2s" corrects."""
    if element.found is None:
        return False
    count = element.found.get("count")
    words = element.found.words.lower()
    return (
        count is not None
        and count != 0
        and not words.startswith(("a ", "an ", "single ", "another "))
    )


def _article(element: Element) -> bool:
    """Whether a thing begins with an article or a number: a noun group of its own."""
    found = element.found
    return found is not None and found.words.lower().startswith(("a ", "an ", "the ", "one "))


def _follows(elements: Sequence[Element], place: int, *tags: str) -> bool:
    return place > 0 and elements[place - 1].tag in tags


def _denies_back(elements: Sequence[Element], place: int) -> bool:
    """ "clamps none inside": the thing stands before, and none behind."""
    tag = elements[place].tag
    if tag == "not":
        rest = {e.tag for e in elements[place + 1 :]}
        return (
            rest <= {"have", "has", "there", "any", "got", "here", "present", "see", "find"}
            and _thing_before(elements, place) >= 0
        )
    if not (tag in _AFTER or tag == "<n:0>" or tag.startswith("<none")):
        return False
    before = _thing_before(elements, place)
    if before < 0:
        return False
    return not any(
        other.found is not None and other.found.kind in DENIABLE - {"place", "nothing"}
        for other in elements[place + 1 :]
    )


_PLACED = frozenset({"inside", "in", "internal", "outside", "out", "external"})


def _thing_before(elements: Sequence[Element], place: int) -> int:
    """The thing right before a place, with nothing but "is" or "are" between; else -1."""
    at = place - 1
    while at >= 0 and elements[at].tag in (
        "<yes::>",
        "is",
        "are",
        "there",
        "has",
        "was",
        "were",
        "says",
        "it",
        "i",
        "we",
        "do",
        "does",
        "did",
        "-",
        "=",
    ):
        at -= 1
    if at < 0:
        return -1
    found = elements[at].found
    if found is None or found.kind not in DENIABLE - {"place", "nothing"} or _counted(elements[at]):
        return -1
    if found.kind == "clamps" and found.words.lower().split()[-1] in _PLACED:
        return -1  # "clamps inside none of those gadgets": where they are is said
    return at
