"""The acts of a clause that tells: what is entered, denied, corrected, taken out."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import cast

from grammar import acts, store
from grammar.acts import Act, Function, Reference, Thing
from grammar.clause import Clause, Element
from grammar.making import KIND_OF, act_of, marked, reference_to, thing_of
from grammar.patterns import Match, matches
from grammar.polarity import denied, is_negator
from grammar.referring import number_in, refer, size_in

_TABLE = store.table("clauses")["correction"]
_TELLING = store.table("clauses")["telling"]
_MARKS = re.compile(r"\b(?:" + "|".join(map(re.escape, _TABLE["marks"])) + r")\b")
_ADDITIVE = re.compile(r"\b(?:" + "|".join(map(re.escape, _TABLE["additive"])) + r")\b")
#: "no the three way", "no it's outside": a marker, where "no three way" denies.
_LEADING_NO = re.compile(
    r"no (?:just |only |it |that |those |they |these |this |i |we |the |there |make |its |is "
    r"|he |she |my |<n)"
)
_PARTITIVE = re.compile(r"\b(?:only|just|of (?:the|those|these|my))\b")
_FROM_FIXTURE = re.compile(
    r"\b(?:from|off|of|out of|for) (?:the |a |its |their )?(?:<device[^>]*> )?(?:light|fixture"
    r"|luminaire|fan|lamp|chandelier|sconce|canopy|pendant)s?\b|\bcanopy\b"
)


@dataclass(frozen=True, slots=True)
class Telling:
    """A clause that tells, and what is known of it from the clauses before it."""

    clause: Clause
    heard: str
    corrective: bool = False

    @property
    def function(self) -> Function:
        """Whether it corrects."""
        return "correction" if self.corrects else "inform"

    @property
    def corrects(self) -> bool:
        """True where its words mark it as a correction, and none as an addition."""
        line = self.clause.line
        first, last = self.clause.span
        said = self.heard[first:last].lower()
        marked = self.corrective or bool(_MARKS.search(line)) or bool(_LEADING_NO.match(line))
        return marked and not (_ADDITIVE.search(line) or _ADDITIVE.search(said))


def tell(telling: Telling) -> list[Act]:
    """The acts of a clause, in the order said."""
    clause = telling.clause
    asked = [act for found in clause.asked if (act := act_of(found)) is not None]
    for match in matches(clause):
        made = BUILDERS[match.act](match, telling)
        if made is not None:
            return [*_with_rest(match, made, telling), *asked]
    return [*_plain(telling, clause.elements), *asked]


def _with_rest(match: Match, made: list[Act], telling: Telling) -> list[Act]:
    """What a pattern made, with what the rest of the clause tells by itself."""
    covered = match.covered()
    before = telling.clause.elements[: covered.start]
    after = telling.clause.elements[covered.stop :]
    plain = replace(telling, corrective=False)
    beside = _unused(match) if match.act in _LEAVING else []
    told = [*_plain(plain, [*before, *beside], rest=True), *made]
    if len(after) > 2 and any(
        element.found is not None or element.tag[0] == "<" for element in after
    ):
        if after[0].tag in ("and", "but", "so", "then"):
            after = after[1:]
        line = " ".join([element.tag for element in after])
        return [*told, *tell(replace(plain, clause=Clause(after, line=line)))]
    return [*told, *_plain(plain, after, rest=True)]


#: Patterns that may pass over a thing without saying anything of it: it is told by itself.
_LEAVING = frozenset({"box_number", "restate_number", "canopy"})


def _unused(match: Match) -> list[Element]:
    """The things within a pattern that no part of it is about."""
    used: set[int] = set()
    for group in match.found.re.groupindex:
        if match.has(group):
            used |= set(match.places(group))
    return [
        match.clause.elements[place]
        for place in match.covered()
        if place not in used and (found := match.clause.elements[place].found) is not None
        and found.kind in _THING_KINDS
    ]  # fmt: skip


def _plain(telling: Telling, elements: Sequence[Element], rest: bool = False) -> list[Act]:
    """Each noun group, value or command by itself: entered, denied or restated."""
    negative = denied(elements) if any(map(is_negator, elements)) else set()
    corrects = telling.corrects and not rest
    several = sum(e.found is not None and e.found.kind in _THING_KINDS for e in elements) > 1
    made: list[Act] = []
    kinds = {element.found.kind for element in elements if element.found is not None}
    for place, element in enumerate(elements):
        if element.found is None or _pronoun_one(elements, place):
            continue
        if element.found.kind == "device" and _elsewhere(elements, place):
            continue
        if _bears_clamps(elements, place) or _said_of(elements, place, telling.heard):
            continue
        if element.found.kind == "place":
            if "clamps" in kinds:
                _placed(made, str(element.found.get("where")))
                continue
            if kinds & _THINGS_BESIDE:
                continue
        if place in negative:
            made += _denial(element)
        elif corrects or _no_but(elements, place):
            made += _restated(element, telling, several)
        elif element.tag in _SIZE_NUMBERS and _behind_on(elements, place):
            made.append(_size_behind_on(elements, place, telling))
        elif (act := act_of(element.found)) is not None:
            if (
                isinstance(act, acts.NothingElse)
                and telling.heard[act.span[1] : act.span[1] + 4].lower() == " yet"
            ):
                continue
            made.append(_partitive(act, telling))
        else:
            made += _mention(element)
    if not made and (where := _PLACED.fullmatch(" ".join(element.tag for element in elements))):
        span = (elements[0].start, elements[-1].end)
        made.append(
            acts.Place(where=_PLACE_WORDS[where[1]], words=telling.heard[slice(*span)], span=span)
        )
    return _fixture_wires(_clamps_placed(made, elements), telling)


_SIZE_NUMBERS = frozenset({"<n:14>", "<n:12>", "<n:10>", "<n:8>", "<n:6>"})


def _behind_on(elements: Sequence[Element], place: int) -> bool:
    """ "on the 14": a size, and never a volume."""
    before = [element.tag for element in elements[max(0, place - 2) : place]]
    return before[-1:] == ["on"] or before == ["on", "the"]


def _size_behind_on(elements: Sequence[Element], place: int, telling: Telling) -> acts.Size:
    first = place - 1 if elements[place - 1].tag == "on" else place - 2
    span = (elements[first].start, elements[place].end)
    return acts.Size(
        awg=int(elements[place].tag[3:-1]), words=telling.heard[slice(*span)], span=span
    )


def _bears_clamps(elements: Sequence[Element], place: int) -> bool:
    """ "an internal clamp on one cable": the cable is one of those said."""
    found = elements[place].found
    if found is None or found.kind != "cable" or found.get("awg") is not None:
        return False
    before = elements[max(0, place - 2) : place]
    return any(e.tag in ("on", "for", "per") for e in before) and any(
        e.found is not None and e.found.kind == "clamps"
        for e in elements[max(0, place - 4) : place]
    )


def _said_of(elements: Sequence[Element], place: int, heard: str) -> bool:
    """ "both cable clamps", "it's hot up here", "I'll feed it": no thing of the box."""
    found = elements[place].found
    assert found is not None
    words = found.words.lower().strip()
    after = elements[place + 1] if place + 1 < len(elements) else None
    if (found.kind == "cable" and found.get("awg") is None) or (
        found.get("role") is not None and found.get("count") is None
    ):
        if after is not None and after.found is not None and after.found.kind == "clamps":
            return True
        if (
            words in ("feed", "feeds")
            and after is not None
            and after.tag in ("it", "them", "that", "this", "the", "from")
        ):
            return True
    if (
        words in ("hot", "neutral")
        and place
        and elements[place - 1].tag in ("is", "are", "was", "so", "too", "really")
    ):
        return True
    return False


_THINGS_BESIDE = frozenset(
    {
        "cable",
        "conductors",
        "device",
        "grounds",
        "fixture_wires",
        "fitting",
        "terminal_block",
        "uncounted",
        "box_volume",
        "box_size",
    }
)
_PLACE_WORDS = {
    "in": "inside",
    "out": "outside",
    "inside": "inside",
    "internal": "inside",
    "outside": "outside",
    "external": "outside",
    "exterior": "outside",
}


_PLACED = re.compile(
    r"(?:(?:no|i|looked|again|and|but|well|so|actually|that) )*(?:(?:both|all|each|two|<n:2>)"
    r"(?: of (?:them|those|these))?|they|those|these|them|everything)"
    r" (?:(?:is|are|actually|both|all|really|on|the) )*(inside|outside|internal|external)"
    r"(?: of it| of the box| the box)?"
)


def _clamps_placed(made: list[Act], elements: Sequence[Element]) -> list[Act]:
    """ "the connectors are the kind that screw on outside the box"."""
    last = elements[-1].tag if elements else ""
    places = {
        _PLACE_WORDS[e.tag]
        for e in elements
        if e.tag in _PLACE_WORDS and (len(e.tag) > 3 or e.tag == last)
    }
    if len(places) == 1 and not any(map(is_negator, elements)):
        _placed(made, places.pop())
    return made


def _placed(made: list[Act], where: str) -> None:
    """ "no clamps, inside or out", "clamps all on the inside": a place beside clamps is theirs."""
    for at, act in enumerate(made):
        if isinstance(act, acts.SetClamps) and act.where == "present":
            made[at] = replace(act, where=where)


def _mention(element: Element) -> list[Act]:
    return []


def _no_but(elements: Sequence[Element], place: int) -> bool:
    """ "no three 14-2s": a number behind "no" corrects."""
    return place > 0 and elements[place - 1].tag in ("no", "nope") and place == 1


def _partitive(act: Act, telling: Telling) -> Act:
    """ "only one of the 12-3s" says how many there are of what was named before."""
    if isinstance(act, tuple(KIND_OF)) and getattr(act, "count", None) is not None:
        low = act.words.lower()
        if re.search(r"\b(?:more|another|extra|additional|other)\b", low):
            return act
        if re.search(r"\bof (?:the|those|these|my)\b", low) or low.startswith(("only ", "just ")):
            return acts.Restate(
                thing=cast(Thing, act), instead_of=_like(act), words=act.words, span=act.span,
                doubts=act.doubts, function="correction",
            )  # fmt: skip
    return act


def _like(act: Act) -> Reference:
    """A reference to things that differ from `act` in nothing but their count."""
    return Reference(
        KIND_OF[type(act)], getattr(act, "name", None), getattr(act, "awg", None),  # type: ignore[arg-type]
        getattr(act, "conductors", None), words=act.words,
    )  # fmt: skip


def _denial(element: Element) -> list[Act]:
    """A thing that is not there."""
    found = element.found
    assert found is not None
    if found.kind in ("clamps", "place"):
        where = str(found.get("where"))
        opposite = {"inside": "none" if found.kind == "clamps" else "outside", "outside": "inside"}
        if found.kind == "clamps" and where == "outside":
            return []
        return [
            acts.SetClamps(where=opposite.get(where, "none"), words=found.words, span=found.span)
        ]
    if found.kind == "nothing":
        made = act_of(found)
        return [made] if made is not None else []
    if re.match(r"(?i)another ", found.words) and found.kind in _THING_KINDS:
        # "one more 12-2, not another 12-3": of those that are there, one goes
        return [
            acts.Remove(
                target=replace(reference_to(found), count=1),
                words=found.words,
                span=found.span,
                function="request",
            )
        ]
    if found.kind == "fixture_wires" and found.get("canopy"):
        return [acts.SetCanopy(canopy=False, words=found.words, span=found.span)]
    return [acts.Deny(target=reference_to(found), words=found.words, span=found.span)]


def _restated(element: Element, telling: Telling, several: bool) -> list[Act]:
    """A thing said anew, in place of what it can mean; of several, only of what is just like it."""
    found = element.found
    assert found is not None
    if found.kind == "number":
        value = found.get("value")
        if value is None:
            return []
        if Decimal(str(value)) in (14, 12, 10, 8, 6) and re.search(
            r"\bon (?:the )?<n:\d+>", telling.clause.line
        ):
            return [acts.Size(awg=int(value), words=found.words, span=found.span)]
        return [
            acts.RestateNumber(
                value=Decimal(str(value)),
                words=found.words,
                span=found.span,
                doubts=found.doubts,
                function="correction",
            )
        ]  # type: ignore[arg-type]
    thing = thing_of(found)
    if thing is not None:
        act = act_of(found)
        if isinstance(act, acts.Deny):
            return [act]
        like = _like(cast(Act, thing)) if several else None
        return [
            acts.Restate(
                thing=thing,
                instead_of=like,
                words=found.words,
                span=found.span,
                doubts=thing.doubts,
                function="correction",
            )
        ]
    act = act_of(found)
    return [] if act is None else [marked(act, "correction")]


_ONE_BEHIND = frozenset(_TELLING["before_one"])


def _pronoun_one(elements: Sequence[Element], place: int) -> bool:
    """ "in this one", "the plastic one": no number."""
    element = elements[place]
    if element.tag != "<n:1>" or not place or element.found is None:
        return False
    if element.found.words.lower().strip() not in ("one", "the one", "that one", "this one"):
        return False
    before = elements[place - 1].tag
    return before not in _ONE_BEHIND and not before.startswith("<n")


_BEHIND = frozenset(_TELLING["elsewhere"])


def _elsewhere(elements: Sequence[Element], place: int) -> bool:
    """ "a box behind the old switch": the switch is not in it."""
    before = [element.tag for element in elements[max(0, place - 3) : place]]
    return any(word in _BEHIND for word in before) and not any(
        word.startswith("<") for word in before
    )


_OF_THE_FIXTURE = re.compile(
    r"<?grounds?[^ ]* (?:on|in|from|for|with|at) (?:the |its |that |this )?(?:fixture|light"
    r"|luminaire|lamp|fan|canopy)"
)


def _fixture_wires(made: list[Act], telling: Telling) -> list[Act]:
    """ "four wires from the canopy" are fixture wires; a ground said with them is theirs."""
    line = telling.clause.line
    canopy = "canopy" in line and "no canopy" not in line
    if _OF_THE_FIXTURE.search(line):
        made = [
            act for act in made if not (isinstance(act, acts.Deny) and act.target.kind == "grounds")
        ]
    for place, act in enumerate(made):
        loose = isinstance(act, acts.AddConductors) and (act.awg is None or act.awg >= 16)
        if loose and act.path is None and _FROM_FIXTURE.search(line):  # type: ignore[attr-defined]
            made[place] = acts.AddFixtureWires(
                count=act.count, awg=act.awg, canopy=True if canopy else None,  # type: ignore[attr-defined]
                words=act.words, span=act.span,
                doubts=tuple(d for d in act.doubts if d.reason not in ("vague", "unusual")),
            )  # fmt: skip
        elif (
            canopy
            and isinstance(act, acts.AddFixtureWires)
            and act.canopy is None
            and "no canopy" not in line
        ):
            made[place] = replace(act, canopy=True)
    return made


# -- patterns made into acts ---------------------------------------------------------------------


def _pieces(match: Match, group: str) -> list[Element]:
    return [match.clause.elements[place] for place in match.places(group)]


def _words(match: Match, telling: Telling) -> tuple[str, tuple[int, int]]:
    elements = [match.clause.elements[place] for place in match.covered()]
    start, end = elements[0].start, elements[-1].end
    return telling.heard[start:end], (start, end)


def _target(match: Match, telling: Telling, group: str = "ref") -> Reference:
    if match.has(group):
        return refer(_pieces(match, group), telling.heard)
    return refer([match.clause.elements[place] for place in match.covered()], telling.heard)


def _number(match: Match, group: str = "n") -> Decimal | None:
    if not match.has(group):
        return None
    text = match.found.group(group)
    if text == "both":
        return Decimal(2)
    for element in _pieces(match, group):
        value = number_in(element.tag)
        if value is not None:
            return value
    return None


_LOOSE_COUNT = ("to ", "too ", "for ", "fore ")


def _thing_in(match: Match, group: str) -> Thing | None:
    for element in _pieces(match, group):
        if element.found is not None:
            thing = thing_of(element.found)
            if thing is not None and element.found.words.lower().startswith(_LOOSE_COUNT):
                # "change the 14-2s to 12-2s": the word that sounds like two is none
                return replace(
                    thing, count=None, doubts=tuple(d for d in thing.doubts if d.slot != "count")
                )
            return thing
        if element.tag.startswith("<pair:"):
            from grammar import numbers

            awg, conductors = numbers.pair(element.tag[6:-1])
            return acts.AddCable(
                awg=awg,
                conductors=conductors,
                words=element.tag[6:-1],
                span=(element.start, element.end),
            )
    return None


Built = "list[Act] | None"
Builder = Callable[[Match, Telling], "list[Act] | None"]


def _keep(match: Match, telling: Telling) -> list[Act]:
    words, span = _words(match, telling)
    return [acts.Keep(words=words, span=span)]


def _put_back(match: Match, telling: Telling) -> list[Act]:
    words, span = _words(match, telling)
    return [
        acts.PutBack(target=_target(match, telling), words=words, span=span, function="request")
    ]


def _do_it(match: Match, telling: Telling) -> list[Act]:
    words, span = _words(match, telling)
    return [acts.DoIt(words=words, span=span, function="request")]


def _unground(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    target = _target(match, telling)
    if target.kind not in ("cable", "anything", "wire"):
        return None
    if target.kind == "anything" and re.match(r"(?:no |without |<grounds)", match.found.group()):
        return None  # "no ground in this pipe": of the whole box
    counted = target.kind == "cable" and target.count is not None and target.awg is not None
    if counted and not re.match(r"(?i)(?:the|that|those|these|this|one of|both)\b", target.words):
        return None
    return [acts.Unground(target=target, words=words, span=span, function="correction")]


def _resize(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    old, new = _pieces(match, "ref"), _pieces(match, "size")
    awg = size_in(new)
    sized = [size for size in (size_in(old),) if size is not None]
    cable = any(e.found is not None and e.found.get("conductors") for e in new) or any(
        e.tag.startswith("<pair") for e in new
    )
    if awg is None or cable or awg not in (18, 16, 14, 12, 10, 8, 6):
        return None
    if sized and sized[0] not in (18, 16, 14, 12, 10, 8, 6):
        return None
    if not sized and not any(
        e.tag
        in (
            "cables",
            "wires",
            "conductors",
            "everything",
            "all",
            "them",
            "those",
            "cable",
            "wire",
            "conductor",
        )
        for e in old
    ):
        return None
    if not sized and awg < 8:
        return None
    target = Reference(
        "anything" if sized else "wire", awg=sized[0] if sized else None, which="all", words=words
    )
    return [acts.Resize(target=target, awg=awg, words=words, span=span, function="correction")]


def _reclassify(match: Match, telling: Telling) -> list[Act]:
    words, span = _words(match, telling)
    count = _number(match)
    path = "through" if match.has("path") else None
    return [
        acts.Reclassify(
            count=None if count is None else int(count),
            kind="conductors" if path else "grounds",
            path=path, words=words, span=span, function="correction",
        )
    ]  # fmt: skip


def _route(match: Match, telling: Telling) -> list[Act]:
    words, span = _words(match, telling)
    thing = next((e for e in _pieces(match, "ref") if e.found is not None), None)
    if thing is not None and not thing.tag.endswith(":d>"):
        made = act_of(thing.found)  # type: ignore[arg-type]
        if made is not None and hasattr(made, "path"):
            return [replace(made, path="through", words=words, span=span)]
    return [
        acts.Route(
            target=_target(match, telling),
            path="through",
            words=words,
            span=span,
            function="correction",
        )
    ]


_OF_SOME = re.compile(
    r"(?:first|second|third|last|other|both|one of|<n:\d+> of)\b[^<]*(?:<n:1> |<cable[^>]*> )?"
    r"(?:is|are|was) "
)
_PLACES = {"inside": "inside", "internal": "inside", "outside": "outside", "external": "outside"}


def _contrast(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    new, old = match.found.group("new"), match.found.group("old")
    if _OF_SOME.search(match.clause.line[: match.found.start("new")]):
        return None  # "the second one is a 14-3, not a 14-2" is of that one alone
    if new in _PLACES:
        return [acts.Place(where=_PLACES[new], words=words, span=span, function="correction")]
    element = _pieces(match, "new")[0]
    value = number_in(element.tag)
    if value is not None:
        other = _number(match, "old")
        if other is None:
            named = _target(match, telling, "old")
            if named.kind in ("box", "anything") or value != int(value):
                return None
            return [
                acts.Recount(
                    target=replace(named, count=None),
                    count=int(value),
                    words=words,
                    span=span,
                    function="correction",
                )
            ]
        return [
            acts.RestateNumber(
                value=value, instead_of=other, words=words, span=span, function="correction"
            )
        ]
    thing = _thing_in(match, "new")
    if thing is None:
        act = act_of(element.found) if element.found is not None else None
        return None if act is None else [marked(act, "correction")]
    other = _number(match, "old")
    if other is not None:
        return [
            acts.Restate(
                thing=thing, words=words, span=span, doubts=thing.doubts, function="correction"
            )
        ]
    if old.startswith("<place") or old in _PLACES:
        return None
    return [
        acts.Restate(
            thing=thing, instead_of=_target(match, telling, "old"), words=words, span=span,
            doubts=thing.doubts, function="correction",
        )
    ]  # fmt: skip


def _remove(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    if re.match(r"(?:<n:\d+>|no) less\b", match.found.group()) and not match.has("ref"):
        pass
    if re.search(r"\b(?:forgot|left out|missed)\b", match.clause.line):
        return None
    count = _number(match)
    if match.has("ref") and re.match(
        r"(?:t[ao]k|pull|yank|rip|cut|leav|knock|cross|strik)\w* ", match.found.group("ref")
    ):
        thing = next(e for e in _pieces(match, "ref") if e.found is not None)
        assert thing.found is not None
        if not re.search(r"(?i) (?:out|off|away)$", thing.found.words.strip()):
            return None  # "cut one 14-2": nothing is taken out by that alone
        return [
            acts.Remove(
                target=reference_to(thing.found), words=words, span=span, function="request"
            )
        ]
    covered = [match.clause.elements[place] for place in match.covered()]
    things = [
        e
        for e in covered
        if e.found is not None and e.found.kind in (*_THING_KINDS, "clamps", "part", "barrier")
    ]
    if len(things) > 1 and not match.has("n"):
        return [
            acts.Remove(
                target=reference_to(e.found),
                words=e.found.words,
                span=e.found.span,
                function="request",
            )
            for e in things
            if e.found is not None
        ]
    target = _target(match, telling) if match.has("ref") else Reference(which="last")
    if (
        target.kind == "anything"
        and target.words
        and match.found.group("ref").startswith("the ")
        and not set(match.found.group("ref").split()) & _POINTING
    ):
        target = replace(target, which="said", words=match.found.group("ref"))
    if count is not None:
        target = replace(target, count=int(count))
    if target.kind == "clamps":
        return [acts.SetClamps(where="none", words=words, span=span, function="request")]
    return [acts.Remove(target=target, words=words, span=span, function="request")]


_POINTING = frozenset(_TELLING["pointing"])
_THING_KINDS = (
    "cable",
    "conductors",
    "grounds",
    "jumper",
    "fixture_wires",
    "device",
    "fitting",
    "terminal_block",
    "uncounted",
)
_PRONOUNS = frozenset({"it", "that", "them", "those", "these", "this", "they"})


def _replace(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    thing = _thing_in(match, "new")
    if thing is None:
        return None
    if not match.has("ref"):
        return [
            acts.Restate(
                thing=thing, words=words, span=span, doubts=thing.doubts, function="correction"
            )
        ]
    if match.found.group("ref") in _PRONOUNS:
        return [
            acts.Restate(
                thing=thing, words=words, span=span, doubts=thing.doubts, function="correction"
            )
        ]
    target = _target(match, telling)
    if target.kind in ("box", "clamps"):
        return None
    return [
        acts.Replace(
            target=target,
            thing=thing,
            words=words,
            span=span,
            doubts=thing.doubts,
            function="correction",
        )
    ]


def _swap(match: Match, telling: Telling) -> list[Act] | None:
    """ "swap the dimmer for a switch", also where the box or a part is what is changed."""
    return _replace(match, telling)


def _is_now(match: Match, telling: Telling) -> list[Act] | None:
    thing = _thing_in(match, "new")
    if thing is None or match.found.group("ref") in ("he", "she"):
        return None
    if thing.words.lower().strip() in ("hot", "neutral", "hot up"):
        return None  # "it's hot up here"
    if isinstance(thing, acts.AddGrounds) and not match.found.group("ref").startswith("<grounds"):
        return None
    between = match.found.group()[: match.found.start("new") - match.found.start()]
    if re.search(r"\bnot\b(?!.*(?:\bbut\b|it is|its))", between):
        return None
    return _replace(match, telling)


def _recount(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    value = _number(match)
    if value is None:
        return None
    target = _target(match, telling)
    whole = value == int(value)
    if target.kind == "box" or not whole:
        return [acts.SetVolume(volume=value, words=words, span=span, function="correction")]
    if target.kind in ("clamps",):
        return None
    if target.kind == "grounds" and int(value) in (14, 12, 10, 8, 6):
        return [
            acts.Resize(
                target=target, awg=int(value), words=words, span=span, function="correction"
            )
        ]
    if target.kind == "device" and int(value) in (14, 12, 10, 8, 6):
        return [
            acts.Land(target=target, awg=int(value), words=words, span=span, function="correction")
        ]
    if (
        target.kind in ("cable", "conductors", "wire", "anything")
        and int(value) in (18, 16, 14, 12, 10, 8, 6)
        and target.awg is None
        and int(value) > 7
    ):
        return [
            acts.Resize(
                target=target, awg=int(value), words=words, span=span, function="correction"
            )
        ]
    if (
        target.awg is not None
        and value in (14, 12, 10, 8, 6)
        and re.search(r"\b(?:twelves|fourteens|tens|eights|sixes|1[024]s)\b", words.lower())
    ):
        return [
            acts.Resize(
                target=replace(target, count=None),
                awg=int(value),
                words=words,
                span=span,
                function="correction",
            )
        ]
    return [
        acts.Recount(
            target=replace(target, count=None),
            count=int(value),
            words=words,
            span=span,
            function="correction",
        )
    ]


def _restate_number(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    value = _number(match)
    if value is None:
        return None
    return [
        acts.RestateNumber(
            value=value, words=words, span=span, doubts=_doubts_in(match), function="correction"
        )
    ]


def _doubts_in(match: Match, group: str = "n") -> tuple[acts.Doubt, ...]:
    for element in _pieces(match, group):
        if element.found is not None and element.found.doubts:
            return element.found.doubts
    return ()


def _land(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    awg = size_in(_pieces(match, "size"))
    if awg is None or awg > 14:
        return None
    target = _target(match, telling)
    if target.kind not in ("device", "terminal_block", "anything"):
        return None
    said = next(
        (e for e in _pieces(match, "ref") if e.found is not None and e.found.kind == "device"), None
    )
    if (
        said is not None
        and said.found is not None
        and said.found.get("count") is not None
        and not said.tag.endswith(":d>")
    ):
        made = act_of(said.found)
        if isinstance(made, acts.AddDevice) and not said.found.words.lower().startswith(
            ("both", "one of", "two of")
        ):
            return [replace(made, awg=awg, words=words, span=span)]
    cables = [
        e.found for e in _pieces(match, "size") if e.found is not None and e.found.kind == "cable"
    ]
    told: list[Act] = []
    if cables and match.found.start("size") < match.found.start("ref"):
        cable = act_of(cables[0])  # "12-2 feeding it" brings the cable in too
        told = [cable] if cable is not None else []
    if target.kind == "terminal_block" and not target.words.lower().startswith(("the ", "that ")):
        block = next((e.found for e in _pieces(match, "ref") if e.found is not None), None)
        made = act_of(block) if block is not None else None
        if isinstance(made, acts.AddTerminalBlock):
            return [replace(made, awg=awg, words=words, span=span)]
    if target.kind == "anything":
        target = replace(target, kind="device")
    return [*told, acts.Land(target=target, awg=awg, words=words, span=span, function="correction")]


def _widen(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    if match.has("both"):
        both = Reference("device", which="last")
        return [acts.Widen(target=both, gangs=2, words=words, span=span, function="correction")]
    kinds = [
        e.found for e in match.clause.elements if e.found is not None and e.found.kind == "box_kind"
    ]
    devices = [
        e.found for e in match.clause.elements if e.found is not None and e.found.kind == "device"
    ]
    if not kinds or kinds[0].get("gangs") is None or kinds[0].get("family") is not None:
        return None
    target = reference_to(devices[0]) if devices else Reference("device", which="last")
    made: list[Act] = [
        acts.Widen(
            target=target,
            gangs=int(cast(int, kinds[0].get("gangs"))),
            words=words,
            span=span,
            function="correction",
        )
    ]
    return made


def _canopy(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    kinds = {e.found.kind for e in match.clause.elements if e.found is not None}
    if kinds & {"fixture_wires", "conductors", "grounds", "nothing", "number", "size"}:
        return None
    if any(map(is_negator, match.clause.elements)):
        return [acts.SetCanopy(canopy=False, words=words, span=span)]
    return [acts.SetCanopy(canopy=True, words=words, span=span)]


def _more(match: Match, telling: Telling) -> list[Act]:
    words, span = _words(match, telling)
    count = _number(match)
    target = _target(match, telling) if match.has("ref") else Reference(which="last")
    if target.kind == "cable" or "cable" in words.lower().split():
        target = Reference("cable", which="last", words=words)
    else:
        target = Reference(target.kind, which="last", words=words)
    return [
        acts.More(
            target=target,
            count=1 if count is None else int(count),
            words=words,
            span=span,
            function="request",
        )
    ]


def _box_number(match: Match, telling: Telling) -> list[Act] | None:
    words, span = _words(match, telling)
    value = _number(match)
    if value is None or value < 3:
        return None
    if (
        value == int(value)
        and value in (14, 12, 10, 8, 6)
        and re.search(r"\b(?:on|land|size|gauge|awg)\b", match.clause.line)
    ):
        return None
    return [
        acts.SetVolume(
            volume=value,
            words=words,
            span=span,
            doubts=_volume_doubts(match),
            function="correction" if telling.corrects else "inform",
        )
    ]


def _volume_doubts(match: Match) -> tuple[acts.Doubt, ...]:
    return tuple(replace(doubt, slot="volume") for doubt in _doubts_in(match))


def _sized(match: Match, telling: Telling) -> list[Act] | None:
    """ "two grounds, also fourteen": a size said behind what it is of."""
    words, span = _words(match, telling)
    awg = size_in(_pieces(match, "size"))
    if awg is None:
        return None
    if match.has("ref"):
        found = next((e.found for e in _pieces(match, "ref") if e.found is not None), None)
        made = act_of(found) if found is not None else None
        if made is None or getattr(made, "awg", 0) is not None:
            return None
        return [replace(made, awg=awg, words=words, span=span)]  # type: ignore[call-arg]
    return [acts.Size(awg=awg, words=words, span=span)]


BUILDERS: dict[str, Builder] = {
    "keep": _keep,
    "put_back": _put_back,
    "do_it": _do_it,
    "unground": _unground,
    "resize": _resize,
    "reclassify": _reclassify,
    "route": _route,
    "contrast": _contrast,
    "remove": _remove,
    "replace": _swap,
    "is_now": _is_now,
    "made": _replace,
    "sized": _sized,
    "recount": _recount,
    "restate_number": _restate_number,
    "land": _land,
    "widen": _widen,
    "canopy": _canopy,
    "more": _more,
    "box_number": _box_number,
}


def parts_of(made: Sequence[Act]) -> Iterator[Act]:
    """The acts, those of suppositions among them."""
    for act in made:
        yield act
        if isinstance(act, acts.Suppose):
            yield from parts_of(act.acts)
