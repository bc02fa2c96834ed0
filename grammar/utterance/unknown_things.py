"""Things that nobody knows, said to be in the box: no verdict stands over them."""

from __future__ import annotations

from collections.abc import Sequence, Set

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.vocabulary import known_words

_TABLE = grammar_data.table("clauses")["other"]
_UNKNOWN = grammar_data.table("clauses")["unknown"]
_ROOMS = frozenset(grammar_data.table("clauses")["rooms"]["names"]) - {"box"}
_RUN_BEHIND = frozenset(_TABLE["run_behind"])
_MATTER = frozenset(_TABLE["matter"])
_NO_NOUN = frozenset(_UNKNOWN["no_noun"])
_PARTICIPLES = frozenset(_UNKNOWN["participles"])
_HEDGES = "|".join(_UNKNOWN["hedges"])
_PUT = "|".join(_UNKNOWN["put"])
_TIED = "|".join(_UNKNOWN["participles"])
_LOOKS = frozenset(_UNKNOWN["looks"])
_ADVERB = (
    r"(?: (?:also|just|still|now|only|even|actually|probably|maybe|like|then|already|really))*"
)
_AUX = (
    r"(?:is|are|was|were|(?:might|may|could|must|has to|seems to|looks to|appears to) be|has been)"
)
#: "A", "another", "some kind of", "these three", "one of those".
_ARTICLE = (
    r"(?:(?P<article>(?:a|an|another|some|this|these|those|that|more|its|our|the|<n:[^>]*>)"
    r"(?: (?:kind|sort|type|piece|couple|few|of|those|these|them|the|a|an|<n:[^>]*>|other|more"
    r"|little|old|new|big|small|weird|strange|odd|random|extra))*)(?= [a-z])|(?=some ?thing\b))"
)
#: "There's also a", "it's got a", "I found a", "somebody spliced in a".
_THERE = lazy_pattern(
    rf"(?:(?:{_HEDGES}) )*"
    rf"(?P<head>(?:there|here|that|those|these|it|this|<n:1>){_ADVERB} {_AUX}{_ADVERB}"
    r"|(?:(?:it|this|that|which|also|there"
    r"|(?:(?:the|this|that|other) )*(?:box|<n:1>|<box[^>]*>)) ){0,4}"
    rf"(?:is|has|have|had|holds|contains|got){_ADVERB}(?: got)?(?: in (?:it|there))?{_ADVERB}"
    rf"|(?:(?:i|we|you|he|she|they){_ADVERB} )?(?:do )?(?:have|had|got|see|saw|find|found|spot"
    rf"|spotted|notice|noticed|discovered|count)(?: got)?{_ADVERB}"
    r"|(?:(?:the )?[a-z]+ (?:[a-z]+ ){0,2}?)?"
    rf"(?:{_PUT}){_ADVERB}(?: (?:in|up|on|to|back))*)"
    rf" {_ARTICLE} ?"
)
#: "A widget", "some black gizmo", "another gizmo": what else is said comes behind.
_IT_IS = lazy_pattern(rf"(?:(?:{_HEDGES}) )*{_ARTICLE} ?")
_PLACED = (
    r"(?:(?:in|into|inside|on|onto|at|behind|with|to|against)(?: of)?"
    r" (?:there|here|it|this|them|(?:this|that|the same) <n:1>|(?:the|this|that|my|our) box"
    r"|(?:the|this|that) (?:back|bottom|top|side|rear|mix|bundle|splices?)(?! of the)"
    r"|(?:(?:the|this|that|both|all) )+<(?!n:)[^>]*>|<[^>]*:d>)"
    r"|inside|<place[^>]*>"
    rf"|(?:{_TIED})(?: (?:back|up|down|right|all|together|straight))*"
    r" (?:in(?! (?:a|an|the|some|another) (?!box|back|mix)| <)|into|onto|on|to|with|inside|across"
    r"|between|together|behind))(?![a-z])"
)
#: That it is in the box: "in there", "tied in", "inside", "landed on the whites".
_IN = lazy_pattern(rf"(?:^| ){_PLACED}")
_IS_IN = lazy_pattern(
    r"(?:(?>that|which|is|are|was|were|goes|went|lives|lies|sits|hangs|all|just|also|still"
    rf"|already|back|up|down|in|got|been|someone|somebody|they|he|[a-z]+ed|[a-z]+ing|{_PUT}|{_TIED})"
    rf" )*?{_PLACED}"
)
#: "That I don't recognise", "nobody knows what it is".
_NOT_KNOWN = lazy_pattern(
    r"(?:^| )(?:(?:that|which) )?(?:i|we|you|nobody|no <n:1>|<no[^>]*>)"
    r" (?:(?:do|can|could|did|have|am|is|really|just|even|not|never) )*"
    r"(?:recogni[sz]es?|knows?|identify|make out|place|name|seen|familiar|tell|understand|sure)\b"
    r"|(?:^| )(?:that |which |i )*<dont_know[^>]*>"
)
#: No more than that it is there.
_ALONE = lazy_pattern(
    r"(?:(?:too|also|as|well|now|already|with|it|them|that|those|somewhere|i|think|guess|believe"
    r"|or|something|of|some|kind|sort|though|still)(?: |$))*"
)
_OF_IT = lazy_pattern(
    r"there\b|(?:(?:it|box|<box[^>]*>|<n:1>)(?: [a-z]+)* |also |^)(?:has|holds|contains|is got)\b"
)
_PUT_IT = lazy_pattern(rf"(?:^| )(?:{_PUT})(?: [a-z]+)*$")
_PUT_IN = lazy_pattern(rf"\b(?:{_PUT})(?: [a-z]+)* in$")
_TOO = frozenset({"too", "also", "well", "another"})
_THIS = frozenset({"the", "this", "that", "these", "those", "its", "our"})
_LONGEST_NOUN = 5
#: "There's a lone black twelve that joins on": one of a size, whatever it is called.
_ONE_OF_A_SIZE = lazy_pattern(
    rf"\b(?:there (?:is|was)|here is|i (?:have|see|found|got)){_ADVERB}"
    r" (?:an?(?: (?!that|which|is|of|with|about|for|at|in|on|to|and|number)[a-z]+){0,3}"
    r"|<conductors:1:>) <n:(?:14|12|10|8|6)>(?: (?:that|which|in|here|too|also|[a-z]+ing)\b|$)"
)


def holds_unknown(parts: Sequence[Clause]) -> bool:
    """Whether any clause says that a thing nobody knows, or a wire by its size alone, is in the
    box: no other talk then."""
    return any(
        in_the_box(clause, known_words()) is not None or _ONE_OF_A_SIZE.search(clause.line)
        for clause in parts
    )


def in_the_box(clause: Clause, known: Set[str]) -> int | None:
    """The place of a thing that nobody knows and that is said to be in the box; None where none is.

    What lies in a box and is no part of it, mud or a nest, is passed over.
    """
    tags = [element.tag for element in clause.elements]
    line = " ".join(tags)
    for wording in (_THERE, _IT_IS):
        found = wording.match(line)
        if found is None:
            continue
        place = _strange(tags, line[: found.end()].count(" "), known)
        head = found["head"] if wording is _THERE else ""
        if place is not None and _belongs(tags[place + 1 :], head, found["article"] or ""):
            return place
    return None


def _strange(tags: Sequence[str], start: int, known: Set[str]) -> int | None:
    """The last word that nobody knows of the noun that begins at `start`."""
    found = None
    for place in range(start, min(len(tags), start + _LONGEST_NOUN)):
        tag = tags[place].removesuffix("'s")
        if tag in _MATTER:
            return None
        if tag[0] == "<" and found is not None and place == found + 1:
            return None  # "a crooked <switch>": what it is is known
        if place == start and tag in ("something", "things", "do"):
            found = place  # "something I can't identify", "a do dad" as an ear writes it
            continue
        if not tag.isalpha() or tag in _NO_NOUN or (found is not None and tag in _PARTICIPLES):
            break
        if not {tag, tag.removesuffix("s")} & known and tag not in _PARTICIPLES | _ROOMS:
            found = place
    return found


def _belongs(rest: Sequence[str], head: str, article: str) -> bool:
    """Whether what is said before a thing and behind it puts it into the box."""
    line = " ".join(rest)
    first = article.split(" ")[0]
    if not head:
        more = first == "another" or article.endswith("more")
        told = _IS_IN.match(line) or _NOT_KNOWN.match(line) or (more and _ALONE.fullmatch(line))
        return first not in _THIS and bool(told)
    if first in _THIS and _PUT_IT.search(head):
        return False  # "put the ladder on the truck": an order of something else
    if _IN.search(line) or _NOT_KNOWN.search(line):
        return True
    if not article or _ROOMS.intersection(rest):
        return False
    if _PUT_IN.search(head):
        return True
    alone = _ALONE.fullmatch(line) is not None
    return alone and bool(_OF_IT.match(head) or _TOO.intersection((*rest, *head.split(" "), first)))


#: What may stand before the article of one thing more, and behind the thing.
ADDED = frozenset({"and", "plus", "also", "with", "add", "then", ",", "or"})
#: What may stand before it as well where it is one further, or was forgotten.
_FURTHER_LEAD = frozenset(
    {"there", "is", "are", "i", "we", "it", "has", "have", "got", "forgot", "about", "oh", "yet"}
)
#: Names of devices that say nothing of how wide they are.
_DEVICE_LIKE = lazy_pattern("|".join(grammar_data.table("clauses")["entering"]["devices"]))
_BEHIND = frozenset({"and", "no", "in", "on", "too", "with", "plus", "as", "also"})


def one_more(elements: Sequence[Element], place: int) -> bool:
    """ "a switch and a little widget": one thing more of the box, that nobody knows."""
    at = place - 1
    while at > 0 and elements[at].tag in _LOOKS:
        at -= 1
    if at < 0 or elements[place].tag in _NO_NOUN or not _one(elements[at].tag, elements[place].tag):
        return False
    before = elements[:at]
    tags = {element.tag for element in before} | {elements[at].tag}
    joined = at > 1 and elements[at - 1].tag in ADDED and bool(_holds_a_thing(before))
    further = joined or bool(tags & {"another", "forgot"})
    lead = ADDED | _FURTHER_LEAD if further else ADDED
    if not all(e.tag in lead or e.found is not None for e in before):
        return False
    after = elements[place + 1] if place + 1 < len(elements) else None
    behind = _BEHIND | _RUN_BEHIND if further else _BEHIND
    rest = "".join(f" {element.tag}" for element in elements[place + 1 :])
    on_a_thing = at > 1 and before[-1].tag == "with" and before[-2].found is not None
    if on_a_thing and _ON_IT.match(rest):
        return False  # "a dimmer with a slide on it": a part of the device
    unknown = joined and _NOT_KNOWN.match(rest) is not None
    return after is None or unknown or after.tag in behind or _begins_a_group(after)


_ON_IT = lazy_pattern(r" (?:on|in|built into|to) (?:it|them)\b")


def _one(article: str, noun: str) -> bool:
    """ "A widget", and "some gizmo", but not "some coffee"."""
    some = article == "some" and _DEVICE_LIKE.fullmatch(noun) is not None
    return some or article in ("a", "an", "another")


def _holds_a_thing(elements: Sequence[Element]) -> bool:
    kinds = {element.found.kind for element in elements if element.found is not None}
    return bool(kinds & {"cable", "device", "conductors", "clamps", "box_volume", "box_size"})


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
