"""Clauses that are about other things or people than this box, so that nothing of them enters."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.vocabulary import known_words

_TABLE = grammar_data.table("clauses")["other"]
_ROOM_NAMES = frozenset(grammar_data.table("clauses")["rooms"]["names"])
_UNITS = frozenset(_TABLE["units"])
_PREPOSITIONS = frozenset(_TABLE["prepositions"])
_SUBJECTS = frozenset(_TABLE["subjects"])
_AWAY = frozenset(_TABLE["away"])
_VERBS = frozenset(_TABLE["verbs"])
_MEASURE = lazy_pattern(
    r"(?:<n:[^>]*>|<size[^>]*>) (?:(?:inch|inches|in|foot|feet|ft) )*"
    r"(?:on center|oc|(?<!<n:1> )off|above|below|apart|high|up|from|away|left of|right of|over from"
    r"|long|wide|tall|run(?! (?:straight|right|on|through))|of (?:pipe|wire|cable|conduit))\b"
    r"|(?:<n:[^>]*>|<size[^>]*>) (?:inch|inches|foot|feet|ft) (?:(?:up|down|over|back) )*to "
    r"(?:(?:the|a|that|first|next|last|other) )*"
    r"(?:<device|box|top|bottom|center|switch|floor|counter)"
)
#: Where things are that are in no box. A shed, a shop or an office has boxes of its own too.
_AWAY_WORD = lazy_pattern(r"\b(?:" + "|".join(_AWAY - _ROOM_NAMES) + r")\b")
_FAR = lazy_pattern(r"\b(?:" + "|".join(_TABLE["far"]) + r")\b")
_REMARK = lazy_pattern(
    r"^(?:(?:and|but|so|well|man|oh) )*(?:the |this |that |my |these |those )*<(?:grounds"
    r"|fitting|device|clamps|cable|conductors|box_kind|uncounted|part)[^>]*> (?:is|are|was|were"
    r"|looks?|feels?|seems?|smells?) (?:not |so |very |really |all |kind of |pretty |too "
    r"|a bit |still )*(?!gone|moved|removed|deleted|out\b|off\b|there|missing|in |on |out "
    r"|inside|outside|all |the |a |an |both |from |to )[a-z]+(?: (?:in|on|at|by|from) .*"
    r"| [a-z]+)?$"
)
#: "the house was built in 2017": a year of a building is no edition.
_BUILT = lazy_pattern(
    r"\b(?:built|bought|renovated|remodeled|remodelled|rewired|born|moved in|since|installed in"
    r"|wired in)\b.*(?:<edition|<n:(?:19|20)\d\d>)"
)
#: "somebody wants a receptacle on it now": of the box, whoever wants it.
_ON_IT = lazy_pattern(r"\b(?:in|on|into|onto) (?:it|there|this box|the box|that box|here)\b")
_FURTHER = lazy_pattern(
    r"\b(?:a (?:second|third|fourth|fifth)|another|(?:its|their|his|her|it is) own) <cable"
    # "bring in another": into this box
    r"|\b(?:bring|brought|bringing) (?:in|up|down|over) (?:yet )?(?:another|<n:[^>]*> more)\b"
)
#: "Beside it sits a dimmer", "the fan control lives here": beside what is in the box.
_HERE = lazy_pattern(
    r"\b(?:(?:beside|next to|by|with|alongside|under|above|over|below) (?:it|them|that) "
    r"(?:[a-z]+ ){0,2}<device"
    r"|<device[^>]*> (?:lives|goes|sits|works|is|lands) (?:right |in |over )?here\b)"
)
_EDITION = lazy_pattern(
    r"\b(?:took up|adopted|go by|going by|went to|use|using|under|on|enforce[sd]?|switched to"
    r"|moved to) <edition"
)
#: "ten three", "ten-three": said as words it is a cable; "10-3" may be a date.
_SPOKEN_SIZE = lazy_pattern(r"\S \S|[a-z]-[a-z]", re.IGNORECASE)
_MONEY = lazy_pattern(r"\$ ?<n|\$ ?\d")


def about_something_else(clause: Clause, described: bool = False) -> bool:
    """Whether a clause is about other things or people, so that nothing in it is of the box.

    `described`: the utterance describes a box, so that a thing of the trade in it is of that box
    unless a length, a price or a stock says otherwise.
    """
    things = any(element.found is not None for element in clause.elements)
    exact = things and any(map(evidence, clause.elements))
    return _elsewhere(clause.line, things, exact, described)


#: "She wants a device box with the clamps inside": the box that is spoken of.
_WANTED = lazy_pattern(
    r"\b(?:wants?|wanted|needs?|would like|asked for|calls? for) <box_(?:kind|size)[^>]*>.*<clamps"
)


#: "Get the 22.5 one from the cart": a volume, of the box that is taken, wherever it lies.
_FETCHED = lazy_pattern(
    r"^(?:(?:ok|okay|so|and|then|now|well|fine|please|i|we|will|go|you|can|let me|let us) )*"
    r"(?:get|grab|bring|fetch|hand|take|pick up|use|find)(?: me| us)?"
    r"(?: a| an| the| that| one of the| one of those)?"
    r" (?:<n:(?:[7-9]|[1-9][0-9])\.[0-9]+>|<n:(?:1[5-9]|[2-9][0-9])> (?:<n:1>|box))"
    r"(?: (?:<n:1>|box|then|instead))* ?(?:(?:from|out of|off) |$)"
)


@lru_cache(maxsize=1024)
def _elsewhere(line: str, things: bool, exact: bool, described: bool) -> bool:
    """The same of a line with `things` of the box, said `exact`ly or not. Remembered: things are
    tags in it, so that most lines are said again, of other things."""
    if _FURTHER.search(line) or _HERE.search(line):
        return False
    if _WANTED.search(line) or _FETCHED.search(line):
        return False
    if _EDITION.search(line) and not _BUILT.search(line):
        return False  # "they took up the 2020 last month"
    if _MEASURE.search(line) or _MONEY.search(line) or _FAR.search(line):
        return True
    if described and things and not _AWAY_WORD.search(line):
        return False
    if exact or (things and _ON_IT.search(line)):
        return False
    words = line.split(" ")
    if _REMARK.match(line):
        known = known_words()
        rest = [w for w in words if w.isalpha() and w not in known]
        if rest and not any(w.startswith("<n") for w in words):
            return True
    if _BUILT.search(line):
        return True
    return any(_leads_away(words, place) for place in range(len(words)))


def _leads_away(words: Sequence[str], place: int) -> bool:
    """Whether the word at a place shows that the clause is about something else."""
    word = words[place]
    if word in _AWAY:
        return True
    if (word in _SUBJECTS or word.removesuffix("s") in _SUBJECTS) and not _modifies(words, place):
        return True
    if word.endswith("'s") and word[:-2] in _SUBJECTS:
        return _is_verb(words, place)  # "my meter's reading 122"
    if word in _VERBS and _governs(words, place):
        return True
    return word in _UNITS and place > 0 and words[place - 1].startswith("<n:")


def evidence(element: Element) -> bool:
    """A thing said so exactly that the clause is of a box, whoever else is in it."""
    found = element.found
    if found is None:
        return False
    if found.kind == "cable":
        return found.get("count") is not None or _SPOKEN_SIZE.search(found.words) is not None
    if found.kind == "edition":
        return not found.words.strip().isdigit()
    if found.kind == "box_volume":
        # "lunch at 12 or 1": one of two bare numbers says no more than a bare number does
        return found.get("rival") is None or "box" in found.words.lower()
    if found.kind == "box_size":
        return "family" in found.slots
    return found.kind in ("conductors", "fixture_wires", "terminal_block") and "awg" in found.slots


def _modifies(words: Sequence[str], place: int) -> bool:
    """ "for the garage", "from the panel": it only says which."""
    return any(word in _PREPOSITIONS for word in words[max(0, place - 4) : place])


def _is_verb(words: Sequence[str], place: int) -> bool:
    """Whether the "'s" of a word is "is": what follows it is no thing that it owns."""
    after = words[place + 1] if place + 1 < len(words) else "<"
    return not after.startswith("<") and not _modifies(words, place)


def _governs(words: Sequence[str], place: int) -> bool:
    """A verb at the head of the clause, or right behind its subject."""
    return place <= 2 or words[place - 1] in ("i", "we", "he", "she", "they", "you", "to", "and")
