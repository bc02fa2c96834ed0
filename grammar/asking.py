"""The acts of a clause that asks or supposes. None of them ever changes a box by itself."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, cast

from grammar import acts, store
from grammar.acts import Act
from grammar.clause import Clause
from grammar.making import BOX, QUESTIONS, THINGS, act_of, thing_of
from grammar.mood import UNSURE
from grammar.statements import Statement
from grammar.telling import Telling, tell

_TABLE = store.table("questions")
#: Questions of a fixed kind by the words they are put in, the first that matches.
_FIXED: tuple[tuple[str, str], ...] = tuple((row["about"], row["say"]) for row in _TABLE["fixed"])
_TERMS: tuple[tuple[str, str], ...] = tuple((row["id"], row["say"]) for row in _TABLE["term"])
_COUNTS = re.compile(
    r"\b(?:count|counts|counted|counting|worth|take up|takes up|taking up|take|takes|cost|costs"
    r"|allowance|allowances|mean|means|considered|include|included|matter|deduct|deduction"
    r"|figure|figured|ignored|left out|omitted|twice|double|once|size of|volume of|called"
    r"|exactly|add)\b"
)
_STRIPPED = re.compile(
    r"^(?:(?:so|and|but|ok|okay|well|hey|or|now|then|um|uh|hmm|class) )*(?:what happens if"
    r"|what would happen if|what if|how about if|what about if|how about|what about|suppose"
    r"|supposing|imagine|assuming|say|even if|in case|if|would it be|would it|would|should"
    r"|could|can|shall|may|might|will|does|do|is|are|must|pretend|hypothetically|let us say)\b"
)
_SUPPOSING = store.table("clauses")["supposing"]
_SUBJECTS = frozenset(_SUPPOSING["subjects"])
_TAIL = frozenset(_SUPPOSING["tail"])


def ask(telling: Telling, following: Sequence[Clause] = ()) -> list[Act]:
    """The acts of a question or supposition; `following` are the clauses joined to it."""
    clause = telling.clause
    words = telling.heard[clause.span[0] : (following[-1] if following else clause).span[1]]
    span = (clause.span[0], (following[-1] if following else clause).span[1])
    kinds = [found.kind for found in (*clause.found, *clause.asked)]
    things = [found for found in clause.found if found.kind in THINGS or found.kind in BOX]
    if UNSURE.search(clause.line):
        return [acts.DontKnow(words=words, span=span)]
    if clause.mood == "conditional":
        return _suppose(telling, following, words, span)
    fixed = _fixed(clause, words, span, bool(things))
    if fixed is not None:
        first = fixed[0]
        inside = [found for found in things if found.kind in THINGS]
        if (
            inside
            and isinstance(first, acts.Ask)
            and first.about in ("total", "margin", "capacity")
        ):
            return [*_described(telling, following, words, span), first]
        return fixed
    if "smallest_box" in kinds or (
        re.search(
            r"\b(?:what|which|how big a|how big of a|smallest|size)\b.*\bbox\b.*\b(?:for|with"
            r"|need|use|fit|hold|holds|if)\b",
            clause.line,
        )
        and not any(k in ("box_volume", "box_size") for k in kinds)
    ):
        told = [
            act
            for act in map(act_of, things)
            if act is not None and not isinstance(act, acts.NameBoxKind)
        ]
        told += [act for later in following for act in tell(Telling(later, telling.heard))]
        return [*told, acts.Ask(about="smallest_box", words=words, span=span)]
    if (
        "what_changes" in kinds
        or "list_boxes" in kinds
        or "why" in kinds
        or "which_edition" in kinds
    ):
        asked = (*clause.asked, *clause.found)
        return [
            act for found in asked if (act := act_of(found)) is not None and found.kind in _ANSWERED
        ]
    if _room(clause, kinds, things):
        return _room_for(clause, things, words, span)
    if clause.fit and things:
        inner = _suppose(telling, following, words, span)
        return (
            [replace(inner[0], asks_fit=True)]
            if inner and isinstance(inner[0], acts.Suppose)
            else inner
        )
    if re.match(r"(?:(?:and|so|ok|okay|but|or) )*(?:how|what) about\b", clause.line):
        return _described(telling, following, words, span)
    term = _term(f"{clause.line} {words.lower()}")
    devices = [found for found in things if found.kind in THINGS or found.kind == "clamps"]
    if (
        _COUNTS.search(clause.line)
        and (devices or term)
        and not re.search(r"\b(?:take|taking) (?:out|off|away)\b", clause.line)
    ):
        return [_meaning(term, devices, words, span)]
    if clause.modal:
        inner = _suppose(telling, following, words, span)
        if inner and isinstance(inner[0], acts.Suppose):
            return inner
    if term is not None and re.match(
        r"(?:(?:so|and|ok|okay|but|hey|well) )*(?:what|which|is|are|do|does|how|whats|where"
        r"|when|why)\b",
        clause.line,
    ):
        return [_meaning(term, (), words, span)]
    told = [
        act
        for found in (*clause.asked, *clause.found)
        if found.kind in (*QUESTIONS, "dont_know") and (act := act_of(found)) is not None
    ]
    if told:
        return told[:1]
    if clause.fit and not things:
        return [acts.Ask(about="margin", words=words, span=span)]
    if devices and re.search(r"\b(?:what|how)\b", clause.line):
        return [_meaning(term, devices, words, span)]
    return [acts.AskUnknown(words=words, span=span)]


def _described(
    telling: Telling, following: Sequence[Clause], words: str, span: tuple[int, int]
) -> list[Act]:
    """A supposition that describes a box, where none is described yet."""
    inner = _suppose(telling, following, words, span)
    return [replace(one, asks_fit=True) if isinstance(one, acts.Suppose) else one for one in inner]


def _fixed(clause: Clause, words: str, span: tuple[int, int], things: bool) -> list[Act] | None:
    for about, pattern in _FIXED:
        if re.search(pattern, clause.line):
            if about.startswith("list"):
                only = about.partition(":")[2]
                return [acts.ListBoxes(only=cast(Any, only), words=words, span=span)]
            if about == "why":
                return [acts.AskWhy(words=words, span=span)]
            return [acts.Ask(about=cast(Any, about), words=words, span=span)]
    return None


def _term(line: str) -> str | None:
    """The term of the glossary that a line names."""
    for name, pattern in _TERMS:
        if re.search(pattern, line):
            return name
    return None


def _meaning(
    term: str | None, things: Sequence[Statement], words: str, span: tuple[int, int]
) -> Act:
    sizes = [found.get("awg") for found in things if found.get("awg") is not None]
    thing = next((made for found in things if (made := thing_of(found)) is not None), None)
    if thing is None and things:
        term = term or things[0].kind
    awg = int(cast(int, sizes[0])) if sizes else None
    return acts.AskMeaning(term=term or "", thing=thing, awg=awg, words=words, span=span)


def _room(clause: Clause, kinds: Sequence[str], things: Sequence[Statement]) -> bool:
    """Whether more of one thing is asked for: "how many more 14-2s", "can I add a dimmer"."""
    box = any(found.kind in ("box_volume", "box_size") for found in things)
    inside = [found for found in things if found.kind in THINGS]
    if box or len(inside) != 1:
        return "room_for" in kinds and not box and len(inside) < 2
    if re.search(r"\bhow many\b", clause.line):
        return not re.search(
            r"\b(?:did|do i have|have i|are in|are there|did i say|you got|you have)\b", clause.line
        )
    return bool(
        re.search(
            r"\b(?:can|could|will|would|is there|do i have) (?:i |we |it |there )?(?:be )?"
            r"(?:still |also |safely |even )?(?:fit|add|get|put|squeeze|take|hold|room|run"
            r"|bring|have|throw|stuff|stick|enough room|space|any room)\b",
            clause.line,
        )
        or re.search(
            r"^(?:(?:and|so|ok) )*(?:will|would|can|could) (?:a |an |another |one more "
            r"|the )?<[^>]*>(?: still| also)? (?:fit|work|go)\b",
            clause.line,
        )
    )


def _room_for(
    clause: Clause, things: Sequence[Statement], words: str, span: tuple[int, int]
) -> list[Act]:
    found = next((found for found in things if found.kind in THINGS), None)
    thing = None if found is None else thing_of(found)
    if thing is None and (size := next((f for f in clause.found if f.kind == "size"), None)):
        thing = acts.AddConductors(awg=cast(int, size.get("awg")), words=size.words, span=size.span)
    count = None
    if thing is not None and not re.search(r"\bhow many\b", clause.line):
        count = getattr(thing, "count", None) or 1
    return [acts.RoomFor(thing=thing, count=count, words=words, span=span)]


def _suppose(
    telling: Telling, following: Sequence[Clause], words: str, span: tuple[int, int]
) -> list[Act]:
    """What is supposed, as the acts that it would be if it were told."""
    clause = telling.clause
    inner = tell(Telling(_told(clause), telling.heard))
    for later in following:
        inner += tell(
            Telling(later if later.mood == "declarative" else _told(later), telling.heard)
        )
    about = re.match(r"(?:(?:and|so|ok|okay|but|or) )*(?:how|what) about\b", clause.line)
    if about:
        inner = [_as_restated(act) for act in inner]
    kept = tuple(
        _as_volume(act) if clause.fit else act
        for act in inner
        if not isinstance(act, (acts.Yes, acts.No, acts.Ask, acts.AskWhy))
    )
    if not kept:
        return [acts.AskUnknown(words=words, span=span)]
    return [acts.Suppose(acts=kept, words=words, span=span)]


def _as_restated(act: Act) -> Act:
    """ "How about two": a number in place of the one said."""
    if isinstance(act, acts.Number) and act.value is not None:
        return acts.RestateNumber(
            value=act.value, words=act.words, span=act.span, function="correction"
        )
    return act


def _as_volume(act: Act) -> Act:
    """ "Is 18 enough": where it is asked whether a box fits, a number is that box's volume."""
    if isinstance(act, acts.Number) and act.value is not None and act.value >= 3:
        return acts.SetVolume(volume=act.value, words=act.words, span=act.span, doubts=act.doubts)
    return act


def _told(clause: Clause) -> Clause:
    """The clause without the words that make it a question: "should I take out the switch"."""
    elements = list(clause.elements)
    at = next((place for place, e in enumerate(elements) if e.tag == "if" and place), None)
    if at is not None and any(e.found is not None or e.tag.startswith("<") for e in elements[at:]):
        elements = elements[at + 1 :]
    else:
        match = _STRIPPED.match(clause.line)
        if match:
            drop = clause.line.count(" ", 0, match.end()) + 1
            elements = elements[drop:]
    while len(elements) > 1 and elements[0].found is None and elements[0].tag in _SUBJECTS:
        elements = elements[1:]
    while elements and elements[-1].found is None and elements[-1].tag in _TAIL:
        elements = elements[:-1]
    if not elements:
        elements = clause.elements[-1:]
    made = Clause(
        elements, line=" ".join([e.tag for e in elements]), opens=clause.opens, closes=clause.closes
    )
    return made


_ANSWERED = frozenset({*QUESTIONS, "what_changes", "list_boxes", "why"})


def order(clause: Clause, heard: str) -> list[Act] | None:
    """ "Convert to mL", "show me the math": a question of a fixed kind put as an order."""
    words = heard[clause.span[0] : clause.span[1]]
    return _fixed(clause, words, clause.span, False)
