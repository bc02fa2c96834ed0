"""One device under two names: "one switch three-way", "a double switch, like two switches"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.device_groups import same_device
from boxaloud.grammar.utterance.headings import ROOMS
from boxaloud.grammar.utterance.unmarked_lists import leads_on, may_be_two

#: General name -> the endings of names that say more of the same device.
_KINDS = {
    "switch": ("switch", "dimmer", "timer", "sensor", "fan control"),
    "receptacle": ("receptacle",),
    "device": ("switch", "dimmer", "timer", "sensor", "receptacle"),
}
_OF_KIND = lazy_pattern(r"(?i)\s*(?:of (?:the )?)?(?:type|kind|sort)?(?: of)?(?: an?)?\s*")
_MEANING = lazy_pattern(
    r"(?i)[\s,(:;–-]*(?:(?:like|meaning|i mean|as in|so|i\.?e\.?|that is|that's|which is|really"
    r"|just|it's|it is)\s+)+"
)
_TOPIC = lazy_pattern(
    r"(?i)\W*(?:(?:so|ok|okay|well|um|uh|now|and|hi|hello)\W+)*(?:there(?:'s| is)|i have|i've got"
    r"|we have|this is|it's|it is)?\s*$"
)
_IN_A_ROOM = lazy_pattern(
    r"(?i)\s*(?:in|at|by|on|for) (?:the |a |my |our )?(?:\w+ )?"
    rf"(?:{'|'.join(sorted(ROOMS - {'box'}))})\b"
)
_ITS_CONTENTS = lazy_pattern(
    r"(?i)[\s,;.]*(?:so |and )?(?:it|that box|the box) (?:has|have|had|got|holds)\b"
)


def one_name(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with each device that stands under two names once."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        last = kept[-1] if kept else None
        said = last.thing if isinstance(last, acts.Restate) else last
        if isinstance(act, acts.AddDevice) and isinstance(said, acts.AddDevice):
            between = heard[said.span[1] : act.span[0]]
            if _says_more(said, act, between) and not leads_on(act, made[place + 1 :], heard):
                said = replace(
                    said,
                    name=act.name,
                    awg=act.awg or said.awg,
                    gangs=act.gangs or said.gangs,
                    doubts=(*said.doubts, *may_be_two(said, act, between)),
                )
                kept[-1] = replace(last, thing=said) if isinstance(last, acts.Restate) else said
                continue
            if _is_as_wide(said, act, between):
                said = replace(said, gangs=act.gangs)
                kept[-1] = replace(last, thing=said) if isinstance(last, acts.Restate) else said
                continue
            if _parts_it(said, act, between):
                kept[-1] = act
                continue
        if isinstance(act, acts.AddDevice) and _of_topic(act, kept, heard):
            continue
        kept.append(act)
    return kept


def _says_more(said: acts.AddDevice, act: acts.AddDevice, between: str) -> bool:
    """ "One switch three-way": what kind it is stands behind it, without a count of its own."""
    return (
        act.count is None
        and said.count is not None
        and act.name != said.name
        and (act.name or "").endswith(_KINDS.get(said.name or "", ("-",)))
        and not re.match(r"(?i)(?:the|that|both|all|other)\b", act.words)
        and _OF_KIND.fullmatch(between) is not None
    )


_WHICH_IS = lazy_pattern(r"(?i)[\s,(]*(?:(?:it's|it is|that's|which is|a|the)\s+)*")


def _is_as_wide(said: acts.AddDevice, act: acts.AddDevice, between: str) -> bool:
    """ "A 40 amp receptacle, two gang device": how wide it is, and no second one."""
    return (
        act.name == "device"
        and act.gangs is not None
        and act.count is None
        and said.gangs is None
        and said.count in (None, 1)
        and _WHICH_IS.fullmatch(between) is not None
    )


def _parts_it(said: acts.AddDevice, act: acts.AddDevice, between: str) -> bool:
    """ "A double switch, like two separate switches": on a yoke each, 314.16(B)(4)."""
    return (
        said.name == "combination device"
        and said.count in (None, 1)
        and act.count == 2
        and act.name in ("switch", "single-pole switch")
        and _MEANING.fullmatch(between + " ") is not None
    )


def _of_topic(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """ "There's a four-way in the hallway, so it has … One 4-way": the box is told of by it."""
    first = kept[0] if kept else None
    if not isinstance(first, acts.AddDevice) or first.count not in (None, 1) or len(kept) < 2:
        return False
    if (
        not same_device(act, first)
        or act.count != 1
        or act.words.lower().startswith("another")
        or not _TOPIC.fullmatch(heard[: first.span[0]])
    ):
        return False
    rest = _IN_A_ROOM.match(heard, first.span[1])
    if rest is None or not _ITS_CONTENTS.match(heard, rest.end()):
        return False
    if not re.search(r"[.;\n]\s*$", heard[: act.span[0]]):
        return False
    if len(act.name or "") > len(first.name or ""):
        kept[0] = replace(first, name=act.name)
    return True
