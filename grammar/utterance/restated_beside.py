"""What is said anew by two things side by side: "one more, seven in all", "the fourteens are three,
not two", "make them all tens, and the greens too", "that's to be a two gang with two switches"."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeGuard

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import pointed_at
from boxaloud.grammar.lazy_patterns import lazy_pattern


def one_more_in_all(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One more, seven in all": of what there were six."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.Recount)
            and act.target.which == "all"
            and act.target.kind == "anything"
            and isinstance(last, acts.More)
            and last.target.kind == "anything"
            and (act.count or 0) > (last.count or 1)
        ):
            were = (act.count or 0) - (last.count or 1)
            span = (last.span[0], act.span[1])
            kept[-1] = replace(
                act, target=Reference(words=act.target.words), of=were, span=span,
                words=heard[slice(*span)],
            )  # fmt: skip
            continue
        kept.append(act)
    return kept


_ARE = lazy_pattern(r"(?i)\s*(?:are|is|were|was)(?: really| only| actually)?\s*")


def sizes_counted(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The fourteens are three, not two": so many of that size. "Add the grounds, they're
    fourteen": grounds of that size."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if last is not None and (sized := _sized_by_pronoun(last, act)) is not None:
            kept[-1] = sized
            continue
        if (
            isinstance(act, acts.RestateNumber)
            and isinstance(last, acts.Size)
            and last.words.lower().startswith(("the ", "those ", "my "))
            and act.value == int(act.value)
            and _ARE.fullmatch(heard[last.span[1] : act.span[0]])
        ):
            target = Reference("wire", awg=last.awg, words=last.words)
            were = None if act.instead_of is None else int(act.instead_of)
            kept[-1] = acts.Recount(
                target=target, count=int(act.value), of=were, function="correction",
                words=heard[last.span[0] : act.span[1]], span=(last.span[0], act.span[1]),
            )  # fmt: skip
            continue
        kept.append(act)
    return kept


_PRONOUN_IS = lazy_pattern(
    r"(?i)(?:and |all |both )*(?:they|those|these)(?:['’]re| are)(?: all| both| in| of)*"
    r" (?:number |#)?(?:\d+|[a-z]+)(?P<plural>['’]?s)?(?: (?:gauge|awg|too|wires?))*"
)


def _sized_by_pronoun(last: Act, act: Act) -> Act | None:
    """Loose wires or grounds of the size that is said of them: "they're fourteens". Ten, eight and
    six could count them, where no plural makes a size of the number."""
    if not isinstance(act, acts.RestateNumber) or act.instead_of is not None or act.of is not None:
        return None
    said = _PRONOUN_IS.fullmatch(act.words.strip())
    if not isinstance(last, acts.AddGrounds | acts.AddConductors) or said is None:
        return None
    if last.awg == act.value:
        return last
    if act.value not in ((18, 16, 14, 12, 10, 8, 6) if said["plural"] else (18, 16, 14, 12)):
        return None
    if last.count == act.value or last.awg is not None:
        return None
    return replace(last, awg=int(act.value))


_GROUNDS_TOO = lazy_pattern(
    r"(?i)\b(?:and|also|plus) (?:the |all the )?(?:greens?|grounds?|bares?)(?: wires?)?(?: too|"
    r" as well"
    r"| also| with them| along with them)?(?=\s*(?:[,.;!]|$))"
)


def grounds_too(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Make them all tens, and the greens too": the grounds as well as the conductors."""
    sized = next((act for act in made if isinstance(act, acts.Resize)), None)
    if sized is None or sized.target.kind not in ("wire", "conductors", "anything"):
        return made
    said = _GROUNDS_TOO.search(heard, sized.span[1])
    if said is None:
        return made
    left[:] = [run for run in left if not said.start() <= run.span[0] < said.end()]
    kept = [
        act
        for act in made
        if not (isinstance(act, acts.AddGrounds) and said.start() <= act.span[0] < said.end())
    ]
    target = Reference("grounds", which="all", words=said[0])
    grounds = acts.Resize(
        target=target, awg=sized.awg, words=said[0], span=said.span(), function="correction"
    )
    return [*kept, grounds]


_TO_BE = lazy_pattern(
    r"(?i)\W*(?:(?:no|well|and|so|oh|now|wait|actually|um|uh|hello|hi|hey),? )*(?:that|it|this"
    r"|that one|this one)"
    r"(?:['’]s| is| was| has| needs| ought| should)?(?: to be| be| have been) "
)
_WITH = lazy_pattern(r"(?i)[^.;]*\bwith\s+")
_FURTHER = lazy_pattern(r"(?i)\b(?:more|another|extra|additional|also|second)\b")


def to_be_with(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "That's to be a two gang with two switches": two in all, and not two more."""
    lead = _TO_BE.match(heard)
    boxed = any(isinstance(act, (acts.SetVolume, acts.SetSize, acts.NameBoxKind)) for act in made)
    if lead is None or not boxed or _FURTHER.search(heard):
        return made
    return [
        acts.Restate(
            thing=act, words=act.words, span=act.span, doubts=act.doubts, function="correction"
        )
        if isinstance(act, acts.AddDevice)
        and (act.count or 0) > 1
        and _WITH.fullmatch(heard[lead.end() : act.span[0]])
        else act
        for act in made
    ]


_THEM = lazy_pattern(
    r"(?i)\b(?:took|pulled|knocked|broke|cut|snapped|removed|taken|pried|bent) (?:them|['’]?em"
    r"|those)\b"
)


def clamps_taken_out(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "They're gone, I took them out with the pliers, no clamps": the clamps, and nothing else."""
    told = [act for act in made if not isinstance(act, (acts.Yes, acts.No, acts.Social))]
    if not told or not all(isinstance(act, (acts.Remove, acts.SetClamps)) for act in told):
        return made
    last = told[-1]
    if not isinstance(last, acts.SetClamps) or last.where not in ("none", "outside"):
        return made
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.Remove)
            and act.target is not None
            and act.target.kind == "anything"
            and _THEM.search(heard[slice(*act.span)])
        )
    ]


_ANOTHER = lazy_pattern(r"(?i)(?:another|one more|an? (?:second|third|fourth|fifth|sixth))\b")
_ANOTHER_BEFORE = lazy_pattern(r"(?i)\ban? (?:second|third|fourth|fifth|sixth) $")
_SO = lazy_pattern(
    r"(?i)(?:[^.;]*[,.;] (?:and )?so(?: that['’]?s| that makes| it['’]?s)?"
    r"|(?:,? (?:and|so|which|that|now))*,?"
    r" (?:makes?|made|(?:gives|puts|gets|brings) (?:me|us|it)(?: up)?(?: at| to)?)(?: it)?) "
)

_BARE = lazy_pattern(r"[\s,.;]*")
#: "Add one more switch, three on there now".
_NOW = lazy_pattern(
    r"(?i) (?:of (?:them|those) )?(?:(?:on|in) (?:there|here|it)(?: now)?|now)(?=\s*(?:[.,;!]|$))"
)


def another_so_many(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "There's another 14-2, so three", "another switch makes two", "no, three, there's another
    14-2": so many of them in all, where there was one less."""
    told = [act for act in made if not isinstance(act, (acts.Yes, acts.No, acts.Social))]
    if len(told) != _THING_AND_NUMBER:
        return made
    reason = _summed_ahead(told[0], told[1], heard)
    thing, number = told[::-1] if reason else told
    count = _sum(number)
    if not _is_another(thing, heard) or count not in _FEW:
        return made
    start = number.span[1] - len(number.words.rpartition(" ")[2])
    if not (
        reason
        or _SO.fullmatch(heard[thing.span[1] : start])
        or (_BARE.fullmatch(heard[thing.span[1] : start]) and _NOW.match(heard, number.span[1]))
    ):
        return made
    target = replace(pointed_at(thing, thing.words), count=None)
    span = (told[0].span[0], told[1].span[1])
    return [
        acts.Recount(
            target=target, count=count, of=count - 1, words=heard[slice(*span)], span=span,
            function="correction",
        )
    ]  # fmt: skip


#: Between how many there are and why: "three cables, there's another 14-2 behind".
_THERE_IS = lazy_pattern(
    r"(?i)[\s,.;–—-]*(?:(?:because|since|as|and|sorry|oh|i see|i found|i missed|we have) )*"
    r"(?:there(?:['’]s| is| was)|i(?:['’]ve got| have| found| see| missed)|we have|here['’]s)"
    r"(?: (?:still|also|actually|yet))* (?:an? )?"
)


def _summed_ahead(number: Act, thing: Act, heard: str) -> bool:
    """Whether the first puts right how many there are, and the second is the reason."""
    named = number.thing if isinstance(number, acts.Restate) else None
    kind = named is None or (isinstance(named, type(thing)) and not _told_kind(named))
    put_right = isinstance(number, (acts.Restate, acts.RestateNumber))
    return (
        put_right
        and kind
        and _THERE_IS.fullmatch(heard[number.span[1] : thing.span[0]]) is not None
    )


def _told_kind(act: Act) -> bool:
    """Whether a cable or a device is told by its size or its name."""
    return isinstance(act, acts.AddCable) and (act.awg, act.conductors) != (None, None)


def _is_another(act: Act, heard: str) -> TypeGuard[acts.AddCable | acts.AddDevice]:
    if not isinstance(act, (acts.AddCable, acts.AddDevice)):
        return False
    known = act.awg if isinstance(act, acts.AddCable) else act.name
    if known in (None, "device") or act.count not in (None, 1):
        return False
    further = _ANOTHER.match(act.words) is not None and act.count == 1
    return further or _ANOTHER_BEFORE.search(heard[: act.span[0]]) is not None


def _sum(act: Act) -> int:
    """The number of them in all that an act may say, or nought."""
    if isinstance(act, acts.Restate):
        return act.thing.count or 0 if isinstance(act.thing, acts.AddCable) else 0
    if isinstance(act, (acts.Number, acts.RestateNumber)):
        return int(act.value or 0)
    if not isinstance(act, acts.Recount) or act.target.kind != "anything":
        return 0
    return (act.count or 0) if act.target.awg is None else 0


_THING_AND_NUMBER = 2
_FEW = range(2, 10)


_THAT_IS = lazy_pattern(
    r"(?i)(?:so |and )*(?:that|those|these|it|they)(?:['’]?s|['’]?re| is| are)\b"
)
_BEHIND_IT = lazy_pattern(r"\s*[,;:–-]*\s*(?:and )?")


def size_explained(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A plug on the 12s, that's two 12-2": which cables those are that it is on, in place of no
    other cable."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.Restate)
            and isinstance(act.thing, acts.AddCable)
            and act.instead_of is None
            and act.thing.count is not None
            and isinstance(last, acts.AddDevice)
            and last.awg == act.thing.awg is not None
            and _THAT_IS.match(act.words)
            and _BEHIND_IT.fullmatch(heard[last.span[1] : act.span[0]])
        ):
            target = replace(just_like(act.thing), count=None)
            act = replace(act, instead_of=target, function="inform")
        kept.append(act)
    return kept
