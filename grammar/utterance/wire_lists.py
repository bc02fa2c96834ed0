"""Conductors in a raceway named one by one, by colour, phase or purpose: "black red blue white".

A list is written anew as its count and its size ("4 #12s"), each character in its place, so that
all that is said around it (a question, a correction, what comes more) does with it what it does
with a number. A total said with it is no further conductor: it has to agree with the names, or
the list is left unread and holds the verdict (each conductor counts, 314.16(B)(1)).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.grammar.acts import Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.tokens import plain_text
from boxaloud.grammar.utterance.named_wires import NamedWires
from boxaloud.grammar.utterance.wire_list_parser import named_wires
from boxaloud.grammar.utterance.wire_list_patterns import COLOUR, COUNT, COUNTS

_ANY = lazy_pattern(
    rf"\b(?:{COLOUR}s?|neutrals?|hots?|phase"
    r"|[abc],? (?:and )?[bc])\b"
)
#: Beside a cable, names of wires may be those in it.
_CABLES = lazy_pattern(
    r"(?<![\w/-])(?:18|16|14|12|10|8|6)[-/ ][2-5](?![\w/-])|\b(?:cables?|mc|nm|bx|uf)\b"
    r"|\b(?:fourteen|twelve|ten|eight)[- ](?:two|three|four|twos|threes)\b"
)
#: Before the names in the same clause: what is done with them, and not that they are there.
_NOT_TOLD = lazy_pattern(
    r"\b(?:no(?! (?:grounds?|clamps?)\b)|not|never|without(?! (?:an? |any )?grounds?\b)|ain't"
    r"|isn't|aren't|take|takes|took|remove|drop|lose|forget|swap|instead|was|were|splice|connect|tie|land"
    r"|between(?! (?:them|both)\b)|loops?|loop(?:ed|ing)|coil\w*|cap)\b"
)
#: In the same clause: wires of a device or a luminaire, or of nothing.
_OF_A_THING = lazy_pattern(
    r"\b(?:leads?|tails?|pigtails?|whips?|jackets?|sheath\w*|tape|plates?|marker|paint|screws?)\b"
)
#: A name right before the list that was read as none: the list has more than was counted.
_CUT_SHORT = lazy_pattern(
    rf"\b(?:{COLOUR}|neutral|hot|phase|switch leg"
    r"|travell?er|[bc])s?[\s,]*(?:and )?$"
)
_LOOPED = lazy_pattern(r"[^.;?!]*\b(?:loop\w*|coil\w*)\b")
_COUNTED = lazy_pattern(
    rf"\b(?P<n>{COUNT}) +(?:of (?:them|those) )?(?:number |#)?(?:(?:1[024]|8|6)'?s|fourteens"
    rf"|twelves|tens"
    r"|eights|sixes|wires|conductors|go(?:es)?|come|comes|coming|going|in|out)\b"
)
_MOVING = r"(?:come|comes|coming|came|go|goes|going|went)"
#: "Three twelves come in, three go out".
_ELIDED = lazy_pattern(
    rf"(?i)(?P<sep>\b{COUNT} (?:number |#)?(?P<size>(?:1[024]|8|6)'?s|fourteens|twelves|tens|eights"
    rf"|sixes) (?:{_MOVING} )?(?:in|out|up|down),? (?:and |then |plus )?)"
    rf"(?P<rest>(?P<n>{COUNT}) (?:{_MOVING} )?(?:in|out|up|down)\b)"
)
_PLURALS = {"fourteen": 14, "twelv": 12, "ten": 10, "eight": 8, "six": 6, "sixe": 6}
#: "Eight wires passing straight through unbroken, ": counted right before they are named.
_COUNT_AHEAD = lazy_pattern(
    rf"\b(?<!number )(?<!#)(?P<n>{COUNT}) +(?:(?:number |no\.? ?|# ?)?(?P<size>(?:1[024]|8|6)'?s"
    r"|fourteens|twelves|tens|eights|sixes)|(?:wires|conductors)(?: of)?"
    r"(?: (?:number |no\.? ?|# ?)?(?P<sized>14|12|10|8|6|fourteen|twelve|ten|eight|six))?"
    r"|(?:goe?s?|comes?|going|coming|leave|leaving|in|out))\b"
    r"(?! (?:are|were|is|more)\b)(?:(?! (?:and|plus|with|or) )[^,.;:?!\d]){0,60}"
    r"[,:(–-]\s*(?:(?:that's|they're|they are|these are|being|namely|so) )?$"
)
#: "Six twelves, plus two blacks, two reds and two whites".
_ON_TOP = lazy_pattern(r"\b(?:and|plus|also|then|another|further|more)\s*$")
#: "Two 12s go through, a black and white end on the receptacle": others than those.
_DOES = lazy_pattern(r"\s*(?:go|com|end|land|enter|leav|run|pass)(?:e?s|ing|e)?\b")
#: "Six wires come in, three black and three white 12s go out": others than those counted ahead.
_GOES_OUT = lazy_pattern(
    r"\W*(?:(?:are|all|then|that) )*(?:go(?:es|ing)?|leav(?:es?|ing)|out)\b"
    r"|[^,.;:?!]*\b(?:go|goes|going|leav(?:es?|ing)|out|to the|splic\w+|pass\w*|come|comes|coming"
    r"|through|land\w*|ends?|ending)\b"
)
_LEADS_ON = lazy_pattern(
    r"[:(]\s*$|[,:;(-]*\s*(?:(?:so |and )?(?:that's|thats|that is|it's|they're|they are|those are"
    r"|which is|which are|being|namely|as in|meaning))\s*$"
)
_PULLED = lazy_pattern(r"\b(?:pull\w*|cut)\b")
_CLAUSE_END = lazy_pattern(r"[,.;:?!]")
_BREAK = lazy_pattern(r"[.;?!\n]")
_LISTED = 3
"""Colors that make a list of themselves."""
_IN_A_CABLE = 4
"""Insulated conductors of the largest cable that is usual in a building: 12-4."""


def wires_counted(text: str) -> tuple[str, list[Unread]]:
    """The text with each list of named conductors as a count and a size, and what of such lists is
    left unread."""
    text = _ELIDED.sub(_with_size, text)
    plain = plain_text(text)
    if not _ANY.search(plain):
        return text, []
    beside_cables = _CABLES.search(plain) is not None
    held: list[Unread] = []
    for found in reversed(named_wires(plain)):
        start, end = found.span
        cables = beside_cables and not _too_many_for_a_cable(found)
        if _of_a_thing(plain, start, end) or (cables and not (found.bare and found.marked)):
            continue
        written = None if cables else _written(found, plain)
        if written is None:
            held.append(Unread(text[start:end], (start, end), True))
            written = " " * (end - start)
        ahead = None if cables else _count_ahead(found, plain)
        if ahead is not None and COUNTS[ahead["n"]] != found.wires:
            at = start - len(ahead.group())  # "nine wires, … and a green": without that one
            counted = str(found.wires).ljust(len(ahead["n"]))
            text = text[:at] + counted + text[at + len(counted) :]
        text = text[:start] + written + text[end:]
    return text, held[::-1]


def heard_counted(words: Sequence[Word]) -> tuple[Sequence[Word], list[Unread]]:
    """The same of the words of an ear: a list is one word, as sure as the least sure in it."""
    text = " ".join(word.text for word in words)
    written, held = wires_counted(text)
    if written == text:
        return words, held
    changed = [place for place, character in enumerate(text) if written[place] != character]
    kept: list[Word] = []
    place = 0
    joined: list[Word] = []
    for word in words:
        end = place + len(word.text)
        touched = any(place <= at <= end for at in changed)
        if joined and not touched:
            kept.append(_one_word(joined, written, place - 1))
            joined = []
        if touched:
            joined.append(word)
        else:
            kept.append(word)
        place = end + 1
    if joined:
        kept.append(_one_word(joined, written, len(text)))
    return kept, held


def _one_word(joined: Sequence[Word], written: str, end: int) -> Word:
    length = sum(len(word.text) + 1 for word in joined) - 1
    sure = [word.confidence for word in joined if word.confidence is not None]
    return Word(written[end - length : end], min(sure) if sure else None)


def _with_size(found: re.Match[str]) -> str:
    size = found["size"].lower().rstrip("s'").removesuffix("e")
    counted = f"{COUNTS[found['n'].lower()]} "
    rest = found["rest"]
    return found["sep"] + (_spread(counted, f"{_PLURALS.get(size, size)}s", len(rest)) or rest)


def _too_many_for_a_cable(found: NamedWires) -> bool:
    """ "Three hots, three neutrals and a green in twelve": no cable has so many, so that they are
    in a raceway, whatever cables are told of beside them."""
    return found.awg is not None and not found.names and found.wires > _IN_A_CABLE


def _of_a_thing(plain: str, start: int, end: int) -> bool:
    before = max(plain.rfind(mark, 0, start) for mark in ",.;:?!")
    behind = _CLAUSE_END.search(plain, end)
    return (
        _OF_A_THING.search(plain, before + 1, behind.start() if behind else len(plain)) is not None
    )


def _written(found: NamedWires, plain: str) -> str | None:
    """What stands in place of a list; None where it is not plain how many come in."""
    start, end = found.span
    clause = _BREAK.split(plain[:start])[-1]
    pulled = _PULLED.search(clause) and plain[:end].endswith("out")
    if not found.agrees or pulled or _LOOPED.match(plain, end):
        return None
    if _NOT_TOLD.search(clause.rpartition(",")[2]) or _CUT_SHORT.search(clause):
        return None
    if _count_ahead(found, plain) is not None:
        green = _green(found)
        return _spread("", f"all number {found.awg}" + (", " + green if green else ""), end - start)
    if found.awg is None and not _further(found, clause, plain):
        counted = [COUNTS[n["n"]] for n in _COUNTED.finditer(clause)]
        if counted and sum(counted) == found.wires:
            # "six twelves, that's A B neutral in and A B neutral out": named, not added
            return _spread("", _green(found), end - start)
        if counted and sum(counted) == found.wires + found.grounds:
            return plain[start:end]  # the green one is among those counted
        if counted and (_LEADS_ON.search(clause) or not found.grounds):
            return None
    tail = f"#{found.awg}s" if found.awg else "wires"
    green = _green(found)
    head = f"{found.wires} " + ("more " if found.more else "")
    return _spread(head, tail + (", " + green if green else ""), end - start)


def _further(found: NamedWires, clause: str, plain: str) -> bool:
    """Whether names without a size are of others than were counted before them: "six twelves, plus
    two blacks, two reds and two whites", "two 12s, a green, a black and white"."""
    if _ON_TOP.search(clause) or found.more or _DOES.match(plain, found.end):
        return True
    return found.names < _LISTED and not found.marked and not _COUNT_AHEAD.search(clause)


def _count_ahead(found: NamedWires, plain: str) -> re.Match[str] | None:
    """ "Eight wires come straight through, four blacks and four whites, number 12": the count of
    those that are named once more with their size, of the green ones too or without them."""
    before = _COUNT_AHEAD.search(_BREAK.split(plain[: found.start])[-1])
    if before is None or found.awg is None or _GOES_OUT.match(plain, found.end):
        return None
    size = (before["size"] or before["sized"] or "").rstrip("s'").removesuffix("e")
    if size and int(_PLURALS.get(size, size)) != found.awg:
        return None
    agrees = COUNTS[before["n"]] in (found.wires, found.wires + found.grounds)
    return before if agrees else None


def _green(found: NamedWires) -> str:
    size = found.ground_awg or found.awg
    if not found.grounds:
        return ""
    return f"{found.grounds} #{size} green" if size else f"{found.grounds} green wire"


def _spread(head: str, tail: str, length: int) -> str | None:
    """Both in so many characters; None where they do not fit."""
    room = length - len(head) - len(tail)
    return None if room < 0 else head + " " * room + tail
