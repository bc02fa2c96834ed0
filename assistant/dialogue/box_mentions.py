"""Another box of the job named within what is said: "add a 14-2 to the den box"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.assistant.dialogue.box_names import near, numbered
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.utterance.headings import ROOMS

_LEAD = (
    r"(?:(?:ok|okay|so|and|now|no|oh|um|uh|er|hi|hello|hey|well|please|wait|actually|also|then"
    r"|you can|can you|could you|let's|lets|we need to|i need to|go ahead and),? )*"
)
_ORDERS = (
    r"(?:add|put|throw|stick|bring|run|toss|drop|take|pull|remove|lose|there's|there is|there are"
    r"|i have|we have|i forgot|need|i need|we need)"
)
#: What is done with a thing in a box, and not with a cable that runs to a place.
_PLACES = r"(?:add|put|throw|stick|toss|drop|take|pull|remove|lose)"
_HAS = r"(?:gets?|has|have|had|needs?|got|takes?|is getting|should have|also (?:has|gets|needs))"
_INTO = r"(?:in|into|to|on|onto|from|off|of|inside|for)"
_ASKING = (
    r"(?:is|are|was|were|wasn't|isn't|does|do|did|how|how's|hows|what|what's|whats|will|would"
    r"|which)"
)
_NUMBERED = lazy_pattern(r"box \d+")
_SPACE = re.compile(r"(?<!\()\ (?![.!])")


@dataclass(frozen=True, slots=True)
class Mention:
    """A box that is named, and where in the words its name stands with what leads to it."""

    name: str
    start: int
    end: int
    instead: str = ""
    """What is heard in its place; of a question, before the "it" that stands for the box."""


def mentioned(heard: str, names: Sequence[str], at: str) -> Mention | None:
    """The other box that something is said of, None where the box at hand is meant.

    "A 14-2 to the den" runs there; "add a 14-2 to the den", "run a 14-2 to the den box" and "the
    den has one more" are of it.
    """
    if "?" in heard:
        return None
    if len(names) > 1 and (marked := _marked(heard, names)):
        return marked
    for name, may, must in _called(names, at):
        for form in (
            rf"{_LEAD}(?P<mention>in the {may}),? (?=there|i |we |one |another |it )",
            rf"{_LEAD}(?P<mention>{'' if len(name) == 1 else 'the '}{may} {_HAS})\b",
            rf"{_LEAD}{_ORDERS} [^.;]*(?P<mention> {_INTO} the {must})(?:,? please)?[ .!]*$",
            rf"{_LEAD}{_PLACES} [^.;]*(?P<mention> {_INTO} the {may})(?:,? please)?[ .!]*$",
        ):
            found = re.match(r"(?i)\s*" + _SPACE.sub(r"\\s+", form), heard)
            if found is not None:
                return Mention(name, *found.span("mention"))
    return None


_FIGURE = (
    r"(?:[1-9]\d(?:\.\d+)?|\d\.\d+|(?:[a-z]+teen|(?:twen|thir|for|fif|six)ty)"
    r"(?:[ -](?:one|two|three|four|five|six|seven|eight|nine|and|a|half|point|quarter|\d))*)"
)
#: "B is actually 22.5", "the kitchen box was a 20": a volume, and no count, is said of a box.
_IS_MARKED = lazy_pattern(
    _SPACE.sub(
        r"\\s+",
        rf"(?i)(?: )?{_LEAD}(?P<mention>(?:in )?(?:the )?(?P<name>[a-z](?:[\w' -]*\w)?)),? "
        r"(?:is|was|says|reads|should be|turned out to be|turns out to be|will be)"
        rf"(?: (?:actually|really|only|just|now|like|a|an|to be))* {_FIGURE}"
        r"(?: (?:cubic inch(?:es)?|cubic|cubes?|cu in|cuin|box|instead|not .*|now|after all))*"
        r"(?:,? please)?[ .!]*$",
    )
)


def _marked(heard: str, names: Sequence[str]) -> Mention | None:
    """ "B is actually 22.5", "the hall is a 20": what is marked on a box that is named, be it the
    one at hand."""
    found = _IS_MARKED.match(heard)
    if found is None:
        return None
    said = " ".join(found["name"].lower().split())
    close = near(said, names)
    if len(close) != 1:
        return None
    meant = close[0]
    whole = {meant, f"{meant} box", f"{meant} one", f"box {meant}"}
    if whole.isdisjoint((said, numbered(said))):
        return None
    return Mention(meant, *found.span("mention"), "the box")


def asked_of(heard: str, names: Sequence[str], at: str) -> Mention | None:
    """The other box that a question is about: "is the den over?", "and the den?"."""
    for name, may, _ in _called(names, at):
        alone = re.fullmatch(
            rf"(?i)\s*{_LEAD}(?:(?:how|what) about |and )?(?:the )?{may}"
            r"(?: then| again| now)?(?:,? please)?\s*\?",
            heard,
        )
        if alone is not None:
            return Mention(name, 0, len(heard), "how full is ")
        found = re.match(rf"(?i)\s*{_LEAD}{_ASKING}\b[^.;,]*?\b(?P<mention>the {may})(?!\w)", heard)
        if found is not None:
            return Mention(name, *found.span("mention"))
    return None


def asked_of_none(heard: str, names: Sequence[str]) -> Mention | None:
    """The place that a question is about, where several boxes have names and none has that one."""
    found = _OF_A_PLACE.match(heard) if len(names) > 1 else None
    if found is None or near(found["name"].lower(), names):
        return None
    return Mention(found["name"].lower(), *found.span("mention"))


_OF_A_PLACE = lazy_pattern(
    rf"(?i)\s*{_LEAD}{_ASKING}\b[^.;,]*?\b(?P<mention>the "
    rf"(?P<name>(?:[a-z]+ )??(?:{'|'.join(sorted(ROOMS - {'box'}))}))(?: box| one)?)(?!\w)"
)


def _called(names: Sequence[str], at: str) -> list[tuple[str, str, str]]:
    """The other boxes, each with what it may be called, and what it must be called where the name
    alone could be a place that a cable runs to."""
    said = [
        (name, re.escape(name).replace(r"\ ", r"\s+"))
        for name in names
        if name != at and not _NUMBERED.fullmatch(name)
    ]
    called = [(name, f"{words}(?: box| one)?", f"{words} (?:box|one)") for name, words in said]
    if len(names) == 2:
        called += [(name, "other box", "other box") for name in names if name != at]
    if len(names) > 1 and names[0] != at:
        called.append((names[0], "first box", "first box"))
    return called
