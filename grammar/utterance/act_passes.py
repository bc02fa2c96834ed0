"""The passes over the acts of an utterance, each of which looks at all of them together."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.clauses.act_kinds import ROUTED
from boxaloud.grammar.utterance import elided_wires as elided
from boxaloud.grammar.utterance import listed_options
from boxaloud.grammar.utterance.announced_devices import announced_devices
from boxaloud.grammar.utterance.box_depths import depth_begun, face_said_behind, one_of_a_kind
from boxaloud.grammar.utterance.box_groups import depth_said_apart, one_box
from boxaloud.grammar.utterance.box_naming import counts_not_names, leads_on
from boxaloud.grammar.utterance.box_openings import nameless
from boxaloud.grammar.utterance.box_shapes import depth_not_volume
from boxaloud.grammar.utterance.boxes_put_in import box_put_in
from boxaloud.grammar.utterance.cable_groups import (
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
from boxaloud.grammar.utterance.counted_as import counted_as
from boxaloud.grammar.utterance.counted_over import COUNTED_PIECES, counted_in_all
from boxaloud.grammar.utterance.counted_totals import sum_agrees, totals, totals_checked
from boxaloud.grammar.utterance.counted_twice import counted_of_topic, counted_twice
from boxaloud.grammar.utterance.counts_in_all import OF_ALL_THERE_ARE
from boxaloud.grammar.utterance.device_groups import (
    quads_as_duplexes,
    without_activity,
    without_heading_devices,
)
from boxaloud.grammar.utterance.device_purposes import for_devices, reason_of_change
from boxaloud.grammar.utterance.device_ratings import by_rating
from boxaloud.grammar.utterance.device_repeats import same_again
from boxaloud.grammar.utterance.explained_lists import explained
from boxaloud.grammar.utterance.false_starts import false_starts, said_after_doubt, said_twice
from boxaloud.grammar.utterance.fed_by_cables import fed_by_cables
from boxaloud.grammar.utterance.fixture_groups import leads_counted, not_of_the_fixture, of_fixtures
from boxaloud.grammar.utterance.found_more import counted_anew
from boxaloud.grammar.utterance.gone_back import done_once, only_that
from boxaloud.grammar.utterance.heading_devices import named_by_device
from boxaloud.grammar.utterance.hedged_clamps import hedged_clamps
from boxaloud.grammar.utterance.kinds_of_all import OF_ALL_PIECES, all_of_a_kind
from boxaloud.grammar.utterance.landed_anew import landed_anew
from boxaloud.grammar.utterance.landed_on_that import landed_on_that
from boxaloud.grammar.utterance.landed_together import (
    landed_on_cables,
    landed_together,
    off_its_wires,
)
from boxaloud.grammar.utterance.lone_numbers import without_pronouns
from boxaloud.grammar.utterance.miscounts import (
    CURSE_PIECES,
    MISCOUNT_PIECES,
    cursed,
    miscounted,
    named_twice,
)
from boxaloud.grammar.utterance.named_editions import (
    OF_YEARS,
    before_connectors,
    one_edition,
    without_hints,
    years_not_counts,
)
from boxaloud.grammar.utterance.old_cables import described_ahead
from boxaloud.grammar.utterance.one_each_side import SIDES, each_side
from boxaloud.grammar.utterance.passes_of_counts import OF_COUNTS
from boxaloud.grammar.utterance.passes_of_dictation import AT_LAST, OF_DEVICES, OF_WIRES
from boxaloud.grammar.utterance.pipes_counted import each_pipe
from boxaloud.grammar.utterance.pointed_at import OF_POINTING
from boxaloud.grammar.utterance.repetitions import (
    listed_roles,
    once_corrected,
    ungrounded,
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
from boxaloud.grammar.utterance.ring_measures import ring_like_box, ring_measured, ring_too_large
from boxaloud.grammar.utterance.roles_behind import named_behind
from boxaloud.grammar.utterance.running_passes import Pass, Passes
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
from boxaloud.grammar.utterance.sentences_apart import OF_THEIR_OWN, yoke_named
from boxaloud.grammar.utterance.shared_out import SHARING, shared_out
from boxaloud.grammar.utterance.shared_yokes import shared_yoke
from boxaloud.grammar.utterance.sums_of_cables import split_by_way, summed_up
from boxaloud.grammar.utterance.switches_summed import switches_summed
from boxaloud.grammar.utterance.taken_once import parts_of_all, reason_for_more_wires, taken_once
from boxaloud.grammar.utterance.talk_passes import (
    IN_TALK,
    OF_CLAMPS,
    OF_DENIALS,
    OF_NAMES,
    OF_SIZES,
    PUT_RIGHT,
)
from boxaloud.grammar.utterance.told_in_groups import told_in_groups
from boxaloud.grammar.utterance.told_of import (
    for_others,
    goes_there,
    landed_behind,
    one_combined,
    said_once,
    said_to_be,
    some_are_others,
    some_of_those,
    sworn_at,
)
from boxaloud.grammar.utterance.ways_out import WAY_OUT_PIECES, out_again
from boxaloud.grammar.utterance.wires_in_cables import wires_in_cables
from boxaloud.grammar.utterance.yokes import (
    appliance_outlets,
    gangs_behind,
    narrow_yoke,
    one_yoke,
    wide_yoke,
    yokes_of_those,
)
from boxaloud.grammar.utterance.yokes_said_apart import own_yokes, said_to_be_wide

_THINGS = tuple(THINGS.values())
_TAKEN_OFF = (
    acts.AddCable, acts.AddDevice, acts.AddConductors, acts.AddGrounds, acts.AddFitting,
)  # fmt: skip
FIRST = Passes(
    (
        Pass(depth_not_volume, (acts.SetVolume,), 1, ("deep", "depth", "shallow")),
        *IN_TWO_PIECES,
        *OF_THEIR_OWN,
        *IN_TALK,
        Pass(elided.elided_wires, (), 0, elided.PIECES),
        Pass(said_to_be_wide, (acts.AddDevice,), 1, ("gang",)),
        Pass(own_yokes, (acts.AddDevice,), 2, ("device",)),
        Pass(listed_options.without_options, (), 0),
        Pass(listed_options.by_its_volume, (acts.SetSize, acts.Suppose), 1),
        Pass(counted_twice, _THINGS, 1, ("twice",)),
        Pass(counted_of_topic, (acts.Recount,), 1),
        Pass(counted_aloud, (acts.Number,), 2),
        Pass(thought_before, (acts.Number, acts.RestateNumber), 2),
        Pass(counts_not_names, (acts.NextBox,), 2),
        Pass(leads_on, (acts.NextBox,), 2),
        Pass(shared_yoke, (), 0),
        Pass(yoke_named, (acts.ShareYoke,), 2),
        Pass(landed_together, (acts.AddDevice,), 2),
        Pass(off_its_wires, (acts.Remove,), 1),
        Pass(nameless, (acts.OpenBox,), 1),
        Pass(years_not_counts, _THINGS, 1),
        *OF_YEARS,
        Pass(without_hints, (acts.SetEdition,), 1),
        Pass(one_edition, (acts.SetEdition,), 2),
        Pass(before_connectors, (acts.SetClamps,), 2),
        Pass(hedged_clamps, (acts.SetClamps, acts.NoneOfThem), 1),
        Pass(landed_on_cables, (acts.AddDevice,), 2),
        Pass(fed_by_cables, (acts.AddDevice,), 2),
        Pass(told_in_groups, (acts.AddDevice,), 4),
        Pass(for_others, (acts.AddDevice,), 2),
        Pass(landed_behind, (acts.AddDevice,), 2),
        Pass(landed_on_that, (acts.AddDevice,), 2, (" on t",)),
        Pass(landed_anew, (acts.Restate,), 1),
        Pass(goes_there, (acts.OpenBox,), 2),
        Pass(said_to_be, (acts.AddDevice,), 2),
        Pass(said_once, (acts.AddDevice,), 2, (".", "!", "?", "…")),
        Pass(sworn_at, (acts.AddDevice,), 2),
        Pass(reason_of_change, (acts.AddDevice,), 2, ("way",)),
        Pass(for_devices, (acts.AddDevice, acts.Land, acts.AddCable, acts.AddConductors), 1),
        Pass(misplaced_counts, (acts.AddConductors, acts.AddGrounds), 1),
        Pass(wires_in_cables, (acts.AddConductors,), 2),
        Pass(ungrounded, (acts.Unground,), 2),
    )
)
THEN = Passes(
    (
        *OF_COUNTS,
        Pass(each_in_loop, (acts.AddConductors,), 2),
        Pass(ground_of_each, (acts.AddGrounds,), 2),
        Pass(unreadable, (acts.AddCable, acts.More, acts.AddDevice, acts.AddConductors), 1),
        Pass(appliance_outlets, (acts.Widen,), 1),
        *OF_POINTING,
        Pass(announced_devices, (acts.AddDevice, acts.Restate), 2),
        Pass(described_ahead, (acts.AddCable,), 2),
        Pass(some_of_those, (acts.Number,), 2),
        Pass(some_are_others, (acts.AddCable, acts.Restate), 1, (" of ",)),
        Pass(without_pronouns, (acts.Number,), 2, ("that one", "this one")),
        Pass(explained, (acts.AddConductors,), 2),
        Pass(counted_anew, (*_THINGS, acts.More), 2),
        Pass(counted_as, _THINGS, 2),
        Pass(passes_through_again, (acts.AddConductors,), 2),
        Pass(totals_checked, (acts.Number, acts.RestateNumber), 2),
        Pass(sum_agrees, (acts.Number, acts.RestateNumber), 2, ("so",)),
        *OF_WIRES,
        Pass(out_again, (acts.AddConductors, acts.AddCable), 1, WAY_OUT_PIECES),
        Pass(split_by_way, (acts.AddCable,), 2),
        Pass(summed_up, (acts.AddCable,), 2),
        Pass(taken_once, (acts.Remove, acts.Keep, acts.Suppose, acts.Ask, acts.AskUnknown), 2),
        Pass(done_once, (acts.DoIt,), 2),
        Pass(only_that, (acts.Undo,), 2),
        Pass(reason_for_more_wires, (acts.AddConductors,), 2),
        Pass(parts_of_all, (acts.RestateNumber,), 1),
        Pass(without_sums, (acts.AddConductors, acts.OpenBox), 2),
        Pass(named_by_role, (acts.AddCable,), 1, ROLE_NAMES),
        Pass(named_behind, (acts.AddCable,), 1),
        Pass(headed_by_role, (acts.AddCable,), 2),
        Pass(both_named, (acts.AddCable,), 2),
        Pass(all_of_unknown, (acts.AddCable,), 1, ("all", "both")),
        Pass(listed_roles, (acts.AddCable,), 2),
        *OF_ALL_THERE_ARE,
        Pass(counted_in_all, (acts.AddCable, acts.AddConductors), 1, COUNTED_PIECES),
        Pass(each_pipe, (), 0, ("each", "per pipe", "apiece")),
        Pass(
            each_side,
            (acts.AddCable, acts.AddConductors, acts.AddGrounds, acts.AddDevice, acts.Restate),
            1,
            SIDES,
        ),
        Pass(shared_out, (acts.AddCable, acts.AddDevice), 1, SHARING),
        Pass(taken_off, _TAKEN_OFF, 1),
        Pass(ordered_again, (acts.SetSize, acts.SetVolume), 1),
        Pass(misspoken, (acts.Ask,), 1),
        Pass(what_is_left, (acts.Remove,), 1),
        Pass(gone_elsewhere, (acts.OpenBox, acts.NextBox), 1),
        Pass(one_was_hidden, (acts.Number,), 2),
        Pass(yoke_of_that, (acts.Replace, acts.Recount, acts.Restate), 2),
        Pass(asked_with_count, (acts.Recount,), 2),
        Pass(both_of_a_kind, (acts.Restate,), 1),
        Pass(miscounted, (*_THINGS, acts.Restate), 1, MISCOUNT_PIECES),
        Pass(named_twice, _THINGS, 2),
        Pass(cursed, _THINGS, 1, CURSE_PIECES),
        Pass(put_out, (acts.Remove,), 2),
        Pass(all_of_a_kind, (acts.AddCable, acts.Restate, acts.Number), 1, OF_ALL_PIECES),
        Pass(only_added, (acts.Restate,), 1),
        Pass(named_again, (acts.RestateNumber, acts.Size), 2),
        Pass(once_corrected, (acts.Restate, acts.Remove, acts.Recount, acts.DoIt, acts.Undo), 2),
        *OF_CLAMPS,
        Pass(box_put_in, (acts.AddConductors,), 1),
        Pass(quads_as_duplexes, (acts.AddDevice, acts.Restate, acts.Replace), 1, ("quad", "plex")),
        Pass(sizes_lent, (acts.Size,), 1),
        *OF_NAMES,
        Pass(switches_summed, (acts.AddDevice,), 3),
        Pass(same_again, (acts.AddDevice, acts.AddTerminalBlock), 1),
        Pass(of_fixtures, (*ROUTED, acts.AddFixtureWires, acts.Restate), 1),
        Pass(leads_counted, (acts.AddFixtureWires,), 2),
        Pass(not_of_the_fixture, (acts.AddFixtureWires,), 1),
        *OF_SIZES,
        *PUT_RIGHT,
        *OF_DENIALS,
        Pass(depth_begun, (acts.SetSize,), 1),
        Pass(face_said_behind, (acts.SetSize,), 2),
        Pass(one_of_a_kind, (acts.Number,), 2, ("one of ", "1 of ")),
        Pass(depth_said_apart, (), 0),
        Pass(without_activity, (acts.AddDevice,), 2, ("ing ",)),
        Pass(joined_counts, (acts.AddCable, acts.AddFixtureWires, acts.Number, acts.Recount), 2),
        Pass(without_heading_devices, (acts.AddDevice,), 2),
        Pass(false_starts, (acts.Number,), 2),
        Pass(said_twice, (acts.Number,), 2),
        Pass(said_after_doubt, (acts.Yes,), 3),
        Pass(one_yoke, (acts.AddDevice,), 1),
        Pass(one_combined, (acts.AddDevice,), 1),
        Pass(gangs_behind, (acts.NameBoxKind,), 2),
        Pass(wide_yoke, (), 0),
        Pass(narrow_yoke, (acts.AddDevice,), 1),
        Pass(yokes_of_those, (acts.AddDevice,), 2),
        *OF_DEVICES,
        Pass(named_by_device, (acts.AddDevice, acts.AddTerminalBlock), 2),
        Pass(restated_list, (acts.Restate,), 2),
        Pass(totals, (acts.Ask,), 2),
        Pass(ring_measured, (acts.AddPart,), 1),
        Pass(ring_like_box, (acts.AddPart,), 2),
        Pass(ring_too_large, (acts.AddPart,), 1, ("ring",)),
        Pass(by_rating, (acts.AddDevice,), 1),
        Pass(one_box, (acts.SetVolume, acts.SetSize, acts.AddPart), 1),
        *AT_LAST,
    )
)
