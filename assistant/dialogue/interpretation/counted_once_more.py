"""How many there are of what was counted or asked right before, said by the number alone: "two, she
likes two", "six was right", "eight then, one goes to the other box", "did I say three cables? it's
four". More stands; fewer stands where somebody says why, or says the number that was there before
it was corrected."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation.counts_anew import pointing_at
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value
from boxaloud.rules import Worksheet
from boxaloud.rules.contents import Cable, Conductors, Yoke

_CORRECTIONS = (acts.Restate, acts.RestateNumber, acts.Recount, acts.AddCable, acts.AddConductors,
                acts.AddDevice, acts.More)  # fmt: skip
_LEAD = (
    r"\W*(?:(?:oh|no|nope|nah|wait|so|ok|okay|well|um|uh|hm+|sorry|actually|hang on|hold on|then"
    r"|yeah|now|hello)\b\W*)*"
)
_WHY = r"(?:(?:i|we) (?:had )?(?:just )?(?:mis)?counted (?:one|it|them|that)? ?(?:twice|wrong)\W+)?"
_ALONE = lazy_pattern(
    rf"(?i){_LEAD}{_WHY}(?:(?:it|that|there)(?:['’]s| is| are| was)|make (?:it|that)|call it)?"
    r" ?(?P<value>[a-z-]+|\d+)(?: (?:was|is) (?:right|correct|it)| it is| after all| again| then"
    r"| (?:of them|of those))*(?P<rest>$|[\s.!]*$|\W+ ?.*)"
)
_LAST = lazy_pattern(
    rf"(?i){_LEAD}(?P<rest>that [^.;?]*?|[^.;?]*? was [^.;?]*?), (?P<value>[a-z-]+)\W*"
)
#: Somebody says how he came to say more than there are.
_FEWER = lazy_pattern(
    r"(?i)\b(?:twice|other box|another box|next box|elsewhere|just an? (?:pigtail|jumper|staple"
    r"|shadow)|miscount\w*|only|wrong|(?:was|is) right|not (?:mine|in here|part of)|after all"
    r"|went away|goes (?:on|away)|cut off)\b"
)
#: What is told besides weighs by itself.
_WEIGHS = lazy_pattern(
    r"(?i)\b(?:clamps?|cubic|inch\w*|deep|grounds?|cables?|add\w*|swap\w*|replac\w*|chang\w*|plus"
    r"|tak\w*|took|pull\w*|remov\w*|put\w*|drop\w*|los[et]|mov\w*|bring\w*|cut\w*"
    r"|also|if|would|could|should|undo|new box|next one|feet|foot|amps?|volts?|gang|switch\w*"
    r"|receptacles?|dimmers?|outlets?|plugs?|o['’]?clock|minutes?|hours?|days?|dollars?|bucks"
    r"|boxes|floors?|and an?|(?:1[024]|fourteen|twelve|ten)[-/ ](?:[234]|two|three))\b|\?"
)
#: "Three pigtails on it": how many there are of that.
_OTHERS = lazy_pattern(r"(?i)\W*(?:(?:wire|ground|copper|green|short|little) )*(?:pig ?)?tails?\b")
_POINTS = lazy_pattern(r"(?i)\bone\b")
_ASKED = lazy_pattern(
    r"(?i)\b(?:(?:did|have|had) (?:i|we) (?:say|said|tell|told|give|given|count|counted|put|got)"
    r"|was it|is it|how many)\b.*?\b(?P<what>cables|runs|switches|receptacles|dimmers|wires"
    r"|conductors|devices)\b"
)
_MORE = lazy_pattern(r"(?i)\b(?:more|another)\b")
_KINDS = {"cables": Cable, "runs": Cable, "wires": Conductors, "conductors": Conductors}


def counted_once_more(
    read: Utterance, journal: Sequence[Entry], state: State, sheet: Worksheet
) -> Utterance:
    """The utterance as how many there are of the line that was spoken of last; else `read`. Where
    the box or its clamps are not known yet, a bare number answers that."""
    if state.pending or not journal or journal[-1].weighty:
        return read
    if sheet.capacity is None or state.clamps == "unknown":
        return read
    frames = [found for frame in (_ALONE, _LAST) if (found := frame.fullmatch(read.heard))]
    found = next((one for one in frames if SPOKEN_VALUE.fullmatch(one["value"])), None)
    if found is None or _OTHERS.match(found["rest"]):
        return read
    value, line = spoken_value(found["value"]), _spoken_of(journal[-1], state)
    if line is None or value != int(value) or not 0 < value < _MOST or not _only_counts(read):
        return read
    there = line.count
    if value in _SIZES and _lands_on_one_of_several(state):
        return read
    if value == there or not _agrees(found["rest"], int(value), there):
        return read
    asked = _ASKED.search(journal[-1].heard) is not None
    if value < there and not asked and not _FEWER.search(read.heard):
        return read
    act = acts.Recount(
        target=pointing_at(line), count=int(value), words=read.heard.strip(),
        span=(0, len(read.heard)), function="correction",
    )  # fmt: skip
    return replace(read, acts=(act,), unread=())


_SIZES = frozenset({6, 8, 10, 12, 14})
_MOST = 41
"""So many of one thing are in no box that is spoken of by a number alone."""
_SILENT = (acts.Number, acts.RestateNumber, acts.Recount, acts.Social, acts.OtherTalk, acts.No,
           acts.Yes, acts.Size)  # fmt: skip


def _only_counts(read: Utterance) -> bool:
    """Whether nothing was made of it but a number, and what counts nothing."""
    return all(isinstance(act, _SILENT) or _counts_nothing(act) for act in read.acts)


def _counts_nothing(act: Act) -> bool:
    thing = act.thing if isinstance(act, acts.Restate) else act
    return isinstance(thing, acts.AddUncounted) and thing.name == "pigtail"


def _lands_on_one_of_several(state: State) -> bool:
    """Whether it may be asked on what size a device is, which a bare number answers."""
    there = [item.content for item in state.items]
    sizes = {one.awg for one in there if isinstance(one, Cable | Conductors)}
    return len(sizes) > 1 and any(isinstance(one, Yoke) and one.awg is None for one in there)


def _spoken_of(before: Entry, state: State) -> Cable | Conductors | Yoke | None:
    """The only line that was counted, or asked of, right before."""
    asked = _ASKED.search(before.heard)
    if asked is not None and any(isinstance(act, acts.Ask) for act in before.acts):
        kind = _KINDS.get(asked["what"].lower(), Yoke)
        lines = [
            item.content
            for item in state.items
            if isinstance(item.content, Cable | Conductors | Yoke)
            and isinstance(item.content, kind)
        ]
        return lines[0] if len(lines) == 1 else None
    item = state.item(state.last)
    there = None if item is None else item.content.count
    told = [
        act
        for act in before.acts
        if not isinstance(act, acts.Social | acts.OtherTalk)
        and not (isinstance(act, acts.Number | acts.RestateNumber) and act.value == there)
    ]  # "one more. Seven."
    told = told or [act for act in before.acts if isinstance(act, acts.RestateNumber)]
    if len(told) != 1 or not isinstance(told[0], _CORRECTIONS):
        return None
    if item is None or not isinstance(item.content, Cable | Conductors | Yoke):
        return None
    corrected = told[0].function == "correction" or _MORE.search(before.heard)
    return item.content if corrected else None


def _agrees(rest: str, value: int, there: int) -> bool:
    """Whether what is said besides brings in nothing, and its numbers agree with the count."""
    if _WEIGHS.search(rest):
        return False
    bare = _POINTS.sub("~", rest) if abs(value - there) == 1 else rest
    said = {spoken_value(one["value"]) for one in SPOKEN_VALUE.finditer(bare)}
    return said <= {value, there, abs(value - there)}
