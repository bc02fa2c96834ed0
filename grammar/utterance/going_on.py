"""What goes on to another place, and so to another box: "next is the range hood", "moving on to the
porch", "on to the one over the sink"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.headings import is_place_name, may_name, name_in, named_device

_SO = r"(?:(?:ok|okay|so|and|now|then|alright|right|well|oh|hey|cool|great|good|done|yeah|yes) )*"
#: What leads to the name of the place, and only there.
_GOING_ON = lazy_pattern(
    rf"{_SO}(?:(?:the )?next(?: up| one| stop| thing)?(?: is| will be| i have| we have| i got"
    r"| there is| comes)?"
    r"|(?:(?:let us|we are|i am|we will|i will|we can) )?(?:(?:mov(?:e|ing|ed)|go|going|went|walk"
    r"|head|heading|headed|come|walking|step|stepping|switch|switching|jump|jumping) )?"
    r"(?:on |over )(?:over |in |out )?to"
    r"|(?:let us|now let us|now|then) (?:now )?(?:do|doing|for|in|at|out in|over in"
    r"|over at|up in|down in|onto|on to))"
    r" (?=(?:the|my|our) )"
)
#: "Ok thanks, next one", "great, next": on to a box that has no name yet.
_NEXT_ONE = lazy_pattern(
    r"(?:(?:ok|okay|so|and|now|then|alright|right|well|oh|hey|cool|great|good|perfect|nice|done|yeah"
    r"|yes|thanks|thank you|got it|sounds good) )*(?:(?:on to|onto|to) )?(?:the )?next"
    r"(?: (?:<n:1>|box|up))?(?: (?:please|then|now))?"
)
#: "Next, the range hood".
_NEXT = lazy_pattern(rf"{_SO}next(?: up| one| stop)?")
#: "This box is finished. Next one: …": what follows is of another.
_DONE = lazy_pattern(
    r"(?i)(?:\b(?:done|finish|finished|complete|completed|closed up|buttoned up|all set|good to go)"
    r"|\bthat(?:['’]s| is) (?:it|all|that|everything)(?: (?:for|on|with) (?:it|this|that)"
    r"(?: one| box)?)?)\W*$"
)
_FRESH = frozenset({"", ".", ";", "\n", "!", "?"})
_NO_ARTICLE = frozenset({"the", "my", "our"})


def gone_on(
    clause: Clause, following: Sequence[Clause], heard: str, first: bool
) -> tuple[list[Act], int] | None:
    """The box that begins where somebody goes on to another place, and how many clauses say it;
    None for any other clause. `first`: nothing was told before."""
    if _NEXT_ONE.fullmatch(clause.line) and (not following or _is_done(clause, heard)):
        words = heard[slice(*clause.span)]
        return [acts.NextBox(name="", words=words, span=clause.span)], 1
    if first and (leads := _leads_to_box(clause, following, heard)) is not None:
        return leads
    if not first and clause.opens not in _FRESH:
        return None  # "a 14-2 from the panel, and on to the kitchen"
    if following and clause.closes in (",", ":", "-") and _NEXT.fullmatch(clause.line):
        named = _named(following[0], heard)
        return ([named], 2) if named else None
    lead = _GOING_ON.match(clause.line)
    if lead is None:
        return None
    rest = Clause(clause.elements[lead.group().count(" ") :], line=clause.line[lead.end() :])
    named = _named(rest, heard)
    return ([named], 1) if named else None


#: "Next. Octagon, two 14-2s", and run on by ear: "next octagon two 14-2s".
_RUN_ON = lazy_pattern(rf"({_SO}next(?: up| <n:1>| box)?) <box_(?:size|volume|kind):")
#: The same with nothing but the box: "next one twenty cubic inches".
_BOX_ALONE = lazy_pattern(
    rf"{_SO}next(?: up| <n:1>| box)? <box_(?:size|volume|kind):[^>]*>"
    r"(?: (?:<(?:box|clamps)[^>]*>|again|too))*"
)
_BOXES = frozenset({"box_size", "box_volume", "box_kind"})
_IN_A = lazy_pattern(r" in an? <n:")
_CONTENTS = frozenset({"cable", "device", "conductors"})


def _leads_to_box(
    clause: Clause, following: Sequence[Clause], heard: str
) -> tuple[list[Act], int] | None:
    """A word that leads on, before a box that is described with what is in it: another box. Where
    it runs on, none of the clauses is passed over."""
    parts = [clause, *following]
    kinds = {found.kind for part in parts for found in part.found}
    if any(part.mood != "declarative" for part in parts):
        return None
    if following and _NEXT_ONE.fullmatch(clause.line) and clause.closes in (*".!;\n:",):
        opened = following[0].elements[0].found
        boxed = kinds & _BOXES or any(_IN_A.search(part.line) for part in following)
        described = opened is not None and opened.kind in _BOXES
        if not boxed or opened is None or not (kinds & _CONTENTS or described):
            return None  # "next. swap it for an octagon": an order
        if clause.closes == ":" and not described:
            return None  # "next: two 14-2s and a switch": what comes in next
        words = heard[slice(*clause.span)]
        return [acts.NextBox(name="", words=words, span=clause.span)], 1
    lead = _RUN_ON.match(clause.line)
    if lead is None or not (kinds & _CONTENTS or _BOX_ALONE.fullmatch(clause.line)):
        return None
    last = clause.elements[lead[1].count(" ")]
    span = (clause.span[0], last.end)
    return [acts.NextBox(name="", words=heard[slice(*span)], span=span)], 0


def _is_done(clause: Clause, heard: str) -> bool:
    stops = clause.closes in (".", ":", "!", ";", "\n", ",")
    return stops and _DONE.search(heard[: clause.span[0]]) is not None


def _named(clause: Clause, heard: str) -> acts.NextBox | None:
    """A box by the name that a clause is, behind its article; None where it names no place."""
    if not clause.elements or clause.elements[0].tag not in _NO_ARTICLE:
        return None
    if not is_place_name(clause) and not _is_named_device(clause):
        return None
    words = heard[slice(*clause.span)]
    name = name_in(words.split(" ", 1)[-1])
    return acts.NextBox(name=name, words=words, span=clause.span)


_LONGEST = 5


def _is_named_device(clause: Clause) -> bool:
    """ "The hall 3-way": a place and a device, and nothing else."""
    device = named_device(clause.elements)
    words = [element.tag for element in clause.elements if element is not device]
    return device is not None and len(words) < _LONGEST and all(map(may_name, words[1:]))


#: What somebody looked at, or had in mind, and does not go on to.
_LOOKED_AT = lazy_pattern(
    r"(?i)\b(?:(?:was|were|am|been|must have been|kept|ended up|got)\s+)(?:just |still |probably )?"
    r"(?:(?:look|read|count|star|peek|think|work|point|talk)ing|mixed up|confused)\s+"
    r"(?:at|in|into|on|of|about|from|with|to|off)(?: of)?\s+(?:(?:the|my|that)\s+)?$"
)


#: What was of another box, and is told of none.
_WAS_THERE = lazy_pattern(
    r"(?i)\b(?:(?:that|it|those|they|these|which)(?: one| bit)?(?:'s|’s|'re|’re| is| are| was| were"
    r"| must be| must have been| would be)(?: just| only| really| actually| probably)?(?: one)?"
    r"|(?:saw|had|counted|read|found|got)(?: it| that| those| them)?)\s+"
    r"(?P<in>(?:in|on|for|from|of|at|inside|out of)\s+)?(?:the|my|that)\s+$"
)
_DIRECTION = frozenset({"over", "down", "up", "along", "across"})


def looked_at(act: Act, heard: str) -> bool:
    """ "I was looking at the next box over", "no stud, that was the next box over": no box begins;
    "that's the next box: …" begins one."""
    if not isinstance(act, acts.NextBox):
        return False
    before = heard[: act.span[0]]
    was = _WAS_THERE.search(before)
    if was is not None and (act.name.lower() in _DIRECTION or (was["in"] and not act.name)):
        return True
    return _LOOKED_AT.search(before) is not None
