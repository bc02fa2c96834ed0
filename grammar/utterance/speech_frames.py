"""What is said around a description and is none of it: who said it, the question it is put in,
the number of the room. "No, he says they're outside", "could you tell me if this is good: …"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.utterance.all_of_one_size import in_one_size, words_in_one_size
from boxaloud.grammar.utterance.asides import without_asides_of_talk
from boxaloud.grammar.utterance.asides_of_orders import asides_of_orders
from boxaloud.grammar.utterance.counted_off import counted_off
from boxaloud.grammar.utterance.counted_on_fingers import without_finger_counts
from boxaloud.grammar.utterance.devices_in_passing import devices_in_passing
from boxaloud.grammar.utterance.dictated_words import as_dictated, marked_anew
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS
from boxaloud.grammar.utterance.kinds_of_wires import without_across, without_sorts
from boxaloud.grammar.utterance.looks_behind import without_looks
from boxaloud.grammar.utterance.named_before_counted import without_names_ahead
from boxaloud.grammar.utterance.names_in_two import in_one_name
from boxaloud.grammar.utterance.own_sums import without_own_sums
from boxaloud.grammar.utterance.plainer_words import without_counting
from boxaloud.grammar.utterance.roles_of_cables import told_by_role
from boxaloud.grammar.utterance.said_no import plain_no
from boxaloud.grammar.utterance.sums_aloud import without_sums_aloud
from boxaloud.grammar.utterance.volumes_by_look import volumes_by_look
from boxaloud.grammar.utterance.words_in_order import in_plain_order
from boxaloud.grammar.utterance.words_in_short import words_in_short

_NUMBER = (
    r"(?:an? )?(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d+(?:\.\d+)?)"
)
#: Who speaks, the verb, and behind it what can only be of this box, or of what was just told.
_REPORT = lazy_pattern(
    r"(?i)\b(?:(?:the |my |our )?(?:boss|foreman|journeyman|lead|super|guy|inspector|electrician"
    r"|clerk|secretary|man at the desk"
    r"|helper|other guy)|he|she|they|somebody)(?:['’]s| is| has| had)?"
    r"(?: (?:just|now|actually|already|then|really))*"
    r" (?:says?|said|saying|tells? (?:me|us)|told (?:me|us)|telling (?:me|us)|yells|hollers)"
    r"(?: (?:that|to|now|actually|like))*(?:,? no)?,? (?="
    r"they(?:['’]re| are)\b|it(?:['’]?s| is| was)\b|make (?:it|that|them|those)\b"
    r"|that(?:['’]s| is)\b|those are\b|(?:inside|outside|internal|external)\b"
    r"|(?:the|those|these|these are|those are) (?:[a-z]+ )?clamps\b|take (?:out|the|that|one)\b"
    r"|(?P<number>(?:just |only )?" + _NUMBER + r"(?:\s*(?:[,.;!]|$))))"
)
#: "What we'll do is use the deep one", "use the 20.3 in place of that".
_ORDERING = lazy_pattern(
    r"(?i)^\s*(?:(?:so|ok|okay|well|and|now|no|hey|hello|hi|um|uh|oh)\b,?\s+)*"
    r"what\s+(?:we|i|you|they|he|she)"
    r"(?:['’](?:ll|d|re|m)|\s+(?:will|are|am|should|can|could|would))?"
    r"(?:\s+(?:going\s+to|gonna|want\s+to|need\s+to|have\s+to))?\s+do"
    r"(?:\s+(?:here|now|then))?\s+is,?\s+"
    r"(?=(?:use|put|take|add|swap|change|go|get|make|pull|move|drop|throw|cut|run)\b)"
)
_IN_PLACE = lazy_pattern(
    r"(?i)\bin (?:place of|lieu of) (?:that|it|this)(?: one| box)?(?=(?:,? please)?\W*$)"
)
_GOOD = (
    r"(?:good|ok|okay|legal|fine|all right|alright|going to fit|gonna fit|to code|over ?filled"
    r"|too full|too much|enough|fits?|works?|passes|pass|over|under)"
)
_THIS = r"(?:this|that|it|these|this one|this box|what i['’]?ve got|what i have)"
_LEAD = r"^\s*(?:(?:so|ok|okay|hey|hello|um|uh|and|well|now|hi|please|alright|good morning)\b,? )*"
#: The question around a description: its answer is the verdict, which is given anyway.
_QUESTION = lazy_pattern(
    rf"(?i){_LEAD}(?:(?:"
    r"(?:(?:could|can|would|will) you )?(?:please )?(?:tell me|let me know|check|see|figure out"
    rf"|say) (?:if|whether) {_THIS}"
    r"(?:['’]s| is| are|['’]ll be| will be| would be| will| would)?"
    rf" {_GOOD}(?: or not)?(?: please)?"
    rf"|(?:is|are|does|do|will|would) {_THIS} (?:be )?{_GOOD}(?=\s*[:-])"
    r"|(?:could|can|would|will) you (?:please )?(?:count|check|work out|figure|figure out|run"
    rf"|add up|do|calculate|look at|total|tally) {_THIS}(?: up| out)?(?: for (?:me|us))?"
    r"(?:,? please)?)\s*(?:[:,.;-]+\s*|$)"
    r"|(?:how am i doing|how are we doing|where (?:am i|are we)(?: at)?|where do (?:i|we) stand"
    r"|how do i stand|how does it look|(?:am i|are we) (?:ok|okay|good|fine|legal))"
    r"(?: here| now| so far)? with "
    r"(?=(?:an?|the|my|this|just|only|one|two|three|four|five|six|\d)))"
)
_BOX = lazy_pattern(
    r"(?i)\b(?:cubic|cu\.? ?in|cubes?|box|square|octagon|gang|handy|stamped|marked|by (?:two|2))\b"
)
_CONTENTS = lazy_pattern(
    r"(?i)\b(?:1[024]|[68]|fourteen|twelve|ten|eight|six)(?:[-/ ](?:2|3|4|twos?|threes?)|s|es)"
    r"|\b(?:cables?|wires?|switch|receptacle|dimmer|gfci|duplex)"
)
#: Beside one of these it is asked about what is only thought of.
_SUPPOSED = lazy_pattern(
    r"(?i)\b(?:if i|if we|more|another|extra|instead|add(?:ed|ing)?|what if)\b"
)
_ROOM_NUMBER = lazy_pattern(
    r"(?i)((?:^ *|[,.;] )(?:(?:so|ok|okay|and|now|well|um|uh)\b,? )*(?:for|in|at|over in|up in) "
    r"(?:the )?(?:master |guest )?(?:bed ?room|bath ?room|bath|room|unit|suite|apartment|office"
    r"|classroom))( (?:number )?(?:one|two|three|four|five|six|seven|eight|nine|[1-9]))"
    r"(?=,? (?:he|she|they|we|i|it|there|the|this|that|you)(?:['’]\w+)?\b)"
)

#: "A switch, not to mention a receptacle": both are there, and none is denied.
_NOT_LEAST = lazy_pattern(r"(?i)\bnot to mention\b|\bnot to forget\b")


#: "Table 314.16(A)": the letter behind a section is no word of its own.
_SECTION = lazy_pattern(
    r"(?i)(?:(?<!table )\b(?:(?:nec|article|section|art\.?|sec\.?) )?314\.(?:16|28)|(?<=314\.16))"
    r"(?:\([a-z0-9]{1,2}\))+"
)

#: "Six that come in or go out and get joined": six wires.
_JOINED = lazy_pattern(
    r"(?i)\b(one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d+) (?:that|which)"
    r" (?:come|enter|go|run|leave)s?(?: in| out)?(?: (?:or|and) (?:go |come |leave ?)?(?:out|in)?)?"
    r",?(?: and)? ?(?:get|are|is|being) (?:joined|spliced|connected|tied)(?: together)?\b"
)

#: "The device fill of the two yokes": what they take, and no devices more.
_DEVICE_FILL = lazy_pattern(
    r"(?i)\b(device )fill(?: (?:of|for) (?:the |both |those )*(?:two |three |2 |3 )?"
    r"(?:yokes?|devices?))?\b"
)
#: "A receptacle is wired with 12 AWG", "the switch next to it is on fourteen".
_WIRED_WITH = lazy_pattern(
    r"(?i)\b(?P<device>receptacles?|outlets?|switch(?:es)?|dimmers?|gfcis?|timers?|sensors?|duplex)"
    r"(?: (?:next to|beside) it (?:is|['’]s) on| (?:(?:next to|beside) it )?(?:is|are) (?:wired|fed"
    r"|connected) (?:with|by|to))(?= (?:an? |the )?(?:#|no\.? |number )?"
    r"(?:1[0248]|16|fourteen|twelve|ten|sixteen)s?(?: awg| gauge| wires?)?\s*(?:[.,;?!]|$|and\b))"
)
#: "Corridor box: four square": the name of the box, and not "the box: four square".
_PLACE_BOX = lazy_pattern(
    r"(?i)^(\W*(?:(?:ok|okay|so|now|and|then|um|uh|hello|hi|hey)\W+)*(?:(?:the|my|our) )?"
    rf"(?:(?:{'|'.join(sorted(ROOM_WORDS))}|\d+) ){{0,2}}(?:{'|'.join(sorted(ROOMS - {'box'}))})"
    r"(?: \d+)? )box:"
)
#: "Box A is a four square": it is named, and what it is.
_LETTERED_IS = lazy_pattern(
    r"(?i)(?<![\w'])(box [a-h]) (?:is|has|was|will be|got)(?= (?:a |an |the |marked |stamped )?"
    r"(?:\d|four|single|double|two|three|deep|shallow|octagon|handy|plastic|metal|square|one)"
    r"[^?]*$)"
)


#: "We left one of the 14-2s out", "left out two of them": what is taken out.
_SOME = r"(?:one|two|three|four|\d) of (?:the|those|these|them|my)\b"
_LEFT_OUT = lazy_pattern(
    rf"(?i)\bleft (?:(?P<some>{_SOME}(?: [\w/-]+){{0,2}}?) out\b|out (?P<rest>{_SOME}))"
)


def _dropped(found: re.Match[str]) -> str:
    """ "Drop one of the 14-2s" in place of "left one of the 14-2s out"."""
    if found["some"]:
        return f"drop {found['some']}".ljust(len(found[0]))
    return f"drop     {found['rest']}"


#: "A terminal board": a terminal block.
_TERMINAL_BOARD = lazy_pattern(r"(?i)(?<=\bterminal )board\b")
#: "It's a 3-way so the second is a 14-3": two are told.
_SO_THE_NTH = lazy_pattern(
    r"(?i)(?<=[a-z\d]) (?=so (?:the|my|that) (?:first|second|third|fourth|last|other)\b)"
)


def plain_speech(text: str, expect: str | None = None, typed: bool = True) -> str:
    """The text with what frames a description blanked, each character in its place.

    A question is only a frame where nothing is in the box yet, so that `expect` is "contents":
    else it asks of what is not there, and changes nothing.

    >>> plain_speech("inside, no, he says they're outside")
    "inside, no,         they're outside"
    """
    if "314." in text:
        text = _SECTION.sub(lambda found: " " * len(found[0]), text)
    if _asks_no_size(expect):
        text = in_one_size(text)
    text = marked_anew(text) if typed else text
    text = words_in_short(asides_of_orders(text, typed))
    text = counted_off(devices_in_passing(text, expect))
    if typed:  # a word of an ear keeps its place
        text = volumes_by_look(text, expect)
    spoken = without_names_ahead(without_asides_of_talk(text))
    text = without_across(told_by_role(in_one_name(plain_no(spoken))))
    text = in_plain_order(as_dictated(without_sorts(without_looks(text)), typed), typed)
    text = _PLACE_BOX.sub(lambda found: found[1] + "   :", text)
    text = _LETTERED_IS.sub(lambda found: f"{found[1]}, ".ljust(len(found[0])), text)
    text = _JOINED.sub(lambda found: f"{found[1]} wires".ljust(len(found[0])), text)
    text = _DEVICE_FILL.sub(lambda found: "fill".ljust(len(found[0])), text)
    text = _WIRED_WITH.sub(lambda found: f"{found[1]} on".ljust(len(found[0])), text)
    text = without_sums_aloud(without_finger_counts(without_counting(text)), expect)
    text = without_own_sums(text)
    text = _ORDERING.sub(lambda found: " " * len(found[0]), text)
    text = _IN_PLACE.sub(lambda found: "instead".ljust(len(found[0])), text)
    text = _SO_THE_NTH.sub(",", text)
    text = _LEFT_OUT.sub(_dropped, text)
    text = _TERMINAL_BOARD.sub("block", text)
    text = _NOT_LEAST.sub(lambda found: "and".ljust(len(found[0])), text)
    text = _REPORT.sub(_without_report, text)
    text = _ROOM_NUMBER.sub(lambda found: found[1] + " " * len(found[2]), text)
    asked = _QUESTION.match(text) if expect == "contents" else None
    if asked is None:
        return text
    rest = text[asked.end() :]
    if not (_BOX.search(rest) and _CONTENTS.search(rest)) or _SUPPOSED.search(rest):
        return text
    told = rest.rstrip()
    if told.endswith("?"):
        rest = told[:-1] + " " * (len(rest) - len(told) + 1)
    return " " * asked.end() + rest


def _asks_no_size(expect: str | None) -> bool:
    return expect is None or "size" not in expect


def _without_report(found: re.Match[str]) -> str:
    """Spaces in place of who says it; "he said ten" stays, which may be of anything, unless it
    corrects: "no, he says ten"."""
    alone = found["number"] is not None and _ENDS.fullmatch(found.string, found.end("number"))
    kept = alone and not _CORRECTS.search(found.string, 0, found.start())
    return found[0] if kept else " " * len(found[0])


_ENDS = lazy_pattern(r"(?i)[\s.!,]*(?:please|then|now)?[\s.!]*")
#: What stands before a number that somebody puts right.
_CORRECTS = lazy_pattern(r"(?i)\b(?:no|nope|wait|actually|wrong|sorry|and|but|not [a-z0-9]+)\b\W*$")


def plain_words(words: Sequence[Word], expect: str | None = None) -> Sequence[Word]:
    """The words of an ear without those that only frame a description."""
    words = words_in_one_size(words) if _asks_no_size(expect) else words
    text = " ".join(word.text for word in words)
    told = plain_speech(text, expect, typed=False)
    if told == text:
        return words
    kept, place = [], 0
    for word in words:
        end = place + len(word.text)
        if said := told[place:end].strip():
            kept.append(word if said == word.text else word._replace(text=said))
        place = end + 1
    return kept
