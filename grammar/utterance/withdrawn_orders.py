"""What is begun and withdrawn in one breath: "take the stud off, no, don't, the stud stays".

Only where the words are: what stands before, what was begun, what withdraws it, and what is said
behind. Whether that agrees with the box, the dialogue tells.
"""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.utterance.withdrawal_forms import beginning, changing, withdrawing

_SENTENCE = r"[.;!?…]+\s+|\s*\n\s*|\s[-–—]+\s"
_DENIED = ("don't ", "dont ", "not ", "not to ", "never ", "won't ", "wont ", "didn't ", "and ")


#: What was only wished, told by somebody else or seen is no order.
_NO_ORDER = ("wish", "reported", "would", "absent")


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """The places of a change that was begun, and of what withdraws it, in an utterance."""

    begun: int
    """Where it begins; what stands before is told apart from it."""
    withdrawn: int
    """Where it is withdrawn."""
    behind: int
    """Where the withdrawal ends; what follows keeps what there is, or is told anew."""
    agreeing: bool
    """True where it is none unless what follows agrees with the box."""
    several: bool = False
    """True where more than one change was begun, so that nobody can tell which is withdrawn."""

    reported: bool = False
    """True where somebody else said it, so that what follows may put it right."""
    absent: bool = False
    """True where what was seen is found to be something else, and not there."""


_LONGEST = 400
"""Characters: nobody begins and withdraws in more, and it would be looked through at length."""


def withdrawn(heard: str) -> Withdrawn | None:
    """The first change of an utterance that is begun and withdrawn at once.

    >>> found = withdrawn("take the stud off, no, don't")
    >>> found.begun, found.withdrawn, found.behind
    (0, 17, 28)
    """
    text = heard.lower().replace("’", "'")
    if len(text) > _LONGEST or not _hints().search(text):
        return None
    found = [
        one
        for kind, form in withdrawing(text)
        for match in form.finditer(text)
        if (one := _of(text, match, kind)) is not None
    ]
    return min(found, key=lambda one: (one.agreeing, one.withdrawn, -one.behind), default=None)


def _of(text: str, match: re.Match[str], kind: str) -> Withdrawn | None:
    """The change that a withdrawal stands behind; None where nothing was begun before it."""
    start = match.start()
    before = text[:start]
    if kind in ("reported", "would"):
        wished = _begun(before, beginning(kind))
    else:
        wished = _begun(before, beginning("wish")) or _begun(before, beginning("question"))
    orders = [] if kind in _NO_ORDER else _begun(before, beginning("order"))
    if kind in ("broken", "right", "absent"):
        orders = orders or _begun(before, beginning("claim"))
    if not wished and not orders:
        return None
    begun = wished[0] if wished else orders[0]
    if (again := match.groupdict().get("again")) and not _said_again(match, again, before[begun:]):
        return None
    if not wished and _other_stays(match[0], before[begun:]):
        return None
    if not wished and _is_done_with(match[0], before[begun:], text[match.end() :]):
        return None
    several = not wished and len(_without_same(orders, before)) > 1
    several = several or _told_between(before[begun:])
    if kind == "refused":
        if _KEPT.search(before[begun:]):  # "I wanted to keep it, but decided not to"
            return None
        several = several or _ANEW.match(text[match.end() :]) is not None
    several = several or (not wished and beginning("further").search(before[begun:]) is not None)
    agreeing = kind in ("agreeing", "right", "absent")
    end = match.end()
    return Withdrawn(begun, start, end, agreeing, several, kind == "reported", kind == "absent")


_KEPT = re.compile(r"\b(?:keep|leave|stay)\b")
#: "Never mind, make it a 14-2", "changed my mind, take it out": an order of what was begun.
_ANEW = re.compile(
    r"\W*(?:and |so |then |just )*(?:make|call|take|pull|yank|drop|swap|change|put|use|add)\b"
)


def _begun(before: str, form: re.Pattern[str]) -> list[int]:
    """Where changes begin in the last sentence that holds any: at its head, behind a comma, or by
    ear, which hears no break, behind any word."""
    ends = [0, *(match.end() for match in re.finditer(_SENTENCE, before)), len(before)]
    marked = re.search(r"[,.;!?…]", before) is not None
    for start, end in reversed(list(pairwise(ends))):
        places = [
            match.start()
            for match in form.finditer(before, start, end)
            if _opens(before[start : match.start()], marked)
        ]
        if places:
            return places
    return []


def _told_between(begun: str) -> bool:
    """Whether something else was told behind the sentence in which a change is begun."""
    _, *others = re.split(_SENTENCE, begun)
    return any(len(other.split()) > 4 for other in others)


def _opens(lead: str, marked: bool) -> bool:
    if lead.endswith(_DENIED) and lead.strip() != "and":
        return False
    return not marked or not lead.strip() or _LEAD.search(lead) is not None


_LEAD = re.compile(
    r"(?:^|[,:])\s*(?:(?:ok|okay|so|well|oh|ah|and|um|uh|hey|now|then|please|just|maybe|yeah)\W+)*$"
)


def _without_same(orders: list[int], before: str) -> list[int]:
    """The orders but for those that are of one: "let's go", "let me change"."""
    return [
        place
        for at, place in enumerate(orders)
        if not at or len(before[orders[at - 1] : place].split()) > 2
    ]


_TAKEN = re.compile(
    r"(?:take|pull|drop|lose|scratch|remove|delete|ditch|yank|forget|knock|get rid)\b"
)
_STAYS = re.compile(
    r"\b(?:leave|leaving|keep|keeping) the ([a-z' -]+)|\bthe ([a-z' -]+) (?:stay|remain)"
)


def _other_stays(match: str, begun: str) -> bool:
    """ "Take the dimmer out, wait, leave the twelves": what stays is not what is taken out."""
    named = _STAYS.search(match)
    if named is None or not _TAKEN.match(begun):
        return False
    return not any(word in begun for word in re.findall(r"[a-z]{3,}", named[1] or named[2]))


_ONLY_LEFT = re.compile(
    r"\W*(?:(?:so|and|it's|there's|there are|that leaves|we've got|i've got|leaves)\W+)*"
    r"(?:only|just) (?:the )?(?:an?|one|two|three|four|five|six|seven|eight|[1-9])\b"
)


def _is_done_with(match: str, begun: str, behind: str) -> bool:
    """ "Take the 14-3 out, forget it, only two 14-2s": it goes, and what is left is told."""
    gone = "forget" in match and _TAKEN.match(begun) is not None
    return gone and _ONLY_LEFT.match(behind) is not None


def _said_again(match: re.Match[str], verb: str, begun: str) -> bool:
    """Whether "don't forget the fourteen" is of what was begun, by its verb or by what it is of."""
    what = match["what"]
    own = what in ("it", "that", "them", "those", "over") or what in begun
    return own and (verb in begun or verb in ("want", "need", "do"))


@cache
def _hints() -> re.Pattern[str]:
    """What one of these stands in, may be withdrawn: most utterances hold none."""
    return re.compile(
        r"\b(?:no|nah|nope|naw|don'?t|not|never|had (?:it|that|them) right|second thoughts?|won'?t"
        r"|wait|stop|hold (?:on|it)|hang on|forget|scratch that|didn'?t"
        r"|wrong|mistaken|full of|which|mind|ignore|listen|off"
        r"|plans?|prints?|drawings?|specs?|papers?|can'?t|couldn'?t|cannot|know|telling|moved"
        r"|took|dropped|cut|scratched|crossed|struck|told|counting|thinking|looking|talking"
        r"|leave|keep|skip|cancel|nix|decided|better|changed|right|said|told|stays?|staying|remains?"
        r"|reading|confused|mixed up|out of date|so|nonsense|baloney|bull|garbage|hooey)\b"
    )


__all__ = ["Withdrawn", "changing", "withdrawn"]
