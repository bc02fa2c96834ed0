"""Cables and wires of the box that are said to be of another size: "half of those are 14-3s", "all
but one of the 12-3s turn out to be 12-2s". Which ones and how many, only the box tells; where it
leaves that open, the words stay as they were read."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from boxaloud.assistant.dialogue.interpretation.said_beside_sizes import (
    doubted,
    nothing_else,
    of_more,
)
from boxaloud.assistant.dialogue.interpretation.sizes_said_over import without_sizes_said_over
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Thing, Unread, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.plain_claims import plain_claims
from boxaloud.grammar.utterance.size_claims import SizeClaim, WireSize, size_claim
from boxaloud.grammar.utterance.size_frames import BARE_SIZE
from boxaloud.rules.contents import Cable, Conductors, Yoke

_Wired: TypeAlias = Cable | Conductors


def sizes_told_otherwise(read: Utterance, state: State) -> Utterance:
    """The utterance with what is said to be of another size put right; else `read` as it is."""
    if not state.items or state.pending or of_more(read):
        return read
    words = read.heard.lower().replace("’", "'")
    for told in (words, *plain_claims(words)):
        anew = _read_anew(read, words, told, state)
        if anew is not None:
            return anew
    return read


def _read_anew(read: Utterance, heard: str, words: str, state: State) -> Utterance | None:
    """The utterance as `words` tell it: those that were heard, or what they come to."""
    found = size_claim(words)
    if found is None:
        return None
    claim, (start, end) = found
    lines = _lines(claim, state)
    if lines and doubted(words[:start], words[end:], claim):
        return _open(read, start, end) if words is heard else None
    by_box = len(lines) > 1 or claim.share not in ("all", "so_many")
    if not lines or (_is_read(read) and not by_box) or _nth(heard) > lines[0].count:
        return None
    before, behind = words[:start], words[end:]
    landings = [one for one in read.acts if isinstance(one, acts.Land) and one.awg]
    for landing in landings:
        behind = behind.replace(landing.words.lower().replace("’", "'"), " ", 1)
    if found_on := _ON_THOSE.search(behind):
        claim = replace(claim, lands=True)
        behind = behind[: found_on.start()] + " " + behind[found_on.end() :]
    behind, counted, ground = without_sizes_said_over(behind, claim, lines, state)
    if not counted and any(_is_vague(claim, line) for line in lines):
        return None
    if not nothing_else(before, behind, claim, state):
        return None
    if any(claim.of_so_many(line.count) is None for line in lines):
        return _open(read, start, end) if words is heard else None
    claim = replace(claim, ground_too=claim.ground_too or ground)
    bare = _told(read.heard, start, end) if words is heard else _told(read.heard)
    anew = [line for line in lines if not _is(line, claim.now)] or lines
    told = [act for line in anew if (act := _changed(claim, line, bare)) is not None]
    landed = _landed(claim, bare, state)
    if found_on and not landed:
        return None  # which of several devices, nobody said
    told += [*_ground(claim, bare), *landed, *landings]
    return replace(read, acts=tuple(told), unread=())


#: "And the receptacle is on them": on those that were just told of.
_ON_THOSE = lazy_pattern(
    r"\b(?:and |with )?(?:the|its?|that|my) (?:[a-z]+ )?(?:receptacle|switch|dimmer|outlet|device"
    r"|plug|gfci|gfi|timer|sensor)(?: is|'s| lands| landed)? on (?:them|those|these|that|it)\b"
)
_NTH = lazy_pattern(rf"\bthe (second|third|fourth|fifth|sixth) (?={BARE_SIZE}\b)")
_PLACES = {"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6}


def _nth(words: str) -> int:
    """So many there must be for one to be called so: "the third 14-2"."""
    return max((_PLACES[one[1]] for one in _NTH.finditer(words)), default=0)


def _open(read: Utterance, start: int, end: int) -> Utterance:
    """The utterance with nothing made of the claim: half of three, the one of two."""
    left = Unread(words=read.heard[start:end], span=(start, end), weighty=True)
    return replace(read, acts=(), unread=(left,))


def _told(heard: str, start: int = 0, end: int | None = None) -> Act:
    """The words of a claim, and where they stand."""
    end = len(heard) if end is None else end
    return Act(words=heard[start:end], span=(start, end), function="correction")


def _is_read(read: Utterance) -> bool:
    """Whether every word that weighs is in something put right already."""
    corrections = (acts.Replace, acts.Resize)
    return (
        bool(read.acts)
        and all(isinstance(act, corrections) for act in read.acts)
        and not any(run.weighty for run in read.unread)
    )


def _lines(claim: SizeClaim, state: State) -> list[_Wired]:
    """The lines of the box that are spoken of; none where that is open."""
    cables = claim.now.conductors is not None or claim.was.conductors is not None
    wires = [
        item.content
        for item in state.items
        if isinstance(item.content, Cable) or (isinstance(item.content, Conductors) and not cables)
    ]
    found = [line for line in wires if _is(line, claim.was)]
    if not found and claim.of is None and claim.was.conductors is None and claim.share != "all":
        # "six of the ten": ten of whatever size, where there is no number ten
        found = [line for line in wires if line.count == claim.was.awg]
    if claim.odd:
        found = [line for line in found if line.count == 1] if len(found) > 1 else found
    if claim.throughout:
        return found
    if len(found) < 2 or claim.of is None:
        return found if len(found) == 1 else []
    as_many = [line for line in found if line.count == claim.of]
    together = sum(line.count for line in found) == claim.of and claim.share == "all"
    kinds = {type(line) for line in found}
    if together and not as_many and len(kinds) == 1:
        return found
    return as_many if len(as_many) == 1 and not together else []


def _is_vague(claim: SizeClaim, line: _Wired) -> bool:
    """Whether a bare size is said of cables by another, or of no wires named as of a smaller one:
    "one of the twelves is a ten", of cables, and "all the wires are number 14", of twelves."""
    now, was = claim.now, claim.was
    if now.conductors is not None or claim.throughout:
        return False
    if isinstance(line, Cable) and was.awg is not None:
        return was.conductors is None
    unnamed = was.awg is None and claim.of is None
    return unnamed and now.awg is not None and now.awg > line.awg


def _is(line: _Wired, size: WireSize) -> bool:
    if size.conductors is not None and getattr(line, "conductors", None) != size.conductors:
        return False
    return size.awg is None or line.awg == size.awg


def _changed(claim: SizeClaim, line: _Wired, bare: Act) -> Act | None:
    """What makes so many of a line another size; None where how many is open."""
    count = claim.of_so_many(line.count)
    if count is None:
        return None
    inside = getattr(line, "conductors", None)
    awg = claim.now.awg or line.awg
    thing: Thing
    if isinstance(line, Conductors):
        target = Reference(kind="conductors", awg=line.awg, count=count, words=bare.words)
        thing = acts.AddConductors(awg=awg, count=count, words=bare.words, span=bare.span)
    else:
        target = Reference(
            kind="cable", awg=line.awg, conductors=inside, count=count, words=bare.words
        )
        inside = claim.now.conductors or inside
        thing = acts.AddCable(
            awg=awg, conductors=inside, count=count, words=bare.words, span=bare.span
        )
    return acts.Replace(
        target=target, thing=thing, words=bare.words, span=bare.span, function="correction"
    )


def _ground(claim: SizeClaim, bare: Act) -> tuple[Act, ...]:
    if not claim.ground_too or claim.now.awg is None:
        return ()
    target = Reference(kind="grounds", words="ground")
    return (
        acts.Resize(
            target=target, awg=claim.now.awg, words=bare.words, span=bare.span,
            function="correction",
        ),
    )  # fmt: skip


def _landed(claim: SizeClaim, bare: Act, state: State) -> tuple[Act, ...]:
    """The only device of the box on the cable that lands on it."""
    devices = [item.content for item in state.items if isinstance(item.content, Yoke)]
    if not claim.lands or claim.now.awg is None or len(devices) != 1 or devices[0].count != 1:
        return ()
    return (
        acts.Land(
            target=Reference(kind="device", words=bare.words), awg=claim.now.awg,
            words=bare.words, span=bare.span, function="correction",
        ),
    )  # fmt: skip
