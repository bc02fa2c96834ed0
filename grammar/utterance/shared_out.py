"""What each of several brings: "both rooms, 12-2 to each", "one 14-2 per light, three lights"."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Literal, TypeAlias

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.masked_words import masked

_COUNTS = {
    word: worth
    for worth, words in enumerate((("two", "both"), ("three",), ("four",), ("five",), ("six",)), 2)
    for word in (*words, str(worth))
}
_NUMBER = r"(?P<n>two|three|four|five|six|both|[2-6])"
#: No recipients: lengths, volumes, and what a device or a cable has of its own.
_NO_NOUN = (
    r"(?!inch|inches|feet|cubes?\b|cubic|amps?\b|volts?\b|ways?\b|poles?\b|wires?\b|conductors?\b"
    r"|splices?\b|clamps?\b|nuts?\b|grounds?\b|or\b|of\b|and\b|in\b|out\b|more\b|others?\b)"
)
_SEVERAL = (
    rf"\b{_NUMBER}(?: of)?(?: the| those| these)?(?: {_NO_NOUN}[a-z]+){{0,2}}?"
    rf" {_NO_NOUN}[a-z]{{2,}}s\b"
)
_WAY = (
    r"(?: (?:a|in|going|goes|run|runs|running|out|feeding|feeds|coming|comes|leg|legs|cable|home"
    r"|run|and|off|daisy|chain|chained|straight))*"
)
_TO = r" (?:to|for|from|in|into|at|out of|on|out)"
_EACH = (
    r"(?P<each>each|every"
    r"|either(?= (?:[a-z]+ )?(?:side|end|way|direction|gang|half|bath|room|bedroom)))"
)
#: What a thing has of its own, or the thing itself: nothing is shared out.
_ITS_OWN = (
    r"(?! other\b|,| with\b| has\b| have\b| having\b| is\b| are\b| being\b| about\b| other's\b"
    r"| left\b| landed?\b| cut\b| run\b| looped?\b| on (?:its|their|a)\b| about\b| goes\b"
    r"| going to (?:a|its|one)\b| to (?:a|its|one|their)\b| a\b| an\b| of (?:them|those|which)\b)"
)
#: "12-2 to each", "a 14-2 each way", "a switch in every gang", "a 14-2 for each of them".
_BEHIND = lazy_pattern(
    rf"(?P<thing>C+|D+){_WAY}(?:{_TO})? {_EACH}(?: (?:one|of (?:the|them|those|these)))?"
    rf"(?! other\b)(?P<what> (?!with\b|has\b|is\b)[a-z']+)?"
)
#: "A 14-2 each", "one 12-2 apiece", "a 14-2 per light", "one duplex a side".
_APIECE = lazy_pattern(
    rf"(?P<thing>C+|D+){_WAY} (?:(?P<each>each){_ITS_OWN}|apiece|a piece|a side"
    r"|per (?!code\b|nec\b|spec\b|the\b|plan\b|my\b|usual\b)(?P<what>[a-z]+))"
)
#: "Each with its own 14-2", "each bath gets a 12-2", "every one has its own 14-2".
_BEFORE = lazy_pattern(
    r"\b(?P<each>each|every)(?: (?:one|of (?:the|them|those|these)))?(?: [a-z]+){0,3}?"
    r"(?: (?:has|have|with|gets?|got|having|needs?|takes?|fed|sends?|brings?|carries|on|leg"
    r"|by|from|its|their|own|a|an|it|just|of|home|run))+ (?P<thing>C+|D+)"
)
#: "Both rooms send a 12-2 here", "the fan and the light both have a dimmer".
_BOTH = lazy_pattern(
    r"\bboth\b(?! (?:of (?:them|those|these)|on|the|are|is|with|in|to)\b)(?: [a-z]+){0,2}?"
    r" (?:has|have|gets?|got|needs?|takes?|sends?|brings?|carry|want|use)"
    r"(?: (?:its|their|own|a|an|it|of|separate))* (?P<thing>C+|D+)"
)
#: "12-2 both ways", "14-2 up and down", "a duplex on either side".
_WAYS = lazy_pattern(
    rf"(?P<thing>C+|D+){_WAY}(?: (?:in|on|at|from|to|out))?"
    r" (?P<each>(?:both|each|either) (?:ways?|directions?|sides?|ends?)"
    r"|up and down|left and right|right and left|out left and right|front and back|in and out)\b"
)
#: "A 14-2 to both lights": one that goes on, or two.
_TO_BOTH = lazy_pattern(
    rf"(?P<thing>C+){_WAY} (?:to|for|from) (?P<each>both)(?: of)?(?: the| those| these)?"
    r"(?P<what> [a-z]+)?"
)
_LIST = lazy_pattern(
    r"[a-z]+(?: [a-z]+)?(?:, (?:and )?(?:the |my |a )?[a-z]+(?: [a-z]+)?)*"
    r",? (?:and|&) (?:the |my |a )?[a-z]+"
)
_SENTENCE = lazy_pattern(r"[.;!?]")


Form: TypeAlias = Literal["ways", "behind", "apiece", "before", "both", "to_both"]
_FORMS: tuple[tuple[Form, re.Pattern[str]], ...] = (
    ("ways", _WAYS), ("behind", _BEHIND), ("apiece", _APIECE), ("before", _BEFORE),
    ("both", _BOTH), ("to_both", _TO_BOTH),
)  # fmt: skip


def _all(text: str) -> list[tuple[Form, re.Match[str]]]:
    """Each place where a thing is shared out, in order; of several at one place, the first form."""
    every = [(form, found) for form, pattern in _FORMS for found in pattern.finditer(text)]
    return sorted(every, key=lambda one: one[1].start("thing"))


def shared_out(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """What each of several gets, so often as there are of those: each conductor of each cable
    counts, 314.16(B)(1), and each yoke, (B)(4). Where nobody said how many there are, it is left
    unread, and asked."""
    low = heard.lower()
    if not any(word in low for word in SHARING) or _BOXES_ALIKE.search(low):
        return made
    text = masked(made, heard)
    done = 0
    for form, found in _all(text):
        if found.start("thing") >= done:
            shared = _with_share(made, heard, left, text, found, form)
            if shared is not None:
                made, done = shared, found.end()
    return made


#: "Same box times eight, two 14-2s in each": in each box.
_BOXES_ALIKE = lazy_pattern(r"\b(?:times|x) (?:\d+|[a-z]+)\b[^.;]*\beach\b")
SHARING = ("each", "every", "apiece", "a piece", "a side", "per ", "both", "either", " and ")


def _with_share(
    made: list[Act],
    heard: str,
    left: list[Unread],
    text: str,
    found: re.Match[str],
    form: Form,
) -> list[Act] | None:
    """The acts with one thing of them shared out, as a form found it, or its words unread; None
    where nothing is shared out by them."""
    at = found.start("thing")
    act = next((act for act in made if act.span[0] <= at < act.span[1]), None)
    if not isinstance(act, (acts.AddCable, acts.AddDevice)):
        return None
    own = act.count or 1
    if _NO_SHARE.search(act.words):
        return None
    if own > 1 and form in ("ways", "to_both"):
        return None
    several: int | None = 2 if form == "ways" else None
    where: tuple[int, int] | None = None
    if form in ("behind", "apiece", "before") and not _JOINED.match(text, found.end("thing")):
        several, where = _recipients(made, text, found, form)
    if several is None and own > 1 and text[found.end("thing") : found.end()].strip() == "each":
        return None  # "two cables, 12-2 each": what each of those is
    if several is None or (own > 1 and own == several):
        _hold(heard, left, found)
        return made
    if where is not None:
        _settle(left, where)
    plain = tuple(doubt for doubt in act.doubts if doubt.slot != "count")
    return [
        replace(act, count=own * several, doubts=plain) if one is act else one
        for one in made
        if where is None or not _is_number_in(one, where)
    ]


#: "Two 12-2s, one in each direction", "each on a yoke of its own".
_NO_SHARE = lazy_pattern(r"(?i)^one (?:in|out|each)\b|\b(?:yokes?|straps?)$")
#: "A 12-2 in and a 12-2 out": what each has is more than one thing.
_JOINED = lazy_pattern(r"(?: in| out| coming in| going out)?,? (?:and|plus|with) (?:[CDW]|one\b)")
_RIGHT_BEHIND = lazy_pattern(
    r"(?: one)?(?: (?:of|to|for|in|at|from))?(?: the| those| these| them)?"
    rf" {_NUMBER}\b(?: [a-z]+s\b)?"
)
_SOMEWHERE = lazy_pattern(_SEVERAL)
_PREPOSITION = lazy_pattern(r"\s*,? *(?:(?:to|for|at|in|from|feeding) )?(?:the |my )?")
#: The end of a list before "each": "power, light and fan each".
_LIST_BEFORE = lazy_pattern(
    r"(?:^|[,:;.] *|\b(?:to|for|from) (?:the )?)(?P<list>[a-z]+(?: [a-z]+)?"
    r"(?:, (?:the )?[a-z]+(?: [a-z]+)?)*,? (?:and|&) (?:the )?[a-z]+),? ?$"
)


def _recipients(
    made: list[Act], text: str, found: re.Match[str], form: Form
) -> tuple[int | None, tuple[int, int] | None]:
    """How many there are that each get one, and where the number is said; None where nobody said
    it, or where it may be of something else."""
    each = found.end("each") if found.groupdict().get("each") else found.end()
    if number := _RIGHT_BEHIND.match(text, each):
        return _COUNTS[number["n"]], number.span()
    if (gangs := _gangs(made, found)) is not None:
        return gangs, None
    if (count := _listed(text, found, form, each)) is not None:
        return count, None
    sentence = [0, len(text)]
    for stop in _SENTENCE.finditer(text):
        if stop.end() <= found.start():
            sentence[0] = stop.end()
        elif stop.start() >= found.end():
            sentence[1] = stop.start()
            break
    before = list(_SOMEWHERE.finditer(text, sentence[0], found.start("thing")))
    number = before[-1] if before else _SOMEWHERE.search(text, found.end(), sentence[1])
    said = _COUNTS[number["n"]] if number is not None else None
    devices = [
        act.count
        for act in made
        if isinstance(act, acts.AddDevice) and sentence[0] <= act.span[0] < found.start()
    ]
    if found["thing"][0] == "C" and devices and (own := devices[-1] or 1) > 1:
        return (own if said in (None, own) else None), None
    return said, (number.span() if number is not None else None)


def _listed(text: str, found: re.Match[str], form: Form, each: int) -> int | None:
    """ "To the bath, the hall and the closet": how many are named one by one, behind or before."""
    if form in ("behind", "apiece"):
        lead = _PREPOSITION.match(text, each)
        start = lead.end() if lead is not None else each
        if lead is not None and lead.group().strip() and (run := _LIST.match(text, start)):
            return _length(run.group())
    if form == "before" and (run := _LIST_BEFORE.search(text, 0, found.start())):
        return _length(run["list"])
    return None


def _gangs(made: list[Act], found: re.Match[str]) -> int | None:
    """ "A switch in every gang": how many gangs the box has, where the devices are not counted
    by themselves."""
    if "gang" not in (found.groupdict().get("what") or "") or found["thing"][0] != "D":
        return None
    gangs = next((a.gangs for a in made if isinstance(a, acts.NameBoxKind) and a.gangs), None)
    counted = any(isinstance(a, acts.AddDevice) and a.count == gangs for a in made)
    return None if counted else gangs


def _length(listed: str) -> int:
    return len([one for one in re.split(r",? (?:and|&) |, ", listed) if one.strip()])


def _hold(heard: str, left: list[Unread], found: re.Match[str]) -> None:
    """Leave the words that share a thing out unread, unless some of them are already."""
    start = found.end("thing") if found.end("thing") < found.end() else found.start()
    end = found.end()
    start += len(heard[start:end]) - len(heard[start:end].lstrip())
    if not any(run.span[0] < end and start < run.span[1] for run in left):
        left.append(Unread(heard[start:end], (start, end), True))


def _settle(left: list[Unread], where: tuple[int, int]) -> None:
    """The number of those that each get one is read, and belongs to nothing else."""
    left[:] = [run for run in left if not (run.span[0] < where[1] and where[0] < run.span[1])]


def _is_number_in(act: Act, where: tuple[int, int]) -> bool:
    return isinstance(act, acts.Number) and act.span[0] < where[1] and where[0] < act.span[1]
