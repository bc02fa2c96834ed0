"""What "it" is, where the clause before tells something of a thing and enters nothing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import THINGS, reference_to
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_PRONOUNS = frozenset({"it", "that", "them", "those", "these", "this", "it's"})


def topics_taken_out(made: list[Act], parts: Sequence[Clause]) -> list[Act]:
    """ "One of the 14-2s is dead, take it out": one of those, and not what was said last."""
    return [_of_topic(act, made, parts) if isinstance(act, acts.Remove) else act for act in made]


def _of_topic(act: acts.Remove, made: Sequence[Act], parts: Sequence[Clause]) -> Act:
    if act.target.kind != "anything" or not _PRONOUNS & set(act.words.lower().split()):
        return act
    place = next((n for n, c in enumerate(parts) if c.span[0] <= act.span[0] < c.span[1]), 0)
    if not place or parts[place - 1].mood != "declarative":
        return act
    before = parts[place - 1]
    within = [one for one in made if before.span[0] <= one.span[0] < before.span[1]]
    entered = not all(_only_told_of(one, before) for one in within)
    named = [
        element.found for element in before.elements
        if element.found is not None and element.found.kind in THINGS and element.tag.endswith("d>")
    ]  # fmt: skip
    if entered or len(named) != 1:
        return act
    return replace(act, target=reference_to(named[0]))


#: "That 14-3 is abandoned", "the dimmer was for the fan": a thing that is there, and what of it.
_SUBJECT = lazy_pattern(
    r"^(?:(?:and|but|so|oh|no|wait|well|ok|okay|now|hey|actually) )*<[a-z_]+::d>"
    r" (?:is|was|isn't|has|goes|went|does|doesn't|got|belongs|looks|feeds|fed|used"
    r"|came|comes|runs|ran|never)\b"
)


def _only_told_of(act: Act, clause: Clause) -> bool:
    """Whether an act enters nothing: the clause tells of one thing that is there."""
    if isinstance(act, acts.OtherTalk):
        return True
    return is_thing(act) and act.count is None and _SUBJECT.match(clause.line) is not None
