"""What one breath tells and denies: which of both is meant is open."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.acts.reference import Which
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import pointed_at
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_CORRECTING = lazy_pattern(r"(?i)\b(?:wait|sorry|actually|mean|no,|scratch|oops|correction|not)\b")


def denied_at_once(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A switch, no devices": the switch stays, and the denial is asked about."""
    kept: list[Act] = []
    for act in made:
        before = next((one for one in kept if isinstance(one, acts.AddDevice)), None)
        every = (
            isinstance(act, acts.Deny) and act.target.kind == "device" and act.target.name is None
        )
        if before is not None and every:
            between = heard[before.span[1] : act.span[0]]
            if not _CORRECTING.search(between):
                left.append(Unread(act.words, act.span, True))
                continue
        kept.append(act)
    return kept


_IT_IS = lazy_pattern(
    r"(?i)(?:no,? )?(?:it|that|this|they|those|these)(?:['’](?:s|re)| is| are| was| were)\b"
)


@joining
def is_another(last: Act, act: Act, heard: str) -> Act | None:
    """ "It isn't a 12-2, it's a 14-2": one of those that are there is another, and none of the
    others is denied."""
    if (
        isinstance(last, acts.Deny)
        and isinstance(act, acts.Restate)
        and act.instead_of is None
        and just_like(act.thing).kind == last.target.kind
        and _IT_IS.match(act.words)
    ):
        return replace(act, instead_of=last.target, span=(last.span[0], act.span[1]))
    return None


_WHICH: dict[str, Which] = {"last": "last", "other": "other"}
_ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5}
#: "… the second is" before what it is.
_NTH_IS = lazy_pattern(
    r"(?i)\b(?P<which>(?:the |that |my )(?P<nth>first|second|third|fourth|fifth|last|other"
    r"|(?:left|right|top|bottom|upper|lower|middle|front|back|near|far)(?:[ -]hand)?(?: side)?)"
    r"(?: (?:one|cable|run|wire|device))?)(?: that| which)?"
    r"(?:['’]s| is| was| should be| has to be| needs to be| will be)"
    r"(?: (?:really|actually|a|an|just|now|going to be|supposed to be))* ?$"
)


@joining
def nth_is_another(new: Act, denied: Act, heard: str) -> Act | None:
    """ "The second is 14-3 not 14-2": one of those is another, and not all of them are denied."""
    if not isinstance(new, acts.AddCable | acts.AddDevice) or not isinstance(denied, acts.Deny):
        return None
    said = _NTH_IS.search(just_before(heard, new.span[0]))
    if said is None or denied.target.kind != pointed_at(new, "").kind:
        return None
    nth = said["nth"].lower()
    which, ordinal = _WHICH.get(nth, "said"), _ORDINALS.get(nth)
    if isinstance(new, acts.AddDevice):
        ordinal = None  # the second device is not the second of those that are denied
    target = replace(
        denied.target, count=None if ordinal else 1, ordinal=ordinal, which=which,
        words=said["which"],
    )  # fmt: skip
    start = new.span[0] - len(said[0])
    span = (start, denied.span[1])
    return acts.Replace(
        target=target,
        thing=replace(new, count=1, doubts=()),
        words=heard[slice(*span)],
        span=span,
        function="correction",
    )


_SO_NOT = lazy_pattern(r"(?i)[\s,.;–-]*(?:(?:and|so|it['’]?s) )?not (?:(?:a|an|the|another) )?")


#: "That's a 14-3 on the left, not a 14-2": one of them, by where it is.
_THAT_IS = lazy_pattern(
    r"(?i)\b(?:that|this|it|the one (?:on|at|in) the [a-z]+)(?:['’]s| is| one['’]s| one is) $"
)
_AT_A_SIDE = lazy_pattern(
    r"(?i) (?:on|at|in|coming in|from) (?:the )?(?:left|right|top|bottom|back|front|middle|side"
    r"|end)(?: side)?(?=,? )"
)


def _that_is(told: Act, denied: acts.Deny, heard: str) -> Act:
    """What is told of one thing by where it is, as that it is another than what is denied."""
    thing = told.thing if isinstance(told, acts.Restate) else told
    if not isinstance(thing, acts.AddCable | acts.AddDevice) or thing.count not in (None, 1):
        return told
    before = _THAT_IS.search(just_before(heard, thing.span[0]))
    place = _AT_A_SIDE.match(heard, thing.span[1])
    if before is None or place is None:
        return told
    span = (thing.span[0], place.end())
    return acts.Replace(
        target=acts.Reference("anything", count=1, words=denied.words),
        thing=replace(thing, count=1, doubts=()), words=thing.words, span=span,
        function="correction",
    )  # fmt: skip


@joining
def some_not_others(changed: Act, denied: Act, heard: str) -> Act | None:
    """ "One's just a duplex, not a GFCI": of those that are denied so many are another, and the
    rest stays."""
    if not isinstance(denied, acts.Deny):
        return None
    changed = _that_is(changed, denied, heard)
    if not isinstance(changed, acts.Replace):
        return None
    new, was, target = just_like(changed.thing), denied.target, changed.target
    if new.kind != was.kind or target.kind not in ("anything", was.kind):
        return None
    if _SO_NOT.fullmatch(heard, changed.span[1], denied.span[0]) is None:
        return None
    if target.kind == "anything" and target.ordinal is None:
        target = replace(
            target, kind=was.kind, name=was.name, awg=was.awg, conductors=was.conductors
        )
    span = (changed.span[0], denied.span[1])
    return replace(changed, target=target, span=span)
