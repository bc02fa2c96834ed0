"""What one breath tells and denies: which of both is meant is open."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.acts.reference import Which
from boxaloud.grammar.building.plain_things import just_like
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
    r"(?i)\b(?P<which>(?:the |that |my )(?P<nth>first|second|third|fourth|fifth|last|other)"
    r"(?: (?:one|cable|run|wire))?)(?:['’]s| is| was| should be| has to be| needs to be| will be)"
    r"(?: (?:really|actually|a|an|just|now|going to be|supposed to be))* ?$"
)


@joining
def nth_is_another(new: Act, denied: Act, heard: str) -> Act | None:
    """ "The second is 14-3 not 14-2": one of those is another, and not all of them are denied."""
    if not isinstance(new, acts.AddCable) or not isinstance(denied, acts.Deny):
        return None
    said = _NTH_IS.search(just_before(heard, new.span[0]))
    if said is None or denied.target.kind != "cable":
        return None
    nth = said["nth"].lower()
    which = _WHICH.get(nth, "said")
    target = replace(
        denied.target, count=1 if nth in _WHICH else None, ordinal=_ORDINALS.get(nth),
        which=which, words=said["which"],
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
