"""An utterance cut into clauses, each with its mood and its marks, things kept whole in it.

A clause is written as a line of words in which every noun group, value or command that the
phrases found stands as one tag (`<cable>`), so that what the words around it do can be read off
by patterns that know nothing of sizes and counts.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, TypeAlias

from grammar import numbers, store
from grammar.statements import Statement

Mood: TypeAlias = Literal["declarative", "interrogative", "conditional"]

_TABLE = store.table("clauses")
_MOOD = _TABLE["mood"]
_LEAD = frozenset(_MOOD["lead"])
_WH = frozenset(_MOOD["wh"])
_AUXILIARY = frozenset(_MOOD["auxiliary"])
_SUBJECT = frozenset(_MOOD["subject"])
_MODAL = frozenset(_MOOD["modal"])
_FIT = frozenset(_MOOD["fit"])
_HARD = frozenset(".;?!\n")
_SOFT = frozenset(",:|()[]/")
_WORD = re.compile(
    r"[a-z]{1,3}-\d{1,3}[a-z]?\b(?![/-])|\d(?:st|nd|rd|th)\b|[a-z]+(?:'[a-z]+)?|\d[\d./-]*"
    r"(?:'?s)?|w/o?|[,.;:?!\n|()\[\]#&+=]|[^\s]"
)
_CONTRACTED = {
    "it's": "it is", "its": "it is", "that's": "that is", "thats": "that is",
    "there's": "there is", "theres": "there is", "they're": "they are", "theyre": "they are",
    "i'm": "i am", "i've": "i have", "we've": "we have", "i'd": "i would", "i'll": "i will",
    "we're": "we are", "let's": "let us", "lets": "let us", "what's": "what is",
    "whats": "what is", "how's": "how is", "where's": "where is", "who's": "who is",
    "isn't": "is not", "aren't": "are not", "wasn't": "was not", "weren't": "were not",
    "don't": "do not", "dont": "do not", "doesn't": "does not", "doesnt": "does not",
    "didn't": "did not", "didnt": "did not", "can't": "can not", "cannot": "can not",
    "cant": "can not", "won't": "will not", "wouldn't": "would not", "shouldn't": "should not",
    "couldn't": "could not", "haven't": "have not", "hasn't": "has not", "ain't": "is not",
    "isnt": "is not", "arent": "are not", "one's": "one is", "them's": "them is", "those's": "those is", "'em": "them", "em": "them",
    "switch's": "switch is", "other's": "other is", "both're": "both are", "ones": "ones",
    "where'd": "where did", "how'd": "how did", "what'd": "what did", "who'd": "who would",
    "why'd": "why did", "how'll": "how will", "that'll": "that will", "it'll": "it will",
    "that'd": "that would", "it'd": "it would", "they'd": "they would", "you'd": "you would",
    "he's": "he is", "she's": "she is", "who've": "who have", "there'll": "there will",
    "u": "you", "ur": "you are", "y'all": "you all", "thats": "that is", "wheres": "where is",
    "hows": "how is", "whos": "who is", "theyre": "they are", "im": "i am", "ive": "i have",
    "youre": "you are", "gimme": "give me", "lemme": "let me", "cuz": "because",
    "1st": "first", "2nd": "second", "3rd": "third", "4th": "fourth", "5th": "fifth",
    "theyre": "they are", "isnt": "is not", "were": "were", "ya": "you", "nah": "no", "nope": "no",
    "conns": "connectors", "conn": "connector", "receps": "receptacles", "recep": "receptacle",
    "sw": "switch", "gnd": "ground", "gnds": "grounds", "int": "internal", "ext": "external",
    "you're": "you are", "there're": "there are", "those're": "those are", "w/o": "without",
    "w/": "with", "gonna": "going to", "wanna": "want to", "gotta": "got to",
    "this's": "this is", "you've": "you have", "should've": "should have", "nevermind": "never mind",
}  # fmt: skip
#: Phrases that find these say how the words work; their words are read anew in the clause.
WORDS_ONLY = frozenset(
    {"no", "make_that", "take_off", "change", "what_if", "more", "room_for", "lands_on"}
)
#: Questions of a fixed kind: their words are read anew too, and the question is kept beside them.
ASKED = frozenset(
    {"read_back", "total", "margin", "capacity", "why", "why_ask", "smallest_box", "advice",
     "what_changes", "which_edition", "repeat", "slower", "help"}
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Element:
    """One word, break or noun group of a clause."""

    tag: str
    start: int
    end: int
    found: Statement | None = None


@dataclass(slots=True)
class Clause:
    """A stretch of an utterance that does one thing."""

    elements: list[Element]
    mood: Mood = "declarative"
    line: str = ""
    opens: str = ""
    """The break that stands before it."""
    closes: str = ""
    """The break that stands after it."""
    fit: bool = False
    """True for a question whether the box fits."""
    modal: bool = False
    asked: tuple[Statement, ...] = ()
    """Questions of a fixed kind that stand in it."""

    @property
    def found(self) -> list[Statement]:
        """The noun groups, values and commands of the clause."""
        return [element.found for element in self.elements if element.found is not None]

    @property
    def span(self) -> tuple[int, int]:
        """Its place in the utterance."""
        return self.elements[0].start, self.elements[-1].end


def clauses(heard: str, statements: Sequence[Statement]) -> list[Clause]:
    """The clauses of an utterance, in order."""
    made: list[Clause] = []
    elements: list[Element] = []
    opens = ""
    questions = {item.span[0] for item in statements if item.kind in ASKED}
    for element in _elements(heard, statements):
        tag = element.tag
        if (
            tag == ","
            and elements
            and _contrasts(heard[element.end : element.end + 30].lstrip().lower(), elements)
        ):
            continue
        if tag in _HARD or tag in _SOFT:
            if elements:
                made.append(_clause(elements, opens, tag))
                elements = []
            elif made and tag in _HARD:
                made[-1].closes = tag
            opens = tag
            continue
        asked = element.start in questions and any(e.found for e in elements)
        if elements and (asked or _begins_another(tag, element, elements)):
            made.append(_clause(elements, opens, ""))
            elements, opens = [], ""
        elements.append(element)
    if elements:
        made.append(_clause(elements, opens, "end"))
    _put_questions(made, statements)
    return made


def _put_questions(made: list[Clause], statements: Sequence[Statement]) -> None:
    """Give each clause the questions of a fixed kind that begin in it."""
    for statement in statements:
        if statement.kind in ASKED:
            for clause in made:
                if clause.span[0] <= statement.span[0] < clause.span[1]:
                    clause.asked = (*clause.asked, statement)
                    break


_NOT = re.compile(
    r"(?:and )?not (?:a |an |the )?(?:\d|one\b|two\b|three\b|four\b|five\b|six\b|seven\b"
    r"|eight\b|nine\b|ten\b|eleven\b|twel|thirt|fourt|fift|sixt|sevent|eight|ninet|twent"
    r"|inside\b|outside\b)"
)


def _contrasts(rest: str, elements: list[Element]) -> bool:
    """ "twelve-two, not fourteen-two": no new clause begins at that comma."""
    return elements[-1].tag[0] == "<" and _NOT.match(rest) is not None


_OPERATOR_VERBS = frozenset(_MOOD["verbs_of_request"])
#: Behind a thing one of these begins anew: "3 12-2 sorry 14-2", "two 14-2s no three".
_RESTARTS = frozenset({"sorry", "er", "oops", "wait", "no", "nope", "actually", "correction"})
_EVENTS = frozenset(
    {
        "next_box",
        "open_box",
        "copy_box",
        "name_box",
        "list_boxes",
        "new_job",
        "delete_box",
        "done",
        "undo",
        "redo",
        "start_over",
    }
)


def _begins_another(tag: str, element: Element, before: list[Element]) -> bool:
    """ "… and add a dimmer", "… next box …": another clause begins without a break."""
    if element.found is not None and element.found.kind in _EVENTS:
        return True
    if before[-1].found is not None and before[-1].found.kind in _EVENTS:
        return True
    if tag in _RESTARTS and before[-1].found is not None and before[-1].tag[0] == "<":
        return True
    if before[-1].tag in ("and", "then", "but") and len(before) > 1:
        return tag in _OPERATOR_VERBS or tag in ("what", "how", "will", "would", "does", "is")
    return False


def _elements(heard: str, statements: Sequence[Statement]) -> Iterator[Element]:
    low = heard.lower() if heard.isascii() else _lowered(heard)
    place = 0
    for statement in sorted(statements, key=_start):
        start, end = statement.span
        if start < place:
            continue
        yield from _words(low, place, start)
        if statement.kind in WORDS_ONLY or statement.kind in ASKED or _goes_on(statement, low):
            yield from _words(low, start, end)
        elif statement.kind in _BARE:
            first, last = _core(low, start, end)
            yield from _words(low, start, first)
            yield Element(_tag(statement), first, last, statement)
            yield from _words(low, last, end)
        else:
            yield Element(_tag(statement), start, end, statement)
        place = end
    yield from _words(low, place, len(low))


def _goes_on(statement: Statement, low: str) -> bool:
    """ "never mind the doorbell": an undo that says of what is none."""
    if statement.kind != "undo" or "mind" not in statement.words.lower():
        return False
    rest = low[statement.span[1] :].lstrip()
    return rest.startswith(("the ", "about ", "that ", "those ", "my "))


def _start(statement: Statement) -> int:
    return statement.span[0]


_BARE = frozenset({"number", "size", "place"})
_BEFORE_CORE = re.compile(
    r"(?:(?:it's|it is|that's|that is|there are|there is|there's|they're|they are|about|only"
    r"|i have|it has|with|on|the|all|of|them|everything|is|each|a|an)\s+)+"
)
_AFTER_CORE = re.compile(
    r"(?:\s+(?:of (?:them|those|em|'em)(?:'s)?|inch(?:es)?|the box|of the box))+$"
)


def _core(low: str, start: int, end: int) -> tuple[int, int]:
    """The place of a bare value without the words that lead up to it or follow it."""
    lead = _BEFORE_CORE.match(low, start, end)
    first = lead.end() if lead is not None and lead.end() < end else start
    tail = _AFTER_CORE.search(low, first, end)
    return first, tail.start() if tail is not None and tail.start() > first else end


def _lowered(heard: str) -> str:
    """Lower case, character for character; quotes plain."""
    made = "".join(c.lower() if len(c.lower()) == 1 else c for c in heard)
    return made.replace("’", "'").replace("‘", "'")


def _words(low: str, start: int, end: int) -> Iterator[Element]:
    if start >= end:
        return
    for match in _WORD.finditer(low, start, end):
        text = match.group()
        first, last = match.span()
        for word in _expanded(text).split():
            yield Element(_number_tag(word), first, last)
        if text == "\n":
            yield Element("\n", first, last)


@lru_cache(maxsize=4096)
def _expanded(text: str) -> str:
    """A contraction written out: "isn't" as "is not", "fourteen's" as "fourteen is"."""
    if text in _CONTRACTED:
        return _CONTRACTED[text]
    if text.endswith("'s") and numbers.word_classes(text[:-2]):
        return f"{text[:-2]} is"
    return text


@lru_cache(maxsize=4096)
def _number_tag(word: str) -> str:
    """A number word among words that no phrase took, as a tag with its value."""
    if not (word[0].isalnum()) or word in ("oh", "o", "a", "an"):
        return word
    classes = numbers.word_classes(word)
    if not classes:
        return word
    if classes[0] in ("%pair", "%pairs"):
        return f"<pair:{word}>"
    value = numbers.value((word,))
    if value is None or "%part" in classes:
        return word
    return f"<n:{value}>"


_PARTITIVE = re.compile(r"\bof (?:the|those|these|my|them)\b")
_DEFINITE = ("the ", "those ", "these ", "that ", "my ", "this ", "both ", "all ")


def _tag(statement: Statement) -> str:
    kind = statement.kind
    if kind == "number":
        return f"<n:{statement.get('value')}>"
    count = statement.slots.get("count")
    low = statement.words.lower()
    definite = "d" if low.startswith(_DEFINITE) or _PARTITIVE.search(low) else ""
    return f"<{kind}:{'' if count is None else count}:{definite}>"


def _clause(elements: list[Element], opens: str, closes: str) -> Clause:
    line = " ".join([element.tag for element in elements])
    clause = Clause(elements, line=line, opens=opens, closes=closes)
    _find_mood(clause)
    return clause


_CONDITIONAL = re.compile(
    r"^(?:(?:and|so|but|ok|okay|well|now|then|or|hey|hmm|um|uh|class|alright) )*"
    r"(?:" + "|".join(sorted(map(re.escape, _MOOD["conditional"]), key=len, reverse=True)) + r")\b"
)
#: "maybe I could use a 20.3": thought aloud, not done.
_MUSING = re.compile(
    r"^(?:(?:and|so|but|ok|okay|well|hmm|or|now|actually|wait) )*(?:(?:maybe|perhaps|possibly"
    r"|i guess|i think|i suppose) )*(?:i|we|you|they|he) (?:could|might)(?! have)\b(?! not)"
)
_TELLING_IF = re.compile("|".join(map(re.escape, _MOOD["telling_if"])))
_REQUEST = re.compile(
    r"^(?:(?:"
    + "|".join(sorted(_LEAD))
    + r") )*(?:"
    + "|".join(_MOOD["request"])
    + r") (?:please |just |we |you |also |then |maybe )*"
    r"(?:" + "|".join(_MOOD["verbs_of_request"]) + r")\b"
)


#: "I forget if it's the deep one": nothing is told.
UNSURE = re.compile(
    r"\b(?:forget|forgot|not sure|not certain|do not know|can not tell|could not tell"
    r"|could not tell you|can not tell you|can not say|could not say|did not see|did not look"
    r"|did not check|did not notice|have not looked|have not checked|dunno|no idea"
    r"|do not remember|can not remember|do not recall|not looked|at) (?:if|whether|which|what"
    r"|how)\b"
)
#: "So now the clamp counts as a 12?", "that's exactly 18, right?"
_TAG = re.compile(
    r"\b(?:counts?|counted|means?|right|correct|perfect|huh|isn't it|is it|yeah|total|still"
    r"|exactly|so now)\b"
)


def _find_mood(clause: Clause) -> None:
    """Set what the clause does: tell, ask or suppose."""
    words = [element.tag for element in clause.elements]
    first = _reported(words)
    while first < len(words) - 1 and words[first] in _LEAD:
        first += 1
    head_word = "" if words[first][0] == "<" else words[first]
    line = clause.line
    if any(e.found is not None and e.found.kind in _EVENTS for e in clause.elements):
        return
    if UNSURE.search(line):
        clause.mood = "interrogative"
        return
    if _CONDITIONAL.search(line) or _MUSING.search(line):
        clause.mood = "conditional"
        clause.modal = True
    elif " if " in line and _TELLING_IF.search(line):
        clause.mood = "interrogative"
        clause.fit = True
    elif "check " in line and _TELLING_IF.search(line):
        return
    elif head_word in _WH or (head_word in _AUXILIARY and _asks(words, first, clause)):
        if _REQUEST.search(line) and words[first] in ("can", "could", "would", "will"):
            return
        clause.mood = "interrogative"
        clause.modal = head_word in _MODAL
    if clause.mood == "declarative" and clause.closes == "?" and _TAG.search(line):
        clause.mood = "interrogative"
    if clause.mood == "interrogative":
        clause.fit = clause.fit or (
            head_word not in ("what", "why", "which", "who", "when", "where")
            and _about_fit(words, first)
        )
    if clause.mood != "declarative" and (" if " in line or " with " in line):
        clause.modal = clause.modal or " if " in line


_SPEAKERS = frozenset(
    {
        "he",
        "she",
        "they",
        "boss",
        "inspector",
        "customer",
        "foreman",
        "guy",
        "wife",
        "buddy",
        "jman",
        "helper",
    }
)
_SAY = frozenset({"says", "said", "asks", "asked", "wonders", "wants"})


def _reported(words: list[str]) -> int:
    """Where what somebody else asks begins: "he says does it fit"."""
    for place in range(min(4, len(words) - 1)):
        if words[place] in _SAY and place and words[place - 1] in _SPEAKERS:
            return place + 1
    return 0


def _about_fit(words: list[str], first: int) -> bool:
    return any(word in _FIT for word in words[first + 1 :])


def _asks(words: list[str], first: int, clause: Clause) -> bool:
    """Whether an auxiliary at the head asks: "is it over", not "is 18 cubic inches"."""
    head = words[first]
    follows = words[first + 1] if first + 1 < len(words) else ""
    if not follows:
        return clause.closes == "?" or head in ("does", "do")
    if head == "do" and follows in ("it", "that", "this", "not"):
        return False
    if head in _MODAL and follows in ("be", "have"):
        return False
    if head == "can" and follows == "not":
        return False
    if head == "any":
        return clause.closes == "?" or follows in (
            "ideas",
            "chance",
            "other",
            "way",
            "left",
            "room",
            "over",
            "of",
            "boxes",
            "problem",
            "issues",
            "issue",
            "violation",
            "violations",
        )
    if follows == "not":
        return first + 2 < len(words) and words[first + 2] in _SUBJECT
    if head in ("is", "are") and clause.closes != "?" and not _about_fit(words, first):
        rest = [w for w in words[first + 1 :] if w not in ("the", "a", "an")]
        if (
            rest
            and rest[0].startswith(("<n:", "<cable:", "<box_size", "<conductors:"))
            and not any(w in ("counted", "count", "counts", "supposed", "allowed") for w in words)
        ):
            return False  # "is two cable 14-2", with its subject left out
    if head in ("is", "are", "was", "were", "am"):
        if follows in _SUBJECT and follows not in ("a", "an", "all"):
            return True
        return (
            _about_fit(words, first)
            or clause.closes == "?"
            or any(
                w
                in (
                    "counted",
                    "count",
                    "counts",
                    "supposed",
                    "allowed",
                    "required",
                    "needed",
                    "considered",
                )
                for w in words
            )
        )
    if head in ("would", "should", "could", "can", "may", "might", "shall", "does", "did", "do"):
        return True
    return (
        follows in _SUBJECT or follows[0] == "<" or _about_fit(words, first) or clause.closes == "?"
    )
