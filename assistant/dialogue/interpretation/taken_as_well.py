""" "Take the switch out", "and the receptacle": a thing that is there goes as the one before it;
and "swap one 14-2 for a 14-3", "swap the other one too": the other becomes what the first did."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference, Unread, Utterance
from boxaloud.grammar.clauses.act_fields import KIND_OF

_LEAD = re.compile(
    r"(?i)\W*(?:(?:h+m+|hello|hi|hey|please|uh+|um+|oh|ok|okay|yeah|yep|yes|well|now|then|actually)\W+)*"
    r"(?:and|plus|also|same (?:with|for|goes for))\W+(?:also\s+)?(?:the|that)\s+"
)
_TAIL = re.compile(r"(?i)(?:,?\s+(?:too|as\s+well|also|now|then|please))*\W*")


def taken_as_well(read: Utterance, before: Entry, state: State) -> Utterance:
    """The utterance as an order to take out what it names, where the one before took something out
    and this only goes on with it; else `read` as it is."""
    if len(read.acts) != 1 or before.weighty or not before.acts or state.pending:
        return read  # an order that waits to be confirmed took nothing out yet
    act = read.acts[0]
    if not isinstance(act, (acts.AddDevice, acts.AddFitting, acts.AddCable)):
        return read
    if not all(isinstance(one, acts.Remove) for one in before.acts) or act.count not in (None, 1):
        return read
    lead = _LEAD.match(read.heard)
    if lead is None or act.span[0] > lead.end() or not _TAIL.fullmatch(read.heard, act.span[1]):
        return read
    target = Reference(
        KIND_OF[type(act)], getattr(act, "name", None), getattr(act, "awg", None),
        getattr(act, "conductors", None), words=act.words,
    )  # fmt: skip
    if references.find(state, target) is None:
        return read
    order = acts.Remove(target=target, words=act.words, span=act.span, function="request")
    return replace(read, acts=(order,))


#: "Swap the other one too", "the other 14-2 as well", "do the same to the other one".
_OTHER_TOO = re.compile(
    r"(?i)\W*(?:(?:and|ok|okay|now|then|yeah|yes|actually|so|oh|um|uh|hello|hi|hey|please)\W+)*"
    r"(?:(?:(?:(?:swap|change|switch|replace|do|make|turn)(?: out)?|same for|same with) )?the other"
    r"(?: (?:one|cable|14|12|10))?(?:[-/ ][234])?,? (?:too|as well|also|the same way|likewise)"
    r"|do the same (?:to|for|with) the other(?: (?:one|cable))?(?: too| as well)?)(?:,? please)?\W*"
)


def changed_as_well(read: Utterance, before: Entry, state: State) -> Utterance:
    """The utterance as the order before it, of the one thing that is left of its kind, which is
    asked where several are left; `read` as it is where that order was no change of one cable."""
    if before.weighty or state.pending or not _OTHER_TOO.fullmatch(read.heard):
        return read
    orders = [act for act in before.acts if not isinstance(act, acts.Social)]
    order = orders[0] if len(orders) == 1 else None
    if not isinstance(order, acts.Replace) or order.target.count != 1 or not order.target.awg:
        return _copies_nothing(read)
    left = references.find(state, replace(order.target, count=None, which="said", words=""))
    if left is None or left.content.count != 1:
        return replace(read, acts=(), unread=(Unread.whole(read.heard),))
    span = (0, len(read.heard))
    again = replace(order, words=read.heard, span=span)
    return replace(read, acts=(again,), unread=())


def _copies_nothing(read: Utterance) -> Utterance:
    """ "Do the same to the other one", behind no change, is asked and begins no box like this."""
    if not any(isinstance(act, acts.CopyBox) for act in read.acts):
        return read
    return replace(read, acts=(), unread=(Unread.whole(read.heard),))
