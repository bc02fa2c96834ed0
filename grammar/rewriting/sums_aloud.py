"""A sum done aloud: "so I get thirteen and a half, and four and a half, and that makes eighteen",
"twelve and one is thirteen allowances". Somebody checks what was told, and brings nothing in."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value


def without_sums_aloud(text: str, expect: str | None = None) -> str:
    """The text with the sums that somebody did aloud blanked, each character in its place; where
    nothing else is said, it is asked whether that is right.

    >>> without_sums_aloud("two 14-2s, I get four and two and one, that's seven allowances")
    'two 14-2s,                                                    '
    """
    pieces = _pieces(text)
    runs = [run for run in _runs(pieces) if _is_sum(run, pieces, text, expect)]
    if not runs:
        return text
    said = text
    for run in runs:
        start, end = run[0].span[0], run[-1].span[1]
        said = said[:start] + " " * (end - start) + said[end:]
    rest = " ".join(_WORDS.findall(said))
    if not rest or _HESITATION.fullmatch(rest):
        return _ASKED.ljust(len(text)) if len(text) >= len(_ASKED) else text
    return said


_WORDS = lazy_pattern(r"\w+")
_ASKED = "is that right"


@dataclass(frozen=True)
class _Piece:
    """What stands between two breaks: its place, its form with # for numbers, and their worth."""

    span: tuple[int, int]
    form: str
    kind: str
    values: tuple[Decimal, ...]


_HESITATION = lazy_pattern(
    r"(?i)(?:(?:um|uh|er|hello|hi|hey|please|ok|okay|well|alright|all right|thanks) ?)+"
)
_BREAK = lazy_pattern(
    r"[,;:!?]+|\.(?!\d)|\s[–—-]+\s|(?i: (?=(?:is that right|is that so|am i right|check me)\b))"
    r"|(?i: (?=so i (?:get|make)\b)| (?=which i (?:get|make|figure)\b))"
)
_SPACES = lazy_pattern(r"\s+")
#: What a person says beside a sum: "so", "by my figuring", "on my fingers".
_LEAD = (
    r"(?:(?:so|and|then|now|well|ok|okay|oh|but|plus|yes|no|let me see|by my (?:count|figuring"
    r"|arithmetic|reckoning)|on my fingers|in my head|the way i (?:figure|count|see)(?: it)?) )*"
)
_BEHIND = (
    r"(?: (?:altogether|all together|in all|all told|total|more|flat|even|exactly|right|on the nose"
    r"|to the brim|on the button|by my (?:count|figuring|arithmetic)|on my fingers|i think"
    r"|i believe|as i figure it))*"
)
_UNIT = (
    r"(?: (?:cubic inch(?:es)?|cubic|inches|allowances?|counts?|points?|of them|of the #s?"
    r"|(?:of )?# (?:apiece|each)|allowances of # (?:apiece|each)|wires?|conductors?))?"
)
_PART = (
    r"(?:switch(?:es)?|toggles?|dimmers?|receptacles?|duplex(?:es)?|devices?|yokes?|grounds?"
    r"|clamps?|studs?|wires?|conductors?|double gang|gangs?|hickey|insulated ones|hots|plug)"
)
_ALLOTTED = rf"# (?:for|on account of) (?:the |each |both |all the |all )?{_PART}"
_TERM = rf"(?:#s?{_UNIT}|{_ALLOTTED})"
_JOIN = r"(?: and| plus| times| by| then| into)+ "
_TERMS = rf"{_TERM}(?:{_JOIN}{_TERM})*"
_SELF = (
    r"(?:i(?:['’]ve|['’]d|['’]ll| have| would)? (?:only )?(?:get|got|make (?:it|that)|come"
    r" (?:out )?"
    r"(?:to|at|with)|figure(?: (?:it|that))?(?: at)?|call (?:it|that)|reckon(?: (?:it|that))?(?:"
    r" at)?"
    r"|add (?:it|that) up to|count (?:it|that) (?:as|at)))"
)
_MAKES = (
    r"(?:(?:that|it|this|all that|they|those)(?:['’]s|['’]d be| is| are| makes?| would be| ought"
    r" to be"
    r"| should be| comes? to| adds? up to| gives me)| makes?| is| are)"
)
_EXACT = r"(?: exactly| right at| about| just| even| only)*"
_FORMS = (
    ("claim", rf"{_LEAD}(?:i see )?{_SELF}{_EXACT} {_TERMS}{_BEHIND}"),
    ("equals", rf"{_LEAD}(?:{_MAKES} )?{_TERMS} (?:is|are|makes?|gives(?: me)?|comes to|equals)"
               rf"{_EXACT} {_TERM}{_BEHIND}"),
    ("equals", rf"{_LEAD}# #s (?:is|are|makes?){_EXACT} {_TERM}{_BEHIND}"),
    ("equals", rf"which (?:{_SELF}|i (?:make|call|figure)|makes|is){_EXACT} {_TERM}{_BEHIND}"),
    ("makes", rf"{_LEAD}{_MAKES}{_EXACT} {_TERMS}{_BEHIND}"),
    ("terms", rf"{_LEAD}{_TERMS}{_BEHIND}"),
    ("things", rf"{_LEAD}(?:(?:#|an?|one) (?:[a-z]+ )?{_PART})(?: (?:and|plus) (?:#|an?)"
               rf" (?:[a-z]+ )?{_PART})*"),
    ("things", rf"{_LEAD}{_TERMS}(?: (?:and|plus) (?:#|an?) {_PART})+"),
    ("begun", r"(?:now |so |well |wait |ok )*(?:let me (?:count|add|figure|see|check)(?: (?:that|it"
              r"|this|them|those))?(?: up| again| out)?|i see|how many (?:have we|do we have|is"
              r" that"
              r"|does that make|have i|do i have)|(?:i|we) count)"),
    ("asked", rf"{_LEAD}(?:is (?:that|it|this)(?: (?:right|so|correct|my #s?|how you have it|it"
              r"|the way you (?:have|get|make) it|what you (?:have|get|make)))?"
              r"|(?:am i|are we) right|(?:do|does|did) (?:that|it|this) (?:add|sum|come out|check)"
              r"[a-z ]*|do you (?:agree|get that|make it that)|is my [a-z]+ (?:sound|right|good"
              r"|correct|ok)|isn['’]t (?:it|that)(?: right)?|right|correct|check me|yes"
              r"|say it back(?: to me)?|(?:now )?tell me (?:if|where|whether|am) (?:i|that"
              r"|it)[a-z ’']*"
              r"|that['’]?s (?:both hands|one hand)|i am out of fingers|if i can still add)"),
)  # fmt: skip
_COMPILED = tuple((kind, lazy_pattern(form)) for kind, form in _FORMS)


def _pieces(text: str) -> list[_Piece]:
    found, start = [], 0
    for stop in [*_BREAK.finditer(text), None]:
        end = stop.start() if stop else len(text)
        if text[start:end].strip() and not _HESITATION.fullmatch(text[start:end].strip()):
            found.append(_piece(text, start, end))
        start = stop.end() if stop else end
    return found


def _piece(text: str, start: int, end: int) -> _Piece:
    values: list[Decimal] = []

    def worth(found: re.Match[str]) -> str:
        values.append(spoken_value(found["value"]))
        return "#" + (found["plural"] or "")

    low = text[start:end].casefold().replace("’", "'")
    form = _SPACES.sub(" ", SPOKEN_VALUE.sub(worth, low)).strip()
    kind = next((kind for kind, known in _COMPILED if known.fullmatch(form)), "")
    return _Piece((start, end), form, kind, tuple(values))


def _runs(pieces: Sequence[_Piece]) -> list[list[_Piece]]:
    """The pieces side by side that may all be of a sum."""
    runs: list[list[_Piece]] = [[]]
    for piece in pieces:
        if piece.kind:
            runs[-1].append(piece)
        elif runs[-1]:
            runs.append([])
    return [run for run in (_from_its_head(run, pieces[0]) for run in runs) if run]


def _from_its_head(run: list[_Piece], first: _Piece) -> list[_Piece]:
    """A run without what stands before it: a number or a thing there may be told."""
    strong = any(_STRONG.search(piece.form) for piece in run)
    while run and run[0].kind in ("terms", "things"):
        if _so(run[0]) and run[0] is not first:
            break
        if run[0].kind == "terms" and (strong or any(one.kind == "asked" for one in run)):
            break
        run = run[1:]
    while run and run[0].kind == "asked":
        run = run[1:]
    return run


def _so(piece: _Piece) -> bool:
    return piece.form.startswith(("so ", "then "))


#: What is nothing but arithmetic: "nine twos are eighteen", "seven of the fives", "six times two".
_STRONG = lazy_pattern(
    r"#s? times #|# #s (?:is|are|makes?) #|#s (?:is|are|makes?) #|# of the #s|#s? allowances"
)
_FOR_GROUNDS = lazy_pattern(r"# for (?:the |all the |all )?(?:grounds?|clamps?|devices?|yokes?)\b")
#: A count that is said to be so is how many there are, not what they take.
_COUNTED = lazy_pattern(r"# (?:of them)\b")


def _is_sum(run: Sequence[_Piece], pieces: Sequence[_Piece], text: str, expect: str | None) -> bool:
    """Whether a run is a sum, and could be nothing that is told."""
    values = [value for piece in run for value in piece.values]
    kinds = {piece.kind for piece in run}
    if not values or any(_COUNTED.search(piece.form) for piece in run):
        return False
    if any(_STRONG.search(piece.form) for piece in run):
        return True
    fractional = any(value % 1 for value in values)
    if len(values) > 1 and fractional and kinds & {"claim", "makes", "equals"}:
        return True
    summed = "equals" in kinds or (kinds & {"claim", "makes"} and len(values) > _TWO)
    if summed and _adds_up(values):
        return True
    if "claim" in kinds and any(_FITTED.search(piece.form) for piece in run):
        return True
    if any(_FOR_GROUNDS.search(piece.form) for piece in run) and (kinds & {"claim"} or _so(run[0])):
        return True
    if run[0].kind == "begun" and "things" in kinds and len(values) > 1:
        return True
    if any(_OUGHT.search(piece.form) for piece in run) and len(values) > 1:
        return True
    asks = any(piece.kind == "asked" and not _ASSENT.fullmatch(piece.form) for piece in run)
    if asks and kinds <= {"terms", "asked"} and len(run) == len(pieces):
        return expect is None or len(values) > 1
    return _concludes(run, values, text)


_ASSENT = lazy_pattern(r"yes|right|correct")
_FITTED = lazy_pattern(r"# into #|# (?:on the nose|to the brim|on the button)")
_OUGHT = lazy_pattern(r"(?:ought to|should) be # and #")


def _adds_up(values: Sequence[Decimal]) -> bool:
    """Whether the numbers come to the last of them, or one to the next, by sum or product."""
    total = Decimal(0)
    for place, value in enumerate(values):
        if place > 1 and value in (total, values[place - 1] * values[place - 2]):
            return True
        total += value
    return False


_SIZED_COUNT = lazy_pattern(
    r"(?i)\b(?P<value>one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d{1,2})"
    r" (?:more |number |no\.? ?|#)?(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)\b"
)
_LEAST_TOTAL = 7
_TWO = 2


def _concludes(run: Sequence[_Piece], values: Sequence[Decimal], text: str) -> bool:
    """ "… one 14-2, one switch, and I get twelve": behind a whole box what it comes to, where the
    number is so much larger than every count in it that it is none of them."""
    before = text[: run[0].span[0]]
    counts = [spoken_value(found["value"]) for found in _SIZED_COUNT.finditer(before)]
    return (
        run[0].kind == "claim"
        and len(values) == 1
        and not run[0].form.endswith(("wires", "conductors", "wire", "conductor"))
        and bool(counts)
        and values[0] >= _LEAST_TOTAL
        and values[0] > 3 * max(counts)
    )
