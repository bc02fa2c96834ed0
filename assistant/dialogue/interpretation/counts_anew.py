"""How many there are of one thing, told against what was told before: "I only get two 14-2s, the
third was a shadow", "should've been four", "knock the 12-2s down to three".

All numbers that are said must agree: how many there were, how many there are, and the difference.
Fewer than there were stand only where somebody says how he came to say more.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TypeAlias

from boxaloud.assistant.dialogue.interpretation.said_beside_sizes import of_more
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value
from boxaloud.grammar.utterance.size_claims import gauge
from boxaloud.grammar.utterance.size_frames import BARE_SIZE
from boxaloud.rules.contents import Cable, Conductors, Yoke

_Counted: TypeAlias = Cable | Conductors | Yoke

_CABLE = lazy_pattern(
    rf"\b(?P<awg>{BARE_SIZE})[-/ ](?P<inside>[234]|two|three|four)"
    r"(?P<twice>-2(?='?s?(?![\w/-]))|[- ]two(?=s\b))?(?P<many>'?s)?(?![\w/-])"
)
#: "Three cables", of a box that has them of one size alone.
_ANY_CABLE = lazy_pattern(r"\b(?:cables|runs)\b")
#: What all the devices or cables come to, told over: "so three devices all told".
_SUM = lazy_pattern(
    r"\b(?:so |for |making |which makes )(?:that's )?(?P<value>\d+|[a-z]+) (?P<kind>devices|cables)"
    r"(?: (?:all told|in all|total|altogether|now))*"
)
_WIRES = lazy_pattern(
    r"\b(?:(?:number |no\. |# ?)(?P<awg>14|12|10|8|6|fourteen|twelve|ten|eight|six)(?:'?s)?"
    r"|(?P<plural>fourteens|twelves|tens|14s|12s|10s))\b(?![-/])"
)
_DEVICE = lazy_pattern(
    r"\b(?:three[- ]way |four[- ]way |3[- ]way |4[- ]way )?"
    r"(?:switch(?:es)?|receptacles?|dimmers?|gfcis?|three[- ]ways?|four[- ]ways?)\b"
)
_POINTS = lazy_pattern(r"\b(?:the|that|this|my) $")
_MANY = lazy_pattern(r"(?:(?<=ch)es|(?<=[a-z])s)$")
_WORDS = {"pair": 2, "couple": 2, "both": 2, "dozen": 12, "single": 1}
_NUMBER_WORD = lazy_pattern(r"\b(?:pair|couple|both|dozen|single)\b")
_NTH = lazy_pattern(
    r"\b(?:the |that |a )(?P<nth>second|third|fourth|fifth|sixth|seventh)"
    r"(?=(?: one)?(?:'s| (?:is|was|i|just|goes|went|turned|one)\b))"
)
#: A number that is denied, or was said before, is the one that was told.
_TOLD = lazy_pattern(
    r"\bnot (?:the |just )?$|\b(?:i|we) (?:said|told you|gave you|had) (?:the )?$"
    r"|\bdid i (?:say|tell you|give you) (?:the )?$"
)
_PLACES = {"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7}
#: "One" is a number beside what is counted, and where it was told before; else it points.
_POINTING_ONE = lazy_pattern(
    r"\b(?:(?:the|that|this|an?|another|every|each|which|skinny|old|bad|regular|off by|last|odd"
    r"|second|third|fourth|fifth|sixth|seventh|no) (?:[a-z]+ )?ones?\b"
    r"|one (?:of|was|is|that|which|from|on|in|strap|yoke|green|ground|bare)\b)|\bones\b"
)
#: How somebody came to say more than there are.
_FEWER = lazy_pattern(
    r"\b(?:(?:only|just) (?:get|see|count|have|got|find|a|the)|(?:get|see|count|have|got|find"
    r"|there's|there are|it's) (?:only|just)|down to|was counting|(?:was|were) (?:the|a|my)"
    r" (?:shadow|reflection|staple|string)|said it twice|counted (?:it|one|that)(?: of them)? twice"
    r"|(?:second|third|fourth|fifth|sixth)(?: one)? (?:goes|went|runs|belongs|passes|ends|leads)"
    r"|counted one of them|(?:he|she|they|kid|you)(?:'s| is| are|'re) right|dumb of me"
    r"|not (?:the )?{few})\b".replace(
        "{few}", r"(?:[2-9]|1\d|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
    )
)
#: What tells that he counts what is there, and brings nothing in.
_COUNTS = lazy_pattern(
    r"\b(?:(?:told|gave|give|giving) you|i said|did i (?:say|tell you|give you|call it)"
    r"|i (?:only|just) (?:counted|saw|looked at|read|got to|had)|i (?:can )?(?:see|count|get)"
    r"|(?:looking|staring) at"
    r"|off by|(?:was|were) (?:tucked|hid\w*|hiding|buried|folded|stuffed|jammed)"
    r"|all told|in all|total|comes? to|no lie|in (?:this thing|here|there|this box)"
    r"|should(?:'ve| have) been|even dozen|i missed|turns out|make it|(?:he|she)'s right"
    r"|kid says|my bad|sorry)\b"
)
#: What is said of the one that is none, up to where the clause ends.
_ASIDE = lazy_pattern(
    r"\b(?:i was counting|i counted|i had counted|(?:the|that|a) (?:second|third|fourth|fifth|sixth"
    r"|seventh)|one of (?:those|them|these) (?:is|was)|i missed)\b[^.,;!?]*?"
    r"(?=$|[.,;!?]| (?:\d+|two|three|four|five|six|seven|eight|nine|ten)"
    r" (?:[a-z0-9-]+ ){0,2}(?:total|in all|all told|altogether)\b)"
    r"|\b(?:plus|and) the (?:one )?(?:ground|green|bare)s?\b"
    r"|\bnot counting the (?:ground|green|bare)s?\b"
)
_BRINGS_IN = lazy_pattern(
    r"\b(?:add\w*|remov\w*|take|took|taken|pull\w*|swap\w*|replac\w*|chang\w*|more|another|extra|also"
    r"|plus|clamps?|cubic|inch\w*|pigtails?|if|suppose|pretend|would|could|box|boxes|instead|undo"
    r"|each|goes|going|runs|feeds?|to the|from the|without|grounds?|need\w*|want\w*|yoke|maybe"
    r"|think|guess|probably|half|or|scratch|strike|delet\w*|drop\w*|lose|kill|nix|ditch|cancel"
    r"|yank\w*|rip\w*|cut|gone|becom\w*|blank\w*|as well|left"
    r"|truck|van|shop|store|stock|spool|roll|that (?:are|have|were|got)|which"
    r"|cables?|wires?|same|nothing|from here)\b"
    r"|\b(?:not|no) (?:the |an? )?#"
)

_IN_ALL = lazy_pattern(r"\b(?:total|in all|all told|altogether)\b")
_PUTS_RIGHT = (acts.Restate, acts.RestateNumber, acts.Recount, acts.Replace, acts.Resize)


def counts_anew(read: Utterance, state: State) -> Utterance:
    """The utterance with a count told anew put right; else `read` as it is."""
    if not state.items or state.pending or of_more(read) or _only_lands(read):
        return read
    words = read.heard.lower().replace("’", "'")
    nths = list(_nths(words))
    if not (nths or _COUNTS.search(words) or _FEWER.search(words)):
        return read
    bare_of_sum, total = _without_sum(words)
    found = _counted_line(_ASIDE.sub(lambda aside: " " * len(aside[0]), bare_of_sum), state)
    if found is None:
        return read
    line, bare = found
    beside = bare.replace("in this box", "")
    if _IN_ALL.search(words):  # "two more switches, three total": both numbers must agree
        beside = beside.replace(" more #", "      #")
    count = None if _BRINGS_IN.search(beside) else _new(bare, nths, line)
    fewer = count is not None and count < line.count
    if count is None or not _sums_up(total, line, count, state):
        return read
    if _is_read(read, line) or (fewer and not _FEWER.search(words)):
        return read
    act = acts.Recount(
        target=pointing_at(line), count=count, words=read.heard.strip(),
        span=(0, len(read.heard)), function="correction",
    )  # fmt: skip
    return replace(read, acts=(act,), unread=())


def _only_lands(read: Utterance) -> bool:
    """Whether all that weighs says which wires devices land on: "both are on the fourteen"."""
    lands = bool(read.acts) and all(isinstance(act, acts.Land) for act in read.acts)
    return lands and not any(run.weighty for run in read.unread)


def _without_sum(words: str) -> tuple[str, tuple[str, int] | None]:
    """The words without what the devices or cables come to, and that."""
    found = _SUM.search(words)
    if found is None or not SPOKEN_VALUE.fullmatch(found["value"]):
        return words, None
    blank = words[: found.start()] + " " * len(found[0]) + words[found.end() :]
    return blank, (found["kind"], int(spoken_value(found["value"])))


def _sums_up(total: tuple[str, int] | None, line: _Counted, count: int, state: State) -> bool:
    """Whether what all of a kind come to agrees with a count told anew."""
    if total is None:
        return True
    kind = Yoke if total[0] == "devices" else Cable
    there = sum(item.content.count for item in state.items if isinstance(item.content, kind))
    moved = count - line.count if isinstance(line, kind) else 0
    return there + moved == total[1]


def _is_read(read: Utterance, line: _Counted) -> bool:
    """Whether it is put right already, with every word that weighs in it."""
    if not read.acts or any(run.weighty for run in read.unread):
        return False
    told = [act for act in read.acts if isinstance(act, _PUTS_RIGHT) and not _only_points(act)]
    same = all(isinstance(act, acts.Restate) and _count(act) in (None, line.count) for act in told)
    return len(told) == len(read.acts) and not same


def _only_points(act: acts.Act) -> bool:
    """ "It's six of them": of what, the words before it tell."""
    return isinstance(act, acts.Recount) and act.target.kind == "anything"


def _count(act: acts.Restate) -> int | None:
    count = getattr(act.thing, "count", None)
    return count if isinstance(count, int) else None


def pointing_at(line: _Counted) -> Reference:
    """A reference to a line of the box."""
    if isinstance(line, Yoke):
        return Reference(kind="device", name=line.name)
    if isinstance(line, Conductors):
        return Reference(kind="conductors", awg=line.awg)
    return Reference(kind="cable", awg=line.awg, conductors=line.conductors)


def _counted_line(words: str, state: State) -> tuple[_Counted, str] | None:
    """The only line of the box that is counted, and the words without the names of things."""
    named: list[tuple[_Counted, bool]] = []
    lines = [
        item.content for item in state.items if isinstance(item.content, Cable | Conductors | Yoke)
    ]
    if len(cables := [line for line in lines if isinstance(line, Cable)]) == 1:
        for found in reversed(list(_ANY_CABLE.finditer(words))):
            named.append((cables[0], True))
            words = words[: found.start()] + "#" * len(found[0]) + words[found.end() :]
    for pattern in (_CABLE, _WIRES, _DEVICE):
        for found in reversed(list(pattern.finditer(words))):
            meant = [line for line in lines if _is_called(line, found)]
            if len(meant) != 1:
                return None
            counted = (
                re.search(r"(?<!the )\b(?:the|that|this|my) $", words[: found.start()]) is None
            )
            named.append((meant[0], counted or found[0].endswith("s")))
            words = words[: found.start()] + "#" * len(found[0]) + words[found.end() :]
    spoken = {id(line): line for line, counted in named if counted}
    if len(spoken) == 1:
        return next(iter(spoken.values())), words
    if named:
        return None
    of = re.search(r"\b(?:that|those|the|my) (?P<count>[a-z]+|\d+) down to\b", words)
    if of is None or not SPOKEN_VALUE.fullmatch(of["count"]):
        return None
    as_many = [line for line in lines if line.count == spoken_value(of["count"])]
    return (as_many[0], words) if len(as_many) == 1 else None


def _is_called(line: _Counted, found: re.Match[str]) -> bool:
    """Whether a name can be meant of a line."""
    groups = found.groupdict()
    if "inside" in groups:
        inside = int(spoken_value(groups["inside"])) * (2 if groups["twice"] else 1)
        awg = gauge(groups["awg"])
        return isinstance(line, Cable) and (line.awg, line.conductors) == (awg, inside)
    if "plural" in groups:
        awg = gauge((groups["awg"] or groups["plural"]).rstrip("s"))
        return isinstance(line, Conductors) and line.awg == awg
    name = (
        re.sub(r"(?<=[a-z])(?:(?<=ch)es|s)$", "", found[0]).replace("3", "three").replace("-", " ")
    )
    called = line.name.lower().replace("-", " ") if isinstance(line, Yoke) else ""
    return called in (name, f"{name} switch", f"{name} receptacle")


def _new(words: str, nths: Sequence[int], line: _Counted) -> int | None:
    """How many there are, where all that is counted agrees with how many there were."""
    there = line.count
    words = _POINTING_ONE.sub(lambda one: "~" * len(one[0]), words)
    values = {value for value, _ in _values(words)}
    if not {value for value, start in _values(words) if _TOLD.search(words, 0, start)} <= {there}:
        return None
    new = [
        count
        for count in values - {there}
        if values <= {there, count, abs(there - count)}
        and all(min(there, count) < nth <= max(there, count) for nth in nths)
    ]
    if len(new) == 2 and there in values:  # one of them is the difference
        new = [max(new)] if max(new) > there else []
    return new[0] if len(new) == 1 else None


def _values(words: str) -> Iterator[tuple[int, int]]:
    """What each number is worth, and where it stands."""
    for found in SPOKEN_VALUE.finditer(words):
        value = spoken_value(found["value"])
        yield int(value) if value == int(value) else -1, found.start()
    for found in _NUMBER_WORD.finditer(words):
        yield _WORDS[found[0]], found.start()


def _nths(words: str) -> Iterator[int]:
    for found in _NTH.finditer(words):
        yield _PLACES[found["nth"]]
