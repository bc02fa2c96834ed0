"""Questions of the code that are a whole utterance: they are of no box, and enter nothing.

"Can a doorbell wire share the box with 120 volts", "which code does Oregon use". Words in them
would otherwise be taken for things in the box. The expressions are `[[code_whole]]` of
data/questions.toml.
"""

from __future__ import annotations

import re

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.asked_question import LONGEST, TERMS, named
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.tokens import plain_text

#: What is said before a question and behind it, and is none of it.
_AROUND = lazy_pattern(r"^(?:(?:um|uh|er|hello|hi|please),? )+|,? please(?=\??$)")
#: What is asked, and the words for it; the first that matches.
_WHOLE: tuple[tuple[str, re.Pattern[str], bool], ...] = tuple(
    (row["id"], lazy_pattern(row["say"]), row.get("measured", False))
    for row in grammar_data.table("questions")["code_whole"]
)
_PLACES: dict[str, list[str]] = grammar_data.table("lexicon")["names"]["place"]
_ASKS = lazy_pattern(
    r"(?:(?:so|and|but|ok|okay|hey|well|now|then|say|quick question|question|um|uh|by the way"
    r"|tell me|do you know|remind me"
    r"|(?:in|under|by|per|for) (?:the )?(?:canad\w+|ce)(?: (?:electrical|code|rules?))*),? )*"
    r"(?:what(?:'?s)?|which|who|where|when|why|how|is|are|am|was|can|could|may|might|do|does|did"
    r"|will|would|should|must|need|have to|any|if|whether)\b"
)
#: "A bonding jumper, does it count".
_ASKED_BEHIND = lazy_pattern(
    r"[,;.-] *(?:and |so |but )?(?:does|do|is|are|can|may|must|should|would|will)"
    r" (?:it|that|this|they|those|these|i|we)\b[^,;.]*$"
    r"|[,;.-] *(?:and |so |but )?(?:that |it |this )?(?:counts? as )?how many (?:wires|conductors)"
    r"(?: (?:do|does|is|would|should) (?:it|that|this|i|we)\b[^,;.]*)?$"
)
#: Cables, volumes and counts of wires: somebody tells of a box, whatever is asked besides.
_TELLS = lazy_pattern(
    r"\d+ ?[-/] ?[2-4]s?\b|\b(?:fourteen|twelve|ten|eight|six)[- ](?:two|three|four|twos|threes)\b"
    r"|\bcubic\b|\bcubes?\b|\bcu\.? ?in|\b(?:two|three|four|five|six|seven|eight|\d+) (?:more )?"
    r"(?:cables?|nm|runs|switches|receptacles|outlets|devices|dimmers|fourteens|twelves|tens"
    r"|1[0246]s|(?:black|white|red|blue|orange|green|brown|yellow)s)\b"
)
_EDITION = lazy_pattern(
    r"\b(?:what|which)(?:'s| is)?(?: the)? (?:code|edition|nec|code year|year|cycle|code cycle"
    r"|code edition|version)\b"
)
_MARK = lazy_pattern(r"[.;!?]\s+(?=\w)")


def code_question(heard: str) -> Act | None:
    """The question of the code that an utterance is; None where it is another, or tells."""
    text = _AROUND.sub("", plain_text(heard)[:LONGEST].strip(" .!"))
    asks = _ASKS.match(text) or _ASKED_BEHIND.search(text) or _FRAME.match(text)
    if not (asks or text.endswith("?")):
        return None
    tells = _TELLS.search(text) is not None
    span = (0, len(heard))
    if not tells and not _MARK.search(text) and (place := _place_of(text)) is not None:
        given = (acts.SetEdition(code=place, words=heard, span=span),)
        return acts.Ask(about="which_edition", given=given, words=heard, span=span)
    if not tells and (framed := _under_a_code(text)) is not None:
        return acts.AskMeaning(term=framed, words=heard, span=span)
    for term, say, measured in _WHOLE:
        if (measured or not tells) and say.search(text):
            return acts.AskMeaning(term=term, words=heard, span=span)
    return None


_PLACE_NAMES = "|".join(re.escape(way) for ways in _PLACES.values() for way in ways)
#: "In Chicago do grounds count", "under 2014 how do terminal blocks count".
_FRAME = lazy_pattern(
    rf"(?:and |so |but )?(?:in|under|by|per|with|for|on|going by) (?:the )?(?:(?:{_PLACE_NAMES})"
    r"|(?:19|20)\d\d|nec|irc|canad\w+|ce code)"
    r"(?: (?:code|rules?|edition|nec|irc|electrical|law))*,?"
    r" (?=(?:how|what|do|does|is|are|should|would|will|must)\b)"
)
_OF_COUNTING = lazy_pattern(r"\b(?:counts?|counted|takes?|worth|costs?|how (?:much|many))\b")


def _under_a_code(text: str) -> str | None:
    """The term of the glossary that is asked about under a code or in a place, which only frames
    the question."""
    frame = _FRAME.match(text)
    if frame is None or _OF_COUNTING.search(text, frame.end()) is None:
        return None
    if re.search(r"\d|\b(?:it|that|this|left|room|fit)\b", text[frame.end() :]):
        return None  # of the box at hand
    device = _DEVICE.search(text, frame.end())
    return named(TERMS, text[frame.end() :]) or ("device" if device else None)


_DEVICE = lazy_pattern(
    r"\b(?:dimmers?|devices?|receptacles?|outlets?|switch(?:es)?|gfcis?|timers?)\b"
)


def _place_of(text: str) -> str | None:
    """ "Which code does Oregon use": of which place it is asked."""
    if _EDITION.search(text) is None:
        return None
    for name, ways in _PLACES.items():
        if any(re.search(rf"\b{re.escape(way)}\b", text) for way in ways):
            return name
    return None
