"""What was said last is taken back whole, by whatever verb: "reverse that", "un-swap it", "wipe out
the thing I just said", "undo the clamps". Whether a thing that is named came in last, the journal
tells; with anything told beside it the words stay as they were read."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE

_REVERSE = r"(?:undo|un-do|reverse|revoke|retract|rescind|unwind|roll back|back out of)"
_WIPE = (
    rf"(?:{_REVERSE}|take back|cancel|scratch|forget(?: about)?|wipe(?: out| away)?|erase|delete"
    r"|strike(?: out)?|ignore|disregard|nix|drop|kill|back out|cross out|throw out|toss)"
)
_JUST_NOW = r"(?: (?:just now|just then|last|a (?:second|minute|moment) ago|right before this))"
_SAID = r"(?:said|told you|did|gave you|entered|put in|changed|had you do|asked(?: you)? for)"
_WHAT = (
    r"(?:what|whatever|everything|(?:the|that) (?:last |very last )?(?:thing|bit|part|one|change"
    r"|stuff|business))(?: that)?"
    rf" (?:i|we) (?:(?:just|only just) {_SAID}{_JUST_NOW}?|(?:last )?{_SAID}{_JUST_NOW})"
)
_STEP = r"(?:bit|part|change|step|move|entry|swap|trade|addition|removal|edit|correction)"
#: "Drop the last one" is of a thing, and no step.
_LAST = rf"(?:(?:the|that|my|your|this) (?:very )?last {_STEP}|(?:that|this|my) {_STEP})"
_LAST_ONE = r"(?:the|that) (?:very )?last (?:one|thing)"
_PRONOUN = r"(?:that|it|this)(?: last)?(?: one| bit| thing)?"
_THE = r"(?:the|that|those|them|this)"
_ABOUT = rf"(?: (?:about|regarding|concerning|on|with) {_THE} (?P<about>[^,.;!?]+?))"
_END = (
    r"(?=\s*(?:[.,;!]|$|would\b|will\b|could\b|please\b|now\b|i\b|it\b|leave\b|put\b|keep\b"
    r"|he\b|she\b))"
)
_WHOLE = (
    r"(?:(?:the|that|my|this) (?:whole |entire )?(?:very )?last (?:whole )?(?:sentence|statement"
    r"|line"
    r"|thing i said|breath|remark|order)|(?:the|that|my|this) (?:whole|entire) last (?:sentence|bit"
    r"|thing|line|one|part))"
)
_EVERYTHING = (
    r"(?:(?:(?:everything|all|all of it|the whole (?:thing|lot))(?: (?:in|of|from))? )?"
    rf"{_WHOLE}|(?:everything|all|all of it) (?:in|of|from) {_LAST_ONE})"
)
_NEVER_SAID = (
    r"(?:pretend|act like|let's say|say|make believe|imagine|as if)(?: that)? (?:i|we)"
    r"(?: never| didn't| hadn't) (?:say|said|mention|mentioned|told you|tell you|brought up"
    r"|bring up)"
)
_FRAMES = tuple(
    lazy_pattern(frame)
    for frame in (
        rf"\b{_WIPE} (?:{_WHAT}|{_LAST}){_ABOUT}?{_END}",
        rf"\b(?:take|took) (?:{_WHAT}|{_LAST}|{_LAST_ONE}){_ABOUT}? back\b",
        # "take back everything in that last sentence", "pretend I never said that last bit"
        rf"\b{_WIPE} {_EVERYTHING}{_END}",
        rf"\b(?:take|took) {_EVERYTHING} back\b",
        rf"\b{_NEVER_SAID} (?:{_WHOLE}|{_LAST}|{_LAST_ONE}){_END}"
        r"(?!.*\b(?:would|does|will|is|how|what)\b)",
        rf"\b(?:the|that|those) (?P<named>[a-z0-9 -]+?),? {_NEVER_SAID} (?:it|that|them|so){_END}"
        r"(?!.*\b(?:would|does|will|is|how|what)\b)",
        rf"\b{_WIPE}(?: that)? (?:i|we) ever (?:said|mentioned|brought up)(?: (?:anything|a thing"
        r"|a word"
        rf"))?(?: about)? (?:the|that|those|an?) (?P<named>[a-z0-9 -]+?){_END}",
        rf"\b{_REVERSE} (?:{_PRONOUN}|{_LAST_ONE}){_END}",
        rf"\bun[- ]?(?:swap|change|add|remove|switch|replace|do|take|say|put) {_PRONOUN}{_END}",
        r"\b(?:undo|reverse|take back|un-do|retract) (?:the|that|those) (?P<named>[a-z0-9 -]+?)"
        rf"(?: (?:thing|bit|part|change))?{_END}",
    )
)
#: Said beside it, of the same step: "leave everything the way it was before".
_ASIDE = lazy_pattern(
    r"\b(?:never ?mind|forget (?:it|that)|you know what|know what|(?:would|could|will|can) you"
    r"|(?:leave|put|keep|set) (?:it|that|them|things|everything|it all|all of it)(?: back)?(?: to)?"
    r"(?: just)? (?:the way|like|how|as|what|where) (?:it|they|things|everything|i|we)"
    r"(?: all)? (?:was|were|had (?:it|them)|said|is)"
    r"(?: before| at first| originally| to begin with)?"
    r"|wrong (?:box|one|sheet|page)|no one|no,|no good|no wait)\b"
)
_WEIGHS = lazy_pattern(
    r"\b(?:not|no|never|don't|if|how|what|why|which|when|instead|but|only|except|make|change|add"
    r"|swap|replace|there's|there are|there is|it's (?:an?|the)|next|cables?|wires?|switch\w*"
    r"|recept\w*|outlets?|gfcis?|dimmers?|grounds?|clamps?|cubic|inch\w*|volume|twice|both|two|and"
    r" (?:the|then)|again|before that|all of)\b|n't\b|\?|\d"
)
_FORGOTTEN = lazy_pattern(r"(?:never ?mind|forget (?:it|that)|scratch (?:it|that))$")


def undone(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance as one step back, where it takes back what was said last; else `read`."""
    words = read.heard.lower().replace("’", "'")
    if _is_twofold(read, words):
        return replace(read, acts=tuple(_once(read.acts)))
    if not journal or not (state.items or state.box):
        return read
    if _only_marks(read, journal[-1], state):
        return replace(read, acts=read.acts[1:])
    for frame in _FRAMES:
        found = frame.search(words)
        if found and _is_all(words, found) and _was_last(found, journal[-1]):
            act = acts.Undo(words=read.heard.strip(" .!"), span=(0, len(read.heard)))
            return replace(read, acts=(act,), unread=())
    return read


def _is_all(words: str, found: re.Match[str]) -> bool:
    """Whether nothing else is told, denied or asked."""
    beside = f"{words[: found.start()]} | {words[found.end() :]}"
    beside = _ASIDE.sub(" ", beside).replace("one", "   ")
    return not _WEIGHS.search(beside) and not SPOKEN_VALUE.search(beside)


def _was_last(found: re.Match[str], before: Entry) -> bool:
    """Whether what is named, if anything is, was all that was told last."""
    groups = found.groupdict()
    named = groups.get("about") or groups.get("named")
    if named is None:
        return True
    told = before.heard.lower()
    head = re.sub(r"(?<=[a-z])s$", "", re.findall(r"[a-z0-9-]+", named)[-1])
    kinds = {type(act) for act in before.acts if not isinstance(act, acts.Social)}
    return head in told and len(kinds) == 1 and sum(map(is_thing, before.acts)) <= 1


def _only_marks(read: Utterance, before: Entry, state: State) -> bool:
    """Whether "I take it back" is of what is put right behind it, which was not told last: "I take
    it back, not the 12-3, that's a 12-2"."""
    if len(read.acts) < 2 or not isinstance(read.acts[0], acts.Undo):
        return False
    if any(map(is_thing, before.acts)):
        return False
    return all(
        isinstance(act, acts.Restate)
        and act.instead_of is not None
        and any(references.agrees(item, act.instead_of) for item in state.items)
        for act in read.acts[1:]
    )


def _is_twofold(read: Utterance, words: str) -> bool:
    """Whether one step back is said in two ways: "never mind, forget that last one"."""
    backs = [act for act in read.acts if isinstance(act, acts.Undo)]
    if len(backs) != 2 or any(act.count != 1 for act in backs):
        return False
    first, second = backs
    between = words[first.span[1] : second.span[0]]
    return (
        _FORGOTTEN.match(first.words.lower()) is not None
        and first.words.lower() != second.words.lower()
        and not re.search(r"[a-z]", re.sub(r"\b(?:just|please|yeah|ok|okay|so)\b", "", between))
    )


def _once(told: Sequence[Act]) -> Sequence[Act]:
    """The acts without the first of two steps back."""
    first = next(act for act in told if isinstance(act, acts.Undo))
    return [act for act in told if act is not first]
