"""Lists that a word at their head denies: "no devices, clamps or grounds".

Nothing denied is counted. A list with a number or an article in it goes on telling: "no clamps, one
switch or two"; so does one of another number: "no clamps, a dimmer or switch".
"""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.grammar.lazy_patterns import lazy_pattern

_LIST = lazy_pattern(
    r"(?i)\b(?:no|without|zero|not any|neither|(?:don['’]t|doesn['’]t|do not|does not) have)\s+"
    r"(?:any )?(?P<first>[a-z][a-z -]*?)(?P<tail>(?:,\s*(?:or |nor )?[a-z][a-z -]*?)*"
    r",?\s+(?:or|nor)\s+(?:any )?(?P<last>[a-z][a-z-]*(?: (?:inside|fittings?|clamps?|blocks?"
    r"|wires?|conductors?|grounds?|devices?|studs?|rings?|boxes|connectors?))*))(?![\w-])"
)
_GOES_ON = lazy_pattern(
    r"(?i)\b(?:an?|the|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|my|some|just"
    r"|maybe|and|but|with|is|are|has|have|not|no)\b"
)
_SEVERAL = ("s", "es")


def denied_lists(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with each thing of a denied list as what is not there."""
    for found in _LIST.finditer(heard):
        start, end = found.span("tail")
        if _GOES_ON.search(found["tail"]) or not _alike(found["first"], found["tail"]):
            continue
        made = [_denied(act) if start <= act.span[0] < end else act for act in made]
        left[:] = [run for run in left if not start <= run.span[0] < run.span[1] <= end]
    return made


def _alike(first: str, tail: str) -> bool:
    """Whether all of a list are said of several, or all of one."""
    listed = [first, *tail.replace(" nor ", ",").replace(" or ", ",").split(",")]
    said = [name.strip() for name in listed if name.strip()]
    several = [name.removesuffix(" inside").endswith(_SEVERAL) for name in said]
    return all(several) or not any(several)


def _denied(act: Act) -> Act:
    """What is not there; what is said with a count stays as it is."""
    if isinstance(act, acts.SetClamps):
        return replace(act, where="none", doubts=())
    if type(act) not in KIND_OF or getattr(act, "count", None) is not None:
        return act
    target = Reference(
        kind=KIND_OF[type(act)], name=getattr(act, "name", None), which="all", words=act.words
    )
    return acts.Deny(target=target, words=act.words, span=act.span)
