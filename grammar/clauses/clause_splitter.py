"""An utterance cut into clauses, each with its mood and its marks, things kept whole in it."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.clauses.clause_tags import ASKED, elements_of
from boxaloud.grammar.clauses.list_ends import joined_to_lists
from boxaloud.grammar.clauses.mood import EVENTS, find_mood
from boxaloud.grammar.clauses.quotations import quotes
from boxaloud.grammar.clauses.suppositions import SUPPOSED_ANYWHERE, ask_of_another_box
from boxaloud.grammar.clauses.tag_questions import asked_or_supposed
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

__all__ = ["Clause", "Element", "clauses"]

_TABLE = grammar_data.table("clauses")
_HARD = frozenset(".;?!\n")
_SOFT = frozenset(",:|()[]/")
_DASHES = frozenset("-–—")
_NOT = lazy_pattern(
    r"(?:and )?not (?:a |an |the )?(?:\d|one\b|two\b|three\b|four\b|five\b|six\b|seven\b"
    r"|eight\b|nine\b|ten\b|eleven\b|twel|thirt|fourt|fift|sixt|sevent|eight|ninet|twent"
    r"|inside\b|outside\b)"
)
#: Behind a number: "two more actually, not three".
_BETWEEN = frozenset({"more", "actually", "really", "instead"})
_OPERATOR_VERBS = frozenset(_TABLE["mood"]["verbs_of_request"])
_LINKS = ("and", "then", "but")
#: Behind a thing one of these begins anew: "3 12-2 sorry 14-2", "two 14-2s no three".
_RESTARTS = frozenset(_TABLE["cutting"]["restarts"])
#: "That's over huh what would …", "I wonder could it …": what is asked or supposed behind a remark.
_REMARKED = frozenset({"huh", "wonder", "wow", "then"})
_ASKING = frozenset({*_TABLE["mood"]["wh"], *_TABLE["mood"]["auxiliary"], "if", "say", "suppose"})
#: "… in an eighteen what if I add a switch": a supposition behind what was told, without a mark.
_SUPPOSES_BEHIND = lazy_pattern(rf"(?:{SUPPOSED_ANYWHERE})\b")


def clauses(heard: str, statements: Sequence[Statement]) -> list[Clause]:
    """The clauses of an utterance, in order."""
    made: list[Clause] = []
    elements: list[Element] = []
    opens = ""
    questions = {item.span[0] for item in statements if item.kind in ASKED}
    said = heard.lower()
    for element in elements_of(heard, statements):
        tag = element.tag
        if (
            tag == ","
            and elements
            and _contrasts(heard[element.end : element.end + 30].lstrip().lower(), elements)
        ):
            continue
        if tag == "/" and elements and elements[-1].tag == "w":
            elements[-1] = Element("with", elements[-1].start, element.end)  # "w/ a switch"
            continue
        dash = tag in _DASHES and _parts(heard, element, elements)
        if dash or tag in _HARD or tag in _SOFT:
            tag = "-" if dash else tag
            if elements:
                made.append(_clause(elements, opens, tag))
                elements = []
            elif made and tag in _HARD and not (tag == "\n" and made[-1].closes in _HARD):
                made[-1].closes = tag  # the end of a line takes no question its mark
            opens = tag
            continue
        asked = any(e.found for e in elements) and (
            element.start in questions or _SUPPOSES_BEHIND.match(said, element.start) is not None
        )
        if elements and (asked or _too_long(elements) or _begins_another(tag, element, elements)):
            made.append(_clause(_without_link(elements), opens, ""))
            elements, opens = [], ""
        elements.append(element)
    if elements:
        made.append(_clause(elements, opens, "end"))
    _put_questions(made, statements)
    ask_of_another_box(made)
    joined_to_lists(made)
    return asked_or_supposed(_only_asked(_recalled_whole(made)))


_ONLY_ASKED = lazy_pattern(
    r"(?!i (?:(?:only|just) )*(?:know|see)\b)"
    r"(?:(?:it|this|that|i) )?(?:(?:is|am|was) )?(?:(?:only|just|a|an|my|for|to|the) )*(?:question"
    r"|asking|wondering|curious|know|see|ask|example|hypothetical)(?: only| please)*"
)


_ENDS_ASKING = lazy_pattern(
    r"> (?:(?:it|this) )?(?:(?:is|am) )?(?:only|just) (?:a |to |for |my )*"
    r"(?:question|asking|wondering|know|curious)$"
)


def _only_asked(made: list[Clause]) -> list[Clause]:
    """ "One more switch, is only a question": what was said before it is supposed."""
    last = made[-1] if made else None
    if last is not None and last.mood == "declarative" and _ENDS_ASKING.search(last.line):
        last.mood, last.modal = "conditional", True
    for place, clause in enumerate(made):
        if place and len(clause.elements) > 1 and _ONLY_ASKED.fullmatch(clause.line):
            for before in made[:place]:
                if before.mood == "declarative" and before.found:
                    before.mood, before.modal = "conditional", True
            return [*made[:place], *made[place + 1 :]]
    return made


_RECALLING = lazy_pattern(
    r"(?:^| )(?:did|have|had) (?:i|you|we) (?:say|said|tell|told|count|mention)"
)


def _parts(heard: str, dash: Element, before: Sequence[Element]) -> bool:
    """ "dryer — ten-three": a dash between words, and no hyphen within one, ends a heading or a
    group; but "clamps — I said inside?" goes on with a thing that was only named."""
    if not before or not heard[dash.end : dash.end + 1].isspace():
        return False
    found = before[-1].found
    return found is None or found.get("count") is not None


def _recalled_whole(made: list[Clause]) -> list[Clause]:
    """ "Did I say two cables, a 10-2 and a 12-2?": all of the list is asked about."""
    kept: list[Clause] = []
    for clause in made:
        before = kept[-1] if kept else None
        if (
            before is not None
            and before.mood == "interrogative"
            and before.closes in (",", ":")
            and clause.elements[-1].found is not None
            and _RECALLING.search(before.line)
        ):
            before.elements = [*before.elements, *clause.elements]
            before.closes = clause.closes
            continue
        kept.append(clause)
    return kept


LONG, LONGEST = 300, 450
"""Elements from which on a clause ends behind the next thing, and at once: nobody says one so
long, and what is read of a clause is read again for each thing in it."""


def _too_long(elements: list[Element]) -> bool:
    count = len(elements)
    return count >= LONGEST or (count >= LONG and elements[-1].found is not None)


def _put_questions(made: list[Clause], statements: Sequence[Statement]) -> None:
    """Give each clause the questions of a fixed kind that begin in it."""
    for statement in statements:
        if statement.kind in ASKED:
            for clause in made:
                if clause.span[0] <= statement.span[0] < clause.span[1]:
                    clause.asked = (*clause.asked, statement)
                    break


def _contrasts(rest: str, elements: list[Element]) -> bool:
    """ "twelve-two, not fourteen-two", "one more, not two": no new clause begins at that comma."""
    tags = [element.tag for element in elements[-4:]]
    while len(tags) > 1 and tags[-1] in _BETWEEN:
        tags.pop()
    last = tags[-1]
    return last[0] == "<" and _NOT.match(rest) is not None


def _begins_another(tag: str, element: Element, before: list[Element]) -> bool:
    """ "… and add a dimmer", "… next box …": another clause begins without a break."""
    if element.found is not None and element.found.kind in EVENTS:
        return True
    if before[-1].found is not None and before[-1].found.kind in EVENTS:
        return True
    if tag == "but" and before[0].tag[0] != "<" and quotes(" ".join([e.tag for e in before])):
        return True
    told = _WHETHER.isdisjoint([element.tag for element in before])
    if tag in ("take", "remove") and before[-1].found is not None and len(before) > 1 and told:
        return True  # "that's a screw take the hickey off", as an ear gives it
    if tag in _RESTARTS and before[-1].found is not None and before[-1].tag[0] == "<":
        return True
    if _orders(tag, before):
        return True
    if (
        tag in _ASKING
        and before[-1].tag in _REMARKED
        and (len(before) > 1 + (before[-1].tag == "then"))
    ):
        return True
    if before[-1].tag in _LINKS and len(before) > 1:
        if tag in _ACTS and _MARKED.fullmatch(" ".join([e.tag for e in before])):
            return True  # "it's an 18 now and I put in another 14-2"
        if before[0].tag in _OPERATOR_VERBS and tag.startswith("<box_"):
            return True  # "take out the switch and the box is 20.3": nothing to be taken out
        if tag in _KEEPING and before[0].tag in _OUT_VERBS:
            return True  # "take out a 12-2 and leave the switch": of that nothing is done
        return tag in _OPERATOR_VERBS or tag in ("what", "how", "will", "would", "does", "is")
    return False


#: A box by its volume, and behind it who did something, or what came in.
_MARKED = lazy_pattern(
    r"(?:(?:ok|okay|so|alright|well|now|actually|yeah|yes) )*"
    r"(?:it|this|that|box|the box|this one|this box) (?:is|was) (?:now )?(?:a |an )<n:[^>]*>"
    r"(?: (?:now|box|instead))* (?:and|but|then)"
)
_ACTS = frozenset({"i", "we", "he", "she", "they", "there", "the"})

#: "Does a 16 take two 12-2s": no order.
_WHETHER = frozenset(
    {"does", "do", "did", "can", "could", "will", "would", "should", "may", "how", "what", "which",
     "to", "i", "we", "you", "they", "if"}
)  # fmt: skip
_KEEPING = frozenset({"leave", "keep", "do", "don't", "not"})
_STANDS = frozenset({"is", "was", "are", "were", "goes", "went", "feeds", "fed", "belongs"})


def _orders(tag: str, before: Sequence[Element]) -> bool:
    """ "That 14-3 is dead so take it out": what is told of a thing, and then what is done."""
    if before[0].tag in _OUT_VERBS and _is_out(before[-1]):
        return tag in ("i", "we", "because")  # "take one out I'm rerouting the 12-2"
    if len(before) < _LEAST_TOLD or not before[0].tag.endswith("::d>"):
        return False
    if before[1].tag not in _STANDS:
        return False
    if before[-1].tag == "so":
        return tag in _OPERATOR_VERBS or tag == "i"
    return tag in _OUT_VERBS and before[-1].tag not in _TO


def _is_out(element: Element) -> bool:
    """Whether an order to take something out ends with this."""
    found = element.found
    words = found.words.lower() if found is not None else element.tag
    return words.split()[-1:] in (["out"], ["off"])


_LEAST_TOLD = 3
_OUT_VERBS = frozenset({"take", "pull", "remove", "drop", "delete"})
_TO = frozenset({"to", "can", "will", "you", "i", "we", "not", "should", "could", "or", "and"})


def _without_link(elements: list[Element]) -> list[Element]:
    """ "Take out the switch and" is the same as without the word that leads to what follows."""
    end = len(elements)
    while end > 1 and elements[end - 1].tag in (*_LINKS, "so"):
        end -= 1
    return elements[:end]


def _clause(elements: list[Element], opens: str, closes: str) -> Clause:
    line = " ".join([element.tag for element in elements])
    clause = Clause(elements, line=line, opens=opens, closes=closes)
    find_mood(clause)
    return clause
