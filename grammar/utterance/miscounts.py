"""A count with a short sentence behind it that says why it is another than before."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

_LINK = (
    r"\s*[,.;:\u2013\u2014-]*\s*(?:(?:because|cause|since|as|and|but|so|oh|sorry|oops|yeah|no"
    r"|guess|looks like|it seems|um|uh),? )*"
)
_WHO = r"(?:(?:i|we|he|she)(?:'d|'ve)? (?:(?:had|have|just|must have|did|only|also|totally) )*)?"
_ENDS = r"(?=\s*(?:[.,;:!?)]|$))"
#: "I missed one", "forgot the other pair": how many there are is said with those.
_MISSED = lazy_pattern(
    rf"(?i){_LINK}{_WHO}(?:miss(?:ed)?|forgot|forget|overlooked|skipped|left (?:out|off)"
    r"|(?:did not|didn'?t|never) (?:see|count|notice|spot|mention))(?: (?:about|to (?:count|mention"
    r"|say|include|tell you about|add)))? (?:the |that |this |another |a |an )?(?:other )?"
    r"(?P<how>one|two|three|pair|couple|cable|wire|run|device|conductor|set)s?"
    r"(?: of (?:them|those))?"
    r"(?: (?:that|in|at|behind|on|from|back|up|tucked|hiding|hidden|going|coming|under|over|down)"
    rf"(?: [a-z']+){{0,5}})?{_ENDS}|{_LINK}with the one i (?:missed|forgot)\b"
)
#: "Counted wrong": how many there are is another number than was said.
_WRONG = lazy_pattern(
    rf"(?i){_LINK}(?:{_WHO}(?:(?:mis-?counted|mis-?spoke|mis-?read|mis-?said)"
    r"|(?:counted|read|said|had|got|put|typed|wrote|told you)"
    r" (?:(?:it|that|them|those|this|these) )?(?:all )?wrong"
    r"|(?:had )?(?:counted|listed|said|had|read|put|got)"
    r" (?:one|two|some|it|that|that one|one of (?:them|those)|(?:the|that|a|my) (?:[a-z]+ )?"
    r"(?:ground|neutral|hot|green|bare|white|black|red|same (?:one|wire)|pigtail|tail|jumper))"
    r"(?: (?:one|wire))? (?:twice|double|two times)"
    r"|(?:counted|put|listed|had|i'd) (?:the|that|my) (?:green|bare|ground|earth)(?: (?:one|wire))?"
    r" (?:in )?(?:with (?:them|those|the rest)|as (?:one|a (?:wire|hot|conductor))"
    r"(?: of (?:them|those))?)"
    r"|(?:double counted|doubled|counted double) (?:the|that|a|my) (?:green|bare|ground|earth|white"
    r"|neutral|hot)(?: (?:one|wire))?"
    r"|(?:can'?t|cannot|can not|couldn'?t) count(?: today| right)?"
    r"|(?:counted|looked|checked) (?:it |them )?(?:again|twice|over)|recounted|messed (?:it )?up"
    r"|screwed (?:it )?up)|(?:my|the) (?:first )?(?:count|number|math) (?:was|is) (?:off|wrong|bad)"
    r"|one of (?:them|those|these) (?:is|was) (?:just |only )?the (?:green|bare|ground|earth)"
    rf"|my (?:mistake|bad|fault|error)|wrong count|bad count){_ENDS}"
)
MISCOUNT_PIECES = (
    "twice",
    "miss",
    "forg",
    "overlook",
    "skip",
    "left o",
    "did",
    "never",
    "mis",
    "count",
    "wrong",
    "looked",
    "checked",
    "mess",
    "screw",
    "off",
    "bad",
    "mistake",
    "one of ",
    "doubled",
    "the ",
    "fault",
    "error",
)
"""One of them stands in what either expression finds."""
_MORE = lazy_pattern(r"(?i)\b(?:more|another|extra|additional|other)\b")
_AT_LEAST = {"two": 2, "pair": 2, "couple": 2, "set": 2, "three": 3}
_SAID_BY_IT = (
    acts.Mistaken, acts.Number, acts.No, acts.Undo, acts.RestateNumber, acts.Recount, acts.Ask,
    acts.Reclassify,
)  # fmt: skip


def miscounted(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Four 14-2s, I missed one", "three 12-2s, counted wrong": all of them there are."""
    for place, act in enumerate(made):
        if not is_thing(act) and not isinstance(act, acts.Restate):
            continue
        missed = _MISSED.match(heard, act.span[1]) if is_thing(act) else None
        remark = missed or _WRONG.match(heard, act.span[1])
        if remark is None:
            continue
        if _MORE.search(act.words) and not missed:
            continue
        if is_thing(act) and "one of" in remark[0].lower() and "the" in remark[0].lower():
            continue  # "five 12s, one of those is the ground", where nothing was told before
        reach = (act.span[1], remark.end())
        left[:] = [run for run in left if not reach[0] <= run.span[0] < reach[1]]
        behind = [one for one in made[place + 1 :] if not _of_the_remark(one, reach)]
        if missed and is_thing(act):
            before = [*made[:place], _with_those(act, missed["how"] or "one")]
        else:
            before = [_anew(one) for one in made[: place + 1]]
        return [*before, *behind]
    return made


def _of_the_remark(act: Act, reach: tuple[int, int]) -> bool:
    """Whether an act is only what a remark seems to tell."""
    within = reach[0] <= act.span[0] < reach[1]
    return within and (isinstance(act, _SAID_BY_IT) or is_thing(act))


def _with_those(act: acts.Thing, how: str) -> Act:
    """All of them, where they are more than were missed: "two 14-2s, forgot a pair" adds two."""
    missed = _AT_LEAST.get(how.lower(), 1)
    return _anew(act) if (act.count or 0) > missed else act


def _anew(act: Act) -> Act:
    """A count in place of that of the same things; what is one more stays so."""
    if not is_thing(act) or act.count is None or _MORE.search(act.words):
        return act
    return acts.Restate(
        thing=act, instead_of=just_like(act), words=act.words, span=act.span,
        doubts=act.doubts, function="correction",
    )  # fmt: skip


_FORGOTTEN = lazy_pattern(
    r"(?i)\b(?:forgot|forgotten|missed|overlooked|left (?:out|off))(?: (?:about|to (?:count|mention"
    r"|say|include)))?(?: (?:the|that|this))? $"
)


def named_twice(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A receptacle, I forgot the receptacle": one, and what was forgotten is that one."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        again = is_thing(act) and act.count is None and is_thing(last)
        if again and _FORGOTTEN.search(heard[: act.span[0]]) and _same(act, last):
            continue
        kept.append(act)
    return kept


def _same(act: Act, other: Act | None) -> bool:
    if not is_thing(act) or not is_thing(other):
        return False
    return replace(just_like(act), words="") == replace(just_like(other), words="")


_CURSES = (
    r"(?:damn(?:ed)?|dang|darn(?:ed)?|stupid|freaking|frigging|fricking|friggin|freakin|fricken"
    r"|god ?damn(?:ed)?|goddam|bloody|blasted|lousy|stinking|stinkin|effing|effin|shitty|crappy"
    r"|fucking|fuckin|confounded|flipping|flippin|wretched|cursed)"
)
CURSE_PIECES = (
    "damn",
    "dang",
    "darn",
    "stupid",
    "freak",
    "frig",
    "frick",
    "goddam",
    "bloody",
    "blasted",
    "lousy",
    "stink",
    "effi",
    "shitty",
    "crappy",
    "fuck",
    "confound",
    "flippi",
    "wretched",
    "cursed",
)
"""One of them stands in each curse."""
_CURSED = lazy_pattern(
    r"(?i)\W*(?:(?:um|uh|er|please|hello|hey|hi|oh|ugh|argh|man|god|jeez|well|hell|shit|crap|sheesh|not|the|this|that|these"
    rf"|those|my|you),? )*(?P<curse>{_CURSES})(?: {_CURSES})* [^,.;:?]*(?:,? please)?[\W]*"
)


_CURSED_BEHIND = lazy_pattern(r"(?i)\W*(?:please\W*)?")


def cursed(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Damn three-way.": a thing cursed at and no more. It may be there already: it is asked."""
    told = [act for act in made if not isinstance(act, acts.Social)]
    act = told[0] if len(told) == 1 else None
    if not is_thing(act) or act.count is not None or getattr(act, "awg", None) is not None:
        return made
    found = _CURSED.fullmatch(" ".join(heard.split()))
    if found is None or _CURSED_BEHIND.fullmatch(heard, act.span[1]) is None:
        return made
    return [
        acts.UnknownOperator(
            verb=found["curse"], thing=replace(act, doubts=()), words=act.words, span=act.span
        )
    ]


_OATH = lazy_pattern(
    r"(?i)\W*(?:(?:ah|oh|aw|well|um|uh|hello|hi|so|ok|okay|no)\b[,.\s]*)*(?:hell|shit|damn|crap"
    r"|dammit)\b"
)


def sworn_at_number(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Ah hell, two. Two switches": who swears at a number corrects it."""
    told = [act for act in made if not isinstance(act, acts.Social)]
    if len(told) != 2 or not _OATH.match(heard):
        return made
    number, thing = told
    if (
        isinstance(number, acts.Number)
        and isinstance(thing, (acts.AddCable, acts.AddDevice))
        and thing.count == number.value
        and " more" not in thing.words.lower()
    ):
        return [
            acts.Restate(
                thing=thing, instead_of=just_like(thing), words=heard, span=(0, len(heard)),
                doubts=thing.doubts, function="correction",
            )
        ]  # fmt: skip
    return made
