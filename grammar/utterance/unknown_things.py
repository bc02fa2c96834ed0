"""Things that nobody knows, said to be in the box: no verdict stands over them."""

from __future__ import annotations

from collections.abc import Sequence, Set

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.vocabulary import known_words

_TABLE = grammar_data.table("clauses")["other"]
_ROOMS = frozenset(grammar_data.table("clauses")["rooms"]["names"]) - {"box"}
_RUN_BEHIND = frozenset(_TABLE["run_behind"])
_MATTER = frozenset(_TABLE["matter"])
#: "There's a widget wired in there too", "somebody put a widget in the box": what is in it.
_IN_IT = lazy_pattern(
    r"(?P<before>.*?\b(?:a|an|another|some|some (?:kind|sort|type) of|one of (?:those|these)"
    r"|this|these|those|more) )(?P<thing>[a-z]+(?: [a-z]+){0,2}?)"
    r"(?: (?:that|which|is|are|was|goes|went|lives|lies|sits|hangs|all|just|also|still|already"
    r"|back|up|down|in|[a-z]+ed|[a-z]+ing|put|stuck|built|wound|shoved))*"
    r" (?:(?:in|into|inside|on|onto|behind|to|against|at|of|the|back|side|bottom)(?: of)? )*"
    r"(?:there|here|it|this|(?:this|that) <n:1>|(?:the|this|that) box|inside|the back)"
    r"(?: (?:too|also|as well|now|already|with (?:it|them|that|those)|somewhere|i think))*"
)


def holds_unknown(parts: Sequence[Clause]) -> bool:
    """Whether any clause says that a thing nobody knows is in the box: no other talk then."""
    return any(in_the_box(clause, known_words()) is not None for clause in parts)


def in_the_box(clause: Clause, known: Set[str]) -> int | None:
    """The place of a thing that nobody knows and that is said to be in the box; None where none is.

    What lies in a box and is no part of it, mud or a nest, is passed over.
    """
    tags = [element.tag for element in clause.elements]
    found = _IN_IT.fullmatch(" ".join(tags))
    if found is None:
        return None
    first = len(found["before"].split())
    words = found["thing"].split()
    if _MATTER.intersection(words):
        return None
    strange = [at for at, word in enumerate(words) if word not in known]
    return first + strange[-1] if strange else None


#: What may stand before the article of one thing more, and behind the thing.
ADDED = frozenset({"and", "plus", "also", "with", "add", "then", ",", "or"})
#: What may stand before it as well where it is one further, or was forgotten.
_FURTHER_LEAD = frozenset({"there", "is", "i", "we", "have", "got", "forgot", "about", "oh", "yet"})
_BEHIND = frozenset({"and", "no", "in", "on", "too", "with", "plus", "as", "also"})


def one_more(elements: Sequence[Element], place: int) -> bool:
    """ "a switch and a widget": one thing more of the box, that nobody knows."""
    if not place or elements[place - 1].tag not in ("a", "an", "another"):
        return False
    before = elements[: place - 1]
    tags = {element.tag for element in before} | {elements[place - 1].tag}
    further = bool(tags & {"another", "forgot"})
    lead = ADDED | _FURTHER_LEAD if further else ADDED
    if not all(e.tag in lead or e.found is not None for e in before):
        return False
    after = elements[place + 1] if place + 1 < len(elements) else None
    behind = _BEHIND | _RUN_BEHIND if further else _BEHIND
    return after is None or after.tag in behind or _begins_a_group(after)


def in_a_room(elements: Sequence[Element], place: int) -> bool:
    """ "another leak in the attic": what stands at `place` says that it is in no box."""
    tags = [element.tag for element in elements[place : place + 3]]
    return len(tags) > 2 and tags[:2] in (["in", "the"], ["up", "in"]) and tags[2] in _ROOMS


def _begins_a_group(element: Element) -> bool:
    """Whether an element is a noun group of its own, and not the noun of the word before it."""
    found = element.found
    if found is None:
        return False
    said = found.words.lower()
    return (
        found.get("count") is not None
        or found.kind in ("box_volume", "clamps", "edition")
        or said.startswith(("a ", "an ", "the ", "no "))
    )
