"""What is said of a conduit body: its name and its raceway are read here, what is in it as ever.

The words read here are blanked, and the rest goes to the reading of all other boxes, so that
conductors, corrections and questions mean in a conduit body what they mean anywhere.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.enclosures import body_questions
from boxaloud.grammar.enclosures.body_conductors import large_conductors, sides, sized_one
from boxaloud.grammar.enclosures.body_sizes import size_anywhere, size_before
from boxaloud.grammar.enclosures.enclosure_words import words as pull_words
from boxaloud.grammar.enclosures.fill_question import fill_question, wire_asked
from boxaloud.grammar.enclosures.reading import Ordinary, asks, ways
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.tokens import plain_text
from boxaloud.grammar.quick_dataclass import dataclass

_SHAPE_ALONE = lazy_pattern(
    r"(?:it's |it is |an? |the |type )*(?P<letters>l ?b ?d?|l ?[lru]|t ?b|[ctx])(?: (?:body|type))?"
)
_WEIGHT = lazy_pattern(r"(?:\d|pounds?|\b(?:ten|twenty|thirty|forty|fifty|sixty|seventy|five)) ?$")
_FRACTION = lazy_pattern(r"(?<!\d)(?:1/2|3/4|[12][- ]1/[24])(?: ?\"| ?inch| ?in\.?)? ?$")
_ASKED = lazy_pattern(r"\bwhat(?:'?s| is| are| does)\s*$")
_FLAGS: tuple[tuple[str, dict[str, bool]], ...] = (
    ("short_radius", {"short_radius": True}),
    ("unspliced", {"spliced": False}),
    ("spliced", {"spliced": True}),
    ("both_sides", {"both_sides": True}),
    ("one_side", {"both_sides": False}),
    ("unmarked", {"marked": False}),
    ("listed", {"listed": True}),
)


@dataclass(frozen=True, slots=True)
class _Found:
    """A piece of the text that was read here, and what it says."""

    start: int
    end: int
    said: dict[str, object]
    blank: bool = True
    left: str = ""
    """What the other reading sees in its place."""


def read(heard: str, at_hand: bool, asked: str | None, ordinary: Ordinary) -> Utterance | None:
    """An utterance about a conduit body, or of how many conductors a raceway holds; else None."""
    text = plain_text(heard)
    if (question := fill_question(heard, text)) is not None:
        return Utterance(heard, (question,))
    if asked == "body_shape" and (shape := _SHAPE_ALONE.fullmatch(text.strip(" .!"))) is not None:
        letters = shape["letters"].replace(" ", "").upper()
        span = (0, len(heard))
        return Utterance(heard, (acts.SetBody(shape=letters, words=heard.strip(), span=span),))
    name = _name(text)
    if name is None and not at_hand:
        return None
    if (ends_asking := body_questions.asked(heard, text, asked)) is not None:
        return _told_and_asked(heard, ends_asking, at_hand, ordinary)
    if (wire := wire_asked(heard, text)) is not None:
        ordinary = _only(wire)
    found = [*([name] if name else []), *_raceways(text, asked), *_insulations(text), *_flags(text)]
    found += _large(text) if wire is None else ()
    if wire is not None and (name is None or asks(text)):
        said = {key: value for one in found for key, value in one.said.items()}
        told = {key: said[key] for key in ("raceway", "size", "insulation") if key in said}
        return Utterance(heard, (replace(wire, **told),))  # type: ignore[arg-type]
    if not found and (marked := sized_one(heard)) != heard:
        return replace(ordinary(marked), heard=heard)
    return _together(heard, found, ordinary) if found else None


def _told_and_asked(
    heard: str, question: tuple[Act, int], at_hand: bool, ordinary: Ordinary
) -> Utterance:
    """What is said before a question of the body, and the question."""
    act, start = question
    if not heard[:start].strip():
        return Utterance(heard, (act,))
    told = read(heard[:start], at_hand, None, ordinary) or ordinary(heard[:start])
    return Utterance(heard, (*told.acts, act), told.unread)


def names_body(text: str) -> bool:
    """Whether a text in lower case names a conduit body."""
    return _name(text) is not None


def filled_straight(heard: str) -> bool:
    """ "A half inch C body, straight pull through, how many 10s": of a body, and of no box whose
    sides would be asked for; how many it holds is asked."""
    text = plain_text(heard)
    return _name(text) is not None and wire_asked(heard, text) is not None


def _only(act: Act) -> Ordinary:
    """A reading of the rest of an utterance that asks one thing, and tells what is read here."""
    return lambda heard: Utterance(heard, (act,))


def _large(text: str) -> Iterator[_Found]:
    """Conductors of 4 AWG and larger, what it is marked for, and how large it is inside."""
    for one in large_conductors(text):
        said: dict[str, object] = {"permits" if one.permitted else "large": one.sizes}
        yield _Found(one.start, one.end, said)
    for start, end, inside in sides(text):
        yield _Found(start, end, dict(inside))


def _together(heard: str, found: list[_Found], ordinary: Ordinary) -> Utterance:
    """What was read here first, then what the rest says."""
    said: dict[str, object] = {}
    rest = heard
    for one in found:
        for key, value in one.said.items():
            before = said.get(key)  # "three 2/0 and a number 4" are all of them in it
            both = isinstance(before, tuple) and isinstance(value, tuple)
            said[key] = (*before, *value) if both else value  # type: ignore[misc]
        if one.blank:
            place = one.left.ljust(one.end - one.start)
            rest = rest[: one.start] + place + rest[one.end :]
    span = (min(one.start for one in found), max(one.end for one in found))
    named = said.pop("name", None)
    words = ", ".join(heard[one.start : one.end].strip() for one in found if one.said)
    made: list[Act] = []
    if named:
        made.append(acts.NameBoxKind(name="conduit body", words=words, span=span))
    if said:
        text = plain_text(heard)
        mends = any(pull_words(name).match(text) for name in ("correcting", "remaking"))
        function = "correction" if mends else "inform"
        made.append(
            acts.SetBody(words=words, span=span, function=function, **said)  # type: ignore[arg-type]
        )
    if _supposes(heard):
        return _supposed(heard, made, ordinary(rest))
    if not re.search(r"\w", rest):
        return Utterance(heard, tuple(made))
    other = ordinary(sized_one(rest))
    kept = [
        replace(act, words=heard[slice(*act.span)] if act.span[1] else act.words)
        for act in other.acts
        if not (named and isinstance(act, acts.NameBoxKind))
    ]
    left = tuple(replace(run, words=heard[slice(*run.span)]) for run in other.unread)
    return Utterance(heard, (*made, *kept), left)


def _supposes(heard: str) -> bool:
    """ "What if it were half inch", "would half inch do": tried on a copy."""
    text = plain_text(heard)
    return ways("body", "supposing").search(text) is not None or asks(text)


def _supposed(heard: str, made: list[Act], other: Utterance) -> Utterance:
    """What is supposed of the body and of what is in it, as one act."""
    if (most := _most_in_it(made, other)) is not None:
        return Utterance(heard, (most,), other.unread)
    inner = list(made)
    for act in other.acts:
        if isinstance(act, acts.Suppose):
            inner += act.acts
        elif not isinstance(act, (acts.AskUnknown, acts.OtherTalk, acts.Ask, acts.Social)):
            inner.append(act)
    fit = ways("body", "if").search(plain_text(heard)) is None
    whole = acts.Suppose(acts=tuple(inner), asks_fit=fit, words=heard, span=(0, len(heard)))
    left = tuple(run for run in other.unread if any(c.isdigit() for c in run.words))
    return Utterance(heard, (whole,), left)


def _most_in_it(made: list[Act], other: Utterance) -> acts.RoomFor | None:
    """ "How many 12s may be spliced in a body marked 6": asked of the body that it names."""
    rooms = [act for act in other.acts if isinstance(act, acts.RoomFor)]
    named = [act for act in other.acts if isinstance(act, _OF_THE_BODY)]
    if len(rooms) != 1 or len(rooms) + len(named) != len(other.acts):
        return None
    (most,) = rooms
    given = [act for act in (*most.given, *named) if not isinstance(act, acts.NameBoxKind)]
    return replace(most, given=(*made, *given))


_OF_THE_BODY = (acts.SetVolume, acts.SetClamps, acts.NameBoxKind)


def _weighs(text: str, at: int) -> bool:
    """Whether the letters "lb" behind a number are of a weight, and not of a body by its size."""
    before = text[:at]
    if _WEIGHT.search(before) is None or _FRACTION.search(before) is not None:
        return False
    return next(_kinds(text), None) is None


#: What each name of a conduit body holds; few utterances do.
_NAMING = re.compile(
    r"\b(?:l ?[blru]|t ?b)|bod(?:y|ies)|fitting|\b(?:ell?|elbow)s?\b|\b[ctx] (?:on|for|in)\b"
)


def _name(text: str) -> _Found | None:
    if not _NAMING.search(text):
        return None
    for found in ways("body", "name").finditer(text):
        letters = (found["letters"] or "").replace(" ", "")
        if letters in ("lb", "lbd") and _weighs(text, found.start()):
            continue  # "a fan of 35 lb"
        before = text[: found.start()]
        if _ASKED.search(before) or before.endswith("panel "):
            continue  # "what is a conduit body", and "panel LB", name none
        letters = found["letters"] or found["one"] or found["bare"] or found["after"] or ""
        said: dict[str, object] = {"name": True}
        if letters:
            said["shape"] = letters.replace(" ", "").upper()
        if "short" in found[0] or found["short"]:
            said["short_radius"] = True
        return _Found(found.start(), found.end(), said)
    return None


def _raceways(text: str, asked: str | None) -> Iterator[_Found]:
    """ "Three quarter EMT", "half inch rigid", "EMT, 3/4 inch", "3/4 LB"."""
    kind = next((k for k in _kinds(text)), None)
    place = kind[1] if kind else len(text)
    sized = size_before(text, place) if kind else None
    sized = sized or size_anywhere(text, asked)
    if sized is not None:
        yield _Found(sized[1], sized[2], {"size": sized[0]})
        yield from _said_twice(text, sized)
    if kind is not None:
        yield _Found(kind[1], kind[2], {"raceway": kind[0]})


def _kinds(text: str) -> Iterator[tuple[str, int, int]]:
    for name in grammar_data.table("enclosures")["body"]["raceway"]:
        for found in ways("body", "raceway", name).finditer(text):
            yield name, found.start(), found.end()


def _said_twice(text: str, sized: tuple[Decimal, int, int]) -> Iterator[_Found]:
    """ "1/2 C body on 1/2 RMC": the body by the size of its raceway."""
    before = text[: sized[1]]
    other = size_anywhere(before, None)
    if other is not None and other[0] == sized[0]:
        yield _Found(other[1], other[2], {"size": other[0]})


def _insulations(text: str) -> Iterator[_Found]:
    for name in grammar_data.table("enclosures")["body"]["insulation"]:
        for found in ways("body", "insulation", name).finditer(text):
            # the other reading knows the letters as a word of a wire; it does not know the rest
            letters = re.compile(r"[a-z]{2,}").match(text, found.start())
            end = letters.end() if letters else found.end()
            parted = letters is None  # "t h h n", as an ear may write it down
            left = "thhn" if parted and end - found.start() >= 4 else ""
            yield _Found(found.start(), end, {"insulation": name}, parted, left)
            yield _Found(end, found.end(), {})
            return


def _flags(text: str) -> Iterator[_Found]:
    taken: list[tuple[int, int]] = []
    for key, said in _FLAGS:
        for found in ways("body", key).finditer(text):
            if any(start < found.end() and found.start() < end for start, end in taken):
                continue
            taken.append((found.start(), found.end()))
            # the other reading knows "spliced" and "passing through" as what is said of wires
            through = key == "spliced" or (key == "unspliced" and "splice" not in found[0])
            inside = found[0].rfind(" inside") if key == "spliced" else -1
            if inside >= 0:  # it is said of the splices, and of no clamps
                yield _Found(found.start() + inside, found.end(), {})
            yield _Found(found.start(), found.end(), dict(said), blank=not through)
