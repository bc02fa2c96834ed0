"""An utterance in which each thing that was read is a run of one letter, in its place."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Thing
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.text_before import lowered

_LETTERS: dict[type[Act], str] = {
    acts.AddCable: "C", acts.AddDevice: "D", acts.AddConductors: "W", acts.AddGrounds: "W",
}  # fmt: skip
_UNREAD = (acts.OtherTalk, acts.AskUnknown, acts.Number, acts.Social)
"""Acts that say nothing of a thing, so that their words stay."""


def thing_of(act: Act) -> Thing | None:
    """The thing that an act tells of; None where it tells of none, or of no more than a word."""
    told = act.thing if isinstance(act, (acts.Restate, acts.Replace)) else act
    return told if is_thing(told) and not is_bare(told) else None


def masked(made: Sequence[Act], heard: str) -> str:
    """`heard` in small letters, of the same length: cables are a run of C, devices of D, wires of
    W, and what else acts were made of a run of X."""
    text = list(lowered(heard).replace("’", "'"))
    if len(text) != len(heard):  # a letter that is two in the other case
        text = list(heard)
    for act in made:
        if isinstance(act, _UNREAD) or not act.words or is_bare(act):
            continue
        start, end = act.span
        letter = _LETTERS.get(type(thing_of(act) or act), "X")
        text[start:end] = letter * len(text[start:end])
    return "".join(text)


def is_bare(act: Act) -> bool:
    """ "Cable", "the cables": no more than the word."""
    return isinstance(act, acts.AddCable) and act.awg is None and act.count is None
