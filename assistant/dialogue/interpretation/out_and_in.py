"""What left the box, and what came in its place, however it is told: "I yanked two of the THHN back
out", "I'm down a receptacle, so one's left", "out with all three 14-2s, in with two 14-3s". Which
line it is, and whether so many are there, the box tells; anything else leaves the words as read."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation.lines_named import Named, named_things
from boxaloud.assistant.dialogue.interpretation.said_beside_sizes import of_more
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value

_ONES = r"(?P<{name}><t\d+>(?:(?:,| and|, and) <t\d+>)*)"
_OUT = _ONES.format(name="out")
_IN = _ONES.format(name="come")
_WHO = r"(?:(?:i|we|he|she|they)(?:'ve|'d| have| had| just| went ahead and)* )?"
_PULLED = (
    r"(?:pulled|yanked|took|cut|ripped|removed|tore|fished|backed|dragged|hauled|snaked|lifted"
    r"|popped|unhooked and took)"
)
_PLACE = r"(?:there|here|it|this one|(?:the|that) (?:box|pipe|conduit|raceway))"
_WAY_OUT = (
    rf"(?: (?:back|clean|right|loose|all the way))* (?:out|away|outta)(?: of {_PLACE}| there)?"
    r"(?! of\b)"
)
_MOVED = r"(?:sent|moved|rerouted|ran|took|put|tied|fed|brought|pulled)"
_AND_ON = (
    rf",? (?:and|then) {_MOVED} (?:it|them|that)(?: (?:clean|right|over|out|up|down|back|on|of|to"
    r"|into|through|in|the|that|this|a|box|other|sink|next|attic|panel|crawl ?space|wall|garage"
    r"|kitchen|hall|there|it))+"
)
_ELSEWHERE = (
    r"(?P<far>(?: (?:over|up|down|around|out|away|on|back))* (?:to|into|through|via|around|past"
    r"|across) (?:the|another|a|that) [a-z]+(?: box| space)?)"
)
_CAME = (
    r",? (?:and |then |but |so )*(?:in with|now it's|(?:what|all) (?:i've got|i have|we've got"
    r"|there is) now is|(?:i've|we've) got now|(?:i )?(?:put in|ran|pulled in|installed|dropped in"
    r"|stuck in|put(?= [^.;]* in (?:its|their|that) (?:place|spot))))"
)
_FRAMES = tuple(
    lazy_pattern(frame)
    for frame in (
        rf"{_WHO}\b{_PULLED} {_OUT}{_WAY_OUT}\b(?:{_AND_ON})?(?:{_CAME} {_IN})?",
        rf"{_WHO}\b{_PULLED} {_OUT} loose{_AND_ON}",
        rf"{_WHO}\b(?:rerouted|moved|relocated|shifted|diverted|sent) {_OUT}{_ELSEWHERE}",
        rf"\b(?:i'm|we're|i am|we are) down {_OUT}",
        rf"{_WHO}\b(?:gave up|got rid of|ditched) {_OUT}",
        rf"\bout with {_OUT}(?:{_CAME} {_IN})?",
        rf"{_OUT}(?:'s| is| are| all| both)+ out{_CAME} {_IN}",
        rf"{_OUT}(?:'s| is| are| all| both)+ (?:gone|outta there|out of there)(?:{_CAME} {_IN})?",
        rf"\binstead of {_OUT},? (?:i|we|he|they) (?:ended up |wound up |just |went with )*"
        rf"(?:running|ran|pulling|pulled|putting in|put in|using|used|got|have)? ?{_IN}",
    )
)
#: Beside it, a way elsewhere is no other way to this box.
_FEWER = lazy_pattern(r"\b(?:minus|fewer|less|gone)\b")
_REMARK = lazy_pattern(
    r"\bin (?:its|their) (?:place|spot|stead)\b"
    r"|<t\d+>(?:'s| is| are)? (?:the |all |just )*(?:same|unchanged|as is|untouched)\b"
    r"|<t\d+> stays?\b|\b(?:i mean|that is)\b|\bside by side\b"
    r"|\bhad to (?:give|take) (?:it|them) (?:up|out)\b"
    r"|\b(?:they|it) (?:were|was) (?:only |just )?(?:an? )?(?:spares?|extras?|dead|unused|old"
    r"|abandoned)\b|\b(?:one|two|three) separate (?:yokes|straps)\b"
)
_WEIGHS = lazy_pattern(
    r"<t\d+>|\b(?:no|not|never|if|would|could|should|might|maybe|think|guess|going to|gonna|will"
    r"|want\w*|need\w*|suppose|what|how|which|why|before|until|later|tomorrow|back|to|for"
    r"|so (?:i|we)|little|bit|look\w*|check\w*|test\w*|behind|see|saw|count\w*|peek\w*"
    r"|measur\w*|more|another|also|plus|clamps?|cubic|inch\w*|box|next|yokes?|cables?|wires?"
    r"|grounds?|instead|add\w*|truck|van|shop|panel|from"
    r"|(?:has|have|had|did|do|does|is|are|was|were|ca|could|wo|would|ai)nt)\b|n't\b|\?|\d"
)


def out_and_in(read: Utterance, state: State) -> Utterance:
    """The utterance as what goes and what comes; else `read` as it is."""
    if not state.items or state.pending or of_more(read):
        return read
    words, things = named_things(read, state)
    for frame in _FRAMES:
        found = frame.search(words)
        if found is None or not _is_far(words, found):
            continue
        gone = _of(things, found["out"])
        came = _of(things, found.groupdict().get("come") or "")
        told = _told(read, gone, came)
        if told and _is_all(words, found, things, gone):
            return replace(read, acts=told, unread=())
    return read


def _is_far(words: str, found: re.Match[str]) -> bool:
    """Whether what is moved is no more in the box: "to the left" it may still be."""
    far = found.groupdict().get("far")
    return far is None or "box" in far or _FEWER.search(words) is not None


def _of(things: Sequence[Named], tags: str) -> list[Named]:
    return [things[int(place)] for place in re.findall(r"<t(\d+)>", tags)]


def _told(read: Utterance, gone: Sequence[Named], came: Sequence[Named]) -> tuple[Act, ...]:
    """What goes, if so many are there, and what comes; nothing where that is open."""
    span = (0, len(read.heard))
    told: list[Act] = []
    for thing in gone:
        count = thing.goes()
        if count is None or thing.target is None:
            return ()
        target = replace(thing.target, count=count)
        told.append(
            acts.Remove(target=target, words=read.heard.strip(), span=span, function="request")
        )
    for thing in came:
        if thing.brings is None or thing.points:
            return ()
        told.append(replace(thing.brings, function="request"))
    return tuple(told)


def _is_all(
    words: str, found: re.Match[str], things: Sequence[Named], gone: Sequence[Named]
) -> bool:
    """Whether what is said beside it brings in, denies or asks nothing, and counts what is left."""
    beside = f"{words[: found.start()]} | {words[found.end() :]}"
    again = {f"<t{at}>" for at, one in enumerate(things) if one.same_as(gone)}
    beside = re.sub(r"<t\d+>", lambda tag: " " if tag[0] in again else tag[0], beside)
    beside = _REMARK.sub(" ", beside)
    counts = {int(spoken_value(one["value"])) for one in SPOKEN_VALUE.finditer(beside)}
    left = {one.there - (one.goes() or 0) for one in gone} | {one.goes() for one in gone}
    if not counts <= left:
        return False
    return not _WEIGHS.search(SPOKEN_VALUE.sub(" ", beside))
