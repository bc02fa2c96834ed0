"""Wires and cables counted aloud by name or by number before the sum is said: "black, white,
ground, black, white, ground, so that's two 14-2s", "one, two, three, four of them"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_NAMED = lazy_pattern(
    r"(?i)(?:(?:black|white|red|blue|yellow|bare|green|copper|ground|hot|neutral|brown|orange|gray"
    r"|grey|a|and|an|another|the|then|again|wires?)[\s,.;:…-]*)+"
)
_SUMMED = lazy_pattern(
    r"(?i)[\s,.;:…-]*(?:(?:so|ok|okay|and|that|which|it|yeah|yep|right)[\s,]*)*"
    r"(?:(?:that|it|which)?(?:['’]s| is|s)?|makes|make|means|would be|that['’]ll be)?[\s,]*"
)


def named_one_by_one(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without wires called out by their colours, where cables of as many conductors and
    grounds stand right behind them as their sum, or right before them."""
    for place, act in enumerate(made):
        cable = act.thing if isinstance(act, acts.Restate) else act
        if not isinstance(cable, acts.AddCable) or cable.count is None or cable.awg is None:
            continue
        for called in (_called(made[:place][::-1])[::-1], _called(made[place + 1 :])):
            if called and _same_wires(called, cable) and _adjoin(called, act, heard):
                return [one for one in made if all(one is not wire for wire in called)]
    return made


def _called(beside: list[Act]) -> list[Act]:
    """The wires and grounds of no said size that stand next to a cable, in their order."""
    found: list[Act] = []
    for act in beside:
        if not isinstance(act, (acts.AddConductors, acts.AddGrounds)) or act.awg is not None:
            break
        found.append(act)
    return found


def _same_wires(called: list[Act], cable: acts.AddCable) -> bool:
    """Whether they are as many wires as those of the cables."""
    wires = sum(act.count or 1 for act in called if isinstance(act, acts.AddConductors))
    grounds = sum(act.count or 1 for act in called if isinstance(act, acts.AddGrounds))
    count = cable.count or 1
    return wires == count * (cable.conductors or 2) and grounds in (0, count)


def _adjoin(called: list[Act], cable: Act, heard: str) -> bool:
    """Whether nothing but colours and what sums them up stands from the one to the other."""
    start, end = called[0].span[0], called[-1].span[1]
    if _NAMED.fullmatch(heard[start:end].strip(" ,.;")) is None:
        return False
    before = start > cable.span[0]
    between = heard[cable.span[1] : start] if before else heard[end : cable.span[0]]
    return _SUMMED.fullmatch(between) is not None


def numbers_run_up(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One, two, three, four of them": the numbers that lead up to a count of what is there."""
    for place, act in enumerate(made):
        count = act.count if isinstance(act, acts.Recount) else None
        if count is None or not 1 < count <= place + 1:
            continue
        run = made[place - count + 1 : place]
        values = [one.value if isinstance(one, acts.Number) else None for one in run]
        if values == list(range(1, count)) and not heard[run[-1].span[1] : act.span[0]].strip(
            " ,.-…"
        ):
            return [*made[: place - count + 1], *made[place:]]
    return made


#: "Somebody spliced the dryer cable.", "the range cable got extended in the crawl space."
_OF_A_CABLE = lazy_pattern(r"(?i)(?:(?:the|that|this|my|her|his|our|their|a|old) )*cables?")
_SO_MANY = lazy_pattern(
    r"(?i)(?:(?:i|we|there|it)(?:['’]?ve| have|['’]?s| are| has| got)* )?[a-z0-9]+"
)


@joining
def uncounted_then_number(last: Act, act: Act, heard: str) -> Act | None:
    """ "Wire connectors, I have three": the number is of those, which count nothing."""
    if (
        isinstance(last, acts.AddUncounted)
        and last.count is None
        and isinstance(act, acts.Number)
        and act.value is not None
        and act.value == int(act.value)
        and 0 < act.value < 10
        and _SO_MANY.fullmatch(act.words)
        and heard[last.span[1] : act.span[0]].strip() in (",", ":", "-")
        and heard[act.span[1] : act.span[1] + 1] in ("", ".", ";", ",")
    ):
        return replace(last, count=int(act.value))
    return None


#: What befell it: none of this says that it comes into the box.
_BEFELL = lazy_pattern(
    r"(?i)\b(?:spliced|extended|cut|nicked|repaired|damaged|hit|drilled|rerouted|patched|chewed"
    r"|burned|burnt|fixed|shortened|lengthened|broke|broken|severed|too short)\b"
)
_COMES_IN = lazy_pattern(
    r"(?i)\b(?:here|this box|the box|in it|in there|comes?|coming|another|second|more|there['’]?s"
    r"|there (?:is|are)|has|have|see|got (?:a|an|one|two))\b"
)


def cable_spoken_of(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without a cable that a sentence before only speaks of, without its size and number,
    where those in the box are listed behind it."""
    sized = [act for act in made if isinstance(act, acts.AddCable) and act.awg is not None]
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.AddCable)
            and act.awg is None and act.count is None and act.conductors is None
            and act.ground is None and act.role is None
            and _OF_A_CABLE.fullmatch(act.words)
            and any(_next_sentence(act, cable, heard) for cable in sized)
            and not any(is_thing(one) and one.span[1] <= act.span[0] for one in made)
        )
    ]  # fmt: skip


def _next_sentence(act: Act, cable: Act, heard: str) -> bool:
    """Whether a cable is told of in a sentence behind one that tells what befell another."""
    ends = heard.find(". ", act.span[1])
    if not act.span[1] <= ends < cable.span[0]:
        return False
    sentence = heard[heard.rfind(". ", 0, act.span[0]) + 1 : ends]
    return bool(_BEFELL.search(sentence)) and not _COMES_IN.search(sentence)
