"""A number by itself with an aside beside it: "I'm lying, four", "you win, eighteen it is".

What is said beside it shows that it stands in place of one that was said before.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.whereabouts import about_something_else

_LEAD = (
    r"(?:(?:<yes[^>]*>|<no[^>]*>|no|nope|nah|wait|well|oh|so|and|but|then|ok|okay|fine|alright"
    r"|all right|right|good|yeah|yes|yep|actually|sorry|um|uh|er|hmm|hm|ah|shoot|dang"
    r"|damn|darn|crap|lord|hang on"
    r"|hold on|my bad|my mistake|oops|whoops|just|only|really|make it|make that|call it|say"
    r"|i mean|i meant|i will go with|go with|it|that|they|there|this|is|are|was|were|should be"
    r"|should have been|needs to be|need to be|has to be|have to be|had to be|must be|got to be"
    r"|better be|ought to be|a|an) )*"
)
_TAIL = (
    r"(?: (?:then|it is|is it|is right|actually|really|now|in fact|final|for sure|of them|in there"
    r"|total|in all|i guess|i think|i mean|i meant|sorry|instead|though|after all|i swear"
    r"|it was|was it"
    r"|not <n:[0-9.]+>|it is then|my bad|my mistake|please|ok|okay|yeah))*"
)
_VALUE = lazy_pattern(_LEAD + r"<n:(?P<n>[0-9]+(?:\.[0-9]+)?)>(?: <n:(?P<tenth>[1-9])>)?" + _TAIL)
_DECISIVE = lazy_pattern(
    r"\b(?:ok|okay|fine|alright|all right|then|it is$|final|make|call|needs? to|has to|have to"
    r"|had to|must|got to|better|ought to|go with|instead|after all|lord)\b"
)
#: Behind one of these a number is of what was counted wrongly.
_CORRECTS = lazy_pattern(
    r"\b(?:lying|lied|lie|liar|blind|count|counted|counting|miscounted|recount|recounted|misread"
    r"|misspoke|wrong|mistake|again|squint|looked|look|forgot|missed|miss|behind|hidden|hiding"
    r"|overlooked|in fact|scratch|no|nope|nah"
    r"|wait|actually|sorry|hang on|hold on|shoot|dang|damn|darn|crap|oops|whoops"
    r"|my bad|idiot|stupid"
    r"|dumb|final|right the first time|was right|had it right|i swear|mean|meant|correction"
    r"|double checked|not <n:[0-9.]+>)\b"
)
#: What is counted, or was counted wrongly, is no volume.
_COUNTING = lazy_pattern(
    r"\b(?:counted|counting|miscounted|recount|recounted|count again"
    r"|(?:ca|could|can) ?not count|cannot count|can n.?t count)\b"
)
#: "I miss one in the corner": why it is another number.
_MISSED = lazy_pattern(
    r"(?:(?:because|since|oh|sorry|and|cause) )*(?:i|we|he|you)"
    r" (?:(?:must|have|had|just|did|not) )*"
    r"(?:miss|missed|forgot|forget|forgotten|overlooked|skipped|see|saw|count|counted)"
    r" (?:<n:1>|the other|the last|another|that|it|this)(?: [a-z]+){0,4}"
    r"|(?:(?:because|since|oh|sorry|and|cause) )*there (?:is|was) (?:another |also )?<n:1>"
    r"(?: more)? (?:behind|hidden|hiding|under|tucked|stuffed|in the (?:back|corner))"
    r"(?: [a-z]+){0,3}"
)
_COUNTS = lazy_pattern(r"(?:[a-z]+ ){0,3}(?:<n:[1-9]> )+<n:[1-9]>")
_LONGEST_ASIDE = 7
"""Words of an aside; more of them tell something of their own."""
_LARGE = 5
"""A number from here on is no count of clamps."""
_VOLUME = 15
"""A number from here on counts nothing in a box: it is the volume of one, cubic inches."""
_ANSWERED_OTHERWISE = frozenset({None, "clamps"})


def restated_alone(
    made: list[Act], left: list[Unread], parts: Sequence[Clause], heard: str, expect: str | None
) -> tuple[list[Act], list[Unread]]:
    """The acts, with the number that is all that an utterance tells in place of an earlier one.

    An open question that a number answers (`expect`) is answered by it; so is that for the
    clamps by a small one, unless what stands beside it corrects.
    """
    counting = expect == "box" and any(_COUNTING.search(clause.line) for clause in parts)
    if not (counting or expect in _ANSWERED_OTHERWISE) or not parts:
        return made, left
    if not _tells_nothing_else(made):
        return made, left
    values = [found for clause in parts if (found := _VALUE.fullmatch(clause.line))]
    beside = [clause for clause in parts if not _VALUE.fullmatch(clause.line)]
    worths = {_worth(found) for found in values}
    if len(worths) != 1 or not all(map(_aside, beside)):
        return made, left
    value = worths.pop()
    if counting and value >= _VOLUME:
        return made, left
    lines = " ".join(clause.line for clause in parts)
    if not _meant(value, lines, bool(beside), expect):
        return made, left
    span = (parts[0].span[0], parts[-1].span[1])
    words = heard[slice(*span)]
    return [acts.RestateNumber(value=value, words=words, span=span, function="correction")], []


_BESIDE = (
    acts.Number, acts.RestateNumber, acts.No, acts.Yes, acts.Social, acts.OtherTalk, acts.Mistaken,
)  # fmt: skip


def _tells_nothing_else(made: Sequence[Act]) -> bool:
    return all(
        isinstance(act, _BESIDE)
        and not (isinstance(act, acts.RestateNumber) and act.instead_of is not None)
        for act in made
    )


def _worth(found: re.Match[str]) -> Decimal:
    """The number; "twenty-two five" is 22.5."""
    tenth = found["tenth"]
    return Decimal(found["n"]) + (Decimal(tenth) / 10 if tenth else 0)


def _aside(clause: Clause) -> bool:
    """A few words that are of no thing of a box, of nobody else, and ask nothing."""
    if clause.mood != "declarative" or clause.closes == "?":
        return False
    if _COUNTS.fullmatch(clause.line):
        return True  # "one, two, three. Three."
    said = [element for element in clause.elements if element.tag.startswith("<")]
    if _MISSED.fullmatch(clause.line):
        return True
    if any(element.found is None or element.found.kind not in ("yes", "no") for element in said):
        return False
    return len(clause.elements) <= _LONGEST_ASIDE and not about_something_else(clause)


def _meant(value: Decimal, lines: str, beside: bool, expect: str | None) -> bool:
    """Whether the words beside the number show that it is said anew."""
    if _CORRECTS.search(lines):
        return True
    if value < _LARGE and expect is not None:
        return False
    if beside:
        return True
    return (value >= _VOLUME or value != int(value)) and _DECISIVE.search(lines) is not None


_THAT_ONE = lazy_pattern(r"(?i)\b(?:that|this) $")


def without_pronouns(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without the number of "I forgot that one", which counts nothing."""
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.Number)
            and act.words.lower() == "one"
            and _THAT_ONE.search(heard[: act.span[0]])
        )
    ]
