"""What goes on as it came in: "two 12s and a ground in, same out"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

SAME_PIECES = ("same", "ditto")
_WAY = (
    r"(?:out|off|away|on to\b|on$|on(?=[,.;]| to\b)|onward|onwards|leaving|through the other side)"
)
_GOING = (
    r"(?:(?:go(?:es|ing)?|com(?:es?|ing)|heads?|heading|runs?|running|leav(?:es?|ing)|is|are)"
    r" (?:right |straight |back |on )*)?(?:back |right )*"
)
#: "Same out", "and the same going on to the next", "it leaves the same way".
_SAME = lazy_pattern(
    r"(?i)(?:[,;.]\s*|\b)(?:(?:and|then|with|plus|also)\s+)*"
    r"(?:(?:the |another )?(?:same|ditto)(?: (?:again|thing|number|amount|stuff|deal|story))*"
    rf" {_GOING}{_WAY}"
    r"|(?:it |they |that )?(?:goes|go|going|leaves|leaving|leave|comes|come|heads|head)"
    r"(?: (?:back|right|out|on|off))* (?:exactly )?the same(?: way| thing)?(?=\s*(?:[,.;]|$))"
    r"|(?:and )?out (?:exactly )?the same(?: way)?(?=\s*(?:[,.;]|$)))"
)
_OUT = lazy_pattern(r"(?i)\b(?:out|leav\w+|on to|straight|through|unbroken|uncut)\b")
#: "Would the same out fit", "not the same out": none that is there.
_NOT_THERE = lazy_pattern(r"(?i)\b(?:not|isn't|if|would|could|nothing|never|no|about)\s*$")
#: Behind the words the wires may be listed once more.
_LISTED = lazy_pattern(r"(?i)[\s,:;.]*(?:so|that is|that's|meaning|with|and)?[\s,]*")
Wires: TypeAlias = acts.AddConductors | acts.AddGrounds | acts.AddCable
_WIRES = (acts.AddConductors, acts.AddGrounds, acts.AddCable)


def same_out(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two 12s and a twelve ground in, same out": as many once more, each end of a spliced
    conductor counting by itself, 314.16(B)(1); where it is not clear of what, it stays unread."""
    for found in _SAME.finditer(heard):
        if _NOT_THERE.search(heard, 0, found.start()):
            continue
        words = found.group().strip(" ,;.")
        span = (found.end() - len(words), found.end())
        if any(_meets(act.span, span) and not _wordless(act) for act in made):
            continue
        at = sum(act.span[1] <= span[0] for act in made)
        coming = _coming(made[:at], heard, span[0])
        if _said_behind(made[at:], coming, heard, span[1]):
            continue
        left[:] = [run for run in left if not _meets(run.span, span)]
        if not coming and not any(isinstance(act, _WIRES) for act in made):
            made = [act for act in made if not _meets(act.span, span)]
            made.insert(at, _told_before(words, span))
            continue
        if not coming or any(
            act.count is None and type(act) is not acts.AddCable for act in coming
        ):
            left.append(Unread(words, span, True))
            continue
        made = [act for act in made if not _meets(act.span, span)]
        more = [_going(act, words, span) for act in coming]
        at = sum(act.span[1] <= span[0] for act in made)
        made = [*made[:at], *more, *made[at:]]
    return made


def _told_before(words: str, span: tuple[int, int]) -> acts.More:
    """ "Same out", by itself: as many as came in before."""
    target = acts.Reference("wire", which="all", words=words)
    return acts.More(target=target, count=None, words=words, span=span, function="request")


def _going(act: Act, words: str, span: tuple[int, int]) -> Act:
    """What goes out as it came in."""
    if isinstance(act, (acts.AddCable, acts.AddConductors)) and act.role is not None:
        return replace(act, role="out", words=words, span=span)
    return replace(act, words=words, span=span)


def _coming(before: Sequence[Act], heard: str, end: int) -> list[Wires]:
    """The wires told last before a place, as far as none of them goes out."""
    coming: list[Wires] = []
    for act in reversed(before):
        if isinstance(act, (acts.OtherTalk, acts.Social)):
            continue
        if not isinstance(act, _WIRES) or (act.awg is None and isinstance(act, acts.AddConductors)):
            break
        if _OUT.search(heard[act.span[0] : end]):
            break
        coming.insert(0, act)
        end = act.span[0]
    return coming


def _said_behind(after: Sequence[Act], coming: Sequence[Wires], heard: str, end: int) -> bool:
    """ "Goes out the same, two 12s and a ground": they are told by themselves."""
    first = after[0] if after else None
    if first is None or not isinstance(first, _WIRES):
        return False
    if not _LISTED.fullmatch(heard, end, first.span[0]):
        return False
    return any(type(act) is type(first) and act.count == first.count for act in coming)


def _wordless(act: Act) -> bool:
    return isinstance(act, (acts.OtherTalk, acts.Number, acts.AskUnknown, acts.More, acts.OpenBox))


def _meets(one: tuple[int, int], other: tuple[int, int]) -> bool:
    return one[0] < other[1] and other[0] < one[1]
