"""What is asked and answered in one breath: "is there a clamp, no"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Placing, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing, pointed_at
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_WHETHER = lazy_pattern(
    r"(?i)(?:(?:so|and|but|um|uh|ok|okay|well|now|hmm|let'?s see),? )*"
    r"(?:is|are|was|were|does|do|did|has|have|any)\b(?!.*\b(?:counts?|counted|matter|need|fit|go|allowed|mean|or)\b)"
)
_FILLED = r"[\s,.?!;–-]*(?:(?:um|uh|er|well|oh|hmm|so|actually|nope no)[\s,.]+)*"
_NO = (
    r"(?:no|nope|nah|none|not? (?:a |any )?(?:that i (?:can )?see|one|really|here|in here)?)\b"
    r"(?!,? (?:wait|hang|hold|sorry|i mean|idea|clue|way|matter|longer))"
)
_YES = r"(?:yes|yeah|yep|yup|sure is|there is|there are|it does|it is|uh[- ]?huh)\b"
_DENIED = lazy_pattern(rf"(?i){_FILLED}{_NO}")
_SAID_NO = lazy_pattern(rf"(?i).*[,.?!;]{_FILLED}{_NO}[^,.?!;]*$")
_SAID_YES = lazy_pattern(rf"(?i){_FILLED}{_YES}")
_BETWEEN = lazy_pattern(rf"(?i){_FILLED}")
_INSIDE = lazy_pattern(r"(?i).*\b(?:inside|internal|built[- ]in|inner)\b")


def clamps_answered(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """Whether there are clamps, asked by one who looks and says it himself."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(last, acts.SetClamps) and last.words and _repeats(last, act, heard):
            continue
        if isinstance(last, acts.SetClamps) and _denied_inside(last, act, heard):
            kept[-1] = replace(last, where="none")
            continue
        answer = _answer(act, heard)
        kept.append(act if answer is None else _clamps(act, answer, made))
    return kept


_THERE_ARE = lazy_pattern(r"(?i)there (?:is|are)")
_OF_SOME = lazy_pattern(r"(?i) (?:(?:really|actually|only|just|now|still) )*")


@joining
def told_not_answered(last: Act, act: Act, heard: str) -> Act | None:
    """ "There are three of the 14-2", where clamps are asked for: told, and no "yes there are"."""
    if not isinstance(last, acts.Yes) or not _THERE_ARE.fullmatch(last.words):
        return None
    told = is_thing(act) or isinstance(act, (acts.Restate, acts.Recount))
    return act if told and _OF_SOME.fullmatch(heard, last.span[1], act.span[0]) else None


_ONLY_INSIDE = lazy_pattern(
    r"(?i)(?:any )?(?:cable )?clamps?,?"
    r" (?:(?:on the |in the |the )?inside|internal|in the box|in it)"
)


def _denied_inside(clamps: acts.SetClamps, act: Act, heard: str) -> bool:
    """ "Clamps inside? No.": asked and answered; "clamp inside. nope" may put another right."""
    if not isinstance(act, (acts.No, acts.NoneOfThem)) or not _ONLY_INSIDE.fullmatch(clamps.words):
        return False
    return (
        "?" in heard[clamps.span[1] : act.span[0]]
        and _BETWEEN.fullmatch(heard, clamps.span[1], act.span[0]) is not None
        and _ALONE.fullmatch(heard, act.span[1]) is not None
    )


_ALONE = lazy_pattern(r"(?i)(?:(?:,? please)?[\s.!]*|\s*[.!;]\s+\S.*)")


def _answer(act: Act, heard: str) -> Placing | None:
    if not isinstance(act, acts.AskMeaning) or act.term != "clamps" or act.thing is not None:
        return None
    if not _WHETHER.match(act.words):
        return None
    if _SAID_NO.match(act.words) or _DENIED.match(heard, act.span[1]):
        return "none"
    if _SAID_YES.match(heard, act.span[1]):
        return "inside" if _INSIDE.match(act.words) else "present"
    return None


def _clamps(act: Act, where: Placing, made: list[Act]) -> Act:
    """The answer; where another tells more of them, that stands."""
    others = [one for one in made if isinstance(one, acts.SetClamps) and one.where != "present"]
    if others:
        return acts.Keep(words=act.words, span=act.span)
    return acts.SetClamps(where=where, words=act.words, span=act.span)


def _repeats(clamps: acts.SetClamps, act: Act, heard: str) -> bool:
    """Whether an act is the answer itself, which the clamps stand for now."""
    if not _WHETHER.match(clamps.words):
        return False
    if isinstance(act, acts.SetClamps):
        return act.where == "present"
    answers = isinstance(act, (acts.No, acts.Yes, acts.NoneOfThem))
    return answers and _BETWEEN.fullmatch(heard, clamps.span[1], act.span[0]) is not None


_ALL = lazy_pattern(r"(?i).*\b(?:all|both|like|the|of|each)\s+$")
_ENDS = lazy_pattern(r"(?i)(?:[\s,.!?]|\bplease\b|\bthen\b|\bthough\b)*")
_ASKED = (acts.Ask, acts.AskMeaning, acts.AskUnknown, acts.Suppose)


def numbers_asked_with(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "What about the grounds, like all three?": a number within a question tells nothing."""
    if not heard.rstrip().endswith("?") or not isinstance(made[0], _ASKED):
        return made
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.Number)
            and _ALL.match(heard[: act.span[0]])
            and _ENDS.fullmatch(heard, act.span[1])
        )
    ]


_DENIES = lazy_pattern(
    r"(?i)[\s,.;]*(?:(?:sorry|my bad|my mistake|i mean|i meant|i misspoke|oops|excuse me|correction"
    r"|pardon|actually|please|then|now)[\s,.;]+)*(?:and |but )?not (?:the |a |an )?"
)
_NUMBER = lazy_pattern(r"(?i)[a-z-]+|[0-9.]+")


def denied_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Make it four twelves, sorry, not six": the old value, denied behind the new one."""
    for act in made:
        if act.function != "correction":
            continue
        left[:] = [
            run
            for run in left
            if not (
                _NUMBER.fullmatch(run.words)
                and _DENIES.fullmatch(heard, act.span[1], run.span[0])
                and _ENDS.fullmatch(heard, run.span[1])
            )
        ]
    return made


_MEANT = lazy_pattern(
    r"(?i),? (?:i mean|i meant|that is|is what i mean|is what i meant|i should say)[,;–-]?"
    r" (?:and )?not "
)


@joining
def meant_not_that(last: Act, act: Act, heard: str) -> Act | None:
    """ "A 14/2 I mean, not 14/3": the one is put in the place of the other, and nothing of its own
    kind is counted anew."""
    if not isinstance(act, acts.Deny) or act.target.which != "said":
        return None
    told = last.thing if isinstance(last, acts.Restate) and _of_its_own(last) else last
    if not is_thing(told) or not _MEANT.fullmatch(heard, last.span[1], act.span[0]):
        return None
    if pointed_at(told, told.words).kind != act.target.kind:
        return None
    span = (last.span[0], act.span[1])
    return acts.Restate(
        thing=told, instead_of=act.target, words=heard[slice(*span)], span=span,
        doubts=told.doubts, function="correction",
    )  # fmt: skip


def _of_its_own(said: acts.Restate) -> bool:
    """Whether a correction names nothing that it puts right, but what is of its own kind."""
    own, instead = pointed_at(said.thing, ""), said.instead_of
    return instead is None or (own.kind, own.name, own.awg, own.conductors) == (
        instead.kind, instead.name, instead.awg, instead.conductors,
    )  # fmt: skip


_THEN_NO = lazy_pattern(r"(?i)[^,.;:!?]{0,16}\?[\s,.]*(?:(?:um|uh|oh|well|hmm|wait)[\s,.]+)*")
_PASSING = lazy_pattern(
    r"(?i)[^,.;:!?]{0,10}\s*[?,.]?\s*(?:oh |wait )?(?:no|nope|nah)[\s,.]+(?:wait,? )?"
    r"(?:that|it|that one|this)(?:['’]s| is| was) (?:[a-z]+ ){0,4}?(?:speaker|coax|phone"
    r"|door ?bell|thermostat|low voltage|alarm|cat ?[56]e?|going past|passing|outside|next door"
    r"|(?:the |another |a different )?(?:next|other|neighbou?r['’]?s?) (?:bay|box|wall|room|side)"
    r"|another (?:bay|box|wall|room))"
    r"(?: (?:wire|cable|stuff))?\b"
)
_SENTENCE = lazy_pattern(r"[^.;!?]*")
_SAYS_ANEW = (
    acts.Restate, acts.RestateNumber, acts.Recount, acts.Replace, acts.SetSize, acts.SetVolume,
    acts.Number,
)  # fmt: skip


def asked_and_denied(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "There's a 14-2 as well? No, that's the speaker wire", "twelve cubes? no, can't read it":
    asked and answered by one who looks, so that nothing is told; another value behind the "no"
    puts it right instead."""
    kept: list[Act] = []
    until = 0
    for place, act in enumerate(made):
        last = kept[-1] if kept else None
        if act.span[0] < until:
            continue
        counted = _counted_at_once(last, made[place : place + 2], heard)
        if counted is not None:
            kept[-1], until = counted, counted.span[1]
            continue
        passing = _PASSING.match(heard, act.span[1]) if is_thing(act) else None
        if passing is not None and not isinstance(act, acts.AddUncounted):
            until = passing.end()
            kept.append(acts.Keep(words=act.words, span=act.span))
        elif isinstance(act, acts.No) and _only_asked(last, act, made[place + 1 :], heard):
            kept[-1] = acts.Keep(words=kept[-1].words, span=kept[-1].span)
        else:
            kept.append(act)
    return kept


_HOW_MANY = lazy_pattern(
    r"(?i)[\s,.;!]*(?:(?:just|only|it['’]s|there['’]s|there (?:is|are)|make (?:it|that))\s+)*"
)


#: Behind the number: nothing that it could be of.
_SAID_SO = lazy_pattern(
    r"(?i)(?: of (?:them|those|’em|'em))?(?:,? (?:here|there|please))*\s*(?:[.!,;]|$)"
)


def _counted_at_once(last: Act | None, answer: list[Act], heard: str) -> acts.Restate | None:
    """ "Three switches? No. Two.": so many of what was asked, whatever else was told last."""
    if not is_thing(last) or last.count is None or len(answer) < 2:
        return None
    no, number = answer
    if not isinstance(no, acts.No) or not isinstance(number, (acts.Number, acts.RestateNumber)):
        return None
    value = number.value
    if value is None or value != int(value) or not 0 < value < last.count * 10:
        return None
    if _THEN_NO.fullmatch(heard, last.span[1], no.span[0]) is None:
        return None
    if _HOW_MANY.fullmatch(heard, no.span[1], number.span[0]) is None:
        return None
    if _SAID_SO.match(heard, number.span[1]) is None:
        return None
    span = (last.span[0], number.span[1])
    return acts.Restate(
        thing=replace(last, count=int(value)), span=span,
        instead_of=replace(pointed_at(last, last.words), count=None),
        words=heard[slice(*span)], doubts=last.doubts, function="correction",
    )  # fmt: skip


def _only_asked(last: Act | None, no: Act, behind: list[Act], heard: str) -> bool:
    """Whether a "no" answers what stands right before it, and says nothing in its place."""
    if last is None or not (is_thing(last) or isinstance(last, acts.SetVolume)):
        return False
    end = _SENTENCE.match(heard, no.span[1])
    return (
        _THEN_NO.fullmatch(heard, last.span[1], no.span[0]) is not None
        and end is not None
        and not any(
            one.span[0] < end.end() and (is_thing(one) or isinstance(one, _SAYS_ANEW))
            for one in behind
        )
    )
