"""An utterance as a line of words, every noun group, value or command in it as one tag.

What the words around a thing do can be read off such a line by patterns that know nothing of
sizes and counts.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses import numerals
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.clauses.text_before import lowered
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.phrases.statements import Statement

_CONTRACTIONS: dict[str, str] = grammar_data.table("clauses")["contractions"]
_WORD = lazy_pattern(
    r"s/b\b|[a-z]{1,3}-\d{1,3}[a-z]?\b(?![/-])|\d(?:st|nd|rd|th)\b|[a-z]+(?:'[a-z]+)?|\d(?:[\d./-]*\d)?"
    r"(?:'?s)?|w/o?|[,.;:?!\n|()\[\]#&+=]|[^\s]"
)
#: Phrases that find these say how the words work; their words are read anew in the clause.
WORDS_ONLY = frozenset(
    {"no", "make_that", "take_off", "change", "what_if", "more", "room_for", "lands_on"}
)
#: Questions of a fixed kind: their words are read anew too, and the question is kept beside them.
ASKED = frozenset(
    {"read_back", "total", "margin", "capacity", "why", "why_ask", "smallest_box", "advice",
     "metric", "what_changes", "which_edition", "repeat", "slower", "help"}
)  # fmt: skip


_POINTING = frozenset({"", "first", "second", "third", "fourth", "last", "other", "extra", "new"})
#: What "that" before it may point at.
POINTED_AT = frozenset(
    {"cable", "conductors", "device", "fitting", "terminal_block", "jumper", "fixture_wires"}
)


def elements_of(heard: str, statements: Sequence[Statement]) -> Iterator[Element]:
    """The elements of an utterance in order: words, breaks, and what the phrases found."""
    low = lowered(heard)
    place = 0
    placed = sorted(statements, key=_start)
    for at, statement in enumerate(placed):
        start, end = statement.span
        if start < place:
            continue
        yield from _words(low, place, start)
        worded = statement.kind in WORDS_ONLY or statement.kind in ASKED
        worded = worded or _is_verb(statement, low) or _asks_on(statement, low)
        if worded or _goes_on(placed, at, low):
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


def _goes_on(placed: Sequence[Statement], at: int, low: str) -> bool:
    """ "never mind the doorbell", "scratch that switch": an undo that says of what is none."""
    statement = placed[at]
    if statement.kind == "scratch" and at + 1 < len(placed):
        following = placed[at + 1]
        between = low[statement.span[1] : following.span[0]].split(" ")
        return (
            following.kind in POINTED_AT
            and following.get("count") is None
            and all(word in _POINTING for word in between)
        )
    if statement.kind != "undo" or "mind" not in statement.words.lower():
        return False
    rest = low[statement.span[1] :].lstrip()
    return rest.startswith(("the ", "about ", "that ", "those ", "my ")) or bool(
        _SOMEBODY.match(rest)
    )


#: "Never mind him": what somebody says, and nothing that was entered.
_SOMEBODY = lazy_pattern(
    r"(?:him|her|me|us|you"
    r"|(?:what|whatever) (?:he|she|they|i|[a-z]+ [a-z]+) (?:say|ask|want|think)s?"
    r"|(?:his|their) (?:question|idea|talk|joke|opinion)s?)\b"
)


#: "It does not feed anything": what is denied is what it does, and no feed.
_DOES_NOT = lazy_pattern(r".*\b(?:do|does|did)(?: not|n['’]?t)(?: even| really| actually)* $")
_VERBS = frozenset(grammar_data.table("clauses")["other"]["also_verbs"])


def _is_verb(statement: Statement, low: str) -> bool:
    first = statement.span[0]
    if statement.words.lower() not in _VERBS:
        return False
    return _DOES_NOT.match(low, max(0, first - 40), first) is not None


_WHAT_IS = lazy_pattern(r"what.*(?:that|it)$")
_ASKS_ON = lazy_pattern(r" (?:all )?(?:come|add|work|total|tally|mean|make|leave|do|count)\b")


def _asks_on(statement: Statement, low: str) -> bool:
    """ "What's that come to": a question that goes on, and no answer by itself."""
    start, end = statement.span
    if statement.kind != "dont_know" or _ASKS_ON.match(low, end) is None:
        return False
    return _WHAT_IS.match(low, start, end) is not None


def _start(statement: Statement) -> int:
    return statement.span[0]


_BARE = frozenset({"number", "size", "place"})
_BEFORE_CORE = lazy_pattern(
    r"(?:(?:it's|it is|that's|that is|there are|there is|there's|they're|they are|about|only"
    r"|i have|it has|with|on|the|all|of|them|everything|is|each|a|an)\s+)+"
)
_AFTER_CORE = lazy_pattern(
    r"(?:\s+(?:of (?:them|those|em|'em)(?:'s)?|inch(?:es)?|the box|of the box))+$"
)


def _core(low: str, start: int, end: int) -> tuple[int, int]:
    """The place of a bare value without the words that lead up to it or follow it."""
    lead = _BEFORE_CORE.match(low, start, end)
    first = lead.end() if lead is not None and lead.end() < end else start
    tail = _AFTER_CORE.search(low, first, end)
    return first, tail.start() if tail is not None and tail.start() > first else end


def _words(low: str, start: int, end: int) -> Iterator[Element]:
    if start >= end or low[start:end] == " ":
        return
    reach, numbered = start, False
    for match in _WORD.finditer(low, start, end):
        text = match.group()
        first, last = match.span()
        if first < reach:
            continue  # within a number of several words
        run = None if numbered else numerals.run(low, first, end)  # "one twenty two" is no 22
        if run is not None:
            tag, reach = run
            numbered = True
            yield Element(tag, first, reach)
            continue
        owned = text == "its" and _OWNED.search(low, 0, first) is not None
        for word in ("the",) if owned else _expanded(text).split():
            tag = _number_tag(word)
            numbered = tag[0] == "<"
            yield Element(tag, first, last)
        if text == "\n":
            yield Element("\n", first, last)


#: "Change its switch to a GFCI": what is of the box, and no "it's" behind a verb of change.
_OWNED = lazy_pattern(
    r"\b(?:change|changed|swap|swapped|replace|replaced|take|took|remove|removed|lose|lost|drop"
    r"|dropped|pull|pulled|move|moved|trade|delete|scratch|switch|both of|one of|all of) $"
)


@lru_cache(maxsize=4096)
def _expanded(text: str) -> str:
    """A contraction written out: "isn't" as "is not", "fourteen's" as "fourteen is"."""
    if text in _CONTRACTIONS:
        return _CONTRACTIONS[text]
    if text.endswith("'s") and numbers.word_classes(text[:-2]):
        return f"{text[:-2]} is"
    return text


@lru_cache(maxsize=4096)
def _number_tag(word: str) -> str:
    """A number word among words that no phrase took, as a tag with its value."""
    if not (word[0].isalnum()) or word in ("oh", "o", "a", "an", "ones"):
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


_PARTITIVE = lazy_pattern(r"\bof (?:the|those|these|my|them)\b")
_DEFINITE = ("the ", "those ", "these ", "that ", "my ", "this ", "both ", "all ")


def _tag(statement: Statement) -> str:
    kind = statement.kind
    if kind == "number":
        return f"<n:{statement.get('value')}>"
    count = statement.slots.get("count")
    low = statement.words.lower()
    definite = "d" if low.startswith(_DEFINITE) or _PARTITIVE.search(low) else ""
    return f"<{kind}:{'' if count is None else count}:{definite}>"
