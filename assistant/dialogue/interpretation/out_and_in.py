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

#: "On the left", of one of two.
_SIDE = r"(?: (?:on|to|at|in) the (?:left|right|top|bottom|middle|other(?: side| spot)?))?"
_ONES = rf"(?P<{{name}}><t\d+>{_SIDE}(?:(?:,| and|, and) <t\d+>{_SIDE})*)"
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
_DEAD = (
    r"(?:dead|shot|bad|no good|abandoned|burn[te]d?|fried|toast|useless|unused|junk|broken|wouldn't"
    r" reset|won't reset|won't work|didn't work|wouldn't work|went bad|quit|quit working|gave out)"
    r"(?: (?:on|at) both ends)?"
)
_NOW_OUT = (
    r"(?:both|they|it|all|those|that)(?: of (?:them|those|'em))?(?:'s|'re| is| are)?"
    r"(?: (?:both|all|now))* (?:out|gone|outta here|outta there)(?: of (?:here|there|it))?"
)
_WITH_IT = (
    r"(?: (?:that|which) (?:went|goes|was|came) with (?:it|them|that)"
    r"| (?:that|which) (?:fed|feeds|served|ran to|went to|was on|landed on) (?:it|them|that))?"
)
_INTO = (
    r"(?:(?:'s|'re| got| was| were| has been| have been| is| are| been))* (?:turned into|changed"
    r" (?:in)?to|changed out for|swapped (?:out )?(?:for|with)|replaced (?:by|with)|switched "
    r"(?:out )?"
    r"(?:for|to)|traded (?:out )?for|became|made into|converted (?:in)?to)"
)
_THERE = (
    r"(?:there's|there is|there are|i've got|i have|i got|we've got|we have|i put|i ran|he put)"
)
_SAME_PLACE = (
    r"(?:in|into|through|to|at) (?:that|the|its|their)(?: very| exact)? same (?:hole|spot|place"
    r"|clamp|knockout|opening|k\.?o\.?)"
)
_ITS_PLACE = (
    r"(?:where (?:it|they|that one) (?:was|were)|in (?:its|their|that) (?:place|spot|stead))"
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
        rf"{_WHO}\b(?:{_PULLED}|killed|lost|dropped|scrapped|canned) {_OUT}{_WITH_IT},?"
        rf" (?:and |so |now )*{_NOW_OUT}",
        rf"{_OUT}(?:'s| is| are| was| were)? {_DEAD},? (?:and |so )+(?:i|we|he|she|they)(?:'ve"
        r"| have)?"
        r"(?: just)? (?:cut|pulled|took|yanked|ripped|snipped|clipped|chopped) (?:it|them)"
        rf"(?: (?:off|out|loose|back|away))*,? (?:and |so |now )+{_NOW_OUT}",
        rf"(?P<got>{_WHO}\b(?:finally |just )*got) {_OUT}(?: (?:back|clean|right|loose"
        r"|all the way))*"
        rf" out of {_PLACE}",
        rf"{_OUT} (?:went|left|disappeared)(?: away| out)?(?: with (?:the|that|his|her"
        r"|my) [a-z ]+?)?,?"
        r" (?:so |and )+(?:that|the) (?:cable|one|run|wire|device)(?:'s|s| is)? ?(?:not|no longer"
        r"|isn'?t"
        r"|ain'?t) in (?:here|there|it|the box)(?: any ?more| now)?",
        rf"{_OUT}{_INTO} {_IN}",
        rf"{_OUT}(?:'s| is| was)? {_DEAD},? so {_IN}(?: (?:just )?(?:went|goes|is|got put|got)"
        r"(?: in)?)?"
        rf" {_ITS_PLACE}",
        rf"{_IN}(?:'s| is| went| goes| are)? (?:in )?(?:there|here|it)(?: now)? (?:instead"
        r"|in place) of"
        rf" {_OUT}",
        rf"{_OUT}(?:'s| is| are)?(?: (?:both|all))? out,? (?:and |so |but )*{_THERE} {_IN}"
        r"(?: (?:in )?(?:there|here))?(?: (?:instead|now))*",
        rf"{_WHO}\b{_PULLED} {_OUT}(?: (?:loose|out|off|back))*,? (?:and|then) (?:then )?(?:brought"
        r"|ran|fed"
        rf"|put|pulled|stuck|fished|set) {_IN}(?: back| in)* (?:{_SAME_PLACE}|{_ITS_PLACE})",
        rf"\bwhere {_OUT} (?:was|were|used to be|sat)(?: before)?,? {_THERE} {_IN}(?: now)?",
        # "the extra one is gone, the 14-2"
        r"\bthe (?:one more|extra(?: one)?|new one|last one|added one|additional one)(?:'s| is| was"
        rf"| got| has been)+ (?:gone|out|back out|pulled|removed|taken out)[,;:]?"
        rf" (?P<named>{_OUT})",
        rf"{_IN} (?P<again>goes|comes|is going|is coming|went) back(?: in)?"
        rf" (?:in (?:the )?(?:place|stead) of|instead of|in lieu of) {_OUT}",
        rf"\b(?P<again>(?:put|bring|stick|run|pull|set|place)(?P<ahead> back)?)"
        rf" {_IN}(?(ahead)| back)"
        r"(?: in)?"
        rf" (?:in (?:the )?(?:place|stead) of|instead of|in lieu of) {_OUT}",
        rf"\binstead of {_OUT},? (?:i|we|he|they) (?:ended up |wound up |just |went with )*"
        rf"(?:running|ran|pulling|pulled|putting in|put in|using|used|got|have)? ?{_IN}",
    )
)
#: Beside it, a way elsewhere is no other way to this box.
_FEWER = lazy_pattern(r"\b(?:minus|fewer|less|gone)\b")
_REMARK = lazy_pattern(
    r"\b(?:and |but )?(?:the )?(?:other|rest|others)(?: one)?(?:'s| is| are| stays?)"
    r"(?: still)? <t\d+>"
    r"|\b(?:i |we )?(?:ran|sent|moved|rerouted|took) (?:it|that one)(?: over| up| down| out)* to"
    r" the [a-z]+\b|\bfinally\b|\b(?:and )?(?:it's|they're) (?:gone|out)\b"
    r"|\bnobody needs (?:any )?(?:travell?ers?|them|it|that)(?: (?:in here|anymore|any more))*|"
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
        if found.groupdict().get("named"):
            gone = _one_for_one(gone)
        if found.groupdict().get("again"):
            gone, came = _one_for_one(gone), _one_for_one(came)
        if found.groupdict().get("got") and not all(thing.points for thing in gone):
            continue
        if re.search(r"<t\d+>(?:'s|'re| is| are)? (?:both|all)\b", found[0]):
            gone = [replace(thing, every=True, single=False) for thing in gone]
        if re.search(r"<t\d+> (?:that|which) [a-z]+ (?:with|to|on)? ?(?:it|that)\b", found[0]):
            gone = [replace(thing, count=1) if thing.single else thing for thing in gone]
        told = _told(read, gone, came)
        if told and _is_all(words, found, things, gone):
            return replace(read, acts=told, unread=())
    return read


def _one_for_one(things: Sequence[Named]) -> list[Named]:
    """ "The 14-2 back in place of that 14-3": one comes for one that goes."""
    return [
        replace(thing, count=1, points=False) if thing.single and not thing.every else thing
        for thing in things
    ]


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
        uncounted = thing.count is None and not thing.single
        if thing.brings is None or thing.points or uncounted:
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
