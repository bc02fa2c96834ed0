"""An utterance cut at what it says of the boxes of a job: the parts, and what of them is kept."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import sound_effects
from boxaloud.assistant.dialogue.nlg.sentences import listed_doubts, say
from boxaloud.assistant.dialogue.reply import Reply, SystemAct
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread, Utterance
from boxaloud.grammar.clauses.act_fields import KIND_OF

OUTSIDE = (acts.Alias, acts.NewJob, acts.SendReport, acts.TellProject)
"""Acts that take whoever keeps the jobs."""


def behind(read: Utterance, start: int) -> Utterance:
    """What of an utterance stands behind a place, as an utterance of its own."""
    heard = read.heard[start:]
    at = start + len(heard) - len(heard.lstrip(" ,.;:/-"))
    return Utterance(
        read.heard[at:].rstrip(),
        tuple(_moved(act, -at) for act in read.acts if act.span[0] >= start),
        tuple(
            Unread(run.words, (run.span[0] - at, run.span[1] - at), run.weighty)
            for run in read.unread
            if run.span[0] >= start
        ),
    )


def led_by(act: Act, read: Utterance, heard: str, start: int) -> Utterance:
    """An utterance that begins with an act, with what was read of the words behind it."""
    return Utterance(
        heard,
        (act, *(_moved(one, start) for one in read.acts)),
        tuple(
            Unread(run.words, (run.span[0] + start, run.span[1] + start), run.weighty)
            for run in read.unread
        ),
    )


def _moved(act: Act, by: int) -> Act:
    return replace(act, span=(act.span[0] + by, act.span[1] + by))


def kept_of(reply: Reply) -> list[SystemAct]:
    """What is said of a part before a box event: no question, but words left unread are told."""
    made = [one for one in reply.acts if one.act not in ("question", "caution")]
    if reply.asks == "unread" and reply.left_over:
        left = listed_doubts(reply.left_over)
        made.append(SystemAct("echo", say("left_over", words=left)))
    return made


def is_done(act: Act) -> bool:
    """False for what waits for a yes: the box at hand holds it until then."""
    return not sound_effects.is_asked_first(act)


def weighs(read: Utterance, start: int, end: int) -> bool:
    """True where words that weigh were left unread in a part of an utterance."""
    return any(start <= run.span[0] < end for run in read.weighty)


_FURTHER = re.compile(r"\b(?:more|another|extra|additional|further|second)\b")
_ON_TOP = re.compile(r"\b(?:plus|added?|adding|also|another|extra|more)(?: (?:a|an|the|one))?\W*$")


def changed(act: Act, heard: str) -> Act:
    """ "Same but with 14s", "same as the den but a dimmer": what differs from the box copied. What
    comes on top, "plus a dimmer", is one thing more."""
    before = heard[: act.span[0]].lower()
    if _FURTHER.search(act.words.lower()) or _ON_TOP.search(before):
        return act
    if isinstance(act, acts.Size) and act.awg is not None:
        everything = Reference("anything", which="all", words=act.words)
        return acts.Resize(target=everything, awg=act.awg, words=act.words, span=act.span)
    if isinstance(act, tuple(KIND_OF)):
        return acts.Restate(thing=act, words=act.words, span=act.span, doubts=act.doubts)  # type: ignore[arg-type]
    return act


def of_this_job(told: Sequence[Act]) -> Sequence[Act]:
    """The acts up to a new job: what is said after it is of that job's first box."""
    new = next((at for at, act in enumerate(told) if isinstance(act, acts.NewJob)), len(told))
    return told[: new + 1]


def outside(told: Sequence[Act]) -> tuple[Act, ...]:
    """What of an utterance takes whoever keeps the jobs."""
    return tuple(act for act in told if isinstance(act, OUTSIDE))


def of_another(told: Sequence[Act]) -> tuple[str, ...]:
    """What was said after a new job, and is not used here."""
    return tuple(act.words for act in told[len(of_this_job(told)) :] if act.words)


def perhaps_in_all(act: Act) -> Act:
    """ "The den has three 14-2s": of cables that are there, all or so many more; it is asked."""
    if not isinstance(act, acts.AddCable) or (act.count or 1) < 2:
        return act
    return replace(act, doubts=(*act.doubts, acts.Doubt("count", "some")))
