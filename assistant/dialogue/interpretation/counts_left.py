"""How many of one thing are left where some of them go: "one of those six goes away, five 12-2s",
"one of those goes past outside the box, so just three". And how many are seen by a number alone:
"six, I can see six now".

Which line it is the numbers tell: there must be one alone of which there were so many that what
goes leaves what is said. Anything else leaves the words as read.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from boxaloud.assistant.dialogue.interpretation.counts_anew import pointing_at
from boxaloud.assistant.dialogue.interpretation.lines_named import Named, named_things
from boxaloud.assistant.dialogue.interpretation.said_beside_sizes import of_more
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value
from boxaloud.rules import Worksheet
from boxaloud.rules.contents import Cable, Conductors, Yoke

_Line: TypeAlias = Cable | Conductors | Yoke

_FEW = r"(?:[1-9]|1\d|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_LEAD = (
    r"^\W*(?:(?P<no>no|nope|nah|wait|actually|sorry|hang on|hold on)\b\W*|(?:oh|ok|okay|so|well|um"
    r"|uh|and|but|now|yeah|hello|hi|please)\b\W*)*"
)
_MAKES = (
    r"(?:so|that's|that is|i mean|that makes(?: it)?|makes it|which (?:leaves|makes)"
    r"|that leaves(?: me)?"
    r"|leaves(?: me)?|leaving|now|it's|there's|there is|there are|i've got|i have|then|and|just"
    r"|only|down to|with)"
)
_LEFT_THERE = (
    r"(?:,? (?:please|left|now|of them|of those|remain|remaining|in here|in there|total|in all"
    r"|stay))*"
)
_GOES = lazy_pattern(
    rf"{_LEAD}(?P<some>{_FEW}|a couple) of (?:those|them|these|the)(?: (?P<of>{_FEW}))?"
    rf"(?: (?:ones|cables|runs|wires))? (?P<way>[^.;!?<]*?)"
    rf"(?:(?:[,.;!]+ *| +)(?:{_MAKES} )*{_MAKES} |[,.;!]+ *| (?=<t))"
    rf"(?:(?P<left>{_FEW})|(?P<named><t\d+>)){_LEFT_THERE}\W*$"
)
#: It is no more in the box.
_OUT = lazy_pattern(
    r"\b(?:away|gone|elsewhere|outside|past|around|bypass\w*|off|leaves|leaving"
    r"|(?:in|into|to|for) (?:the|an?) (?:next|other|another|attic|[a-z]+) box|in another box)\b"
    r"|\b(?:goes|go|went|comes|come|came|is|are|was|were|taken|pulled)(?: (?:back|right|now|all))*"
    r" out(?: of (?:here|there|it|the box))?$"
)
_NOT_SO = lazy_pattern(
    r"\b(?:if|would|could|might|should|may|maybe|not|never|what|how|suppose|says?|thinks?)\b|n't\b"
)
_SEEN = lazy_pattern(
    rf"{_LEAD}(?:(?P<first>{_FEW})\b[.,!;:]* )?(?:(?:there's|there are|i've got)|(?:i|we) "
    rf"(?:can )?(?:actually |really |clearly )?(?:see|count|find|get|make out)) (?P<value>{_FEW})"
    r"(?P<now>(?:,? (?:please|now|of them|of those|in here|in there|total|in all"
    r"|altogether|after all))*)\W*$"
)
_NEAR = 3
"""So many more than were told may be seen; with more than that, another thing is counted."""


def counts_left(read: Utterance, state: State, sheet: Worksheet) -> Utterance:
    """The utterance as how many there are of a line; else `read` as it is."""
    if not state.items or state.pending or of_more(read):
        return read
    words, things = named_things(read, state)
    found = _GOES.search(words)
    if found is not None:
        if not _OUT.search(found["way"]) or _NOT_SO.search(found["way"]):
            return read
        named = things[int(found["named"][2:-1])] if found["named"] else None
        return _recounted(read, *_left(state, found.groupdict(), named))
    found = _SEEN.search(words)
    if found is not None and sheet.capacity is not None and (found["first"] or found["now"]):
        value = int(spoken_value(found["value"]))
        if found["first"] and int(spoken_value(found["first"])) != value:
            return read
        return _recounted(read, _seen(state, value), value)
    return read


def _recounted(read: Utterance, line: _Line | None, count: int) -> Utterance:
    if line is None:
        return read
    act = acts.Recount(
        target=pointing_at(line), count=count, words=read.heard.strip(),
        span=(0, len(read.heard)), function="correction",
    )  # fmt: skip
    return replace(read, acts=(act,), unread=())


def _left(
    state: State, said: dict[str, str | None], named: Named | None
) -> tuple[_Line | None, int]:
    """The only line that so many of it going leaves as said, and how many that is."""
    some = 2 if said["some"] == "a couple" else int(spoken_value(said["some"] or ""))
    left = named.count if named is not None else int(spoken_value(said["left"] or ""))
    if left is None:
        return None, 0
    lines = [line for line in _lines(state) if named is None or pointing_at(line) == named.target]
    fitting = [line for line in lines if _were(line, said, state, some + left)]
    if said["of"] is not None and int(spoken_value(said["of"])) != some + left:
        return None, 0
    return (fitting[0] if len(fitting) == 1 else None), left


def _were(line: _Line, said: dict[str, str | None], state: State, many: int) -> bool:
    """Whether there were so many, or had been before what is put right: "no, two of them go"."""
    gone = state.recalled[-1].content if said["no"] and state.recalled else None
    back = gone.count if gone is not None and replace(line, count=gone.count) == gone else 0
    return many in (line.count, line.count + back) and line.count > 1


def _seen(state: State, value: int) -> _Line | None:
    """The only line of several that may be so many more."""
    lines = [line for line in _lines(state) if line.count > 1]
    near = [line for line in lines if 0 < value - line.count <= _NEAR]
    return near[0] if len(lines) == len(near) == 1 else None


def _lines(state: State) -> Sequence[_Line]:
    return [
        item.content for item in state.items if isinstance(item.content, Cable | Conductors | Yoke)
    ]
