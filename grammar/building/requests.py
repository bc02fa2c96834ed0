"""Patterns that ask for a change of what is there: put back, take out, more of it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Reference
from boxaloud.grammar.building.pattern_groups import (
    number_of,
    pieces,
    target_of,
    thing_in,
    words_of,
)
from boxaloud.grammar.building.several_removed import each_removed
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import THINGS, act_of, thing_of
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.clauses.referring_expressions import refer
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.patterns.patterns import Match

#: "Leave the 14-3 out".
_LEFT_OUT = lazy_pattern(r"(?i)(?!.*(?:\bnot|\bnever|n['’]t)\b).*\bleave\b.*\b(?:out|off|away)\s*$")


def build_keep(match: Match, telling: Telling) -> list[Act] | None:
    """ "Leave it": nothing is to change."""
    words, span = words_of(match, telling)
    if _LEFT_OUT.match(words):
        return None
    return [acts.Keep(words=words, span=span)]


def build_put_back(match: Match, telling: Telling) -> list[Act]:
    """ "Put back the 14-2": what was taken out or replaced comes again."""
    words, span = words_of(match, telling)
    return [
        acts.PutBack(target=target_of(match, telling), words=words, span=span, function="request")
    ]


def build_do_it(match: Match, telling: Telling) -> list[Act]:
    """ "Do it": what was supposed or proposed is taken."""
    words, span = words_of(match, telling)
    place = _PLACES[match.found.group("place")] if match.has("place") else None
    return [acts.DoIt(place=place, words=words, span=span, function="request")]


_PLACES = {
    "first": 1, "smallest": 1, "smaller": 1, "second": 2, "middle": 2, "third": 3, "last": -1,
    "biggest": -1, "largest": -1,
}  # fmt: skip
"""Which of the boxes that were told, the smallest first."""


_POINTING = frozenset(grammar_data.table("clauses")["telling"]["pointing"])


#: What comes in besides what is there: it cannot be what is taken out.
_FURTHER = lazy_pattern(
    r"(?i)(?:another|(?:one|two|three|four|five|six|\d{1,2}) more|a further"
    r"|a (?:second|third|fourth|fifth|sixth))\b"
)
#: "Came out from under the insulation", "of the other pipe": where a cable is seen, which stays.
_CAME_OUT_OF = lazy_pattern(r"\b(?:came|comes?|coming) out$")
_OF_ELSEWHERE = lazy_pattern(
    r" (?:from|of) (?!(?:here|there|it|this|the box|that box|in here|(?:this|that) box)\b)"
)


_ORDERED_OUT = lazy_pattern(
    r"\b(?:(?:t[ao]k\w*|pull\w*|yank\w*|rip\w*|leav\w*|left|kick\w*|throw\w*|strip\w*|clear\w*"
    r"|lift\w*|knock\w*|cross\w*|strik\w*|back\w*|cut\w*) (?:out|off|away)"
    r"|remov\w+|drop(?:ped|ping)?|delet\w+"
    r"|los\w+|subtract\w*|minus|less|rid of|ditch\w*|scratch|scrap\w*|eliminat\w+|nix\w*|forget"
    r"|omit|skip|exclude|deduct) <"
    r"|\b(?:t[ao]k\w*|yank\w*|rip\w*|kick\w*|leav\w*) <[^>]*> (?:out|off|away)$"
)


def _ordered_out(match: Match) -> bool:
    """ "Minus another 14-2", "take another one out": one more of those that are there goes."""
    return _ORDERED_OUT.search(match.found.group()) is not None


#: Wires are pulled into a box; what is pulled out of it is said with "out", or pointed at.
_PULLED_IN = lazy_pattern(r"\bpulled (?!(?:out|off|back)\b)(?!.* (?:out|off|back|away)\b)")


#: Which way a cable goes, where nobody pointed at one that is there.
_GOES_OUT = lazy_pattern(r"\b(?:goes?|going|runs?|heads?|leaves?) (?:out|off|away)\b")
#: "One of those goes out the top".
_BY_THE_TOP = lazy_pattern(
    r" (?:(?:by|through|at|on|from) )?(?:the|that) (?:top|bottom|back|rear|side|left|right|ceiling"
    r"|floor|knockout|front|end)\b"
)


def _comes_in(element: Element) -> bool:
    """ "Five 12s": conductors that are counted, and are none of those that are there."""
    found = element.found
    return (
        found is not None
        and found.kind in ("cable", "conductors", "grounds")
        and found.get("count") is not None
        and not element.tag.endswith(":d>")
    )


#: What is left where a device went: "changed the switch for nothing, there's only a blank".
_BARE = lazy_pattern(
    r"(?i)\b(?:blank(?:ed|s)?|cover(?:ed)?|plate|bare|empty|splices? only|j-?box)\b"
)


def _for_nothing(match: Match, telling: Telling) -> list[Act] | None:
    """ "Changed the switch for nothing": for the worse, or for no other; it is asked."""
    words, span = words_of(match, telling)
    found = next((e.found for e in pieces(match, "ref") if e.found is not None), None)
    if found is None or (thing := thing_of(found)) is None:
        return None
    verb = telling.heard[span[0] : found.span[0]].split()[-1]
    return [acts.UnknownOperator(verb=verb, thing=thing, words=words, span=span)]


def _is_its_way(match: Match, things: Sequence[Element]) -> bool:
    """ "One 12-2 goes out of here", "one of those goes out the top": which way a cable leaves."""
    if not _GOES_OUT.search(match.found.group()):
        return False
    by_the_top = _BY_THE_TOP.match(match.clause.line[match.found.end() :]) is not None
    return by_the_top or (bool(things) and all(map(_comes_in, things)))


def build_remove(match: Match, telling: Telling) -> list[Act] | None:
    """ "Take out one of the 14-2s"; with no target, the last thing."""
    words, span = words_of(match, telling)
    if re.search(r"\b(?:forgot|left out|missed)\b", match.clause.line):
        return None
    if match.has("void") and not _BARE.search(telling.heard):
        return _for_nothing(match, telling)
    count = number_of(match)
    if match.has("ref") and re.match(
        r"(?:t(?:a|oo)k|pull|yank|rip|cut|leav|knock|cross|strik|lift|pop|kick|haul|boot|get|got|mov"
        r"|clear|back)\w* ",
        match.found.group("ref"),
    ):
        thing = next(e.found for e in pieces(match, "ref") if e.found is not None)
        sent = re.match(r" (?:and|then)\b", match.found.string[match.found.end("ref") :])
        out = re.search(r"(?i) (?:out|off|away)(?: of [a-z ]+)?$", thing.words.strip())
        if not (out or sent):
            return None  # "cut one 14-2": nothing is taken out by that alone
        target = _led_out(pieces(match, "ref")[1:], telling.heard)
        return [acts.Remove(target=target, words=words, span=span, function="request")]
    covered = [match.clause.elements[place] for place in match.covered()]
    things = [
        e
        for e in covered
        if e.found is not None and e.found.kind in (*THINGS, "clamps", "part", "barrier")
    ]
    if _stays(match, things):
        return None
    if _is_its_way(match, things):
        return None
    further = any(_FURTHER.match(e.found.words) for e in things if e.found is not None)
    if further and not _ordered_out(match):
        return None  # "another 12-2 goes out": it goes out of the box, to somewhere else
    if len(things) > 1 and not match.has("n"):
        return each_removed(covered, span, telling)
    target = target_of(match, telling) if match.has("ref") else Reference(which="last")
    if (
        target.kind == "anything"
        and target.words
        and match.found.group("ref").startswith("the ")
        and "<" not in match.found.group("ref")
        and not set(match.found.group("ref").split()) & _POINTING
    ):
        target = replace(target, which="said", words=match.found.group("ref"))
    if count is not None:
        target = replace(target, count=int(count))
    if target.kind == "clamps":
        return [acts.SetClamps(where="none", words=words, span=span, function="request")]
    return [acts.Remove(target=target, words=words, span=span, function="request")]


def _stays(match: Match, things: Sequence[Element]) -> bool:
    """Whether a way is told, and nothing is taken out: "I pulled five 12s", into the box; "two
    12-2s came out of the other pipe", where they come from."""
    if _PULLED_IN.search(match.found.group()) and all(map(_comes_in, things)):
        return True
    came = _CAME_OUT_OF.search(match.found.group())
    return came is not None and bool(_OF_ELSEWHERE.match(match.clause.line, match.found.end()))


_OUT = lazy_pattern(r"(?i) (?:back )?(?:out|off|away)(?: of [a-z ]+)?$")


def _led_out(named: Sequence[Element], heard: str) -> Reference:
    """What is taken out, where "out" was read as the way of a cable: "take that last 12-2 out" is
    of the last alone."""
    target = refer(named, heard)
    return replace(target, words=_OUT.sub("", target.words.strip()))


_NTH = {"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8}


_ROOMS = frozenset(grammar_data.table("clauses")["rooms"]["names"]) - {"box"}
#: What is worked elsewhere in the room, and so fed by a cable or switched.
_WORKED = frozenset(grammar_data.table("clauses")["purposes"]["worked"])
_WEIGHED = lazy_pattern(r"\d|(?i:\bpounds?\b)")


_MISSED = lazy_pattern(r"(?i)\b(?:missed|forgot|overlooked|skipped) (?!.*\b(?:more|another)\b)")

_COUNTED = lazy_pattern(
    r"(?i)\b(?:one|two|three|four|five|six|seven|eight|nine|ten|twelve|fourteen|\d+)"
)


def build_more(match: Match, telling: Telling) -> list[Act] | None:
    """ "One more of those": as many more of what is meant, one where unsaid."""
    words, span = words_of(match, telling)
    count = number_of(match)
    if _MISSED.search(words) and _COUNTED.search(telling.heard[: match.clause.span[0]]):
        return None  # "four, I missed one": why there are four
    if match.has("room") and not (_ROOMS | _WORKED).intersection(match.found["room"].split()):
        return None  # "two more for the gfci"
    target = target_of(match, telling) if match.has("ref") else Reference(which="last")
    nth = _NTH.get(match.found.group("nth")) if match.has("nth") else None
    if match.has("way") or match.has("hung"):
        target = Reference("wire", which="last", words=words)  # "then one more down to the porch"
    elif target.kind == "cable" or "cable" in words.lower().split():
        target = Reference(
            "cable", awg=target.awg, conductors=target.conductors, which="last", ordinal=nth,
            words=words,
        )  # fmt: skip
    else:
        target = Reference(target.kind, which="last", ordinal=nth, words=words)
    return [
        acts.More(
            target=target,
            count=1 if count is None else int(count),
            words=words,
            span=span,
            function="request",
        ),
        *_hung(match, words),
    ]


def _hung(match: Match, words: str) -> list[Act]:
    """ "Another for the 30 pound chandelier": what hangs from the box, where its weight is told."""
    if not match.has("hung") or _WEIGHED.search(words) is None:
        return []
    return [act for one in pieces(match, "hung") if one.found and (act := act_of(one.found))]


def counted_in_all(count: int, words: str, span: tuple[int, int]) -> acts.Recount:
    """ "Three in all": so many of what was counted last."""
    target = Reference("anything", which="all", words=words)
    return acts.Recount(target=target, count=count, words=words, span=span, function="correction")


def build_in_all(match: Match, telling: Telling) -> list[Act] | None:
    """ "That makes four", "three altogether"."""
    words, span = words_of(match, telling)
    count = number_of(match)
    return None if count is None else [counted_in_all(int(count), words, span)]


def build_pairs(match: Match, telling: Telling) -> list[Act] | None:
    """ "Two pairs of 14-2": twice as many."""
    words, span = words_of(match, telling)
    thing, pairs = thing_in(match, "new"), number_of(match)
    if not isinstance(thing, acts.AddCable | acts.AddConductors) or pairs is None:
        return None
    if thing.count is not None or thing.awg is None:
        return None
    doubts = tuple(doubt for doubt in thing.doubts if doubt.slot != "count")
    return [replace(thing, count=2 * int(pairs), doubts=doubts, words=words, span=span)]
