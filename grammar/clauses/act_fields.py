"""Acts made of noun groups, values and commands that phrases found: slots become fields."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import fields, replace
from functools import cache
from typing import Any, cast

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Doubt, Reference, Thing, ThingKind
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

THINGS: dict[str, type[Act]] = {
    "cable": acts.AddCable,
    "conductors": acts.AddConductors,
    "grounds": acts.AddGrounds,
    "jumper": acts.AddJumper,
    "fixture_wires": acts.AddFixtureWires,
    "device": acts.AddDevice,
    "fitting": acts.AddFitting,
    "terminal_block": acts.AddTerminalBlock,
    "uncounted": acts.AddUncounted,
}
KIND_OF: dict[type[Act], ThingKind] = {made: cast(ThingKind, kind) for kind, made in THINGS.items()}
BOX: dict[str, type[Act]] = {
    "box_volume": acts.SetVolume,
    "box_size": acts.SetSize,
    "box_kind": acts.NameBoxKind,
    "part": acts.AddPart,
    "barrier": acts.AddBarrier,
    "clamps": acts.SetClamps,
    "edition": acts.SetEdition,
    "clamp_assembly": acts.AddClampAssembly,
    "hang": acts.Hang,
    "space": acts.InSpace,
    "share": acts.ShareSpaces,
    "pull": acts.DescribePull,
}
ANSWERS: dict[str, type[Act]] = {
    "number": acts.Number,
    "size": acts.Size,
    "place": acts.Place,
    "none": acts.NoneOfThem,
    "yes": acts.Yes,
    "no": acts.No,
    "dont_know": acts.DontKnow,
    "skip": acts.Skip,
}
CONTROL: dict[str, type[Act]] = {
    "undo": acts.Undo,
    "redo": acts.Redo,
    "scratch": acts.Undo,
    "start_over": acts.StartOver,
    "done": acts.Done,
    "next_box": acts.NextBox,
    "open_box": acts.OpenBox,
    "copy_box": acts.CopyBox,
    "name_box": acts.NameBox,
    "delete_box": acts.DeleteBox,
    "list_boxes": acts.ListBoxes,
    "report": acts.SendReport,
    "new_job": acts.NewJob,
    "alias": acts.Alias,
}
QUESTIONS = frozenset(
    {"read_back", "total", "margin", "capacity", "why_ask", "smallest_box", "advice",
     "which_edition", "help", "repeat", "slower", "metric"}
)  # fmt: skip
PLAIN = {**THINGS, **BOX, **ANSWERS, **CONTROL}


@cache
def _names(kind: str) -> frozenset[str]:
    """The fields of the act that a kind of statement makes."""
    return frozenset(field.name for field in fields(PLAIN[kind]))


def act_of(statement: Statement) -> Act | None:
    """The act that a statement makes by itself; None where it needs what stands around it."""
    kind = statement.kind
    if kind in QUESTIONS:
        return acts.Ask(about=cast(Any, kind), words=statement.words, span=statement.span)
    if (special := _SPECIAL.get(kind)) is not None:
        return special(statement)
    if kind in ("clamps", "grounds", "device", "fitting") and statement.get("count") == 0:
        return _none_of(statement)
    made = PLAIN.get(kind)
    if made is None:
        return None
    known = _names(kind)
    slots = {slot: value for slot, value in statement.slots.items() if slot in known}
    if kind in ("undo", "redo"):
        slots["count"] = int(statement.get("count") or 1) if not statement.doubts else 1
    doubts = statement.doubts
    if (rival := statement.get("rival")) is not None:
        doubts = (*doubts, Doubt("volume", "conflict", rival))  # "18 or 20": which is asked
    return made(
        words=statement.words,
        span=statement.span,
        doubts=doubts,
        **cast(Any, slots),
    )


def _none_of(statement: Statement) -> Act:
    """ "Zero clamps", "no grounds", "0 devices"."""
    if statement.kind == "clamps":
        return _carrying(statement, acts.SetClamps, where="none")
    if statement.kind == "grounds":
        return _carrying(statement, acts.Deny, target=Reference("grounds", words=statement.words))
    return _carrying(statement, acts.Deny, target=reference_to(statement))


def _form(statement: Statement) -> Act:
    return _carrying(statement, acts.SetForm, brief=statement.kind == "brief")


def _why(statement: Statement) -> Act:
    of = statement.get("of")
    return _carrying(statement, acts.AskWhy, of=None if of is None else str(of))


def _changes(statement: Statement) -> Act:
    return _carrying(statement, acts.AskEdition, year=str(statement.get("year") or ""))


#: Words that lead on from "next box" to what is in it.
_NO_NAME = frozenset(
    {"it", "it's", "its", "this", "that", "these", "here", "here's", "there", "there's", "we",
     "we've", "we're", "i", "i've", "i'm", "i'll", "you", "they", "one", "is", "are", "was", "has",
     "have", "had", "got", "get", "gets", "holds", "with", "in", "on", "at", "so"}
)  # fmt: skip


def _next(statement: Statement) -> Act:
    """ "Next box, it's got two …", "next box, so take it out": what leads on to what
    is in it, and an order, names no box."""
    name = str(statement.get("name") or "")
    words = name.lower().replace("’", "'").split()
    if (_NO_NAME.issuperset(words) and words != ["one"]) or words[:1] == ["so"]:
        name = ""
    return _carrying(statement, acts.NextBox, name=name)


def _back(statement: Statement) -> Act:
    return _carrying(statement, acts.OpenBox, which="previous")


_WHICH = {
    "first": "first", "last": "last", "previous": "previous", "other": "previous",
    "one before": "previous", "before": "previous", "prior": "previous",
}  # fmt: skip


#: "The one before", "the pantry one right before that".
_BEFORE = lazy_pattern(
    r"(?:(?:[a-z ]{1,30} )?(?:box|one) )?(?:just |right )?before(?: (?:that|this|it|now))?"
    r"(?:,? please)?"
)


def _open(statement: Statement) -> Act:
    """ "Go to the first one", "back to the last box"."""
    name = str(statement.get("name") or "")
    if re.fullmatch(r"(?:the )?(?:19|20)\d\d(?: code| nec| edition)?", name.lower()):
        year = re.sub(r"\D", "", name)
        return _carrying(statement, acts.SetEdition, year=year)
    bare = name.lower().removesuffix(" box").removesuffix(" one").removeprefix("the ")
    which = "previous" if _BEFORE.fullmatch(bare) else _WHICH.get(bare, "")
    if which == "last" and "back" in statement.words.lower():
        which = "previous"
    return _carrying(statement, acts.OpenBox, name="" if which else name, which=which)


def _carrying(statement: Statement, made: Callable[..., Act], **slots: Any) -> Act:
    return made(
        words=statement.words, span=statement.span,
        doubts=statement.doubts, **slots,
    )  # fmt: skip


_NOTHING: dict[str, ThingKind] = {
    "device": "device", "fitting": "fitting", "canopy": "fixture_wires", "splice": "uncounted",
    "cover": "part", "conductors": "wire",
}  # fmt: skip


def _nothing(statement: Statement) -> Act:
    of = str(statement.get("of", "else"))
    if of == "canopy":
        return _carrying(statement, acts.SetCanopy, canopy=False)
    if of in ("else", "other"):
        return _carrying(statement, acts.NothingElse, of=of)
    named = of == "device" and not any(
        word in statement.words.lower() for word in ("device", "yoke", "or ")
    )
    name = _device_name(statement.words) if named else None
    if of == "fitting":
        name = _fitting_name(statement.words)
    if of == "splice" and "pigtail" not in statement.words.lower():
        name = "wire connector"
    target = Reference(_NOTHING.get(of, "anything"), name=name, words=statement.words)
    return _carrying(statement, acts.Deny, target=target)


def _fitting_name(words: str) -> str | None:
    """The one fitting that was named; None where both or none were."""
    low = words.lower()
    stud, hickey = "stud" in low, "hick" in low
    if stud == hickey:
        return None
    return "luminaire stud" if stud else "hickey"


#: Statements whose slots are not simply the fields of an act.
_SPECIAL: dict[str, Callable[[Statement], Act]] = {
    "brief": _form,
    "full": _form,
    "why": _why,
    "what_changes": _changes,
    "go_back": _back,
    "nothing": _nothing,
    "open_box": _open,
    "next_box": _next,
}


def _device_name(words: str) -> str | None:
    low = words.lower()
    for name in ("switch", "receptacle", "outlet", "plug"):
        if name in low:
            return "receptacle" if name in ("outlet", "plug") else name
    return None


def thing_of(statement: Statement) -> Thing | None:
    """The thing that a noun group describes; None for what is no thing in a box."""
    if statement.kind not in THINGS:
        return None
    made = act_of(statement)
    if isinstance(made, acts.Deny):
        made = THINGS[statement.kind](words=statement.words, span=statement.span)
    return cast(Thing, made)


def reference_to(statement: Statement) -> Reference:
    """What a noun group points at, where it is a thing already in the box."""
    kind = statement.kind
    get = statement.get
    name = get("name")
    count = get("count")
    return Reference(
        kind=cast(
            ThingKind, kind if kind in THINGS or kind in ("part", "barrier", "clamps") else "box"
        ),
        name=None if name is None else str(name),
        awg=_whole(get("awg")),
        conductors=_whole(get("conductors")),
        count=_whole(count),
        words=statement.words,
    )


def _whole(value: object) -> int | None:
    return int(value) if isinstance(value, int) and not isinstance(value, bool) else None


def marked(act: Act, function: acts.Function) -> Act:
    """The act with its communicative function."""
    return act if act.function == function else replace(act, function=function)
