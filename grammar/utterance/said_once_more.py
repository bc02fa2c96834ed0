"""What a talk says once more of what is there: "the two 14-2s you've got already"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern

_TOLD = r"(?:told|gave|said|mentioned|given)"
_GOT = r"(?:got|have|had|heard|know about|counted|wrote down)"
_HAVE = r"(?:['’]ve| have)"
_HAD = lazy_pattern(
    r"(?i)\s*,? *(?:(?:that|which|and) )?(?:"
    rf"you{_HAVE}?(?: already)? {_GOT}(?: (?:it|them|those|that))?(?: already| down| before)+"
    rf"|you(?:{_HAVE}? already) {_GOT}"
    rf"|(?:i|we){_HAVE}? already {_TOLD}\b"
    rf"|(?:i|we) {_TOLD}(?: (?:you|it|them|those))? (?:already|before|earlier)"
    r")(?: (?:you|it|them|those|about|down))*\W*(?:$|[,.;])"
)
_BEFORE_IT = lazy_pattern(
    rf"(?i)\b(?:you{_HAVE}? already {_GOT}|you{_HAVE} got"
    rf"|(?:i|we){_HAVE}? already {_TOLD}(?: you)?(?: about)?)"
    r"(?: (?:the|my|those|these))*\s*$"
)
TOLD_PIECES = ("you", "already", "told", "gave", "said", "mentioned", "given")
"""One of them stands in what either expression finds."""
_FURTHER = lazy_pattern(r"(?i)\b(?:another|more|extra|other|additional|besides)\b")


def already_told(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two 14-2s you've got already": how many there are, and none comes in by it.

    A number stays one: where it is not what is there, it says how many it should be.
    """
    kept: list[Act] = []
    for act in made:
        if is_thing(act) and _said_before(act, heard):
            target = replace(just_like(act), count=None)
            kept.append(
                acts.Restate(
                    thing=act, instead_of=target, words=act.words, span=act.span,
                    doubts=act.doubts, function="correction",
                )
            )  # fmt: skip
            continue
        kept.append(act)
    return kept


def _said_before(act: Act, heard: str) -> bool:
    if getattr(act, "count", None) is None or _FURTHER.search(act.words):
        return False
    if _HAD.match(heard, act.span[1]) is not None:
        return True
    return _BEFORE_IT.search(just_before(heard, act.span[0])) is not None


_POLE = lazy_pattern(r"(?i)(?:single|double|three|four|3|4)[ -](?:pole|way)")
_COMMA = lazy_pattern(r"(?i)\s*(?:,|\b(?:uh|um|er)\b)\s*(?:(?:a|uh|um|er)\s*,?\s*)*")


def pole_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A switch, single pole": what the switch is, and no second one."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        last = kept[-1] if kept else None
        following = made[place + 1] if place + 1 < len(made) else None
        if (
            isinstance(act, acts.AddDevice)
            and isinstance(last, acts.AddDevice)
            and act.count is None
            and last.count is not None
            and (last.name == "switch" or _rated(made, place, heard))
            and _POLE.fullmatch(act.words)
            and _COMMA.fullmatch(heard[last.span[1] : act.span[0]])
            and not (isinstance(following, acts.AddDevice) and following.count is None)
        ):
            name = act.name if last.name == "switch" else last.name
            kept[-1] = replace(last, name=name, span=(last.span[0], act.span[1]))
            continue
        kept.append(act)
    return kept


_RATED = frozenset({"dimmer", "timer", "occupancy sensor", "smart switch"})


def _rated(made: Sequence[Act], place: int, heard: str) -> bool:
    """ "A dimmer, three-way.": said of it where it ends what is said and no other device is named;
    in a list it may be the next one."""
    devices = [act for act in made if isinstance(act, acts.AddDevice)]
    return (
        len(devices) == _WITH_ITS_POLES
        and devices[0].name in _RATED
        and _ENDS_THERE.match(heard, made[place].span[1]) is not None
    )


_WITH_ITS_POLES = 2
_ENDS_THERE = lazy_pattern(r"(?i)\s*(?:,?\s*please)?\s*(?:[.;!]|$)")

_NO_VOLUMES = frozenset({10, 12, 14})  # wire sizes
_LEAST_VOLUME = 8


def volume_of_that(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Yeah do it, 22": the volume of the box that was proposed, said with the assent."""
    if [type(act) for act in made] != [acts.DoIt, acts.Number]:
        return made
    number = made[1]
    value = number.value if isinstance(number, acts.Number) else None
    if value is None or value < _LEAST_VOLUME or value in _NO_VOLUMES:
        return made
    volume = acts.SetVolume(
        volume=value, words=number.words, span=number.span, function="correction"
    )
    return [made[0], volume]


_IT_IS = lazy_pattern(r"(?i)\b(?:there(?:['’]s| is| are)|it has|it['’]s got|they(?:['’]re| are))\b")


def clamps_put_right(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Take that back, there are clamps inside": of the clamps alone; what else was said with
    them stays."""
    said = [act for act in made if not isinstance(act, (acts.Social, acts.No))]
    if [type(act) for act in said] != [acts.Undo, acts.SetClamps]:
        return made
    undo, clamps = said
    by_that = undo.words.lower().strip().endswith(("that", "that back"))
    if not by_that or _IT_IS.search(heard[undo.span[1] : clamps.span[1]]) is None:
        return made
    return [replace(clamps, function="correction")]


_EACH_OF_THEM = lazy_pattern(
    r"(?i)\W*(?:both|all|each)(?: (?:of (?:them|those)|are|being|number|no))*\W*"
)
_WIRE_SIZES = {
    word: size
    for size, said in ((6, "six"), (8, "eight"), (10, "ten"), (12, "twelve"), (14, "fourteen"),
                       (16, "sixteen"), (18, "eighteen"))
    for word in (said, str(size))
}  # fmt: skip


def sizes_of_all(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two equipment grounding conductors both 12": the size of those just told."""
    kept = list(made)
    for run in list(left):
        size = _WIRE_SIZES.get(run.words.lower().strip(" #"))
        if size is None:
            continue
        for place, act in enumerate(kept):
            if not isinstance(act, (acts.AddGrounds, acts.AddConductors)):
                continue
            if act.awg in (None, size) and _EACH_OF_THEM.fullmatch(
                heard[act.span[1] : run.span[0]]
            ):
                span = (act.span[0], run.span[1])
                kept[place] = replace(act, awg=size, words=heard[slice(*span)], span=span)
                left.remove(run)
                break
    return kept


_ONLY = lazy_pattern(
    r"(?i)(?:and )?(?:just|only)(?: the)? (?P<n>[a-z]+|\d+)(?: (?:of (?:them|those|it)|more))*"
)
_ADDED = lazy_pattern(r"(?i)\b(?:add|adding|added|plus|put in|putting in)(?: just| only)? $")


def only_so_many_more(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One more 12-2 then, just one": how many came in, and not how many there are in all."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if last is None or not _counts_again(act, last, heard):
            kept.append(act)
    return kept


def _counts_again(act: Act, last: Act, heard: str) -> bool:
    count: int | None
    if isinstance(act, acts.RestateNumber):
        count = None if act.value is None else int(act.value)
    elif isinstance(act, acts.Recount) and act.target.kind == "anything":
        count = act.count
    else:
        return False
    if not is_thing(last) or count is None or count != getattr(last, "count", None):
        return False
    further = _FURTHER.search(last.words) or _ADDED.search(heard[: last.span[0]])
    return further is not None and _ONLY.fullmatch(act.words.strip()) is not None
