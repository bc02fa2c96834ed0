"""Dialogue act recognition: words in, acts out."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

from grammar import acts, numbers, store
from grammar.acts import Act, Unread, Utterance
from grammar.asking import ask, order
from grammar.clauses import Clause, Element, clauses
from grammar.making import THINGS, thing_of
from grammar.telling import Telling, parts_of, tell
from grammar.understanding import understand
from grammar.unread import about_something_else, evidence, unread
from grammar.words import Word

_SOCIAL = store.table("social")
_MARKERS = frozenset(
    {"no", "wait", "sorry", "actually", "oops", "whoops", "correction", "rather", "nope", "oh",
     "hold", "on", "i", "mean", "meant", "hang", "my", "bad", "mistake", "er", "uh", "um", "well", "hmm", "shoot", "dang", "crap",
     "scratch", "that", "is", "wrong", "not", "right", "said", "strike", "misspoke", "so", "and", "but", "counted", "checked", "recounted", "excuse", "apologies", "pardon", "double", "read", "misread", "had", "it", "darn", "yeah", "let", "me", "see", "fix", "correct", "it", "made", "a", "the", "ok", "okay", "messed", "up", "miscounted", "looked", "again", "nah"}
)  # fmt: skip
_MARKING = frozenset({"wait", "sorry", "actually", "oops", "whoops", "correction", "rather", "mean", "meant", "mistake", "bad", "wrong", "misspoke", "no", "nope", "shoot", "crap", "dang", "darn", "miscounted", "hold", "nah"})
#: Acts of which nothing may be left standing where a clause is about something else.
_TELLS = (*THINGS.values(), acts.SetClamps, acts.SetVolume, acts.SetSize, acts.NameBoxKind, acts.AddPart, acts.AddBarrier, acts.Number, acts.Size, acts.Place, acts.NoneOfThem, acts.Deny, acts.Land, acts.More, acts.Recount, acts.Remove, acts.Restate, acts.RestateNumber, acts.Replace, acts.SetEdition, acts.NothingElse, acts.Undo, acts.OpenBox, acts.NameBox, acts.DeleteBox, acts.Reclassify, acts.Resize, acts.PutBack, acts.Widen, acts.Route, acts.Unground, acts.SetCanopy)


def recognise(
    words: str | Sequence[Word],
    expect: str | None = None,
    aliases: Mapping[str, str] | None = None,
) -> Utterance:
    """The dialogue acts of an utterance, in the order said, and what was not read.

    `expect` names the open question (`box`, `clamps`, `device_size` …) and only breaks ties
    between readings of a bare answer. `aliases` are a person's own words and what they mean.
    """
    if isinstance(words, str):
        laid = _plain_layout(words)
        found = understand(laid, expect, aliases)
        if laid is not words:
            found = replace(found, heard=words)
    else:
        found = understand(words, expect, aliases)
    if letter := _LETTERED.fullmatch(found.heard.strip().lower()):
        return Utterance(found.heard, (acts.NextBox(name=letter[1], words=found.heard, span=(0, len(found.heard))),))
    if social := _social(found.heard):
        return Utterance(found.heard, (social,))
    made: list[Act] = []
    left: list[Unread] = []
    parts = clauses(found.heard, found.statements)
    place = 0
    corrective = False
    while place < len(parts):
        clause = parts[place]
        if _BOX_TOPIC.match(clause.line) and place + 1 < len(parts):
            place, told, weighty = _clause(parts, place + 1, found.heard, True)
            made += [_of_the_box(act) for act in told]
            left += weighty
            continue
        if not place and (name := _box_heading(clause, parts, found.heard)):
            made.append(acts.NextBox(name=name, words=name, span=clause.span))
            place += 1
            continue
        if not place and len(parts) > 1 and clause.closes in (".", ":", ";", "\n") and _NUMBERED.fullmatch(clause.line):
            place += 1  # "Number six. Two 14-3s …": a heading
            continue
        if place and clause.line.startswith("so ") and any(act.function == "correction" for act in made) and clause.mood == "declarative":
            corrective = True  # "… so three 14-2s and one 14-3" sums up what is now
        if (contrast := _not_but(clause, parts, place)) is not None:
            made.append(contrast)
            place += 2
            continue
        if clause.line.startswith("not <") and clause.closes in (",", ".", ";", "-") and len(clause.elements) < 4 and place + 1 < len(parts):
            place, told, weighty = _clause(parts, place + 1, found.heard, True)
            made += told
            left += weighty
            continue
        if _marker(clause) and place + 1 < len(parts) and clause.closes not in ("?",):
            corrective = True
            made += _marker_acts(clause)
            place += 1
            continue
        if _marker(clause) and expect != "confirm" and _DISPUTE.search(clause.line) and clause.closes != "?":
            # what is wrong is yet to be said
            left.append(Unread(found.heard[clause.span[0] : clause.span[1]], clause.span, True))
            place += 1
            continue
        if place and place + 1 == len(parts) and _TRAILING.fullmatch(clause.line) and parts[place - 1].closes in (",", "", "-"):
            made = _restated_after_all(made)  # "three 12-2s, I mean"
            place += 1
            continue
        if _marker(clause) and (plain := _marker_acts(clause)):
            made += plain  # "no" at the end, or by itself
            place += 1
            continue
        place, told, weighty = _clause(parts, place, found.heard, corrective)
        made += told
        left += weighty
        corrective = False
    if found.passed:
        left = [run for run in left if not any(s <= run.span[0] and run.span[1] <= e for s, e in found.passed)]
    made, left = _tidied(made, left, parts, found.heard)
    made = _without_empty_undo(made)
    return Utterance(found.heard, tuple(made), tuple(left))


_ROOMS = frozenset(store.table("clauses")["rooms"]["names"])
_ROOM_WORDS = frozenset(store.table("clauses")["rooms"]["words"])


_CODE = re.compile(r"[a-z]{1,3}-\d{1,3}[a-z]?")


def _box_heading(clause: Clause, parts: list[Clause], heard: str) -> str:
    """ "Kitchen island: …", "laundry box. …": the name of a box as first words; else empty."""
    alone = len(parts) == 1 and clause.elements[-1].tag.startswith(("box", "<box_kind"))
    if not alone and (clause.closes not in (":", ".", "\n") or len(parts) < 2) or len(clause.elements) > 6:
        return ""
    words = [e.tag for e in clause.elements if e.tag not in ("ok", "okay", "alright", "so", "now", "this", "is", "the", "and", "for", "in", "it")]
    if words and _CODE.fullmatch(words[-1]) and all(w in ("box", "item", "no", "number") for w in words[:-1]):
        return heard[clause.span[0] : clause.span[1]].strip(" .:,").split()[-1]
    if not words or not all(w.isalnum() or w.startswith("<n:") or w.startswith("<box_kind") for w in words):
        return ""
    if not any(w in _ROOMS for w in words) or not all(w in _ROOMS or w in _ROOM_WORDS or w.startswith("<") or w not in known_words() for w in words):
        return ""
    text = heard[clause.span[0] : clause.span[1]].strip(" .:,")
    text = re.sub(r"(?i)^(?:(?:ok|okay|alright|so|now|and|this is|the|for the|in the|for) )+", "", text)
    return re.sub(r"(?i) box$", "", text).strip()


#: Words that look for a word.
_SEEKING = re.compile(r"(?i)\b(?:what'?s it called|what is it called|what do you call (?:it|them|that)|whatchamacallit|how (?:do )?(?:i|you) say|what'?s the word)\b,?")
_DOTS = re.compile(r"(?<=\s)\.{2,}(?=\s)")


def _plain_layout(text: str) -> str:
    """A pasted list in plain lines, each character in its place: tabs and leaders are no words."""
    if "\t" in text:
        text = text.replace("\t", "\n")
    text = _COPPER.sub(lambda found: found[1] + " " * (len(found[0]) - len(found[1])), text)
    text = _CLOCK.sub(lambda found: " " * len(found[0]), text)
    text = _SEEKING.sub(lambda found: " " * len(found[0]), text)
    text = _LABEL.sub(lambda found: found[1] + " " * (len(found[0]) - len(found[1])), text)
    return _DOTS.sub(lambda found: " " * len(found.group()), text) if ".." in text else text


#: A room's or a drawing's number at the head of a line is no count of what follows.
_LABEL = re.compile(
    r"(?im)((?:^|[,;.:]\s*)(?:(?:at|in|for|ok|so) )?(?:[a-z]+ )?(?:rm|room|office|suite|apt|unit|floor|flr|sheet|rev|circuit|ckt|corridor|classroom|area|zone|bldg)) ?#? ?\d{1,4}[a-z]?\b"
)
#: "#12 CU THHN": copper, where "12 cu in" is a volume.
_COPPER = re.compile(r"(?i)((?:#|\bno\.? |\bnumber )\s?\d{1,2}(?: awg)?)\s+cu\b(?!\.?\s*in)")
#: A time of day, a surface: no numbers of a box.
_CLOCK = re.compile(r"(?i)\b\d{1,2}:[0-5]\d\b|\b[\d,]+ (?:square|sq) (?:feet|foot|ft)\b|\b(?:a|per) square foot\b")
_LETTERED = re.compile(r"(?:(?:this is|this one is|ok|okay|now|first|so) )*(box (?:[a-z]|[1-5]|one|two|three|four|five))[.:,]?")
_CHANGES = frozenset(store.table("clauses")["other"]["change"])
_BOX_TOPIC = re.compile(r"^(?:(?:and|so|ok|okay|now|as for|about|going back to|back to|for) )*(?:the|my|this) (?:box|volume|capacity)$")


def _of_the_box(act: Act) -> Act:
    """A number said of the box is its volume."""
    if isinstance(act, (acts.Number, acts.RestateNumber)) and act.value is not None:
        return acts.SetVolume(
            volume=act.value, words=act.words, span=act.span, doubts=act.doubts, function="correction"
        )
    return act


def _without_empty_undo(made: list[Act]) -> list[Act]:
    """ "How many has the panel? Never mind": nothing is taken back; nor twice: "the 12-3 is not
    there, forget it"."""
    told = [act for act in made if not isinstance(act, acts.Undo)]
    passed = all(isinstance(act, (acts.AskUnknown, acts.OtherTalk, acts.Ask, acts.AskMeaning)) for act in told)
    taken = any(isinstance(act, (acts.Remove, acts.Deny)) for act in told)
    if not told or not (passed or taken):
        return made
    return [act for act in made if not (isinstance(act, acts.Undo) and re.match(r"(?i)never mind|forget (?:it|that)|take (?:it|that) out", act.words))]


def _clause(
    parts: list[Clause], place: int, heard: str, corrective: bool
) -> tuple[int, list[Act], list[Unread]]:
    """The acts of the clause at a place; with those joined to it, where it asks or supposes."""
    clause = parts[place]
    _declarative_after_all(clause)
    telling = Telling(clause, heard, corrective)
    if clause.mood != "declarative":
        end = place + 1
        alone = clause.mood == "interrogative" and not clause.found and not clause.modal
        while not alone and end < len(parts) and _joined(clause, parts[end - 1], parts[end]):
            end += 1
        return end, ask(telling, parts[place + 1 : end]), []
    if about_something_else(clause, known_words(), _described(parts)):
        words = heard[clause.span[0] : clause.span[1]]
        exact = any(found.kind == "cable" and found.get("count") is not None for found in clause.found)
        # what may be of the box after all is not passed over in silence
        held = [Unread(words, clause.span, True)] if exact else []
        return place + 1, [acts.OtherTalk(words=words, span=clause.span)], held
    if place + 1 < len(parts) and clause.closes == "," and parts[place + 1].closes == "?" and len(clause.elements) < 5 and re.search(r"\bcounts?\b|\bcounted\b", parts[place + 1].line):
        return place + 2, ask(Telling(parts[place + 1], heard)), []  # "the travellers, they count?"
    if (unclear := _unknown_operator(clause, heard)) is not None:
        return place + 1, [unclear], []
    told = tell(telling)
    if not told and (asked := order(clause, heard)):
        return place + 1, asked, []
    if _topic(clause, told) and place + 1 < len(parts):
        following = parts[place + 1]
        if denial := _denied_topic(clause, following, heard):
            return place + 2, [*told[:-1], *denial], []
    if _heading(clause, told):
        if isinstance(told[0], acts.AddGrounds):
            return _grounds_listed(parts, place + 1, heard)
        return place + 1, [], []
    if any(isinstance(act, (acts.SetVolume, acts.SetSize)) for act in told):
        return place + 1, told, [run for run in _unread(clause, told, heard) if run.words.lower() not in _CHANGES]
    return place + 1, told, _unread(clause, told, heard)


def _grounds_listed(parts: list[Clause], place: int, heard: str) -> tuple[int, list[Act], list[Unread]]:
    """ "EGC: 1 - #10, 2 - #12": what stands under that heading are grounds."""
    made: list[Act] = []
    while place < len(parts):
        clause = parts[place]
        told = tell(Telling(clause, heard))
        if not told or not all(isinstance(act, (acts.AddConductors, acts.AddGrounds)) for act in told):
            break
        made += [
            acts.AddGrounds(count=act.count, awg=act.awg, words=act.words, span=act.span)  # type: ignore[attr-defined]
            for act in told
        ]
        place += 1
        if clause.closes not in (",", "and", ""):
            break
    return place, made, []


def _heading(clause: Clause, told: list[Act]) -> bool:
    """ "Devices:" before the devices: a heading is no thing."""
    if clause.closes != ":" or len(told) != 1 or len(clause.elements) > 2:
        return False
    act = told[0]
    if isinstance(act, acts.AddDevice):
        return act.count is None and act.name in (None, "device")
    return isinstance(act, (acts.AddGrounds, acts.AddConductors, acts.NameBoxKind)) and getattr(act, "count", None) is None


_BEFORE_VERB = frozenset({"ok", "okay", "so", "and", "then", "now", "well", "please", "just", "i", "we", "you", "let", "us", "oh", "actually", "no", "wait", "also", "to", "gonna", "going", "should", "will", "can"})


def _unknown_operator(clause: Clause, heard: str) -> acts.UnknownOperator | None:
    """ "yeet the switch": an operator that nobody knows, before a thing that is named."""
    elements = clause.elements
    at = 0
    while at < len(elements) - 1 and elements[at].tag in _BEFORE_VERB:
        at += 1
    if at + 2 != len(elements):
        return None
    verb, thing = elements[at], elements[at + 1]
    if not verb.tag.isalpha() or verb.tag in known_words() or verb.tag.endswith("ing"):
        return None
    if thing.found is None or verb.tag in _ROOMS or verb.tag in _ROOM_WORDS or verb.tag.endswith(("ed", "s")):
        return None
    if not thing.tag.endswith(":d>") and not thing.found.words.lower().startswith(("a ", "an ", "one ", "the ")):
        return None
    made = thing_of(thing.found)
    if made is None:
        return None
    words = heard[verb.start : thing.end]
    return acts.UnknownOperator(verb=heard[verb.start : verb.end], thing=made, words=words, span=(verb.start, thing.end))


def _described(parts: list[Clause]) -> bool:
    """Whether an utterance describes a box elsewhere in it."""
    return any(evidence(element) for clause in parts for element in clause.elements)


_RELATIVE = re.compile(
    r"^(?:which|who|where|when) (?:(?:is|are|has|have|was|were|goes|go|comes|come|makes|feeds|means) (?:(?:a|an|the|all|both|on|to|just|of|got|from) )*<|(?:i|we|both|all|each|<))"
)
_WHAT_I_HAVE = re.compile(r"^(?:(?:so|ok|okay|well|and) )*(?:what|here is what) (?:i|we) (?:have|am|got|see|found|count|counted)\b")


def _declarative_after_all(clause: Clause) -> None:
    """ "…, which is a dimmer", "what I have is …" tell."""
    if clause.mood == "interrogative" and (
        (clause.opens in (",", "") and clause.closes != "?" and _RELATIVE.match(clause.line))
        or _WHAT_I_HAVE.match(clause.line)
    ):
        clause.mood = "declarative"
        clause.fit = clause.modal = False


def _joined(first: Clause, last: Clause, clause: Clause) -> bool:
    """Whether a clause goes on with the question or supposition before it."""
    if last.closes not in (",", "", ":", "(", "[") or _marker(clause):
        return False
    if clause.mood == "declarative":
        asks_of_things = first.mood == "conditional" or first.fit or "box" in first.line
        return asks_of_things and bool(clause.found)
    return first.mood == "conditional" or (clause.mood == "conditional")


def _marker(clause: Clause) -> bool:
    """A clause that only marks what follows as a correction: "no wait", "sorry"."""
    if any(element.found is not None and element.found.kind not in ("scratch", "no") for element in clause.elements):
        return False
    words = [element.tag for element in clause.elements if element.found is None]
    if len(words) < 6 and re.fullmatch(r"(?:(?:no|wait|i|just|so|ok) )*(?:(?:counted|looked|checked|read) (?:it |them )?again|recounted|double checked|excuse me|pardon me)", clause.line):
        return True
    if len(words) < 8 and _NOT_SO.fullmatch(clause.line):
        return True
    return (
        len(words) < 8
        and all(word in _MARKERS for word in words)
        and (any(word in _MARKING for word in words) or any(e.found is not None for e in clause.elements))
    )


def _marker_acts(clause: Clause) -> list[Act]:
    for element in clause.elements:
        if element.found is not None and element.found.kind == "scratch":
            return [acts.Undo(words=element.found.words, span=element.found.span)]
    if any(element.tag in ("no", "nope", "nah") for element in clause.elements):
        return [acts.No(words="no", span=clause.span)]
    if _DISPUTE.search(clause.line):
        return [acts.No(words="not so", span=clause.span)]
    return []


_NOT_SO = re.compile(r"(?:(?:no|wait|hey|but|ok|and|well) )*(?:that|it|this) (?:is|was) not (?:it|that|so|true|what i (?:said|meant|have|told you))")
_NOT_NUMBER = re.compile(r"(?:(?:no|and|but|wait) )*not <n:([0-9.]+)>")
_NUMBER_ONLY = re.compile(r"(?:(?:just|only|but|it is|make it) )*<n:([0-9.]+)>")


def _not_but(clause: Clause, parts: list[Clause], place: int) -> acts.RestateNumber | None:
    """ "Not two, one.": the one number in place of the other."""
    old = _NOT_NUMBER.fullmatch(clause.line)
    new = _NUMBER_ONLY.fullmatch(parts[place + 1].line) if place + 1 < len(parts) else None
    if old is None or new is None:
        return None
    span = (clause.span[0], parts[place + 1].span[1])
    return acts.RestateNumber(
        value=Decimal(new[1]), instead_of=Decimal(old[1]), words=clause.line, span=span, function="correction"
    )


_TRAILING = re.compile(r"(?:(?:i mean|i meant|actually|sorry|my mistake|my bad|rather|i should say|instead|oops|is what i meant)(?: |$))+")


def _restated_after_all(made: list[Act]) -> list[Act]:
    """What stands last was a correction."""
    if not made or not isinstance(made[-1], tuple(THINGS.values())) or getattr(made[-1], "count", None) is None:
        return made
    act = made[-1]
    if re.search(r"(?i)\b(?:more|another|extra)\b", act.words):
        return made
    restated = acts.Restate(thing=act, words=act.words, span=act.span, doubts=act.doubts, function="correction")  # type: ignore[arg-type]
    return [*made[:-1], restated]


#: "that's wrong", "I miscounted": what is wrong is yet to be said.
_DISPUTE = re.compile(r"\b(?:wrong|not right|mistake|miscounted|misspoke|messed up|correction|not it|not so|not true|not what i (?:said|meant|have|told you)|not that|incorrect|not correct)\b")


def _topic(clause: Clause, told: list[Act]) -> bool:
    """A thing named by itself before a colon, a question mark or a comma."""
    return bool(told) and clause.closes in (":", "?", ",", "(", "[", "") and clause.elements[-1].found is not None


def _denied_topic(clause: Clause, following: Clause, heard: str) -> list[Act] | None:
    """ "clamps? none inside", "devices: none"."""
    from grammar.polarity import denied, is_negator

    head = following.elements[0]
    plain_not = {e.tag for e in following.elements} <= {"not", "inside", "in", "the", "box", "them", "internal", "any"}
    if not is_negator(head) or (head.tag in ("not", "without", "minus") and not plain_not):
        return None
    if any(e.found is not None and e.found.kind in (*THINGS, "clamps", "part", "nothing") for e in following.elements):
        return None
    topic = clause.elements[-1].found
    if head.tag == "not" and topic is not None and topic.kind == "clamps":
        span = (topic.span[0], following.span[1])
        return [acts.SetClamps(where="none", words=heard[slice(*span)], span=span)]
    both = [clause.elements[-1], *following.elements]
    if not denied(both):
        return None
    return _plainly_denied(both, heard)


def _plainly_denied(both: list[Element], heard: str) -> list[Act]:
    """The denial of a topic alone: "none inside" says no more than "none"."""
    from grammar.polarity import denied

    made = tell(Telling(Clause(both, line=""), heard))
    count = len(denied(both))
    return made[:count]


def _unread(clause: Clause, told: list[Act], heard: str) -> list[Unread]:
    spans = [act.span for act in parts_of(told) if act.words]
    taken = {
        place
        for place, element in enumerate(clause.elements)
        if any(start <= element.start and element.end <= end for start, end in spans)
    }
    return unread(clause, taken, known_words(), heard)


def _tidied(
    made: list[Act], left: list[Unread], parts: list[Clause], heard: str
) -> tuple[list[Act], list[Unread]]:
    """What an utterance as a whole makes of its parts."""
    if any(isinstance(act, acts.OtherTalk) for act in made):
        others = [act for act in made if isinstance(act, acts.OtherTalk)]
        exact = any(isinstance(act, (acts.AddCable, acts.SetSize)) or isinstance(act, acts.SetVolume) and not act.doubts for act in made)
        weak = (acts.Number, acts.Size, acts.Place, acts.NoneOfThem, acts.Undo, acts.AddGrounds, acts.AddFitting, acts.AddDevice, acts.SetClamps, acts.OpenBox)
        told = [act for act in made if isinstance(act, _TELLS)]
        if not exact and all(isinstance(act, weak) for act in told) and all(isinstance(act, (*_TELLS, acts.OtherTalk, acts.No, acts.Yes)) for act in made) and len(others) * 2 >= len(parts):
            return [others[0]], []
    made = _landed_on_cables([act for act in made if not (isinstance(act, acts.OpenBox) and act.name == "the")], heard)
    made = [part for act in _goes_to_a_thing(made) for part in _misplaced_count(act)]
    if any(isinstance(act, acts.Unground) for act in made):
        made = [act for act in made if not (isinstance(act, acts.AddGrounds) and act.count is None and act.awg is None)]
    if _about_other_things(made, parts):
        return [acts.OtherTalk(words=heard, span=(0, len(heard)))], []
    made = _once_corrected(_each_pipe(made, heard, left), heard)
    made = _quads(_switch_beside_box(_clamps_on_some(made, heard), heard))
    made = _fixtures(_same_again(_sizes_lent(made, heard), heard), heard, left)
    made, left = _depth_said_apart(_denials_last(made), heard, left)
    made = _one_box(_one_yoke(_false_starts(_without_heading_devices(_joined_counts(_without_activity(made, heard)), heard)), heard), heard)
    if not left and not any(isinstance(act, _TELLS) for act in made):
        left = _untold(made, parts, heard)
    told = [act for act in made if isinstance(act, _TELLS)]
    if not told and left and not any(act for act in made):
        words = [element for clause in parts for element in clause.elements]
        strange = sum(1 for e in words if e.found is None and e.tag.isalpha() and e.tag not in known_words())
        if strange >= 2:
            return [acts.OtherTalk(words=heard, span=(0, len(heard)))], []
    return made, left


_SOME = re.compile(r"\b(?:other|others|rest|some|one|half)\b")


def _clamps_on_some(made: list[Act], heard: str) -> list[Act]:
    """ "Clamps inside on one, connectors outside on the others": one inside is one allowance,
    314.16(B)(2), whatever the others have."""
    told = [act for act in made if isinstance(act, acts.SetClamps)]
    places = {act.where for act in told}
    if len(told) < 2 or places != {"inside", "outside"} or any(act.function == "correction" for act in told):
        return made
    between = heard[min(act.span[0] for act in told) :].lower()
    if not _SOME.search(between) or re.search(r"\b(?:no|wait|actually|sorry|mean)\b", between):
        return made
    return [act for act in made if not (isinstance(act, acts.SetClamps) and act.where == "outside")]


def _vague(act: Act | None) -> bool:
    """ "12-2 cables": several, and the number is to come."""
    return act is not None and any(doubt.reason == "vague" for doubt in act.doubts)


def _sized_later(made: list[Act]) -> list[Act]:
    """ "a line cable and a load cable, both 12-2": the size of cables that were counted first."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.AddCable) and act.awg is not None:
            waiting = 0
            low = act.words.lower()
            while kept and isinstance(kept[-1], acts.AddCable) and kept[-1].awg is None:
                waiting += kept.pop().count or 1  # type: ignore[attr-defined]
            said = act.count if not low.startswith(("both", "all", "each", "a ", "an ")) else None
            if waiting and (said is None or said == waiting):
                act = replace(act, count=waiting, doubts=tuple(d for d in act.doubts if d.slot != "count"))
            elif waiting:
                kept.append(acts.AddCable(count=waiting, words=act.words, span=act.span))
        if isinstance(act, (acts.Replace, acts.Restate)) and isinstance(act.thing, acts.AddCable) and act.thing.awg is not None and kept and isinstance(kept[-1], acts.AddCable) and kept[-1].awg is None:
            waiting = 0
            while kept and isinstance(kept[-1], acts.AddCable) and kept[-1].awg is None:
                waiting += kept.pop().count or 1  # type: ignore[attr-defined]
            act = replace(act.thing, count=waiting, doubts=())
        kept.append(act)
    return kept


_ACTIVITY = re.compile(
    r"\b(?:replac|install|swapp|chang|wir|hook|mount|add|putt|fix|repair|upgrad|troubleshoot|redo|connect)ing(?: up| in| out)? (?:a |an |the |my |some |new |old |out |another )*$"
)


_ACTIVITY_REACH = 200


def _activity_before(act: Act, heard: str) -> bool:
    """Whether an activity stands right before; not looked for through all that was said."""
    end = act.span[0] + _article(act)
    return _ACTIVITY.search(heard[max(0, end - _ACTIVITY_REACH) : end].lower()) is not None


def _without_activity(made: list[Act], heard: str) -> list[Act]:
    """ "Replacing a light switch. … 1 switch": the work said first is no second switch."""
    kept: list[Act] = []
    if "ing " not in heard.lower():
        return made
    for place, act in enumerate(made):
        if isinstance(act, acts.AddDevice) and _activity_before(act, heard):
            later = [other for other in made[place + 1 :] if isinstance(other, acts.AddDevice)]
            if any(_same_device(act, other) for other in later):
                continue
        kept.append(act)
    return kept


def _article(act: Act) -> int:
    """How far into its words an act's article reaches."""
    found = re.match(r"(?i)(?:a|an|the|my|one) ", act.words)
    return found.end() if found else 0


def _same_device(one: acts.AddDevice, other: acts.AddDevice) -> bool:
    names = (one.name or "device", other.name or "device")
    return names[0].endswith(names[1]) or names[1].endswith(names[0])


def _sizes_lent(made: list[Act], heard: str) -> list[Act]:
    """ "two grounds, also fourteen": the size is of what was said before it."""
    kept: list[Act] = []
    heading: int | None = None
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(act, acts.Size) and heard[act.span[1] : act.span[1] + 2].lstrip().startswith(":"):
            heading = act.awg  # "#12: black 2, white 2, green 1"
            continue
        if heading is not None and isinstance(act, (acts.AddConductors, acts.AddGrounds)) and act.awg is None:
            act = replace(act, awg=heading, doubts=tuple(d for d in act.doubts if d.slot != "awg"))
        loose = isinstance(last, (acts.AddGrounds, acts.AddConductors, acts.AddJumper, acts.AddTerminalBlock))
        if isinstance(act, acts.Size) and loose and last.awg is None:  # type: ignore[union-attr]
            between = heard[last.span[1] : act.span[0]]  # type: ignore[union-attr]
            if (len(between) < 6 or len(between) < 12 and " with" in between) and not re.search(r"[.;]", between):
                doubts = tuple(d for d in last.doubts if d.slot != "awg")  # type: ignore[union-attr]
                kept[-1] = replace(last, awg=act.awg, doubts=doubts, span=(last.span[0], act.span[1]))  # type: ignore[call-arg, union-attr]
                continue
        kept.append(act)
    return kept


def _denials_last(made: list[Act]) -> list[Act]:
    """ "No ground in these old cables, two 14-2s": the order of what is told does not matter."""
    grounds = [act for act in made if isinstance(act, acts.Deny) and act.target.kind == "grounds"]
    if not grounds or any(isinstance(act, acts.AddGrounds) for act in made):
        return made
    rest = [act for act in made if act not in grounds]
    last = max((n for n, act in enumerate(rest) if isinstance(act, acts.AddCable)), default=-1)
    if last < 0:
        return made
    return [*rest[: last + 1], *grounds, *rest[last + 1 :]]


_FRACTION = re.compile(
    r"\b(?:(?:an? )?inch (?:and |n )?(?:a |an )?(?:half|quarter|eighth|\d/\d)|(?:one|two|three|1|2|3)(?: inch(?:es)?)?(?:[- ]| and | n )?(?:a |an |one |three |five |seven )?(?:half|quarters?|eighths?|\d/\d))\b"
)


def _depth_said_apart(
    made: list[Act], heard: str, left: list[Unread]
) -> tuple[list[Act], list[Unread]]:
    """ "deep four square, the two and an eighth one": a depth that no phrase took."""
    open_ = [n for n, act in enumerate(made) if isinstance(act, acts.SetSize) and (act.depth is None or isinstance(act.depth, str))]
    alone = not any(isinstance(act, (acts.SetSize, acts.SetVolume, acts.AddPart, acts.AskUnknown, acts.Ask, acts.Suppose, acts.OtherTalk)) for act in made) and len(heard) < 60
    if not open_ and not alone:
        return made, left
    for found in _FRACTION.finditer(heard.lower()):
        if any(act.span[0] <= found.start() < act.span[1] for act in made):
            continue
        texts = tuple(re.findall(r"\d+-\d/\d|\d/\d|\d+|[a-z]+", found.group().replace(" n ", " and ")))
        value = numbers.value(texts)
        if value is None or not 1 <= value < 5:
            continue
        if open_:
            made[open_[-1]] = replace(made[open_[-1]], depth=value)  # type: ignore[call-arg]
        else:
            made.append(acts.SetSize(depth=value, words=heard[found.start() : found.end()], span=found.span()))
        left = [run for run in left if not (found.start() <= run.span[0] < found.end())]
        break
    return made, left


_ONE_SIZE = re.compile(r"(?i)(?:an? |number |#)?\S+ (?:wire|conductor)$")


def _misplaced_count(act: Act) -> list[Act]:
    """ "it takes 12 wire": a size."""
    sized = isinstance(act, acts.AddConductors) and act.awg is None and act.count in (14, 12, 10, 8, 6)
    if sized and _ONE_SIZE.match(act.words):
        return [acts.Size(awg=act.count, words=act.words, span=act.span)]  # type: ignore[attr-defined]
    return [act]


_ON_CABLE = re.compile(r"(?i)\s*(?:that is |that's |is |lands |landing |landed |goes |sits |fed )?(?:on|off|from|by|fed by|off of) (?:the |an? |one )?")


def _landed_on_cables(made: list[Act], heard: str) -> list[Act]:
    """ "a receptacle on a 12-2 and a switch on a 14-2": each lands on its cable."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(act, acts.AddCable) and act.awg is not None and isinstance(last, acts.AddDevice) and last.awg is None:
            between = heard[last.span[1] : act.span[0]] + (" " if act.span[0] else "")
            article = re.match(r"(?i)(?:an?|the|one) ", act.words)
            if act.count in (None, 1) and _ON_CABLE.fullmatch(between.rstrip() + " " + (article[0] if article else "")):
                kept[-1] = replace(last, awg=act.awg, doubts=tuple(d for d in last.doubts if d.slot != "awg"))
        kept.append(act)
    return kept


_NUMBERED = re.compile(r"(?:(?:ok|okay|so|now|alright|this is|here is|next|and) )*(?:number|problem|exercise|example|question|item|no) (?:<n:\d+>|<size[^>]*>)|<size::>")


def _goes_to_a_thing(made: list[Act]) -> list[Act]:
    """ "They go to an outlet": a thing, and no name of a box."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.OpenBox) and re.match(r"(?i)(?:a|an|one) ", act.name):
            shift = act.span[1] - len(act.name)
            kept += [replace(one, span=(one.span[0] + shift, one.span[1] + shift)) for one in recognise(act.name).acts]
            continue
        kept.append(act)
    return kept


def _weak(act: Act) -> bool:
    """An act that a remark about anything could hold: nothing counted, sized or marked."""
    match act:
        case acts.Number() | acts.Size() | acts.Place() | acts.NoneOfThem() | acts.OtherTalk() | acts.AskUnknown():
            return True
        case acts.AddUncounted() | acts.AddBarrier() | acts.AddJumper():
            return True
        case acts.AddDevice() | acts.AddGrounds() | acts.AddConductors() | acts.AddFitting():
            return act.count is None and act.awg is None if not isinstance(act, acts.AddFitting) else act.count is None
        case acts.AddCable():
            return act.count is None and act.awg is None
        case acts.Resize() | acts.Recount() | acts.Remove():
            return act.target.kind == "anything"
        case acts.SetSize():
            return act.depth is None and (bool(act.doubts) or act.material is None and "box" not in act.words.lower())
        case acts.SetEdition():
            return "code" not in act.words.lower() and "edition" not in act.words.lower()
        case _:
            return False


def _about_other_things(made: list[Act], parts: list[Clause]) -> bool:
    """Whether an utterance holds nothing firm of a box, and words that no description has."""
    if not made or not all(map(_weak, made)) or not any(isinstance(act, _TELLS) for act in made):
        return False
    if all(isinstance(act, (acts.Number, acts.Size, acts.Place, acts.NoneOfThem)) for act in made) and len(parts) == 1:
        least = 3
    else:
        least = 2
    elements = [element for clause in parts for element in clause.elements]
    strange = {e.tag for e in elements if e.found is None and e.tag.isalpha() and len(e.tag) > 2 and e.tag not in known_words() and e.tag not in _ROOMS and e.tag not in _ROOM_WORDS}
    return len(strange) >= least


_PIPES = re.compile(
    r"\b(two|three|four|five|six|[2-6]|both) (?:of (?:the|those) )?(?:\w+ )?(?:pipes?|emts?|conduits?|raceways?|flexes|stubs|runs? of (?:emt|pipe|conduit|flex))\b"
)
_EACH = re.compile(r"\b(?:in each|each (?:has|have|with|brings?|carr(?:y|ies)|of (?:them|those|these)|one|pipe)|each of (?:them|those|these)|per pipe|apiece|, each|each)\b")


def _each_pipe(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "three pipes, two number 10s and a green 10 in each": what one brings, so many times."""
    low = heard.lower()
    pipes = _PIPES.search(low)
    each = _EACH.search(low, pipes.end()) if pipes is not None else None
    if pipes is None or each is None:
        return made
    value = 2 if pipes[1] == "both" else numbers.value((pipes[1],))
    stop = re.search(r"[.;]", low[each.end() :])
    end = each.end() + stop.start() if stop is not None else len(low)
    before = re.search(r"[.;]", low[pipes.end() : each.start()])
    if before is not None and each.start() - pipes.end() > 60:
        return made
    kinds = (acts.AddConductors, acts.AddGrounds)
    here = [act for act in made if isinstance(act, kinds) and pipes.end() <= act.span[0] < end]
    if not here or value is None:
        left.append(Unread(heard[each.start() : each.end()], each.span(), True))
        return made
    left[:] = [run for run in left if not (pipes.start() <= run.span[0] < pipes.end())]
    made = [act for act in made if not (isinstance(act, acts.Number) and pipes.start() <= act.span[0] < pipes.end())]
    return [
        replace(act, count=(act.count or 1) * int(value), doubts=tuple(d for d in act.doubts if d.slot != "count"))  # type: ignore[attr-defined, call-arg]
        if any(act is one for one in here)
        else act
        for act in made
    ]


def _once_corrected(made: list[Act], heard: str) -> list[Act]:
    """What a correction says twice is said once: "it's a 14-2 after all. Two 14-2s."; and what
    comes beside it by role alone ("the fan feed") is what was just counted."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(last, acts.Restate) and isinstance(act, tuple(THINGS.values())) and type(act) is type(last.thing):
            same = all(getattr(act, slot, None) == getattr(last.thing, slot, None) for slot in ("awg", "conductors", "name"))
            if same and getattr(act, "count", None) is not None and not re.search(r"(?i)\b(?:more|another)\b", act.words):
                kept[-1] = replace(last, thing=replace(last.thing, count=act.count))  # type: ignore[attr-defined, type-var, call-arg]
                continue
        corrected = any(isinstance(one, (acts.Restate, acts.Remove, acts.Recount)) for one in kept)
        role = isinstance(act, acts.AddCable) and act.role is not None and act.count is None and any(d.reason == "carried" for d in act.doubts)
        if role and corrected:
            continue
        pointed = isinstance(act, acts.Remove) and act.target.kind == "anything" and isinstance(last, acts.Remove)
        if pointed and re.match(r"(?i)(?:it|that|they)\b", act.words):  # type: ignore[union-attr]
            continue
        kept.append(act)
    go_ahead = [act for act in kept if isinstance(act, acts.DoIt) and "go ahead" in act.words.lower()]
    if go_ahead and any(isinstance(act, (*THINGS.values(), acts.Remove, acts.Replace, acts.More)) for act in kept):
        kept = [act for act in kept if act not in go_ahead]
    if any(isinstance(act, tuple(THINGS.values())) for act in kept):
        kept = [act for act in kept if not (isinstance(act, acts.Undo) and re.match(r"(?i)forgot", act.words))]
    return kept


_LOOPS = re.compile(r"\b(?:loop|loops|looped|coil|coiled|slack)\b")
_LONG = re.compile(r"\b(?:foot|feet|twelve inch|12 inch|12\"|double|twice|long|big)\b")
_A_LOOP = re.compile(r"\b(?:loops?|coils?)\b")
_SHORT = re.compile(r"\b(?:short|less than|under|not quite)\b")
_FLAT = re.compile(r"\b(?:no|not (?:\w+ ){0,2}(?:from|out of|through) (?:a|the)|not from a|not out of a|not from the|not a|isn't a|without a|ain't no|flat)\b[^,.;]{0,12}\b(?:dome|domed|canopy)\b|\bflat (?:fixture|light|luminaire|disk)\b")
_DOME = re.compile(r"\b(?:dome|domed|canopy)\b")
_NO_FIXTURE_GROUND = re.compile(r"\bno (?:fixture )?ground")


def _fixtures(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """Wires of a luminaire, and loops, by what the utterance says around them."""
    low = heard.lower()
    domed = "dome" in low or "canopy" in low  # a look at each utterance must be cheap
    flat = (domed or "flat " in low) and _FLAT.search(low) is not None
    dome = domed and _DOME.search(low) is not None
    for place, act in enumerate(made):
        if isinstance(act, acts.AddConductors) and act.awg is not None and act.awg >= 16 and act.path is None:
            made[place] = act = acts.AddFixtureWires(
                count=act.count, awg=act.awg, words=act.words, span=act.span,
                doubts=tuple(d for d in act.doubts if d.reason not in ("unusual", "vague")),
            )  # fmt: skip
        if isinstance(act, acts.AddFixtureWires) and (flat or act.canopy is None and dome):
            made[place] = replace(act, canopy=not flat)
            if _NO_FIXTURE_GROUND.search(low[act.span[0] :]):
                made = [o for o in made if not (isinstance(o, acts.Deny) and o.target.kind == "grounds" and o.span[0] > act.span[0])]
                break
    if ("loop" in low or "coil" in low or "slack" in low) and _LOOPS.search(low):
        loose = [n for n, act in enumerate(made) if isinstance(act, (acts.AddConductors, acts.AddCable)) and (act.path is None or (act.path == "through" and _A_LOOP.search(low) and _LONG.search(low)))]
        looped = any(getattr(act, "path", None) in ("loop", "short_loop") for act in made)
        if loose and not looped:
            found = _LOOPS.search(low)
            at = found.start() if found is not None else 0
            before = [n for n in loose if made[n].span[0] < at and not re.search(r"[.;]", low[made[n].span[1] : at])]
            near = before[-1] if before else loose[0]
            if _LONG.search(low):
                path = "short_loop" if _SHORT.search(low) else "loop"
                made[near] = replace(made[near], path=path)  # type: ignore[call-arg]
            else:
                found = _LOOPS.search(low)
                assert found is not None
                left.append(Unread(heard[found.start() : found.end()], found.span(), True))
    return made


def _quads(made: list[Act]) -> list[Act]:
    """A quad receptacle is two duplexes on two yokes, 314.16(B)(4)."""
    kept: list[Act] = []
    duplexes = any(isinstance(act, acts.AddDevice) and act.name == "duplex receptacle" and act.count == 2 for act in made) or any(
        isinstance(act, acts.Restate) and isinstance(act.thing, acts.AddDevice) and act.thing.name == "duplex receptacle" and act.thing.count == 2 for act in made
    )
    if duplexes:  # "garage quad: …, two duplexes": one and the same
        made = [act for act in made if not (isinstance(act, acts.AddDevice) and act.name == "quad receptacle")]
    for act in made:
        last = kept[-1] if kept else None
        quad = isinstance(last, acts.AddDevice) and re.search(r"quad|fourplex", last.words.lower()) is not None
        if quad and isinstance(act, acts.AddDevice) and act.name == "duplex receptacle" and act.count == 2:
            continue  # "a quad, I mean two duplexes"
        if isinstance(act, acts.AddDevice) and act.name == "quad receptacle":
            act = replace(act, name="duplex receptacle", count=2 * (act.count or 1), doubts=())
        kept.append(act)
    return kept


_SWITCH_BOX = re.compile(r"(?i)^(?P<count>\d|one|two|three|four)?\s*(?:sw|switch) box\b")


def _switch_beside_box(made: list[Act], heard: str) -> list[Act]:
    """ "3 14-2s 1 sw box stamped 18": a counted switch, and then the box."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, (acts.SetVolume, acts.NameBoxKind, acts.SetSize)):
            said = _SWITCH_BOX.match(act.words)
            before = re.search(r"(?i)(\d|one|two|three|four)\s*$", heard[: act.span[0]])
            counted = said is not None and (said["count"] or before)
            if counted and said is not None:
                number = numbers.value(((said["count"] or before[1]).lower(),))  # type: ignore[index]
                kept.append(acts.AddDevice(count=int(number or 1), name="switch", words=act.words.split(" box")[0], span=act.span))
        kept.append(act)
    return kept


_NO_DEVICE = re.compile(r"\b(?:ceiling|lighting|light|smoke|alarm|luminaire|fan|fixture) outlet\b", re.IGNORECASE)


def _generic(act: acts.AddDevice) -> bool:
    """A device named by no more than its kind."""
    return act.name in (None, "device", "receptacle", "switch", "30 amp receptacle", "50 amp receptacle", "single receptacle")


def _same_again(made: list[Act], heard: str) -> list[Act]:
    """ "two switches, both three-ways"; "… and the switch" of one said before: no further one."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.AddTerminalBlock) and act.words.lower().startswith(("that ", "the ")):
            if any(isinstance(o, acts.AddTerminalBlock) for o in kept):
                continue
        if isinstance(act, acts.AddDevice):
            low = act.words.lower()
            last = kept[-1] if kept else None
            if act.name == "receptacle" and not kept and _NO_DEVICE.search(heard[max(0, act.span[0] - 12) : act.span[1]]):
                continue  # an outlet of lighting is a place in the wiring, no device
            if low.startswith(("both ", "all ")) and isinstance(last, acts.AddDevice) and (last.count or 1) > 1:
                kept[-1] = replace(last, name=act.name or last.name, awg=act.awg or last.awg, span=(last.span[0], act.span[1]))
                continue
            if low.startswith(("both ", "all ")) and act.name in (None, "device") and act.awg is not None:
                every = acts.Reference("device", which="both" if low.startswith("both") else "all", words=act.words)
                kept.append(acts.Land(target=every, awg=act.awg, words=act.words, span=act.span, function="correction"))
                continue
            if isinstance(last, acts.AddDevice) and last.name in (None, "device") and re.search(r":\s*\d+$", last.words) and not heard[last.span[1] : act.span[0]].strip():
                kept[-1] = replace(act, count=last.count)  # "Devices: 1 receptacle"
                continue
            heading = isinstance(last, acts.AddDevice) and last is kept[0] and last.count is None and not last.words.lower().startswith(("a ", "an ", "the "))
            if heading and _generic(act) and isinstance(last, acts.AddDevice) and re.search(r"[:.;]", heard[last.span[1] : act.span[0]]):
                kept[-1] = replace(last, count=act.count, awg=act.awg or last.awg, gangs=act.gangs or last.gangs, span=(last.span[0], act.span[1]))
                continue
            first = kept[0] if kept else None
            if isinstance(first, acts.AddDevice) and first.count is None and first.span[0] < 14 and not first.words.lower().startswith(("a ", "an ")) and re.match(r"[^,;]{0,25}?[:.](?:\s|$)", heard[first.span[1] :]):
                wide = first.name in ("range receptacle", "dryer receptacle")
                kept[0] = replace(act, name=first.name) if wide else act
                continue
            if kept and isinstance(kept[0], acts.AddDevice) and kept[0].count is None and kept[0].name in ("range receptacle", "dryer receptacle") and _generic(act):
                kept[0] = replace(kept[0], awg=act.awg or kept[0].awg, gangs=act.gangs or kept[0].gangs)
                continue
            if low.startswith(("the ", "that ")) and any(isinstance(o, acts.AddDevice) and _same_device(act, o) for o in kept):
                if act.awg is not None:
                    for n, o in enumerate(kept):
                        if isinstance(o, acts.AddDevice) and _same_device(act, o):
                            kept[n] = replace(o, awg=act.awg)
                            break
                continue
        kept.append(act)
    return kept


def _false_starts(made: list[Act]) -> list[Act]:
    """ "two… no, three 14-2s, yeah three": a number taken back, or said once more."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        after = made[place + 1 : place + 3]
        if isinstance(act, acts.Number):
            taken_back = any(isinstance(one, (acts.Restate, acts.RestateNumber)) for one in after)
            again = any(
                getattr(getattr(one, "thing", one), "count", None) == act.value for one in kept[-2:]
            )
            said_yes = bool(kept) and isinstance(kept[-1], acts.Yes)
            following = made[place + 1] if place + 1 < len(made) else None
            stuttered = isinstance(following, tuple(THINGS.values())) and getattr(following, "count", None) == act.value
            if (taken_back and not kept) or (again and said_yes) or stuttered:
                continue
        kept.append(act)
    return kept


def _without_heading_devices(made: list[Act], heard: str) -> list[Act]:
    """ "two devices, a switch and a duplex": the sum said first is no further device."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        summed = isinstance(act, acts.AddDevice) and re.match(r"\s*(?:,|:|so)? ?(?:so|a |one |:)", heard[act.span[1] : act.span[1] + 8]) is not None
        if isinstance(act, acts.AddDevice) and (act.name in (None, "device") or summed and act.name in ("receptacle", "switch")) and (act.count or 0) > 1:
            named = 0
            for later in made[place + 1 :]:
                if not isinstance(later, acts.AddDevice) or later.name in (None, "device") or later.name == act.name:
                    break
                named += later.count or 1
            if named == act.count:
                continue
        kept.append(act)
    return kept


_ONE_YOKE = re.compile(r"\b(?:on|sharing|share|same|one|single|common)\b[^.;]{0,20}\b(?:yoke|strap)\b")
_OWN_YOKE = re.compile(r"\b(?:own|separate|different|each|its|their|two|three|four|five|six)\b[^.;]{0,12}\b(?:yokes?|straps?)\b")


def _combined_once(made: list[Act], heard: str) -> list[Act]:
    """ "a combination device, a switch and an outlet in one": its parts are no further devices."""
    combos = [act for act in made if isinstance(act, acts.AddDevice) and act.name == "combination device"]
    if not combos:
        return made
    first = combos[0]
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.AddDevice) and act is not first:
            between = heard[min(first.span[1], act.span[1]) : max(first.span[0], act.span[0])].lower()
            near = len(between) < 45 and not re.search(r"[.;]", between)
            if near and (act.name in ("combination device", "device") or re.search(r"^(?:,| like| you know| meaning| i\.e\.| that is| with| thing| in one|:| \()", between) or re.search(r"in one|you know|together", between)):
                continue
        kept.append(act)
    return kept


def _one_yoke(made: list[Act], heard: str) -> list[Act]:
    """ "a switch and a receptacle on the one strap": one yoke. "On its own yoke" adds none."""
    low = heard.lower()
    made = _combined_once(made, heard)
    if "yoke" not in low and "strap" not in low:
        return made
    devices = [act for act in made if isinstance(act, acts.AddDevice)]
    named = [act for act in devices if act.name not in (None, "device")]
    yokes = [act for act in devices if act not in named and re.search(r"yoke|strap", act.words.lower())]
    if yokes and named:
        made = [act for act in made if act not in yokes]
    place = max(low.find("yoke"), low.find("strap"))
    if _OWN_YOKE.search(low) or not _ONE_YOKE.search(low):
        return made
    near = [act for act in named if act.span[0] < place and not re.search(r"[.;]", heard[act.span[1] : place])]
    if not near and re.search(r"yoke (?:carrying|with|holding|having|supporting|that has|for)|strap (?:with|carrying|holding)", low):
        near = [act for act in named if act.span[0] > place][:2]
    units = sum(act.count or 1 for act in near)
    if len(near) > 2 or units != 2:
        return made
    first = near[0]
    both = acts.AddDevice(count=1, name="combination device", awg=first.awg, words=heard[first.span[0] : near[-1].span[1]], span=(first.span[0], near[-1].span[1]))
    return [both if act is first else act for act in made if act is first or act not in near]


def _one_box(made: list[Act], heard: str) -> list[Act]:
    """A box described in several steps is one box; a volume behind an unmarked ring is the
    ring's."""
    kept: list[Act] = []
    if not any(isinstance(one, (acts.SetSize, acts.SetVolume)) and getattr(one, "volume", 20) is not None and getattr(one, "volume", 20) > 12 for one in made):
        made = [part for act in made for part in _box_and_ring(act)]
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(act, acts.SetVolume) and act.volume is not None and act.volume < 5 and act.volume != int(act.volume) and act.unit is None:
            at = next((n for n in reversed(range(len(kept))) if isinstance(kept[n], acts.SetSize)), None)
            size = kept[at] if at is not None else None
            if isinstance(size, acts.SetSize) and (size.depth is None or isinstance(size.depth, str)):
                kept[at] = replace(size, depth=act.volume)  # type: ignore[index]
                continue
        if isinstance(act, acts.SetVolume) and isinstance(last, acts.AddPart) and last.volume is None:
            between = heard[last.span[1] : act.span[0]].lower()
            named = re.search(r"\bbox\b", act.words.lower() + between) is None
            if named and act.volume is not None and act.volume < 12 and len(between) < 25:
                kept[-1] = replace(last, volume=act.volume, unit=act.unit, marked=None, span=(last.span[0], act.span[1]))
                continue
        depth_only = isinstance(act, acts.SetSize) and act.family is None and act.width is None
        if depth_only and isinstance(last, acts.AddPart) and last.name == "extension ring" and last.depth is None and last.volume is None:
            kept[-1] = replace(last, depth=act.depth, span=(last.span[0], act.span[1]))  # type: ignore[union-attr]
            continue
        if isinstance(act, acts.SetSize) and isinstance(last, acts.AddPart) and last.volume is None and last.name == "extension ring" and last.family is None:
            if any(isinstance(one, (acts.SetSize, acts.SetVolume)) for one in kept[:-1]) or not any(isinstance(one, acts.SetSize) for one in kept):
                kept[-1] = replace(last, family=act.family, width=act.width, depth=act.depth, span=(last.span[0], act.span[1]))
                continue
        if isinstance(act, acts.Number) and isinstance(last, acts.SetSize) and _is_depth(act, last):
            kept[-1] = replace(last, depth=act.value, span=(last.span[0], act.span[1]))
            continue
        if isinstance(act, acts.SetSize) and isinstance(last, (acts.SetSize, acts.NameBoxKind)) and (merged := _merged_size(last, act)) is not None:
            kept[-1] = merged
            continue
        kept.append(act)
    return kept


def _box_and_ring(act: Act) -> list[Act]:
    """ "4 square deep mud ring": the box, and a ring on it, for a ring has no such depth."""
    if isinstance(act, acts.AddPart) and act.name == "plaster ring" and act.family == "square" and act.depth is not None:
        box = acts.SetSize(family=act.family, width=act.width or Decimal(4), depth=act.depth, words=act.words, span=act.span)
        return [box, replace(act, family=None, width=None, depth=None)]
    return [act]


def _is_depth(number: acts.Number, size: acts.SetSize) -> bool:
    """ "the deep four square, the two and an eighth": a fraction behind a size is its depth."""
    value = number.value
    unsaid = size.depth is None or isinstance(size.depth, str)
    return unsaid and value is not None and value != int(value) and value < 5


def _merged_size(one: acts.SetSize | acts.NameBoxKind, other: acts.SetSize) -> acts.SetSize | None:
    """Two descriptions of one box, where they do not contradict each other."""
    family = other.family or one.family
    if one.family and other.family and one.family != other.family:
        if not (other.family == "device" and other.height is not None):
            return None
        family = one.family
    if family in ("old work", "new work", "ceiling", "fan", "outlet", "junction", "weatherproof", "floor"):
        family = other.family
    first = one if isinstance(one, acts.SetSize) else acts.SetSize()
    for name in ("width", "height"):
        a, b = getattr(first, name), getattr(other, name)
        if a is not None and b is not None and a != b:
            return None
    depth = other.depth if other.depth is not None and not isinstance(other.depth, str) else first.depth or other.depth
    if isinstance(first.depth, type(depth)) and first.depth != depth and not isinstance(depth, str):
        return None
    return acts.SetSize(
        family=family, width=other.width or first.width, height=other.height or first.height,
        depth=depth, gangs=other.gangs or one.gangs, material=other.material or one.material,
        words=f"{one.words}, {other.words}", span=(one.span[0], other.span[1]),
        doubts=(*one.doubts, *other.doubts), function=other.function,
    )  # fmt: skip


_ORDER = frozenset({"more", "less", "fewer", "another", "extra", "put", "take", "make", "pull", "throw", "bring"})


def _untold(made: list[Act], parts: list[Clause], heard: str) -> list[Unread]:
    """An order that made nothing ("put one more in the top"): no verdict stands over it."""
    if any(not isinstance(act, (acts.No, acts.Yes)) for act in made):
        return []
    for clause in parts:
        words = {element.tag for element in clause.elements}
        number = any(tag.startswith("<n:") for tag in words)
        if clause.mood == "declarative" and words & _ORDER and number:
            return [Unread(heard[clause.span[0] : clause.span[1]], clause.span, True)]
    return []


def _joined_counts(made: list[Act]) -> list[Act]:
    """ "fixture wires, two of them and a ground": one thing, its count and its ground."""
    kept: list[Act] = []
    made = _sized_later(made)
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(last, acts.Size) and isinstance(act, acts.Recount) and act.target.kind == "anything" and act.count:
            kept[-1] = acts.AddConductors(count=act.count, awg=last.awg, words=f"{last.words}, {act.words}", span=(last.span[0], act.span[1]))
            continue
        in_a = isinstance(last, acts.AddCable) and last.role == "in" and isinstance(act, acts.Number) and act.words.split()[0] not in ("a",) and (act.value or 0) > 7
        if in_a and isinstance(act, acts.Number) and act.value is not None:
            kept.append(acts.SetVolume(volume=act.value, words=act.words, span=act.span))  # "14-2s in an 18"
            continue
        if isinstance(act, acts.Number) and _vague(last) and act.value is not None and act.value == int(act.value) and 0 < act.value < 20:
            kept[-1] = replace(last, count=int(act.value), doubts=())  # type: ignore[call-arg, type-var]
            continue
        pronoun = isinstance(act, acts.Recount) and act.target.kind == "anything"
        if pronoun and isinstance(last, tuple(THINGS.values())) and getattr(last, "count", 0) is None:
            kept[-1] = replace(last, count=act.count, doubts=())  # type: ignore[call-arg, union-attr]
        elif (
            isinstance(last, acts.AddFixtureWires)
            and isinstance(act, acts.AddGrounds)
            and act.awg is None and not act.isolated and last.grounds is None
            and (act.count in (None, 1))
        ):  # fmt: skip
            kept[-1] = replace(last, grounds=1)
        else:
            kept.append(act)
    return kept


@lru_cache(maxsize=1)
def known_words() -> set[str]:
    """Every word that the grammar knows, in any way."""
    from grammar.engine import engine
    from grammar.symbols import Lexicon

    lexicon = Lexicon()
    known = {key.removeprefix("!") for key in engine().symbols.keys}
    known |= lexicon.fillers | lexicon.hesitations | set(lexicon.spelling) | set(lexicon.singular)
    table = store.table("clauses")
    for section in ("mood", "polarity", "correction", "other"):
        for words in table[section].values():
            for word in words:
                known.update(word.split())
    return known


def _social(heard: str) -> Act | None:
    """ "Thanks", "hold on": an utterance of nothing else."""
    text = " ".join(re.findall(r"[a-z']+|\d[\w./-]*", heard.lower().replace("’", "'")))
    if not text or len(text) > 80:
        return None
    for what, pattern in _social_patterns():
        if pattern.fullmatch(text):
            return acts.Social(what=what, words=heard.strip(), span=(0, len(heard)))  # type: ignore[arg-type]
    return None


@lru_cache(maxsize=1)
def _social_patterns() -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple((row["what"], re.compile(row["say"])) for row in _SOCIAL["social"])


def with_doubt(act: Act, doubt: acts.Doubt) -> Act:
    """The act with one more doubt."""
    return replace(act, doubts=(*act.doubts, doubt))
