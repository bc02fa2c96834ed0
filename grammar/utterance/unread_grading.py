"""Words that became part of no act, graded: does a verdict stand over them or not?"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.acts import Unread
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance import unknown_things
from boxaloud.grammar.utterance.abbreviations import is_abbreviation
from boxaloud.grammar.utterance.device_words import heads_a_box, is_device_named

_TABLE = grammar_data.table("clauses")["other"]
_ROOM_NAMES = frozenset(grammar_data.table("clauses")["rooms"]["names"])
_UNITS = frozenset(_TABLE["units"])
_LABELS = frozenset(_TABLE["labels"])
_PREPOSITIONS = frozenset(_TABLE["prepositions"])
_CHANGE = frozenset(_TABLE["change"])
_SUBJECTS = frozenset(_TABLE["subjects"])
_AWAY = frozenset(_TABLE["away"])
_ROOMS = _ROOM_NAMES - {"box"}
_VERBS = frozenset(_TABLE["verbs"])
_RUNS = tuple(tuple(said.split()) for said in _TABLE["runs"])
_RUN_BEHIND = frozenset(_TABLE["run_behind"])
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


def unread(clause: Clause, taken: set[int], known: set[str], text: str) -> list[Unread]:
    """The runs of words of a clause that are in no act, graded; `taken` are elements of acts."""
    found: list[Unread] = []
    unknown = unknown_things.in_the_box(clause, known)
    if unknown is None:
        unknown = heads_a_box(clause, known)
    for place, element in enumerate(clause.elements):
        if place in taken:
            continue
        if element.found is not None and element.found.kind != "unclear":
            continue
        start = element.start
        if (first := _run_without_size(clause.elements, place)) is not None:
            start = clause.elements[first].start
        elif element.found is None and not (
            place == unknown or _weighs(clause.elements, place, known, text)
        ):
            continue
        found.append(Unread(text[start : element.end], (start, element.end), True))
    return found


#: "One of them is a switch leg", "uses this as a feed": what is there already is called so.
_CALLED = frozenset({"is", "are", "was", "be", "as", "like", "for", "called", "of"})


def _run_without_size(elements: Sequence[Element], place: int) -> int | None:
    """ "And a home run", "there's another cable": a cable more whose size nobody said.

    The place where its words begin, if they end at `place`; else None.
    """
    tags = [element.tag for element in elements]
    for run in _RUNS:
        start = place + 1 - len(run)
        if start < 1 or tuple(tags[start : place + 1]) != run:
            continue
        if place + 1 < len(tags) and tags[place + 1] not in _RUN_BEHIND:
            return None  # "another cable staple", "the feed is hot"
        return start if _one_more(tags, start) else None
    return None


def _one_more(tags: Sequence[str], start: int) -> bool:
    """Whether what begins at `start` is one thing more, by the words before it."""
    article, before = tags[start - 1], tags[start - 2] if start > 1 else ""
    if article == "the":
        return before in unknown_things.ADDED or "too" in tags or "also" in tags
    if article not in ("a", "another", "more", "<n:1>"):
        return False
    return before not in _CALLED or (before == "is" and "there" in tags[: start - 1])


def _weighs(elements: Sequence[Element], place: int, known: set[str], text: str) -> bool:
    tag = elements[place].tag
    if tag.startswith(("<n:", "<pair:")):
        return _number_weighs(elements, place, text)
    if _LARGE_WIRE.fullmatch(tag):
        return True
    if tag in _HALVES and place + 1 < len(elements):
        after = elements[place + 1].tag
        return after == "of" or (after.isalpha() and after not in known)
    if tag == "pair":  # and not "a pair of pliers"
        return [e.tag for e in elements[place + 1 : place + 3]] in _OF_THEM
    if tag in ("drop", "bump") and place + 1 < len(elements) and elements[place + 1].tag == "in":
        return False  # "drop in one 12-2": the thing is there
    if tag in _CHANGE:
        return not (
            (tag in _ADDING and _before_a_thing(elements, place))
            or _before_the_box(elements, place)
        )
    if tag == "another":  # and not "another box"
        after = elements[place + 1].tag if place + 1 < len(elements) else "<"
        return (after in _ENDS or after[0] == "<") and _stands_for_a_cable(elements, place)
    if is_device_named(elements, place):
        return True  # "a switch to the left of it"
    if tag in known or not tag.isalpha():
        return False
    if unknown_things.one_more(elements, place):
        return not unknown_things.in_a_room(elements, place + 1)
    before = elements[place - 1].tag if place else ""
    if before.startswith("<n:") and before != "<n:1>":
        return True
    said = text[elements[place].start : elements[place].end]
    return is_abbreviation(said, text)


#: Before and behind "one" where it may be a cable more: "and one to the porch".
_JOINING = frozenset({"and", "plus", "then"})
_ENDS = frozenset({"to", "from", "for", "out", "up", "down", "going", "coming"})


def _stands_for_a_cable(elements: Sequence[Element], place: int) -> bool:
    """ "The 14-2 and one to the porch": behind a cable, and what it goes to, one cable more. Where
    other things or numbers are between, it is one of those."""
    for element in reversed(elements[:place]):
        if element.tag[0] == "<":
            return element.found is not None and element.found.kind == "cable"
    return False


#: "4/0": a conductor that has no volume, so that another section governs what it is in.
_LARGE_WIRE = lazy_pattern(r"[1-4]/0s?")
#: Quantities without a number: what they count is not passed over.
_HALVES = frozenset({"several", "half", "few", "dozen", "couple"})
_OF_THEM = (["of", "them"], ["of", "those"], ["of", "these"])
_ADDING = frozenset({"add", "include"})
_BOX_KINDS = frozenset({"box_volume", "box_size", "box_kind", "clamps", "edition", "part"})


def _before_a_thing(elements: Sequence[Element], place: int) -> bool:
    """ "add a dimmer": the verb says no more than that the thing is there."""
    return any(element.found is not None for element in elements[place + 1 : place + 5])


def _before_the_box(elements: Sequence[Element], place: int) -> bool:
    """ "swap the box for a 4 square": the box said anew replaces the old one anyway."""
    return any(e.found is not None and e.found.kind in _BOX_KINDS for e in elements[place + 1 :])


#: "Bath 10C", "4C, three 14-2s": the name of an apartment, letter and all ("2G" is two gangs).
_UNIT_NAME = lazy_pattern(r"(?i)[abcdefh](?![a-z0-9'])")
_NAME_ENDS = lazy_pattern(
    r"(?i)\s*(?:[,.;:!?)–—-]|$|(?:and|or|now|next|first|again|is|here|then|today|done|please|too"
    rf"|{'|'.join(sorted(_ROOM_NAMES))})\b)"
)


def _number_weighs(elements: Sequence[Element], place: int, text: str) -> bool:
    after = elements[place + 1].tag if place + 1 < len(elements) else ""
    before = elements[place - 1].tag if place else ""
    if after in _UNITS or before in _LABELS:
        return False
    if _UNIT_NAME.match(text, elements[place].end) and (
        before in _ROOM_NAMES or _NAME_ENDS.match(text, elements[place].end + 1)
    ):
        return False
    if elements[place].tag == "<n:1>":  # "the one in the hall", "that one"
        if before in _JOINING and after in _ENDS and _stands_for_a_cable(elements, place):
            return True
        return text[elements[place].start : elements[place].end].isdigit()
    return True
