"""What a denial leaves as it is: "other than the GFCI it has no receptacle, or a switch", "nobody
ran any tens". What is excepted stays, and so does what was never there."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value

#: What is excepted, up to the next break: "besides that combo", "just the GFCI".
_EXCEPTED = lazy_pattern(
    r"(?i)\b(?:other than|besides|apart from|aside from|outside of|except(?:ing)?(?: for)?|but for"
    r"|beyond|(?:just|only)(?= (?:the|that|those|these|your|my)\b))"
    r" (?:(?:the|that|those|these|this|your|my|an?|one|two|three|four|\d+)(?: |$))+"
    r"(?:[a-z0-9/-]+ ?){1,3}"
)
_DENIES = lazy_pattern(
    r"(?i)\b(?:no|not|none|never|nothing|nobody|no one|without|neither)\b|n['’]?t\b"
)
#: What a denial goes on with: "or a switch", "nor any tens".
_OR = lazy_pattern(r"(?i)\bn?or (?:(?:an?|any|even|one|the) )*$")
#: "Nobody ran tens", "no one's pulled any 14 in there".
_NOBODY = lazy_pattern(
    r"(?i)(?:(?:and|so|because|since|but)\W+)*(?:nobody|no[ -]one|none of us)"
    r"(?:['’]s| has)?(?: ever)?"
    r" (?:ran|run|put|uses?|used|pulled|brought|added|installed|fished|left) (?:in )?(?:an? |any )?"
    r"(?P<size>\d+|fourteen|twelve|ten|eight|six)(?:['’]?s)?"
    r"(?: (?:in|into|to|through|down|up|here|there|it|this|that|one|box|the|pipe|conduit|wall))*"
)
#: "I haven't swapped a thing, not the dimmer": what is named behind it was left as it is, too.
_LEFT_ALONE = lazy_pattern(
    r"(?i)\W*(?:(?:and|so|no|well|oh|but|nope|um|uh|hello|hi|hey|ok|okay|please|yeah)\W+)*"
    r"(?:(?:i|we|he|she|they|nobody|no[ -]one)"
    r"(?:['’](?:ve|d|s))? )?(?:(?:haven|hasn|hadn|didn|ain)['’]?t|(?:have|has|had|did) not|never)"
    r"(?: (?:even|actually|really|yet))* (?:swap|chang|touch|mov|pull|tak|took|remov|replac|switch"
    r"|mess|cut|yank|done|do\b|undo|add|put|rip)[a-z]*(?: (?:with|out|off|up|back))?"
    r" (?:a|any|one|single|damn|thing|anything|nothing|of|them|it|those|that|the)\b"
    r"(?!.*\b(?:but|only|except|just|until|besides|there['’]s|there (?:is|are)|it['’]s|i['’]ve"
    r" got|now)\b)"
)
#: "We haven't pulled the 14-3 out": of what is there, and stays.
_LEFT_IN = lazy_pattern(
    r"(?i)[^,.;]*\b(?:n['’]?t|not|never)\b(?: (?:even|actually|really|yet))* (?:swap|chang|touch"
    r"|mov|pull|tak|took|remov|replac|cut|yank|rip)[a-z]* (?:the|that|those|any of"
    r"|either)\b[^,.;]*$"
)
#: What the last piece of some words begins with: "…, not the dimmer".
_NOT_THAT = lazy_pattern(r"(?i)(?:^|[,.;] *|\b(?:and|or) )(?:not|nor|neither|none)\b[^,.;]*$")


#: "Nobody added a dimmer", "no one's run another 10-2 in here".
_NOBODY_DID = lazy_pattern(
    r"(?i)\W*(?:(?:and|so|no|well|but)\W+)*(?:nobody|no[ -]one|none of us)(?:['’]s| has| had)?"
    r"(?: ever| even)?"
    r" (?:ran|run|used|pulled|put|brought|added|installed|fished|stuck|hung) (?:in )?"
    r"(?:an?|any|another|one|two|three)\b(?![^,.;!?]*\b(?:but|and|except|besides|until|till|so)\b)"
    r"[^,.;!?]*"
)
#: What may stand behind it, "I'd have seen it", and nothing that tells of the box.
_SAID_AFTER = lazy_pattern(
    r"(?i)\W*(?:(?:(?:and|because|or) )?(?:i|we)(?:['’]d| would) (?:have |of )?"
    r"(?:seen?|know|known|noticed?|heard?|remember(?:ed)?)(?: (?:it|that|about it|if))?\W*)?$"
)
#: "I haven't changed a thing, not the switch": what is named is as it was.
_UNTOUCHED = lazy_pattern(
    r"(?i)^\W*(?:(?:no|well|and|so|oh)\W+)*(?:(?:i|we|they|he|she) )?(?:haven['’]?t|hasn['’]?t"
    r"|didn['’]?t|ain['’]?t|never|nobody(?:['’]s)?|no one(?:['’]s)?)(?: even| ever)?"
    r" (?:swap|chang|touch|mov|tak|took|pull|remov|replac)[a-z]* (?:out )?"
    r"(?:a (?:single )?thing|anything|any of (?:it|them|that)|nothing)\b"
    r"(?!.*\b(?:but|except|besides|until|till|now|anymore)\b)"
)


#: "You won't find a twelve anywhere, or a fourteen": no more than that is said.
_SOUGHT = lazy_pattern(
    r"(?i)\W*(?:(?:and|so|no|well|oh)\W+)*(?:you (?:won|don|can)['’]?t|i (?:can|don"
    r"|couldn)['’]?t|you(?:['’]ll| will) never) (?:ever )?(?:find|see|spot|run into|come across)\b"
    r"(?!.*\b(?:but|and|just|only|except|there['’]s|there (?:is|are)|it['’]s)\b)"
)
_SIZE = lazy_pattern(
    r"(?i)(?:an? |any |n?or )*(?P<size>\d+|fourteen|twelve|ten|eight|six)(?:['’]?s)?"
    r"(?: anywhere)?|anywhere"
)


def denied_things(read: Utterance, state: State) -> Utterance:
    """The utterance without what it denies of things that are not there, or excepts."""
    if not state.items or state.pending or not _DENIES.search(read.heard):
        return read
    read = _untouched(_left_alone(_nobody_did(read, state)))
    denied = any(isinstance(act, acts.Deny | acts.NoneOfThem) for act in read.acts)
    if not denied and _SOUGHT.match(read.heard) is None:
        return read
    spans = [found.span() for found in _EXCEPTED.finditer(read.heard)]
    kept = [reference for act in read.acts if _within(act, spans) for reference in _meant(act)]
    left = tuple(
        act
        for act in read.acts
        if not (_within(act, spans) and _is_there(state, act))
        and not _is_excepted(state, act, kept)
        and not _goes_on(read, state, act)
    )
    if left == read.acts:
        return read
    kept_as_is = acts.Keep(words=read.heard.strip(), span=(0, len(read.heard)))
    return replace(read, acts=left or (kept_as_is,))


def _within(act: Act, spans: list[tuple[int, int]]) -> bool:
    return any(start <= act.span[0] < end for start, end in spans)


def _meant(act: Act) -> list[Reference]:
    if isinstance(act, acts.Deny):
        return [replace(act.target, count=None)]
    return [replace(references.to_thing(act), count=None)] if is_thing(act) else []


def _is_there(state: State, act: Act) -> bool:
    return any(references.agrees(item, like) for like in _meant(act) for item in state.items)


def _is_excepted(state: State, act: Act, kept: list[Reference]) -> bool:
    """ "No separate switch besides that combo": all that the denial can mean is excepted."""
    if not isinstance(act, acts.Deny) or not kept:
        return False
    target = replace(act.target, count=None)
    found = [item for item in state.items if references.agrees(item, target)]
    return bool(found) and all(
        any(references.agrees(item, like) for like in kept) for item in found
    )


def _goes_on(read: Utterance, state: State, act: Act) -> bool:
    """ "No receptacle, or a switch": another thing that is denied, and is not there."""
    if not is_thing(act) and not isinstance(act, acts.Number):
        return False
    if isinstance(act, acts.Number) and _is_a_size(state, act.value):
        return False
    before = read.heard[: act.span[0]]
    first = getattr(act, "count", None) in (None, 1)
    return first and _OR.search(before) is not None and not _is_there(state, act)


def _untouched(read: Utterance) -> Utterance:
    """The utterance without what nobody added, and what it says was left as it was."""
    found = _NOBODY_DID.match(read.heard)
    # what is said behind it may be of the box, and is then left as it was read
    nobody = found is not None and _SAID_AFTER.match(read.heard[found.end() :]) is not None
    still = _UNTOUCHED.match(read.heard) is not None
    left = tuple(
        act
        for act in read.acts
        if not (
            (nobody and is_thing(act)) or (still and isinstance(act, acts.Deny | acts.NoneOfThem))
        )
    )
    unread = () if nobody else read.unread
    if left == read.acts and unread == read.unread:
        return read
    kept = acts.Keep(words=read.heard.strip(), span=(0, len(read.heard)))
    return replace(read, acts=left or (kept,), unread=unread)


def _nobody_did(read: Utterance, state: State) -> Utterance:
    """ "Nobody ran tens": of what is not there, it says nothing that weighs."""
    sought = _SOUGHT.match(read.heard) is not None
    kept = tuple(run for run in read.unread if not _never_there(state, run, sought))
    return replace(read, unread=kept) if kept != read.unread else read


def _left_alone(read: Utterance) -> Utterance:
    """The utterance without what is denied of things that somebody left as they are."""
    if not _LEFT_ALONE.match(read.heard):
        return read
    ends = [read.heard[: act.span[1]] for act in read.acts]
    denied = [bool(_NOT_THAT.search(end) or _LEFT_IN.match(end)) for end in ends]
    if not read.acts or not all(denied) or any(run.weighty for run in read.unread):
        return read
    kept_as_is = acts.Keep(words=read.heard.strip(), span=(0, len(read.heard)))
    return replace(read, acts=(kept_as_is,))


def _never_there(state: State, run: Unread, sought: bool) -> bool:
    words = run.words.strip(" .,;!")
    found = _NOBODY.fullmatch(words) or (_SIZE.fullmatch(words) if sought else None)
    if found is None:
        return False
    if found["size"] is None:  # "anywhere"
        return True
    return not _is_a_size(state, spoken_value(found["size"]))


def _is_a_size(state: State, value: Decimal | None) -> bool:
    """Whether a cable or wire of that size is there."""
    return any(getattr(item.content, "awg", None) == value for item in state.items)


__all__ = ["denied_things"]
