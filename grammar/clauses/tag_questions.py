"""Questions with the words of a statement: "a clamp counts as one, right", "… isn't it"."""

from __future__ import annotations

import itertools

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_TAG = (
    r" (?:right|correct|yes|yeah|huh|no|true|is that right|is it not"
    r"|(?:is|are|do|does|was|would|will|did) not (?:it|they|that|he|she))$"
)
_LEAD = r"^(?:(?:and|so|but|ok|okay|well|now|then|or|oh|hey|wait) )*"
_ALLOWED = r"(?:<n:\d+>|once|twice|double|nothing|zero|half|none|full)"
_OF_A_RULE = lazy_pattern(
    # what a thing of that kind counts: never one more of it
    rf"{_LEAD}(?:(?:a|an|any|each|every|one|the|all|those|these|both) )*<[^>]*>(?: <n:1>)?"
    r"(?: (?:still|only|just|all|always|also|even))*"
    rf" (?:counts?|get counted|is counted|are counted|takes?|is|are)(?: (?:for|as))*"
    rf" {_ALLOWED}(?= )[^<]*{_TAG}"
    # the ground that a cable of a size has
    rf"|{_LEAD}(?:the |a )?<grounds[^>]*> (?:in|of|inside|with) (?:(?:a|an|any|the) )?"
    rf"<cable:1?:[^>]*>"
    rf" (?:is|would be|will be|has to be|should be)\b.*{_TAG}"
)
_COMPARED = lazy_pattern(
    rf"{_LEAD}(?:is|are) .*\b(?:roomier|bigger|larger|smaller|deeper|wider|taller|shallower|tighter"
    r"|more room|less room)\b.*\bthan\b"
)
#: "That one is over by a cable and a half": of the verdict, nothing of it comes in or goes.
_BY_SO_MUCH = lazy_pattern(
    r"\b(?:over|under|short|full|too full)(?: just| only)? by(?: about| around| just| only"
    r"| like)* <(?:cable|conductors|device|clamps|grounds)[^>]*>"
)
_LIKE_ANOTHER = lazy_pattern(
    rf"{_LEAD}(?:(?:a|an|any|each|every|one|the|all|those|these) )*<[^>]*>"
    r"(?: (?:still|only|just|all|always|also|even|would|will|should|must))*"
    r" (?:counts?|is|are|be|takes?|weighs?|gets?)(?: (?:for|as|about|just|exactly|still))*"
    r" the same(?: <n:\d+>| [a-z]+)? as (?:(?:a|an|any|anything|everything|all|the) )*"
    r"(?:<(?:device|clamps|fitting|conductors|cable|grounds|terminal_block|jumper)[^>]*>|other|else"
    r"|rest)"
)


_TAG_ALONE = lazy_pattern(
    r"(?:or )?(?:right|correct|yes|yeah|yep|huh|no|nope|not|true|eh|ok|okay|sure|or|or not"
    r"|is that (?:right|so|correct|true)|is it|am i right|<yes[^>]*>|<no[^>]*>)"
)
_COUNTING = (
    r"(?:counts?|counted|adds?|add no|weighs?|is free|are free"
    r"|takes? (?:up )?(?:no |any )?(?:<n:\d+>|nothing|double|space|room|volume|allowances?))"
)
#: What things of a kind count, or what holds by an edition: told by no one of this box.
_ASSERTED = lazy_pattern(
    rf"{_LEAD}(?:(?:a|an|any|each|every|one|the|all|those|these|both|also) )*"
    r"<(?:part|uncounted|fitting|device|clamps|grounds|conductors|cable|terminal_block|jumper"
    rf"|fixture_wires|barrier)[^>]*>(?: [a-z]+){{0,4}}? {_COUNTING}(?![a-z])"
    r"|.*<edition[^>]*>(?: [a-z]+){0,2} (?:would|will|could|might|may|is|are|gives?|makes?|has"
    r"|counts?|allows?)\b"
    r"|.*\b(?:would|could|might) (?:[a-z]+ ){0,3}<edition"
)


#: "So I need a 22.5, right?", "so I should get the deep one, huh?": what it would take is asked.
_NEEDED = lazy_pattern(
    rf"{_LEAD}(?:i guess |i think |guess |that means |which means |it means )?"
    r"(?:(?:i|we|you|they|he|she) (?:(?:really|just|then|probably|will|would) )*"
    r"(?:(?:need|needs|have|has|got|ought|(?:am|are) going) to|should|must|better)"
    r"(?! (?:have|to have)\b)[^<]*<(?!yes|no)"
    r"|(?:i|we|you|it|that|they|he|she|one|this) (?:(?:really|just|then|probably|will|would) )*"
    r"(?:needs?|requires?|takes?|wants?)\b[^<]*<(?:box_|n:))"
)


#: "I need an eighteen, don't I?": a negative tag, after a comma or, as an ear gives it, without.
_NEGATIVE_TAG = lazy_pattern(
    r"(?:(?:do|does|did|is|are|am|was|were|should|would|could|can|will|have|has|had) not"
    r"|(?:do|does|did|is|are|was|were|should|would|could|ca|wo|have|has|had|ai)n't)"
    r" (?:i|it|that|this|we|you|they|there|he|she)"
)
#: "There are no clamps, are there": behind a denial.
_POSITIVE_TAG = lazy_pattern(
    r"(?:am|is|are|was|were|has|have|do|does|did) (?:there|it|they|we|i|he|she)"
)
#: Noun groups that may hold their denial are asked for as well: "no clamps, are there".
_DENIES = lazy_pattern(
    r"\b(?:not|no|never|none|without|neither|nor)\b|n't\b|<(?:no|nothing|clamps)\b|<[^>]*:0:"
)
#: "I'm not over, am I": whether it fits.
_OF_THE_FIT = lazy_pattern(
    rf"{_LEAD}(?:i|we|it|that|this|they|you) (?:(?:am|is|are) not (?:[a-z]+ ){{0,2}}?(?:over|full"
    r"|overfilled|overfull|crowded|tight)|(?:am|is|are|does|do|will) not (?:ok|okay|fit|enough))\b"
    r"[^<]*"
)
_HARD = frozenset(".;?!\n")


#: "Should I bring another in, take that one out?": an order under the question before it.
_SHOULD = lazy_pattern(rf"{_LEAD}(?:should|could|can|would|shall) (?:i|we)\b")
_ORDER = lazy_pattern(
    r"(?:(?:and|or|then) )*(?:take|pull|put|add|drop|swap|change|move|lose|bring)\b"
)


def _orders_asked(made: list[Clause]) -> None:
    for before, clause in itertools.pairwise(made):
        asked = before.closes in (",", "") and clause.closes == "?"
        if (
            asked
            and clause.mood == "declarative"
            and _SHOULD.match(before.line)
            and _ORDER.match(clause.line)
        ):
            clause.mood, clause.modal = "conditional", True


def asked_or_supposed(made: list[Clause]) -> list[Clause]:
    """Without the tags: what a sentence with one behind it says, or denies, is supposed."""
    _orders_asked(made)
    kept: list[Clause] = []
    for clause in made:
        if kept and _asked_by(kept[-1], clause):
            before = kept[-1]
            before.closes = "?"
            before.fit = before.fit or _OF_THE_FIT.fullmatch(before.line) is not None
            if before.mood == "declarative":
                before.mood = "interrogative"
        elif kept and kept[-1].closes not in _HARD and _supposed_by(kept, clause):
            kept[-1].closes = clause.closes
        else:
            kept.append(clause)
    return kept


def _asked_by(before: Clause, tag: Clause) -> bool:
    """Whether a clause is asked by the tag behind it: "a ring without a mark counts as nothing,
    yes?", "under 2017 it would be less, right?", "the clamps don't count, do they"."""
    marked = tag.closes == "?" and _TAG_ALONE.fullmatch(tag.line) is not None
    if _POSITIVE_TAG.fullmatch(tag.line) is not None and _OF_THE_FIT.fullmatch(before.line):
        return True
    return (marked or _POSITIVE_TAG.fullmatch(tag.line) is not None) and (
        _ASSERTED.match(before.line) is not None
    )


def _supposed_by(kept: list[Clause], tag: Clause) -> bool:
    """Suppose what the tag behind the clauses asks for; False where it is no tag."""
    denied = _POSITIVE_TAG.fullmatch(tag.line) is not None
    if not (
        denied
        or _NEGATIVE_TAG.fullmatch(tag.line)
        or (tag.closes == "?" and _needed_by_tag(kept[-1].line, tag.line))
    ):
        return False
    if denied and "<" not in kept[-1].line:
        return False  # "that doesn't count, does it": nothing is told in it
    for before in reversed(kept):
        if denied and _DENIES.search(before.line) is None:
            return before is not kept[-1]
        if before.mood == "declarative":
            before.mood, before.modal = "conditional", True
        if before.opens in _HARD:
            break
    return True


def _needed_by_tag(line: str, tag: str) -> bool:
    """Whether a line is supposed by the tag behind it: "so I need a 22.5, right?"."""
    return _TAG_ALONE.fullmatch(tag) is not None and _NEEDED.match(line) is not None


def asks_of_a_rule(line: str) -> bool:
    """Whether a line asks what things of a kind count, without an auxiliary before its subject.

    "A usb receptacle would be the same two as a gfci" compares; nothing comes in by it.
    """
    if _LIKE_ANOTHER.match(line) or _COMPARED.match(line) or _BY_SO_MUCH.search(line):
        return True
    return _OF_A_RULE.match(line) is not None
