"""Questions with the words of a statement: "a clamp counts as one, right", "… isn't it"."""

from __future__ import annotations

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


def needed_by_tag(line: str, tag: str) -> bool:
    """Whether a line is supposed by the tag behind it: "so I need a 22.5, right?"."""
    return _TAG_ALONE.fullmatch(tag) is not None and _NEEDED.match(line) is not None


def asked_by_tag(line: str, tag: str) -> bool:
    """Whether a line is asked by the tag behind it: "a ring without a mark counts as nothing,
    yes?", "under 2017 it would be less, right?"."""
    return _TAG_ALONE.fullmatch(tag) is not None and _ASSERTED.match(line) is not None


def asks_of_a_rule(line: str) -> bool:
    """Whether a line asks what things of a kind count, without an auxiliary before its subject.

    "A usb receptacle would be the same two as a gfci" compares; nothing comes in by it.
    """
    if _LIKE_ANOTHER.match(line) or _COMPARED.match(line) or _BY_SO_MUCH.search(line):
        return True
    return _OF_A_RULE.match(line) is not None
