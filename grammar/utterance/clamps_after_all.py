"""What is denied and found in the next breath: "no clamps, wait, yes there are"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Placing, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

_TURN = (
    r"(?:wait|no|nope|hmm+|oh|ah|uh|um|well|actually|hold on|hang on|hold up|sorry|scratch that"
    r"|strike that|i lied|i lie|my bad|my mistake|oops|whoops|correction|but|and|yes|yeah|yep"
    r"|i was wrong|i take it back|i take that back|take that back|let me look|now i look|shoot"
    r"|damn)"
)
_FOUND = (
    r"(?:(?:yes|yeah|yep|yup|no),? )?(?:there (?:is|are|was|were)|there's|it does|it has|it's got"
    r"|(?:has|have)(?= (?:clamps?|them|some)\b)"
    r"|they are there|(?:i|you)(?: can)? (?:do )?(?:see|found|find|spot|have)|i got|i've got)"
    r"(?! (?:no|not|none|never|nothing|zero))\b"
)
_PLACE = r"(?:inside|internal|inner|built[- ]in|outside|external)"
_HOW_MANY = (
    r"(?: (?:one|some|a|an|two|\d|three|four"
    r"|a pair|a couple|them|clamps?|ones?|in there|in here|in it"
    rf"|after all|too|as well|of them|{_PLACE})\b)*"
)
_BREAK = r"[\s,.;:!?…–—-]"
#: Behind a denial: a turn, that there is one after all, and where.
_AFTER_ALL = lazy_pattern(
    rf"(?i){_BREAK}+(?:{_TURN}\b{_BREAK}*)*(?<![a-z0-9'])(?:{_FOUND}{_HOW_MANY}"
    rf"(?:{_BREAK}+(?:an? |the |some |two |on the )?{_PLACE}(?: ones?| clamps?)?\b)?"
    rf"|(?<=[\s,.;:!?…–—-])(?:yes|yeah|yep),? (?:an? |the |some |two )?"
    rf"{_PLACE}(?: ones?| clamps?)?\b"
    rf"|(?:wait|actually|oh|hold on|hang on){_BREAK}*(?:yes|yeah|yep)(?={_BREAK}*(?:[,.;!]|$))"
    rf"|(?:well|actually|wait|maybe){_BREAK}*(?:one|two|some)(?: actually| of them| after all)?"
    rf"(?={_BREAK}*(?:[,.;!]|$)))"
)
_SOME = lazy_pattern(
    r"(?i)(?=.*\b(?:wait|actually|hold|hang|scratch|lied|wrong|no)\b)"
    r".*\b(?:yes|yeah|yep|one|some)\b"
)
_ENDS = lazy_pattern(r"\s*(?:[,.;:!?…–—-]|$)")
#: The same, said alone behind an earlier breath.
_ALONE = lazy_pattern(
    rf"(?i)(?<![a-z])(?:{_TURN}\b{_BREAK}*)+(?<![a-z0-9'])there\s+(?:is|are)\b{_BREAK}*"
    rf"(?:an?\s+|the\s+|some\s+|two\s+)?{_PLACE}(?:\s+ones?|\s+clamps?)\b"
)
_OUTSIDE = lazy_pattern(r"(?i).*\b(?:outside|external)\b")
_INSIDE = lazy_pattern(r"(?i).*\b(?:inside|internal|inner|built[- ]in)\b")

_ANSWERS = (
    acts.Yes,
    acts.No,
    acts.Undo,
    acts.Place,
    acts.Recount,
    acts.Number,
    acts.RestateNumber,
    acts.SetClamps,
)


def found_after_all(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """Clamps that are denied and found again are there; of another thing that is, it is asked."""
    whole = _ALONE.search(heard)
    if whole is not None and not any(is_thing(act) or _denies(act) for act in made):
        clamps = acts.SetClamps(
            where=_where(whole.group()),
            words=whole.group(),
            span=whole.span(),
            function="correction",
        )
        left[:] = [run for run in left if not _within(run, whole)]
        return [*(act for act in made if not isinstance(act, _ANSWERS)), clamps]
    for act in made:
        if not _denies(act):
            continue
        found = _AFTER_ALL.match(heard, act.span[1])
        if found is None or not (_sure(found) or _ENDS.match(heard, found.end())):
            continue  # "no clamps, there's a connector on the back"
        if isinstance(act, acts.SetClamps):
            made = _there(made, act, found)
        elif not any(_follows(one, found) for one in made):
            words = heard[act.span[1] : found.end()].strip(" ,.;:-…")
            left.append(Unread(words, (found.end() - len(words), found.end()), True))
    return made


def _denies(act: Act) -> bool:
    if isinstance(act, acts.SetClamps):
        return act.where == "none"
    return isinstance(act, (acts.Deny, acts.Unground))


def _there(made: list[Act], denied: acts.SetClamps, found: re.Match[str]) -> list[Act]:
    """The clamps as they are, in place of the denial and of what answered it."""
    clamps = replace(denied, where=_where(found.group()), function="correction")
    return [
        clamps if act is denied else act
        for act in made
        if act is denied or not (isinstance(act, _ANSWERS) and _within(act, found))
    ]


def _sure(found: re.Match[str]) -> bool:
    """Whether it is said without the break behind it, as an ear writes it, that one is there."""
    return _where(found.group()) != "present" or _SOME.match(found.group()) is not None


def _where(words: str) -> Placing:
    if _OUTSIDE.match(words):
        return "outside"
    return "inside" if _INSIDE.match(words) else "present"


def _within(act: Act | Unread, found: re.Match[str]) -> bool:
    return act.span[0] < found.end() and found.start() < act.span[1]


def _follows(act: Act, found: re.Match[str]) -> bool:
    """Whether the thing that is found after all is said, "yes there is, a switch"; or what is there
    besides, "no device. There are internal clamps"."""
    begin = act.span[0]
    return (
        is_thing(act) or isinstance(act, acts.SetClamps)
    ) and found.start() <= begin <= found.end() + 2
