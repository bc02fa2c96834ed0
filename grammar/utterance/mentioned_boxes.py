"""How a box of the job is named within what is said: "add a 14-2 to the den box".

The grammar knows the forms; which boxes there are, and what they may be called, it is told.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.utterance.headings import ROOMS

LEAD = (
    r"(?:(?:ok|okay|so|and|now|no|oh|um|uh|er|hi|hello|hey|well|please|wait|actually|also|then"
    r"|before (?:i|we) (?:go|move|get) on|by the way|quick question|remind me|you can|can you"
    r"|could you|let's|lets|we need to|i need to|go ahead and),? )*"
)
_ORDERS = (
    r"(?:add|put|throw|stick|bring|run|toss|drop|take|pull|remove|lose|there's|there is|there are"
    r"|i have|we have|i forgot|need|i need|we need)"
)
#: What is done with a thing in a box, and not with a cable that runs to a place.
_PLACES = r"(?:add|put|throw|stick|toss|drop|take|pull|remove|lose)"
_HAS = (
    r"(?:gets?|has|have|had|needs?|wants|got|takes?|is getting|should (?:have|be|get)"
    r"|(?:also|actually|really|still|only) (?:has|gets|needs|takes|wants))"
)
#: What tells that a thing is somewhere, with nothing that it runs to.
_HOLDING = r"(?:there's|there is|there are|i have|we have|i(?:'ve| have)? got|i forgot|i missed)"
_INTO = r"(?:in|into|to|on|onto|from|off|of|inside|for)"
_SPACE = re.compile(r"(?<!\()\ (?![.!])")


_NUMBER = lazy_pattern(
    r"\d{1,4}[a-z]?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
)


@dataclass(frozen=True, slots=True)
class CalledBox:
    """A box of the job, and what it may be called."""

    name: str
    said: str
    whole: bool = False
    """True where that is all it is called; else "box" or "one" may stand behind it, and must where
    what is said by itself could be a place that a cable runs to."""
    at_hand: bool = False
    """True for the box that is spoken of anyway."""

    @property
    def named_alone(self) -> bool:
        """Whether it needs no article: "bedroom 3", "left"."""
        return self.at_hand or self.whole or _NUMBER.fullmatch(self.said.split()[-1]) is not None

    @property
    def is_room(self) -> bool:
        """Whether it ends in a word for a place, so that it may stand without its article at the
        head of what is said of it: "kitchen needs another"."""
        return self.said.split()[-1] in ROOMS

    @property
    def may(self) -> str:
        """An expression for what it may be called."""
        return self._words if self.whole else f"{self._words}(?: box| one)?"

    @property
    def must(self) -> str:
        """An expression for what it must be called, to be no place."""
        return self._words if self.whole else f"{self._words} (?:box|one)"

    @property
    def _words(self) -> str:
        return re.escape(self.said).replace(r"\ ", r"\s+")


@dataclass(frozen=True, slots=True)
class Mention:
    """A box that is named, and where in the words its name stands with what leads to it."""

    name: str
    start: int
    end: int
    instead: str = ""
    """What is heard in its place; of a question, before the "it" that stands for the box."""


FIGURED = lazy_pattern(r"(?i)(?:[a-z]-?\d{1,3}|\d{1,4}[a-z]?)")
_HERE = r"(?:in|on|for|at|back to|back in|over in|and in)"


def _by_number(heard: str, box: CalledBox) -> Mention | None:
    """ "302, make it deeper", "103 again, …", "7 gets the 22.5", "E2 lost a 14-2", "in 301 add …",
    "… goes into 210", "there are clamps in 204": the number of a room; a short one could
    be a size or a count."""
    for form in _number_forms(box):
        found = form.search(heard)
        if found is not None:
            instead = next(
                (put for ends, put in _STAND_INS if found["mention"].lower().endswith(ends)), ""
            )
            instead = " is in here too" if "go" in found["mention"][:4].lower() else instead
            return Mention(box.name, *found.span("mention"), instead)
    return None


@lru_cache(maxsize=256)
def _number_forms(box: CalledBox) -> tuple[re.Pattern[str], ...]:
    number = box._words
    sure = len(box.said) > _SHORT or not box.said.isdigit()
    forms = [
        rf"^\s*{LEAD}(?P<mention>{_HERE} (?:room |number )?{number}(?: again)?,?) (?=[a-z])",
        rf"^\s*{LEAD}(?P<mention>{number} (?:gets?|lost|loses|needs?|also (?:has|gets)))\b",
        rf"^\s*{LEAD}{_PLACES} [^.;]*(?P<mention> {_INTO} (?:room |number )?{number})"
        r"(?:,? please| too| instead)?[ .!]*$",
        r"(?P<mention> (?:goes|go|went|belongs|is going) (?:in|into|inside)"
        rf" (?:room |number )?{number})"
        r"(?:,? please| too| instead| now)?[ .!]*$",
    ]
    if sure:
        forms += [
            rf"^\s*{LEAD}(?P<mention>{number}(?: again)?,) (?=[a-z])",
            rf"^\s*{LEAD}(?P<mention>{number} (?:has|had|got|should have|is|was))\b",
            rf"^\s*{LEAD}{_THERE_IS} (?:(?!{_LEADS})[^.;,])*"
            rf"(?P<mention> (?:over |up |down )?in (?:room |number )?{number})(?=[.,;!]|$)",
        ]
    return tuple(re.compile(_SPACE.sub(r"\\s+", form), re.IGNORECASE) for form in forms)


_STAND_INS = (
    (("lost", "loses"), "take out"),
    ((" is", " was"), "it is"),
    ((" has", " had", " gets", " get", " got", " needs", " need", " have"), "it has"),
)
"""What is heard in place of the name of a box and the verb behind it."""
_SHORT = 2
_THERE_IS = (
    r"(?:there(?:['’]s| is| are|['’]re)"
    r"|(?:i|we)(?:['’]ve| have| do)? (?:got|have|see|found|find|count))"
)
#: What stands between a thing and the number of a room that it runs to, or is likened to.
_LEADS = r"\b(?:to|from|for|feed|feeds|feeding|goes|going|like|as|than|same)\b"


def told_of_box(heard: str, called: Sequence[CalledBox]) -> Mention | None:
    """The box that something is said of; None where none of those is.

    "A 14-2 to the den" runs there; "add a 14-2 to the den", "run a 14-2 to the den box" and "the
    den has one more" are of it.
    """
    for box in called:
        if FIGURED.fullmatch(box.said):
            if mention := _by_number(heard, box):
                return mention
            continue
        for form in _forms(box):
            found = form.match(heard)
            if found is not None:
                lost = found["mention"].lower().endswith(("lost", "loses"))
                verb = box.at_hand and re.search(rf"(?i)\s{_HAS}$", found["mention"])
                instead = "take out" if lost else "it has" if verb else ""
                if re.search(r"(?i)should\s+be$", found["mention"]):
                    instead = "it should be"
                return Mention(box.name, *found.span("mention"), instead)
    return None


@lru_cache(maxsize=256)
def _forms(box: CalledBox) -> tuple[re.Pattern[str], ...]:
    """How something may be said of a box: the same for as long as it is called so."""
    the = "" if len(box.name) == 1 else "(?:the )?" if box.named_alone else "the "
    room = "(?:the )?" if box.is_room else the
    letter = rf"{LEAD}{_PLACES} [^.;]*(?P<mention> {_INTO} {box._words})(?:,? please)?[ .!]*$"
    forms = (
        *((letter,) if len(box.name) == 1 else ()),
        rf"{LEAD}(?P<mention>(?:over |up |down |out |back )?in {the}{box.may}),?"
        r" (?=there|i |we |he |she |they |somebody |one |another |it )",
        rf"{LEAD}(?P<mention>{room}{box.may} (?:{_HAS}|lost|loses))\b",
        rf"{LEAD}{_HOLDING} [^.;]*(?P<mention> (?:over |up |down |out |back )?in the {box.may})"
        r"(?:,? too| as well| now|,? please)*[ .!]*$",
        rf"{LEAD}{_ORDERS} [^.;]*(?P<mention> {_INTO} the {box.must})(?:,? please)?[ .!]*$",
        rf"{LEAD}{_PLACES} [^.;]*(?P<mention> {_INTO} {the}{box.may})(?:,? please)?[ .!]*$",
    )
    return tuple(re.compile(r"(?i)\s*" + _SPACE.sub(r"\\s+", form)) for form in forms)


_HOLDS = lazy_pattern(r"(?i)\b(?:has|had|should (?:have|be))$")
_MORE = lazy_pattern(r"(?i)\b(?:more|another|extra|additional|also|too|as well|new|plus)\b")


def counts_in(mention: Mention, heard: str) -> bool:
    """ "The den has three 14-2s": whether what is said to be in a box may be all that is there; of
    "the den gets three", "the den has three more" it is not."""
    said = _HOLDS.search(heard[mention.start : mention.end])
    return said is not None and not _MORE.search(heard)


_FIGURE = (
    r"(?:[1-9]\d(?:\.\d+)?|\d\.\d+|(?:[a-z]+teen|(?:twen|thir|for|fif|six)ty)"
    r"(?:[ -](?:one|two|three|four|five|six|seven|eight|nine|and|a|half|point|quarter|\d))*)"
)
#: "B is actually 22.5", "the kitchen box was a 20": a volume, and no count, is said of a box.
_IS_MARKED = lazy_pattern(
    _SPACE.sub(
        r"\\s+",
        rf"(?i)(?: )?{LEAD}(?P<mention>(?:in )?(?:the )?(?P<name>[a-z](?:[\w' -]*\w)?)),? "
        r"(?:is|was|says|reads|should be|turned out to be|turns out to be|will be)"
        rf"(?: (?:actually|really|only|just|now|like|a|an|to be))* {_FIGURE}"
        r"(?: (?:cubic inch(?:es)?|cubic|cubes?|cu in|cuin|box|instead|not .*|now|after all))*"
        r"(?:,? please)?[ .!]*$",
    )
)


def marked_box(heard: str) -> Mention | None:
    """ "B is actually 22.5", "the hall is a 20": the name of a box, in small letters, of which it
    is told what is marked on it; whatever else could be called so."""
    found = _IS_MARKED.match(heard)
    if found is None:
        return None
    return Mention(" ".join(found["name"].lower().split()), *found.span("mention"), "the box")
