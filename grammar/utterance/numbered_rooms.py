"""A box begun by the room it is in, said with what is in it: "room 21 is next, two 14-2s …"."""

from __future__ import annotations

import re
from collections.abc import Callable

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.numbers import value
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance.box_naming import CHANGES, shifted
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS

_NOUN = (
    r"(?:room|classroom|class|rm|suite|unit|office|portable|apartment|apt|lab|shop|bay|hall|corridor"
    r"|wing|bench|station|cabin|dorm|cell|stall|bed(?:room)?|trailer|module|exam|treatment|restroom"
    r"|ward|clinic|vacant|vac|villa|cottage|operatory|procedure|imaging|triage|recovery|consult|pod"
    r"|register|checkout|studio|booth|hangar|dressing|bath(?:room)?|meeting|conference|training"
    r"|(?:pump|well|gate) ?house|kiosk)"
)
_SMALL = r"(?:one|two|three|four|five|six|seven|eight|nine|oh|zero)"
_TEENS = r"(?:ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen)"
_TENS = rf"(?:(?:twen|thir|for|fif|six|seven|eigh|nine)ty(?:[ -]{_SMALL})?|{_TEENS})"
_ENDS = (
    r"(?= *(?:[,.:;!?]|$)| (?:is|it's|next|first|now|up|has|gets|same|outlet|switch|light"
    r"|receptacle|plug|sensor|box|(?:three|four|[34])[- ]way|dimmer|gfci|timer)\b"
    r"| (?:single|double|two|three|[1-4]) gang\b"
    r"| (?:by|at|near|beside|next to|over|under|behind|across from) (?:the|my|her|his|their)\b)"
)
#: "Bedroom four by the door": more of the name.
_WHERE = (
    r"(?P<where> (?:by|at|near|beside|next to|over|under|behind|across from)"
    r" (?:the|my|her|his|their) [a-z]+(?: (?:door|wall|side|window|end|corner|stairs))?)?"
)
_WORDED = (
    rf"(?:{_SMALL} (?:hundred(?: (?:and )?(?:{_TENS}|{_SMALL}))?|{_TENS}|{_SMALL} {_SMALL})"
    rf"|{_TENS}|{_SMALL}){_ENDS}"
)
_DIGITS = (
    r"(?:(?:\d{3,4}[a-z]?|[a-z]-?\d{1,3})(?![\w/.-]| by\b| cubic| inch| gang| square)"
    rf"|\d{{1,2}}[a-z]?{_ENDS})"
)
_NUMBERED = (
    rf"(?P<noun>{_NOUN})(?: (?:number |no\.? ?)?| ?# ?)(?P<number>{_DIGITS}|{_WORDED})"
    rf"{_WHERE}(?: box\b)?"
)
_CODED = r"(?P<code>[a-z]-?\d{1,3}|\d{3,4}[a-z]?)(?![\w/.-]| by\b| cubic| inch)"
_PLACE = r"(?P<place>(?:[a-z]+(?:'s)? ){0,2}?[a-z]+(?: serving line)?)"

#: "Unit 8 range wall 1g 20": the room of a dwelling that is known by its number.
_DWELLING = (
    r"(?P<noun>unit|suite|apartment|apt|lot|house|condo|townhouse|villa|plan)"
    r" #?(?P<number>\d{1,4}[a-z]?|[a-z]+teen|ten|eleven|twelve|twenty"
    rf"|{_SMALL})"
    r"(?P<room>(?: [a-z]+){1,3}?(?: [1-9])?)(?:[,:] | box (?=marked)"
    r"| (?=[1-4] ?g\b|[1-4] gang\b|(?:single|double|triple) gang|\d[- ]?(?:sq|oct)|four (?:square"
    r"|inch)|octagon|(?:ceiling|switch|outlet|nail[- ]on|old work) box|box\b))"
)

_LEAD = (
    r"(?:(?:ok|okay|so|and|alright|all right|well|um|uh|hey|hi|hello|good|great|perfect|cool|now"
    r"|then|right|let's do|let us do|we're in|i'm in|i'm at|this is|this one's|this one is"
    r"|it's),? )*"
)
_ON = (
    r"(?:(?:next|new) (?:box|one|up)(?:,? (?:is|it's|it is))?,? (?:in |at )?|next,? (?:is )?|then,?"
    r" |on to |onto |moving on to |now,? |what's next,? "
    r"|first (?:box|one|up)?,?(?: is)?,? ?(?:in )?)"
)
_NEXT = (
    r"(?:(?:,? is| comes|'s)?,? (?:next|first|now|up next|up)\b(?:,? (?:please|then)\b)?"
    r"|(?: is|'s|'ll be| will be) (?:the|my|our) (?:next|first) (?:box|one)\b)"
)
_BREAK = r"(?:,? (?:it's|it is|it has|it's got|there's|we have|we've got|has|i have|i've got|got))?"
_REST = rf"(?:{_BREAK}[ ,:.;]+(?P<rest>.+))?"
_MUST = rf"{_BREAK}[ ,:.;]+(?P<rest>.+)"
_FORMS = tuple(
    lazy_pattern(rf"\s*{form}\s*")
    for form in (
        rf"{_LEAD}(?:{_ON})?(?:the )?{_DWELLING}(?P<rest>.+)",
        rf"{_LEAD}{_ON}(?:the )?{_NUMBERED}[.!]?{_REST}",
        rf"{_LEAD}(?:the )?{_NUMBERED}{_NEXT}[.!]?{_REST}",
        rf"{_LEAD}(?:the )?(?!20\d\d){_CODED}(?:,? is| comes|'s)?,? (?:up )?next[.!]?{_REST}",
        rf"{_LEAD}(?:next|new) (?:box|one|up)(?:,? is)?,? {_CODED}[.!]?{_MUST}",
        rf"{_LEAD}{_NUMBERED},? (?P<rest>(?:is|was|gets|has) .+)",
        rf"{_LEAD}{_NUMBERED}(?:{_BREAK}[,:;.] ?|,? (?:it's|it is|it has|it's got|has|we have"
        r"|i have|i've got|there's) |,? (?=(?:single|double|one|two|three|four|[1-4]) gang))"
        r"(?P<rest>.+)",
        rf"{_LEAD}{_NUMBERED}(?P<headed> (?:outlet|switch|light|receptacle|plug|sensor"
        r"|(?:three|four|[34])[- ]way|dimmer|gfci|timer)(?: switch)?)[,:.]? "
        r"(?P<rest>.+)",
        rf"{_LEAD}{_ON}(?:the )?{_PLACE}(?:[,:.] | (?=(?:single|double|one|two|three|four|[1-4])"
        r" gang\b|four (?:inch|by|square)\b|octagon\b|masonry\b))(?P<rest>.+)",
        rf"{_LEAD}(?:the |my )?{_PLACE}{_NEXT}[,:.]?{_REST}",
        rf"{_LEAD}what's next,? (?:the )?{_PLACE}[.!]?(?P<rest>)",
        rf"{_LEAD}(?:the )?{_PLACE}[,:] (?P<rest>.+)",
        rf"{_LEAD}(?:the |my |our )?{_PLACE} (?P<rest>(?P<subject>is|has|had|holds|contains) .+)",
        r"(?P<short>[a-z]{2,8})\.? #?(?P<place_number>\d{1,4}[a-z]?) ?: ?(?P<rest>.+)",
    )
)
#: "Masonry box …, room 301": the room behind what is said of its box.
_BEHIND = lazy_pattern(rf"(?P<rest>.+?)[,.]? (?:in |it's |this is )?{_NUMBERED}[.!]?\s*")
_SAME = lazy_pattern(
    r"(?:the )?(?:same|identical|copy)(?: (?:thing|deal|setup|stuff|again"
    r"|as (?:that|before|the last(?: one)?|this)))*,? (?:but|except|only|with|and)"
    r"(?: it)?(?: has|'s got)? (?P<rest>.+)"
)
#: "Stairway, bottom: …", "bedroom one, by the window: …": more of the name.
_GOES_ON = lazy_pattern(
    r"(?:the |in the |at the |on the )?(?:by|near|behind|beside|over|under|above|below|next to|top"
    r"|bottom|upper|lower|left|right|front|back|north|south|east|west|far)\b[^,:.]*(?:[,:.]|$)"
    r"|[a-z' ]+:|(?:[a-z]+\s+)?(?:side|wall|end|corner)[.]"
    rf"|{_NOUN} (?:{_SMALL}|{_TEENS}|\d{{1,4}}[a-z]?)[.:]"
    r"|(?:dishwasher|refrigerator|fridge|freezer|disposal|microwave|range|stove|oven|cooktop|sink"
    r"|washer|dryer|fireplace|vanity)[.]"
)
_HINT = lazy_pattern(
    rf"\b{_NOUN}\b|\b(?:next|first|now|then|up)\b|[,:]|\b(?:has|had|holds|contains)\b"
    r"|\bis (?:an?|one|two|three|four|five|\d)\b"
)
_CONTENTS = (acts.AddCable, acts.AddConductors, acts.AddDevice, acts.AddFixtureWires)
_BOX_TOLD = (acts.SetVolume, acts.SetSize, acts.NameBoxKind, acts.SetClamps)


#: "There are three to check. The hall has …": what is said before the box is named.
_BEFORE = lazy_pattern(r"[^.!?:]{3,60}[.!]\s+(?=(?:the|my|our) [a-z])")


def room_named(heard: str, read_part: Callable[[str], Utterance]) -> Utterance | None:
    """The acts of an utterance that begins or goes back to the box of a room, with what is told
    of it; None where no room is named so, or nothing behind its name tells of a box."""
    low = heard.lower()
    if not _HINT.search(low) or low.rstrip().endswith("?"):
        return None
    return _named_first(heard, low, read_part) or _named_later(heard, low, read_part)


def _named_later(heard: str, low: str, read_part: Callable[[str], Utterance]) -> Utterance | None:
    before = _BEFORE.match(low)
    if before is None:
        return None
    start = before.end()
    told = _named_first(heard[start:], low[start:], read_part)
    if told is None or any(
        isinstance(act, (*CHANGES, *_BOX_TOLD)) for act in read_part(heard[:start]).acts
    ):
        return None
    left = tuple(
        Unread(run.words, (run.span[0] + start, run.span[1] + start), run.weighty)
        for run in told.unread
    )
    return Utterance(heard, tuple(shifted(told.acts, start)), left)


def _named_first(heard: str, low: str, read_part: Callable[[str], Utterance]) -> Utterance | None:
    for form in _FORMS:
        said = form.fullmatch(low)
        if said is None or not (name := _name_of(said)):
            continue
        rest = said["rest"] or ""
        if _GOES_ON.match(rest) or _is_thing(said, read_part):
            continue
        if not rest.strip():
            return _begun(name, heard)
        told = _told(heard, len(low) - len(low[said.start("rest") :]), name, said, read_part)
        if told is not None:
            return told
    return _named_behind(heard, low, read_part)


def _is_thing(said: re.Match[str], read_part: Callable[[str], Utterance]) -> bool:
    """ "Swich 2: 14-2 x2": a short name that may be a thing, misspelt, heads no box."""
    short = said.groupdict().get("short")
    return bool(short and any(read_part(words).acts for words in (short, f"two {short}")))


def _begun(name: str, heard: str) -> Utterance:
    return Utterance(heard, (acts.NextBox(name=name, words=heard, span=(0, len(heard))),))


def _told(
    heard: str, start: int, name: str, said: re.Match[str], read_part: Callable[[str], Utterance]
) -> Utterance | None:
    """The box, and what is told of it; None where that is of no box."""
    rest = heard[start:]
    head = heard[:start].rstrip(" ,:.")
    begins: Act = acts.NextBox(name=name, words=head, span=(0, len(head)))
    if same := _SAME.fullmatch(rest.lower().strip()):
        begins = acts.CopyBox(like="", name=name, words=head, span=(0, len(head)))
        start += rest.lower().find(same["rest"])
        rest = heard[start:]
    read = read_part(rest)
    if not any(isinstance(act, (*CHANGES, *_BOX_TOLD)) for act in read.acts):
        return None
    numbered = any(said.groupdict().get(one) for one in ("noun", "short"))
    if not numbered and not any(isinstance(act, _BOX_TOLD) for act in read.acts):
        return None  # "the switch next, …": of a place the box itself is told
    if said.groupdict().get("subject") and not any(isinstance(act, _CONTENTS) for act in read.acts):
        return None  # "the den is a 20": said of a box that is known, or of the one at hand
    if said.groupdict().get("headed") and not _has_device(read):
        return None  # "room 9 switch, two 14-2s": the switch is in it
    left = tuple(
        Unread(run.words, (run.span[0] + start, run.span[1] + start), run.weighty)
        for run in read.unread
    )
    return Utterance(heard, (begins, *shifted(read.acts, start)), left)


def _has_device(read: Utterance) -> bool:
    return any(isinstance(act, acts.AddDevice) for act in read.acts)


def _named_behind(heard: str, low: str, read_part: Callable[[str], Utterance]) -> Utterance | None:
    said = _BEHIND.fullmatch(low)
    if said is None or not re.match(r"[^,]*\b(?:box|gang|square|octagon)\b", low):
        return None
    read = read_part(heard[: said.end("rest")])
    if not read.acts or not all(isinstance(act, _BOX_TOLD) for act in read.acts) or read.unread:
        return None
    named = acts.NextBox(name=_name_of(said), words=heard[said.start("noun") :], span=(0, 0))
    return Utterance(heard, (named, *read.acts))


def _name_of(said: re.Match[str]) -> str:
    groups = said.groupdict()
    if groups.get("noun"):
        number, where = groups["number"], groups.get("where") or ""
        if room := (groups.get("room") or "").strip():
            *words, last = room.split()
            inside = [*words, last] if not last.isdigit() else words
            placed = all(_qualifies(word) or word in _IN_DWELLING for word in inside)
            figure = str(value((number,)) or number)
            return f"{groups['noun']} {figure} {room}" if placed else ""
        number = str(value((number,)) or number) if where else _figures(number)
        return f"{groups['noun']} {number}{where}"
    if groups.get("code"):
        return groups["code"]
    if short := groups.get("short"):  # "vac 4:", a short form of one's own for a place
        return "" if short in known_words() else f"{short} {groups['place_number']}"
    words = (groups.get("place") or "").split()
    return " ".join(words) if _is_place(words) else ""


_IN_DWELLING = frozenset(
    {"bed", "bath", "wall", "entry", "side", "top", "bottom", "range", "stairs", "stair"}
)
_NO_PLACE = frozenset(
    {"the", "a", "an", "box", "next", "first", "one", "no", "not", "of", "in", "to"}
)


def _is_place(words: list[str]) -> bool:
    """ "Principal's office", "dish room": a word for a room, and what tells it from others."""
    if not words or _NO_PLACE.intersection(words):
        return False
    last = words[-1]
    rooms = (last in ROOMS or last.endswith("room") or last == "line") and last != "box"
    rooms = rooms or (last in ROOM_WORDS and not ROOMS.isdisjoint(words))  # "stair bottom"
    return rooms and all(_qualifies(word) for word in words[:-1])


def _qualifies(word: str) -> bool:
    return word in ROOMS or word in ROOM_WORDS or word.endswith("'s") or word not in known_words()


def _figures(said: str) -> str:
    """ "Two twelve" is 212, "one oh one" 101, "twenty one" 21; digits stand as they are."""
    if re.search(r"\d", said) or re.fullmatch(_SMALL, said):
        return said
    words = said.replace("-", " ").replace(" and ", " ").split()
    if "hundred" in words or len(words) == 1:
        return str(value(tuple(words)) or said)
    digits = ""
    for word in words:
        one = "0" if word == "oh" else str(value((word,)) or "")
        digits = (
            digits[:-1] + one
            if digits.endswith("0") and len(digits) > 1 and len(one) == 1 and word != "oh"
            else digits + one
        )
    return digits or said
