"""What goes, said twice in one breath: "one is not used, take it off"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

_PRONOUN = lazy_pattern(r"(?i)\b(?:it|them|em|that|those|that one)\b")
#: "So one less": how many that leaves out, told of what was just taken.
_LESS = lazy_pattern(
    r"(?i)(?:(?:and|so|that|that['’]?s|which|which['’]?s|is|it['’]?s|makes|leaves|means|meaning|us|me"
    r"|just|only) )*(?:\w+) (?:less|fewer)\b"
)
_NOT_DONE = (acts.Suppose, acts.Keep, acts.Ask, acts.AskUnknown, acts.AskMeaning)
_BUT_ANOTHER = lazy_pattern(r"(?i)\b(?:then|also|another|more|plus)\b")
#: "I pulled one back to the attic box": who did it says where the end of it went.
_DRAWN = lazy_pattern(
    r"(?i)\b(?:pulled|cut|took|taken|moved|sent|ran|fished|routed|rerouted|brought|traced|dragged"
    r"|chopped|backed)\b"
)
_TOO = lazy_pattern(r"(?i)\b(?:too|also|as well|another|other|(?<!any )more)\b")
#: "So lose one": what comes of what was said before it.
_HENCE = lazy_pattern(r"(?i)[\s,.;:–—-]*(?:(?:and|please) )*(?:so|therefore|hence)\b")


def taken_once(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without an order to take out what was just said to be gone."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        again = (
            isinstance(act, acts.Remove)
            and isinstance(last, (acts.Remove, acts.Deny, *_NOT_DONE))
            and (_points_back(act, last, heard) or _named_again(act, last, heard))
            and not _TOO.search(heard[act.span[0] :])
        )
        if again:
            continue
        if (order := _named_by_reason(act, last, heard)) is not None:
            kept[-1] = order
            continue
        if isinstance(act, acts.Remove) and _named_behind(act, last, heard):
            kept.pop()
        if isinstance(act, acts.Remove) and last is not None and _moves_out(act, last, heard):
            kept[-1] = _just_that(act, last, heard)
            continue
        act = _put_in_instead(act, last, heard)
        kept.append(act)
    return kept


#: "I'm rerouting the 12-2": why one goes, and which.
_LEAVES = lazy_pattern(
    r"(?i)[\s,.;:–—-]*(?:because |since |so |as |cause )?(?:i|we|he|she|they|you)"
    r"(?:['’](?:m|re|s|ll|ve|d)| am| are| is| will| have)?(?: going to| gonna| just| also| only)?"
    r" (?:re-?rout|mov|relocat|pull|tak|cut|abandon|eliminat|send|sent|bring|remov|drop|los|rip)\w*"
    r"(?: out| up| down| back| over)? (?=the |that |this |my )"
)
_LEAD = lazy_pattern(r"(?i)(?:the|that|this|my) ")


def _named_by_reason(act: Act, last: Act | None, heard: str) -> Act | None:
    """The order with what goes, where the reason behind it names that: "take one out, I'm rerouting
    the 12-2" brings none in."""
    if last is None or not is_thing(act) or act.count is not None:
        return None
    order = last if isinstance(last, acts.Remove) else None
    if order is None and not isinstance(last, _NOT_DONE):
        return None
    if order is not None and ((order.target.count or 1) != 1 or order.target.name is not None):
        return None
    between = heard[last.span[1] : act.span[0]]
    pointed = _LEAD.match(act.words) or between.endswith(("the ", "that ", "this ", "my "))
    reason = between if not _LEAD.match(act.words) else between + "the "
    if not pointed or not _LEAVES.match(reason):
        return None
    return last if order is None else replace(order, target=replace(just_like(act), count=1))


_INSTEAD = lazy_pattern(r"(?i)\binstead\b|\bin its (?:place|stead)\b|\bfor it\b")


def _put_in_instead(act: Act, last: Act | None, heard: str) -> Act:
    """ "The 12-3 is out, I'm using a 12-2 instead": what comes in for it is one more, whatever else
    of its kind is there."""
    if not isinstance(act, acts.Restate) or not isinstance(last, acts.Remove):
        return act
    thing, gone = act.thing, last.target
    if act.instead_of is not None or (thing.count or 1) != 1 or (gone.count or 1) != 1:
        return act
    alike = replace(just_like(thing), words="") == replace(gone, count=None, words="")
    if alike or not _INSTEAD.search(heard[last.span[1] :]):
        return act
    return replace(thing, count=1, words=act.words, span=act.span)


_IT_ALONE = lazy_pattern(r"(?i)(?:it|that|that one)(?:['’]s)?")
_AND = lazy_pattern(r"(?i)\band\b")


def _named_behind(act: acts.Remove, last: Act | None, heard: str) -> bool:
    """ "It goes past this box. Take the 14-2 out": what "it" was is named by the order."""
    if not isinstance(last, acts.Remove) or not _THAT_ONE.search(act.words):
        return False
    pronoun = last.target.kind == "anything" and _IT_ALONE.fullmatch(last.target.words.strip())
    between = heard[last.span[1] : act.span[1]]
    further = _BUT_ANOTHER.search(between) or _AND.search(between)
    return bool(pronoun) and act.target.kind != "anything" and not further


def _points_back(act: acts.Remove, last: Act, heard: str) -> bool:
    """Whether an order is of what the clause before said to be gone, by a pronoun or by how many
    are fewer."""
    if act.target.kind != "anything" or act.target.awg is not None:
        return False
    pronoun = _PRONOUN.search(act.words) and not isinstance(last, _NOT_DONE)
    return bool(pronoun) or _so_many_less(act, last, heard)


#: "One 12-2 is moving out. Take it off": told to leave, and ordered out.
_MOVES = lazy_pattern(
    r"(?i)(?:['’]s)?(?: (?:is|are|was|were|will be|has to be|gets))?"
    r"(?: (?:now|just|actually|also))*"
    r" (?:mov(?:ing|es|ed)|leav(?:ing|es)|going|goes|coming|comes|rerouted|headed|heading)"
    r"(?: (?!in\b|into\b|here\b|and\b|also\b)[a-z]+){0,5}[\s.,;:!–—-]+"
    r"(?:(?:so|and|please|just|then|ok|okay)[\s,]+)*"
)


_NTH = lazy_pattern(r"(?i)\b(second|third|fourth|fifth|sixth) $")
_PLACES = {"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6}
_ONE = lazy_pattern(r"(?i)(?:it|that|that one)")


def _just_that(act: acts.Remove, last: Act, heard: str) -> acts.Remove:
    """The order of what was just told: "the third cable goes there, so I pulled it" takes out one,
    the third, whatever else there is of it."""
    if not is_thing(last):
        return act
    nth = _NTH.search(heard[: last.span[0]])
    one = _ONE.fullmatch(act.target.words.strip()) is not None and not last.words.endswith("s")
    count, place = last.count, _PLACES[nth[1].lower()] if nth else None
    if nth is None and one:
        count = count or 1
    like = replace(just_like(last), count=count, ordinal=place, words=last.words)
    return replace(act, target=like)


def _moves_out(act: acts.Remove, last: Act, heard: str) -> bool:
    """Whether what was just told is the very thing that the order takes out, and is no further
    one of its kind."""
    if not is_thing(last) or last.function != "inform":
        return False
    pronoun = act.target.kind == "anything" and _PRONOUN.search(act.words)
    between = heard[last.span[1] : act.span[0]]
    return bool(pronoun) and _MOVES.fullmatch(between) is not None


#: "So take the switch out": the same thing, by a word that points at it.
_THAT_ONE = lazy_pattern(r"(?i)\b(?:the|that|this|those|these|my)\b")


def _named_again(act: acts.Remove, last: Act, heard: str) -> bool:
    """ "The switch is going in another box, so take the switch out": one switch, named twice."""
    if not isinstance(last, acts.Remove) or not _THAT_ONE.search(act.words):
        return False
    one, other = act.target, last.target
    same = (one.kind, one.name, one.awg, one.conductors) == (
        other.kind, other.name, other.awg, other.conductors
    )  # fmt: skip
    plain = one.ordinal is other.ordinal is None and one.which == other.which == "said"
    many = (one.count or 1) == (other.count or 1) and (one.kind != "anything" or one.count)
    return bool(same and plain and many) and not _BUT_ANOTHER.search(
        heard[last.span[1] : act.span[1]]
    )


def _so_many_less(act: acts.Remove, last: Act | None, heard: str) -> bool:
    """ "One was cut back, so one less": the same one, told by how many are fewer; and none where
    its going was asked of, supposed or forbidden."""
    if isinstance(last, _NOT_DONE):
        return _LESS.fullmatch(act.words.strip()) is not None
    return (
        isinstance(last, acts.Remove)
        and (last.target.count or 1) == (act.target.count or 1)
        and (_LESS.fullmatch(act.words.strip()) or _HENCE.match(act.words)) is not None
        and _BUT_ANOTHER.search(heard[last.span[1] : act.span[1]]) is None
    )


_ONE_OF_THEM = lazy_pattern(
    r"(?i)\b(?:last|latest|extra|additional|second|third|fourth|fifth|other) (?:[a-z]+ )?"
    r"[a-z\d/-]*(?<!s)(?: cable| run)?(?: back)?(?: out| off| away)$"
)


def single_one(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Take the last 14-2 out": one of them, however many there are."""
    return [
        replace(act, target=replace(act.target, count=1))
        if isinstance(act, acts.Remove)
        and act.target.kind == "cable"
        and act.target.count is None
        and _ONE_OF_THEM.search(act.words.strip())
        else act
        for act in made
    ]


def drawn_back(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "I pulled one of those back to the attic box": where it ends now, and no box is opened."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if not (
            isinstance(act, acts.OpenBox)
            and isinstance(last, acts.Remove)
            and act.words.lower().startswith("back ")
            and _DRAWN.search(last.words)
            and not heard[last.span[1] : act.span[0]].strip()
        ):
            kept.append(act)
    return kept


def reason_for_more_wires(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A neutral comes along, so one of those 14-2s is a 14-3": the neutral is in the 14-3."""
    grown = any(
        isinstance(act, (acts.Replace, acts.Restate))
        and isinstance(act.thing, acts.AddCable)
        and (act.thing.conductors or 0) > 2
        for act in made
    )
    if not grown:
        return [
            act for place, act in enumerate(made) if not _brought_by(act, made[place + 1 :], heard)
        ]
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.AddConductors)
            and act.count in (None, 1)
            and act.role is not None
            and not any(sign.isdigit() for sign in act.words)
        )
    ]


_NEEDS = lazy_pattern(
    r"(?i)\b(?:need|needs|want|wants|have|has|got|going|trying)(?: to)?"
    r"(?: (?:bring|get|have|run|pull|carry|take))?(?: in| over| down| up)? $"
)
_SO = lazy_pattern(
    r"(?i)(?: (?:wires?|conductors?|over|in|down|up|along|there|here|across|through|too|to it))*,?"
    r" so (?:(?:there['’]?s|there is|i['’]?m (?:adding|pulling|running)|i|we|am|pulled|ran|added"
    r"|add|have|need|put in|that['’]?s|it['’]?s) )*"
)


def _brought_by(act: Act, behind: list[Act], heard: str) -> bool:
    """ "I need to bring a neutral over, so there's one more 14-2": it is in that cable."""
    cable = behind[0] if behind else None
    return (
        isinstance(act, acts.AddConductors)
        and isinstance(cable, acts.AddCable)
        and act.count in (None, 1)
        and act.awg is None
        and act.role is not None
        and bool(_NEEDS.search(heard[: act.span[0]]))
        and bool(_SO.fullmatch(heard, act.span[1], cable.span[0]))
    )


def parts_of_all(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two of the eight leave by another box, make it six": the numbers before it come to it."""
    last = made[-1] if made else None
    value = last.value if isinstance(last, acts.RestateNumber) else None
    if last is None or value is None:
        return made
    runs = [run for run in left if run.span[1] <= last.span[0]]
    said = [_SMALL.get(run.words.lower().strip()) for run in runs]
    if len(said) == 2 and None not in said and (said[1] or 0) - (said[0] or 0) == value:
        left[:] = [run for run in left if run not in runs]
    return made


_SMALL = {
    word: worth
    for worth, words in enumerate(
        ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
         "twelve"), start=1)
    for word in (words, str(worth))
}  # fmt: skip
