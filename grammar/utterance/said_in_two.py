"""One thing that is said in two pieces: named after it was counted, ordered after it was found."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.miscounts import sworn_at_number
from boxaloud.grammar.utterance.neighbours import joining
from boxaloud.grammar.utterance.others_elsewhere import one_is_outside, others_elsewhere
from boxaloud.grammar.utterance.running_passes import Pass

_NEAR = lazy_pattern(
    # "third one, behind. 14-2": where it lies
    r"(?i)\W*(?:(?:right |just |tucked |up |out |down |in |at |on |the )*"
    r"(?:behind|back|top|bottom|left|right|side|below|above|under|underneath)\W+)?"
    r"(?:(?:so |please )*(?:add|put in|put|count|make that) )?"
    r"(?:a |an |the |it's |it is |that's |of |they're |they are |both |all |those are )?"
)
#: "A second cable, and here it goes: another 14-2".
_ANNOUNCED = lazy_pattern(r"(?i)[^.;:!?]{0,60}(?<!plus)(?<!also):\s*(?:(?:it['’]s|it is|yet) )?")


def further_one_named(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "There's a third one, 12-2", "two more, 12-3s": so many cables more, of that kind."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(last, acts.More)
            and (last.target.kind == "anything" or _announced(last, act, heard))
            and (
                (isinstance(act, acts.AddCable) and act.awg is not None)
                or (isinstance(act, acts.AddDevice) and last.target.ordinal and last.count == 1)
            )
            and act.count in (None, last.count)
            and (_NEAR.fullmatch(heard, last.span[1], act.span[0]) or _announced(last, act, heard))
            and not _of_what_was_told(kept, act, heard)
        ):
            kept.pop()
            count = last.count if (last.count or 1) > 1 else act.count
            act = replace(act, count=count, span=(last.span[0], act.span[1]))
        kept.append(act)
    return kept


def _of_what_was_told(kept: list[Act], act: Act, heard: str) -> bool:
    """ "One 12-2, and there's the second one. A receptacle.": a second cable, and a device."""
    if len(kept) < 2 or not is_thing(kept[-2]) or type(kept[-2]) is type(act):
        return False
    between = heard[kept[-1].span[1] : act.span[0]].strip()
    return between == "" or "." in between  # an ear gives no marks


def _announced(last: acts.More, act: Act, heard: str) -> bool:
    """ "I'll bring in a second cable, here it is: another 14-2": that cable, by its size."""
    if last.target.kind != "cable" or not isinstance(act, acts.AddCable):
        return False
    return _ANNOUNCED.fullmatch(heard, last.span[1], act.span[0]) is not None


_SOME_OF = lazy_pattern(r"(?i)(?:one|two|three|four|five|six|\d) of (?:the|those|these|my) ")
_ANOTHER = lazy_pattern(r"(?i)(?:another|(?:the |a )?(?:other|next|different|separate|new))$")


def sent_on(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two of the 14-2s go to another box": whether they leave this box or lead from it to that
    one is not said, so it is asked."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        elsewhere = isinstance(act, acts.OpenBox) and _ANOTHER.match(act.name or "")
        if elsewhere and last is not None and _SOME_OF.match(last.words):
            span = (last.span[0], act.span[1])
            kept.pop()
            left.append(Unread(heard[slice(*span)], span, True))
        else:
            kept.append(act)
    return kept


_SWITCHED = lazy_pattern(
    r"(?i)\s*(?:it|that|this|them|the box|this box|that box)(?: out| over)? (?:to|for|into)\b"
)


def switched_over(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Switch it to a four eleven sixteenths": what is done, and no switch."""
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.AddDevice)
            and act.words.lower() == "switch"
            and _SWITCHED.match(heard, act.span[1])
        )
    ]


_USE_IT = lazy_pattern(
    r"(?i)(?:i(?:'m| am) )?(?:us(?:e|ing)|tak(?:e|ing)|go(?:ing)? with|put(?:ting)? in"
    r"|i'?ll use) (?:that|it)(?: one)?$"
)
_A_VOLUME = lazy_pattern(r"(?i)\b(?:a|an|some|one) (?P<n>\d{1,2}(?:\.\d+)?)(?= |s\b)(?![^.]*\d)")


@joining
def found_box_used(last: Act, act: Act, heard: str) -> Act | None:
    """ "Got a 22.5 on the truck. Use that": the box that was found, by its volume."""
    if isinstance(last, acts.OtherTalk) and isinstance(act, acts.DoIt):
        volume = _A_VOLUME.search(last.words)
        sized = volume is not None and volume["n"] in ("10", "12", "14")
        if volume is not None and not sized and _USE_IT.match(act.words):
            span = (last.span[0], act.span[1])
            return acts.SetVolume(
                volume=Decimal(volume["n"]), words=heard[slice(*span)], span=span,
                function="correction",
            )  # fmt: skip
    return None


_DEPTHS = (Decimal("1.25"), Decimal("1.5"), Decimal("2.125"))


@joining
def depth_then_family(last: Act, act: Act, heard: str) -> Act | None:
    """ "Make it the two and an eighth, four square": one box, its depth first."""
    if (
        isinstance(last, (acts.RestateNumber, acts.Number))
        and last.value in _DEPTHS
        and isinstance(act, acts.SetSize)
        and act.depth is None
        and act.family is not None
        and len(heard[last.span[1] : act.span[0]]) < 6
    ):
        return replace(
            act, depth=last.value, span=(last.span[0], act.span[1]), function="correction"
        )
    return None


_OWNED = lazy_pattern(
    r"(?i)(?:that's |that was |oh )?(?:my (?:mistake|bad|error)|sorry|i was (?:wrong|mistaken)"
    r"|i (?:looked|read|saw|counted|had|got|said|heard)(?: it| that)? wrong|i misread(?: it| that)?"
    r"|i mis(?:spoke|counted))$"
)


#: "There's one more 14-2, I counted wrong": by so many.
_MORE = lazy_pattern(r"(?i)\b(?:more|another|third|fourth|fifth|sixth)\b")
_CORRECTED = (acts.SetVolume, acts.SetSize, acts.SetClamps, acts.RestateNumber, acts.Recount)


def mistake_told(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "No hickey, my mistake", "that's a 21, I read it wrong": what was wrong has been said."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        told = isinstance(last, (acts.Deny, acts.Remove, acts.Restate, acts.Replace)) or (
            isinstance(last, _CORRECTED) and last.function == "correction"
        )
        told = (
            told
            or isinstance(last, acts.More)
            or (is_thing(last) and bool(_MORE.search(last.words)))
        )
        if told and isinstance(act, acts.Mistaken) and _OWNED.match(act.words.strip(" .,!")):
            continue
        kept.append(act)
    return kept


_NAMED_BEHIND = lazy_pattern(
    r"(?i)[^,;.]{0,30}(?:,\s*|\s+(?=well |i mean ))(?:(?:well|i mean|you know|it's|it is|that's"
    r"|really|actually|an?|the|big"
    r"|wide|\w+ of(?: an?)?)\s+)*"
)


def device_named_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One device that takes up two gangs, a wide dimmer": one device, and then its name."""
    kept: list[Act] = []
    for act in made:
        place = len(kept) - 1
        while place >= 0 and isinstance(kept[place], acts.Widen):
            place -= 1
        last = kept[place] if place >= 0 else None
        if (
            isinstance(last, acts.AddDevice)
            and last.name == "device"
            and last.count == 1
            and isinstance(act, acts.AddDevice)
            and act.name != "device"
            and (act.count is None or act.words.lower().startswith(("a ", "an ")))
            and _NAMED_BEHIND.fullmatch(heard, last.span[1], act.span[0])
        ):
            kept[place] = replace(
                act, count=1, gangs=act.gangs or last.gangs, awg=act.awg or last.awg
            )
            continue
        kept.append(act)
    return kept


#: "Plus a second device, because there's a receptacle too": what the device is.
_BECAUSE = lazy_pattern(
    r"(?i)[\s,.;:–—-]*(?:because|since|as|cause|now that|that's)? ?"
    r"(?:there['’]?s|there is|i found|i have|i['’]ve got|they put|they added|i added|i put|we put"
    r"|we added|it has|it['’]s got|they['’]ve got|it['’]?s|it is)(?: also| now| in)? $"
)


@joining
def device_by_reason(last: Act, act: Act, heard: str) -> Act | None:
    """ "Plus a second device, because there's a receptacle too": one device, told by its name
    where it is said why."""
    if (
        isinstance(last, acts.AddDevice)
        and last.name == "device"
        and last.count in (None, 1)
        and "yoke" not in last.words.lower()  # "on one yoke, it's a combo": what they are
        and isinstance(act, acts.AddDevice)
        and act.name != "device"
        and act.count == 1
        and _BECAUSE.fullmatch(heard[last.span[1] : act.span[0]].rstrip() + " ")
    ):
        return replace(act, span=(last.span[0], act.span[1]))
    return None


_TO_IT = lazy_pattern(r"(?i)\s*(?:to|for|on|off) (?:the |each |my )?")


def pigtailed_to(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A few pigtails to the recep … one receptacle": the device that is counted elsewhere."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        last = made[place - 1] if place else None
        if (
            isinstance(act, acts.AddDevice)
            and act.count is None
            and isinstance(last, acts.AddUncounted)
            and _TO_IT.fullmatch(heard, last.span[1], act.span[0])
            and any(
                isinstance(other, acts.AddDevice) and other.count and other.name == act.name
                for other in made
            )
        ):
            continue
        kept.append(act)
    return kept


_APART = lazy_pattern(
    r"(?i)[^.;!?]*[.;!?,…\s]+(?:[^.;!?]*(?:\.\.\.|…)\s*)?(?:no,? )?(?P<n>two|three|four|[2-4])"
    r" (?:separate|individual|different)(?: ones)?(?:,? please)?\W*$"
)
_COUNTS = {"two": 2, "three": 3, "four": 4, "2": 2, "3": 3, "4": 4}


def counted_apart(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two receps, not one. Two separate ones": the same number, said once more."""
    last = made[-1] if made else None
    if not isinstance(last, acts.Restate) or not isinstance(last.thing, acts.AddDevice):
        return made
    again = _APART.match(heard, last.span[1])
    if again is not None and last.thing.count == _COUNTS[again["n"].lower()]:
        left[:] = [run for run in left if run.span[0] != again.start("n")]
    return made


IN_TWO_PIECES = (
    Pass(further_one_named, (acts.More,), 2),
    Pass(sent_on, (acts.OpenBox,), 2),
    Pass(switched_over, (acts.AddDevice,), 1),
    Pass(found_box_used, (acts.DoIt,), 2),
    Pass(depth_then_family, (acts.RestateNumber, acts.Number), 2),
    Pass(mistake_told, (acts.Mistaken,), 2),
    Pass(pigtailed_to, (acts.AddUncounted,), 2),
    Pass(device_named_behind, (acts.AddDevice,), 2),
    Pass(device_by_reason, (acts.AddDevice,), 2),
    Pass(counted_apart, (acts.Restate,), 1),
    Pass(sworn_at_number, (acts.Number,), 2),
    Pass(others_elsewhere, tuple(THINGS.values()), 1, ("the ", "that ", "those ")),
    Pass(one_is_outside, (acts.Remove,), 2),
)
