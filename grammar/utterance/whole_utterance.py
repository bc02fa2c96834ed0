"""What an utterance as a whole makes of the acts of its clauses."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance.box_groups import depth_said_apart, one_box
from boxaloud.grammar.utterance.cable_groups import (
    each_pipe,
    joined_counts,
    landed_on_cables,
    misplaced_count,
    sizes_lent,
)
from boxaloud.grammar.utterance.device_groups import (
    quads_as_duplexes,
    switch_beside_box,
    without_activity,
    without_heading_devices,
)
from boxaloud.grammar.utterance.device_repeats import same_again
from boxaloud.grammar.utterance.fixture_groups import of_fixtures
from boxaloud.grammar.utterance.other_talk import TELLS, about_other_things
from boxaloud.grammar.utterance.repetitions import (
    clamps_on_some,
    denials_last,
    false_starts,
    goes_to_a_thing,
    listed_roles,
    once_corrected,
    without_sums,
)
from boxaloud.grammar.utterance.yokes import one_yoke


def without_empty_undo(made: list[Act]) -> list[Act]:
    """ "How many has the panel? Never mind": nothing is taken back; nor twice: "the 12-3 is not
    there, forget it"."""
    told = [act for act in made if not isinstance(act, acts.Undo)]
    passed = all(
        isinstance(act, (acts.AskUnknown, acts.OtherTalk, acts.Ask, acts.AskMeaning))
        for act in told
    )
    taken = any(isinstance(act, (acts.Remove, acts.Deny)) for act in told)
    if not told or not (passed or taken):
        return made
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.Undo)
            and re.match(r"(?i)never mind|forget (?:it|that)|take (?:it|that) out", act.words)
        )
    ]


def tidied(
    made: list[Act], left: list[Unread], parts: list[Clause], heard: str
) -> tuple[list[Act], list[Unread]]:
    """What an utterance as a whole makes of its parts."""
    if any(isinstance(act, acts.OtherTalk) for act in made):
        others = [act for act in made if isinstance(act, acts.OtherTalk)]
        exact = any(
            isinstance(act, (acts.AddCable, acts.SetSize))
            or (isinstance(act, acts.SetVolume) and not act.doubts)
            for act in made
        )
        weak = (
            acts.Number,
            acts.Size,
            acts.Place,
            acts.NoneOfThem,
            acts.Undo,
            acts.AddGrounds,
            acts.AddFitting,
            acts.AddDevice,
            acts.SetClamps,
            acts.OpenBox,
        )
        told = [act for act in made if isinstance(act, TELLS)]
        if (
            not exact
            and all(isinstance(act, weak) for act in told)
            and all(isinstance(act, (*TELLS, acts.OtherTalk, acts.No, acts.Yes)) for act in made)
            and len(others) * 2 >= len(parts)
        ):
            places = {act.span for act in others}
            return [others[0]], [run for run in left if run.span in places]
    made = landed_on_cables(
        [act for act in made if not (isinstance(act, acts.OpenBox) and act.name == "the")], heard
    )
    made = [part for act in goes_to_a_thing(made) for part in misplaced_count(act)]
    if any(isinstance(act, acts.Unground) for act in made):
        made = [
            act
            for act in made
            if not (isinstance(act, acts.AddGrounds) and act.count is None and act.awg is None)
        ]
    if about_other_things(made, parts):
        return [acts.OtherTalk(words=heard, span=(0, len(heard)))], []
    made = listed_roles(without_sums(made, heard), heard)
    made = once_corrected(each_pipe(made, heard, left), heard)
    made = quads_as_duplexes(switch_beside_box(clamps_on_some(made, heard), heard))
    made = of_fixtures(same_again(sizes_lent(made, heard), heard), heard, left)
    made, left = depth_said_apart(denials_last(made), heard, left)
    made = one_box(
        one_yoke(
            false_starts(
                without_heading_devices(joined_counts(without_activity(made, heard)), heard),
                heard,
            ),
            heard,
        ),
        heard,
    )
    if not left and not any(isinstance(act, TELLS) for act in made):
        left = _untold(made, parts, heard)
    told = [act for act in made if isinstance(act, TELLS)]
    if not told and left and not any(act for act in made):
        words = [element for clause in parts for element in clause.elements]
        strange = sum(
            1 for e in words if e.found is None and e.tag.isalpha() and e.tag not in known_words()
        )
        if strange >= 2:
            return [acts.OtherTalk(words=heard, span=(0, len(heard)))], []
    return made, left


_ORDER = frozenset(
    {"more", "less", "fewer", "another", "extra", "put", "take", "make", "pull", "throw", "bring"}
)


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
