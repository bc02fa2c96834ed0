"""Patterns that give a thing its size: conductors, and devices by what they land on."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.grammar.building.pattern_groups import pieces, target_of, words_of
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import act_of
from boxaloud.grammar.clauses.act_kinds import SIZED
from boxaloud.grammar.clauses.referring_expressions import size_in
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.patterns.patterns import Match


def build_resize(match: Match, telling: Telling) -> list[Act] | None:
    """ "Make the twelves fourteens": another wire size of what is meant."""
    words, span = words_of(match, telling)
    old, new = pieces(match, "ref"), pieces(match, "size")
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


#: "The other two switches are on the twelve": they are there already.
_POINTING = ("the ", "that ", "those ", "these ", "my ", "other ", "both ", "all ")


#: "A 14-3 to the other three-way": a device of another box.
_OTHER_END = lazy_pattern(r"(?i)\b(?:to|from|feeds|feeding) (?:the other|the next|another)\b")


def build_land(match: Match, telling: Telling) -> list[Act] | None:
    """ "The switch goes on the twelves": the largest conductor landed on a device."""
    words, span = words_of(match, telling)
    awg = size_in(pieces(match, "size"))
    if awg is None or awg > 14 or _OTHER_END.search(telling.heard[slice(*span)]):
        return None
    target = target_of(match, telling)
    if target.kind not in ("device", "terminal_block", "anything"):
        return None
    if not target.words.lower().startswith(_POINTING) and _cables_listed(match, telling, span[1]):
        return None
    said = next(
        (e for e in pieces(match, "ref") if e.found is not None and e.found.kind == "device"), None
    )
    if (
        said is not None
        and said.found is not None
        and said.found.get("count") is not None
        and not said.tag.endswith(":d>")
        and not match.found.group("ref").startswith(_POINTING)
        and not match.has("moved")
    ):
        made = act_of(said.found)
        if isinstance(made, acts.AddDevice) and not said.found.words.lower().startswith(
            ("both", "one of", "two of")
        ):
            return [replace(made, awg=awg, words=words, span=span)]
    cables = [
        e.found for e in pieces(match, "size") if e.found is not None and e.found.kind == "cable"
    ]
    told: list[Act] = []
    if cables and match.found.start("size") < match.found.start("ref"):
        cable = act_of(cables[0])  # "12-2 feeding it" brings the cable in too
        told = [cable] if cable is not None else []
    if target.kind == "terminal_block" and not target.words.lower().startswith(("the ", "that ")):
        block = next((e.found for e in pieces(match, "ref") if e.found is not None), None)
        made = act_of(block) if block is not None else None
        if isinstance(made, acts.AddTerminalBlock):
            return [replace(made, awg=awg, words=words, span=span)]
    if target.kind == "anything":
        target = replace(target, kind="device")
    return [*told, acts.Land(target=target, awg=awg, words=words, span=span, function="correction")]


def build_sized(match: Match, telling: Telling) -> list[Act] | None:
    """ "two grounds, also fourteen": a size said behind what it is of."""
    words, span = words_of(match, telling)
    awg = size_in(pieces(match, "size"))
    if awg is None:
        return None
    if match.has("ref"):
        found = next((e.found for e in pieces(match, "ref") if e.found is not None), None)
        made = act_of(found) if found is not None else None
        if not isinstance(made, SIZED) or made.awg is not None:
            return None
        return [replace(made, awg=awg, words=words, span=span)]
    return [acts.Size(awg=awg, words=words, span=span)]


#: "…, 12-2 load", "… and another twelve two": a cable as the one before it.
_ANOTHER_CABLE = lazy_pattern(
    r"(?i),?\s+(?:(?:and|plus|a|an|one|another) )*(?:(?:1[024]|[68])[-/][234]"
    r"|(?:fourteen|twelve|ten|eight|six)[- ](?:two|three))s?\b"
)


def _cables_listed(match: Match, telling: Telling, end: int) -> bool:
    """Whether what a device is "with" is the first of the cables that come to it, and brings itself
    in: "GFCI with 12-2 line, 12-2 load"."""
    found = [e.found for e in pieces(match, "size") if e.found is not None]
    cable = any(one.kind == "cable" for one in found)
    ahead = match.found.start("ref") < match.found.start("size")
    return cable and ahead and _ANOTHER_CABLE.match(telling.heard, end) is not None
