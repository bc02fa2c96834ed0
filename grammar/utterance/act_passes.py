"""The passes over the acts of an utterance, each of which looks at all of them together."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.clauses.act_kinds import ROUTED
from boxaloud.grammar.utterance import elided_wires as elided
from boxaloud.grammar.utterance import listed_options
from boxaloud.grammar.utterance.announced_devices import announced_devices
from boxaloud.grammar.utterance.box_depths import depth_begun
from boxaloud.grammar.utterance.box_groups import depth_said_apart, one_box
from boxaloud.grammar.utterance.box_naming import counts_not_names, leads_on
from boxaloud.grammar.utterance.box_shapes import depth_not_volume
from boxaloud.grammar.utterance.boxes_put_in import box_put_in
from boxaloud.grammar.utterance.cable_groups import (
    each_pipe,
    joined_counts,
    misplaced_counts,
    sizes_lent,
)
from boxaloud.grammar.utterance.cable_roles import (
    ROLE_NAMES,
    all_of_unknown,
    both_named,
    headed_by_role,
    named_by_role,
)
from boxaloud.grammar.utterance.clamp_counts import clamps_counted, clamps_on_some
from boxaloud.grammar.utterance.clamps_among import so_many_inside
from boxaloud.grammar.utterance.contradictions import denied_at_once
from boxaloud.grammar.utterance.counted_as import counted_as
from boxaloud.grammar.utterance.counted_totals import totals, totals_checked
from boxaloud.grammar.utterance.counts_in_all import others_went, said_in_all
from boxaloud.grammar.utterance.device_groups import (
    quads_as_duplexes,
    switch_beside_box,
    without_activity,
    without_heading_devices,
)
from boxaloud.grammar.utterance.device_names import one_name
from boxaloud.grammar.utterance.device_purposes import for_devices
from boxaloud.grammar.utterance.device_ratings import by_rating
from boxaloud.grammar.utterance.device_repeats import same_again
from boxaloud.grammar.utterance.each_circuit import each_circuit
from boxaloud.grammar.utterance.explained_lists import explained
from boxaloud.grammar.utterance.false_starts import false_starts, said_after_doubt, said_twice
from boxaloud.grammar.utterance.fixture_groups import of_fixtures
from boxaloud.grammar.utterance.found_more import counted_anew
from boxaloud.grammar.utterance.gone_back import done_once, only_that
from boxaloud.grammar.utterance.heading_devices import named_by_device
from boxaloud.grammar.utterance.hedged_clamps import hedged_clamps
from boxaloud.grammar.utterance.kinds_of_all import all_of_a_kind
from boxaloud.grammar.utterance.landed_together import (
    landed_on_cables,
    landed_together,
    off_its_wires,
)
from boxaloud.grammar.utterance.lone_numbers import without_pronouns
from boxaloud.grammar.utterance.miscounts import cursed, miscounted, named_twice
from boxaloud.grammar.utterance.named_editions import one_edition, years_not_counts
from boxaloud.grammar.utterance.old_cables import described_ahead
from boxaloud.grammar.utterance.repetitions import (
    counted_in_all,
    denials_last,
    grounds_of_those,
    listed_roles,
    once_corrected,
    topic_of_order,
    without_sums,
)
from boxaloud.grammar.utterance.restated_counts import (
    counted_aloud,
    named_again,
    only_added,
    ordered_again,
    passes_through_again,
    put_out,
    taken_off,
    thought_before,
)
from boxaloud.grammar.utterance.restated_lists import restated_list
from boxaloud.grammar.utterance.ring_measures import ring_like_box, ring_measured
from boxaloud.grammar.utterance.roles_behind import named_behind
from boxaloud.grammar.utterance.said_anew import (
    asked_with_count,
    both_of_a_kind,
    gone_elsewhere,
    misspoken,
    one_was_hidden,
    what_is_left,
    yoke_of_that,
)
from boxaloud.grammar.utterance.said_in_two import IN_TWO_PIECES
from boxaloud.grammar.utterance.said_of_each import each_in_loop, ground_of_each, unreadable
from boxaloud.grammar.utterance.shared_out import shared_out
from boxaloud.grammar.utterance.shared_yokes import shared_yoke
from boxaloud.grammar.utterance.sums_of_cables import split_by_way, summed_up
from boxaloud.grammar.utterance.taken_once import parts_of_all, reason_for_more_wires, taken_once
from boxaloud.grammar.utterance.talk_passes import IN_TALK, OF_SIZES
from boxaloud.grammar.utterance.told_of import (
    for_others,
    goes_there,
    landed_behind,
    one_combined,
    said_once,
    said_to_be,
    some_of_those,
    sworn_at,
)
from boxaloud.grammar.utterance.ways_out import out_again
from boxaloud.grammar.utterance.wires_in_cables import wires_of_cables
from boxaloud.grammar.utterance.yokes import (
    appliance_outlets,
    gangs_behind,
    narrow_yoke,
    one_yoke,
    wide_yoke,
    yokes_of_those,
)
from boxaloud.grammar.utterance.yokes_said_apart import own_yokes, said_to_be_wide

Tidying: TypeAlias = Callable[[list[Act], str, list[Unread]], list[Act]]
"""A pass over the acts of an utterance, given its words and what was left unread, which it may
change in place."""
Passes: TypeAlias = tuple[tuple[Tidying, tuple[type[Act], ...], int], ...]
"""Each pass with the kinds of acts and the number of acts that it does nothing without; where no
kind is named it always looks."""


def passed(passes: Passes, made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts after those passes that have something to look at."""
    kinds = set(map(type, made))
    low = heard.lower()
    for tidying, sought, least in passes:
        if len(made) < least or (sought and kinds.isdisjoint(sought)):
            continue
        pieces = _PIECES.get(tidying)
        if pieces is None or any(piece in low for piece in pieces):
            made = tidying(made, heard, left)
            kinds = set(map(type, made))
    return made


def _nameless(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Back to the": no box has that name."""
    return [act for act in made if not (isinstance(act, acts.OpenBox) and act.name == "the")]


def _ungrounded(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """Beside cables that are said to have no ground, "ground" by itself is none."""
    return [
        act
        for act in made
        if not (isinstance(act, acts.AddGrounds) and act.count is None and act.awg is None)
    ]


_THINGS = tuple(THINGS.values())
FIRST: Passes = (
    (depth_not_volume, (acts.SetVolume,), 1),
    *IN_TWO_PIECES,
    *IN_TALK,
    (elided.elided_wires, (), 0),
    (said_to_be_wide, (acts.AddDevice,), 1),
    (own_yokes, (acts.AddDevice,), 2),
    (listed_options.without_options, (acts.SetSize, acts.SetVolume, acts.Number), 1),
    (listed_options.by_its_volume, (acts.SetSize, acts.Suppose), 1),
    (counted_aloud, (acts.Number,), 2),
    (thought_before, (acts.Number, acts.RestateNumber), 2),
    (counts_not_names, (acts.NextBox,), 2),
    (leads_on, (acts.NextBox,), 2),
    (shared_yoke, (), 0),
    (landed_together, (acts.AddDevice,), 2),
    (off_its_wires, (acts.Remove,), 1),
    (_nameless, (acts.OpenBox,), 1),
    (years_not_counts, _THINGS, 1),
    (one_edition, (acts.SetEdition,), 2),
    (hedged_clamps, (acts.SetClamps,), 1),
    (landed_on_cables, (acts.AddDevice,), 2),
    (for_others, (acts.AddDevice,), 2),
    (landed_behind, (acts.AddDevice,), 2),
    (goes_there, (acts.OpenBox,), 2),
    (said_to_be, (acts.AddDevice,), 2),
    (said_once, (acts.AddDevice,), 2),
    (sworn_at, (acts.AddDevice,), 2),
    (for_devices, (acts.AddDevice, acts.Land, acts.AddCable, acts.AddConductors), 1),
    (misplaced_counts, (acts.AddConductors, acts.AddGrounds), 1),
    (wires_of_cables, (acts.AddConductors,), 2),
    (_ungrounded, (acts.Unground,), 2),
)
THEN: Passes = (
    (each_in_loop, (acts.AddConductors,), 2),
    (ground_of_each, (acts.AddGrounds,), 2),
    (unreadable, (acts.AddCable, acts.More), 1),
    (appliance_outlets, (acts.Widen,), 1),
    (announced_devices, (acts.AddDevice, acts.Restate), 2),
    (described_ahead, (acts.AddCable,), 2),
    (some_of_those, (acts.Number,), 2),
    (without_pronouns, (acts.Number,), 2),
    (explained, (acts.AddConductors,), 2),
    (counted_anew, (*_THINGS, acts.More), 2),
    (counted_as, _THINGS, 2),
    (passes_through_again, (acts.AddConductors,), 2),
    (totals_checked, (acts.Number, acts.RestateNumber), 2),
    (out_again, (acts.AddConductors, acts.AddCable), 1),
    (split_by_way, (acts.AddCable,), 2),
    (summed_up, (acts.AddCable,), 2),
    (taken_once, (acts.Remove, acts.Keep, acts.Suppose, acts.Ask, acts.AskUnknown), 2),
    (done_once, (acts.DoIt,), 2),
    (only_that, (acts.Undo,), 2),
    (reason_for_more_wires, (acts.AddConductors,), 2),
    (parts_of_all, (acts.RestateNumber,), 1),
    (without_sums, (acts.AddConductors, acts.OpenBox), 2),
    (named_by_role, (acts.AddCable,), 1),
    (named_behind, (acts.AddCable,), 1),
    (headed_by_role, (acts.AddCable,), 2),
    (both_named, (acts.AddCable,), 2),
    (all_of_unknown, (acts.AddCable,), 1),
    (listed_roles, (acts.AddCable,), 2),
    (said_in_all, (acts.AddCable, acts.AddConductors, acts.AddDevice, acts.Restate), 1),
    (others_went, (acts.AddCable, acts.Recount, acts.Restate), 1),
    (counted_in_all, (acts.AddCable,), 1),
    (each_pipe, (), 0),
    (shared_out, (acts.AddCable, acts.AddDevice), 1),
    (each_circuit, (acts.AddCable, acts.AddConductors), 1),
    (taken_off, (acts.AddCable, acts.AddDevice, acts.AddConductors, acts.AddGrounds,
        acts.AddFitting), 1),
    (ordered_again, (acts.SetSize, acts.SetVolume), 1),
    (misspoken, (acts.Ask,), 1),
    (what_is_left, (acts.Remove,), 1),
    (gone_elsewhere, (acts.OpenBox, acts.NextBox), 2),
    (one_was_hidden, (acts.Number,), 2),
    (yoke_of_that, (acts.Replace, acts.Recount, acts.Restate), 2),
    (asked_with_count, (acts.Recount,), 2),
    (both_of_a_kind, (acts.Restate,), 1),
    (miscounted, _THINGS, 1),
    (named_twice, _THINGS, 2),
    (cursed, _THINGS, 1),
    (put_out, (acts.Remove,), 2),
    (all_of_a_kind, (acts.AddCable, acts.Restate, acts.Number), 1),
    (only_added, (acts.Restate,), 1),
    (named_again, (acts.RestateNumber, acts.Size), 2),
    (once_corrected, (acts.Restate, acts.Remove, acts.Recount, acts.DoIt, acts.Undo), 2),
    (clamps_counted, (acts.Number,), 2),
    (clamps_on_some, (acts.SetClamps,), 2),
    (so_many_inside, (acts.Place,), 2),
    (box_put_in, (acts.AddConductors,), 1),
    (switch_beside_box, (acts.SetVolume, acts.SetSize, acts.NameBoxKind), 1),
    (quads_as_duplexes, (acts.AddDevice, acts.Restate, acts.Replace), 1),
    (sizes_lent, (acts.Size,), 1),
    (one_name, (acts.AddDevice,), 2),
    (same_again, (acts.AddDevice, acts.AddTerminalBlock), 1),
    (of_fixtures, (*ROUTED, acts.AddFixtureWires), 1),
    *OF_SIZES,
    (grounds_of_those, (acts.Deny,), 2),
    (denials_last, (acts.Deny,), 2),
    (denied_at_once, (acts.Deny,), 2),
    (topic_of_order, (acts.Remove, acts.Restate), 2),
    (depth_begun, (acts.SetSize,), 1),
    (depth_said_apart, (), 0),
    (without_activity, (acts.AddDevice,), 2),
    (joined_counts, (acts.AddCable, acts.AddFixtureWires, acts.Number, acts.Recount), 2),
    (without_heading_devices, (acts.AddDevice,), 2),
    (false_starts, (acts.Number,), 2),
    (said_twice, (acts.Number,), 2),
    (said_after_doubt, (acts.Yes,), 3),
    (one_yoke, (acts.AddDevice,), 1),
    (one_combined, (acts.AddDevice,), 1),
    (gangs_behind, (acts.NameBoxKind,), 2),
    (wide_yoke, (), 0),
    (narrow_yoke, (acts.AddDevice,), 1),
    (yokes_of_those, (acts.AddDevice,), 2),
    (named_by_device, (acts.AddDevice, acts.AddTerminalBlock), 2),
    (restated_list, (acts.Restate,), 2),
    (totals, (acts.Ask,), 2),
    (ring_measured, (acts.AddPart,), 1),
    (ring_like_box, (acts.AddPart,), 2),
    (by_rating, (acts.AddDevice,), 1),
    (one_box, (acts.SetVolume, acts.SetSize, acts.AddPart), 1),
)  # fmt: skip

_PIECES: dict[Tidying, tuple[str, ...]] = {
    elided.elided_wires: elided.PIECES,
    said_to_be_wide: ("gang",),
    own_yokes: ("device",),
    named_by_role: ROLE_NAMES,
    all_of_unknown: ("all", "both"),
    counted_in_all: ("count", "total", "all", "altogether", "there"),
    all_of_a_kind: ("all", "both", "each", "every", "cable", "wire", "run", " of "),
    switch_beside_box: ("sw box", "switch box"),
    quads_as_duplexes: ("quad", "plex"),
    depth_not_volume: ("deep", "depth", "shallow"),
}
"""Pieces of words of which an utterance holds one where such a pass does anything."""
