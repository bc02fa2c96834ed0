"""The passes over what is said in the course of a talk: undone, wiped, answered, become another."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.utterance.added_put_right import added_put_right
from boxaloud.grammar.utterance.answered_at_once import (
    asked_and_denied,
    clamps_answered,
    denied_behind,
    meant_not_that,
    numbers_asked_with,
    told_not_answered,
)
from boxaloud.grammar.utterance.asked_together import asked_together
from boxaloud.grammar.utterance.become_others import become_others, no_volume
from boxaloud.grammar.utterance.boxes_swapped import boxes_swapped, measures_said_apart
from boxaloud.grammar.utterance.cable_roles import box_that_feeds, feeding_on, passing_through
from boxaloud.grammar.utterance.cables_out import out_or_gone
from boxaloud.grammar.utterance.cables_unknown import cables_unknown
from boxaloud.grammar.utterance.clamp_counts import clamps_counted, clamps_on_some, one_on_each
from boxaloud.grammar.utterance.clamps_after_all import found_after_all
from boxaloud.grammar.utterance.clamps_among import so_many_inside
from boxaloud.grammar.utterance.cleaned_labels import wiped_to_read
from boxaloud.grammar.utterance.contradictions import (
    denied_at_once,
    is_another,
    nth_is_another,
    some_not_others,
)
from boxaloud.grammar.utterance.counted_by_name import (
    cable_spoken_of,
    named_one_by_one,
    numbers_run_up,
    uncounted_then_number,
)
from boxaloud.grammar.utterance.counts_put_right import (
    forgotten_once,
    meant_behind,
    put_right_after_no,
    said_over,
    why_so_many,
    wires_or_cables,
)
from boxaloud.grammar.utterance.denied_lists import denied_lists
from boxaloud.grammar.utterance.device_names import one_name
from boxaloud.grammar.utterance.device_words import device_ahead
from boxaloud.grammar.utterance.devices_by_purpose import PIECES as PURPOSE_PIECES
from boxaloud.grammar.utterance.devices_by_purpose import by_purpose
from boxaloud.grammar.utterance.devices_elsewhere import AWAY_PIECES, leads_elsewhere
from boxaloud.grammar.utterance.devices_summed import devices_broken_down, devices_summed
from boxaloud.grammar.utterance.false_starts import devices_said_anew
from boxaloud.grammar.utterance.fixture_groups import no_ground_of_fixture
from boxaloud.grammar.utterance.gang_volumes import volume_of_gangs
from boxaloud.grammar.utterance.grounds_of_lists import PIECES as GROUND_PIECES
from boxaloud.grammar.utterance.grounds_of_lists import none_grounded
from boxaloud.grammar.utterance.heads_behind_with import ON_A_CABLE_PIECES, heads_behind_with
from boxaloud.grammar.utterance.hedged_clamps import clamps_looked_for
from boxaloud.grammar.utterance.joined_devices import joined_devices
from boxaloud.grammar.utterance.left_after_removal import left_after_removal
from boxaloud.grammar.utterance.names_in_two import place_behind
from boxaloud.grammar.utterance.nods_to_others import nods_to_others
from boxaloud.grammar.utterance.numbered_ones import (
    forgotten_nth,
    had_out,
    looked_like,
    named_then_counted,
    no_nth,
    not_so_many_more,
    nth_then_all,
    said_wrongly,
    told_otherwise,
    would_have,
)
from boxaloud.grammar.utterance.of_other_talk import goes_on_of_it
from boxaloud.grammar.utterance.orders_corrected import orders_corrected
from boxaloud.grammar.utterance.own_clamps import clamps_of_box
from boxaloud.grammar.utterance.pointed_out import pointed_out
from boxaloud.grammar.utterance.read_off_devices import read_off_devices
from boxaloud.grammar.utterance.repetitions import (
    denials_last,
    grounds_of_those,
    sized_grounds,
    topic_of_order,
)
from boxaloud.grammar.utterance.retold_wires import (
    grounds_among,
    parts_of_count,
    size_of_ground,
    switch_box,
    wires_of_cables,
)
from boxaloud.grammar.utterance.running_passes import Pass
from boxaloud.grammar.utterance.said_once_more import (
    TOLD_PIECES,
    already_told,
    clamps_put_right,
    only_so_many_more,
    pole_behind,
    sizes_of_all,
    volume_of_that,
)
from boxaloud.grammar.utterance.second_ones import second_ones
from boxaloud.grammar.utterance.sized_behind import sized_after_way, sized_behind
from boxaloud.grammar.utterance.sizes_as_headings import (
    headed_by_size,
    sized_ahead,
    sized_by_both,
)
from boxaloud.grammar.utterance.sizes_asked_for import sizes_asked_for
from boxaloud.grammar.utterance.some_become_others import (
    one_at_a_side,
    some_become_others,
    swapped_for_that,
)
from boxaloud.grammar.utterance.some_taken_out import some_taken_out
from boxaloud.grammar.utterance.taken_once import drawn_back, single_one
from boxaloud.grammar.utterance.topics_ordered import last_of_size, ordered_together
from boxaloud.grammar.utterance.undone_things import others_stay, said_gone, undone_things
from boxaloud.grammar.utterance.unmarked_lists import unmarked_lists
from boxaloud.grammar.utterance.wires_uncounted import wires_uncounted

_SAID_ANEW = (acts.Restate, acts.Recount, acts.Replace, acts.RestateNumber, acts.Reclassify)
_GOING = (acts.AddDevice, acts.AddCable, acts.AddConductors, acts.AddFitting, acts.Restate)
IN_TALK = (
    Pass(by_purpose, (acts.AddDevice,), 1, PURPOSE_PIECES),
    Pass(boxes_swapped, (acts.Remove, acts.DoIt, acts.RestateNumber), 1),
    Pass(measures_said_apart, (acts.SetSize,), 1),
    Pass(some_taken_out, (acts.Remove,), 1),
    Pass(place_behind, (acts.NextBox,), 1),
    Pass(
        goes_on_of_it,
        (
            acts.Number,
            acts.RestateNumber,
            acts.SetVolume,
            acts.AddUncounted,
            acts.Recount,
            acts.Unground,
        ),
        2,
    ),
    Pass(wiped_to_read, (acts.StartOver, acts.Remove, acts.Undo), 1),
    Pass(single_one, (acts.Remove,), 1),
    Pass(drawn_back, (acts.OpenBox,), 2),
    Pass(size_of_ground, (acts.AddGrounds,), 2),
    Pass(switch_box, (acts.SetSize,), 2),
    Pass(wires_of_cables, (acts.AddCable,), 2),
    Pass(parts_of_count, (acts.AddConductors,), 3),
    Pass(grounds_among, (acts.AddGrounds,), 2),
    Pass(already_told, tuple(THINGS.values()), 1, TOLD_PIECES),
    Pass(only_so_many_more, (acts.RestateNumber, acts.Recount), 2, ("just", "only")),
    Pass(pole_behind, (acts.AddDevice,), 2),
    Pass(devices_summed, (acts.AddDevice,), 2),
    Pass(devices_broken_down, (acts.AddDevice,), 2),
    Pass(joined_devices, (acts.AddDevice,), 2),
    Pass(sizes_of_all, (acts.AddGrounds, acts.AddConductors), 1),
    Pass(volume_of_that, (acts.DoIt,), 2),
    Pass(clamps_put_right, (acts.Undo,), 2),
    Pass(ordered_together, (acts.Remove,), 3),
    Pass(last_of_size, (acts.Remove,), 1),
    Pass(passing_through, (acts.Skip,), 2),
    Pass(named_one_by_one, (acts.AddConductors,), 2),
    Pass(numbers_run_up, (acts.Number,), 3),
    Pass(uncounted_then_number, (acts.AddUncounted,), 2),
    Pass(cable_spoken_of, (acts.AddCable,), 2),
    Pass(volume_of_gangs, (acts.NameBoxKind, acts.NextBox), 1),
    Pass(box_that_feeds, (acts.AddCable,), 1, ("feed", "fed", "suppl")),
    Pass(feeding_on, (acts.AddCable,), 2),
    Pass(one_on_each, (acts.SetClamps,), 2),
    Pass(no_nth, (), 0, ("no ",)),
    Pass(forgotten_nth, (acts.More,), 1),
    Pass(nth_then_all, (acts.More,), 2),
    Pass(not_so_many_more, (acts.More, acts.RestateNumber, acts.Number), 1, (" more",)),
    Pass(told_otherwise, (acts.AddDevice,), 2, ("but ",)),
    Pass(said_wrongly, (acts.Restate,), 3),
    Pass(named_then_counted, (acts.AddCable,), 2),
    Pass(had_out, (acts.AddCable, acts.AddConductors), 1, ("have ",)),
    Pass(would_have, (acts.AskUnknown,), 2),
    Pass(looked_like, (acts.RestateNumber, acts.SetVolume), 1, (" like ",)),
    Pass(undone_things, (acts.Undo,), 2),
    Pass(said_gone, _GOING, 1),
    Pass(orders_corrected, (acts.Remove, acts.Deny, acts.Keep, acts.Suppose, acts.AskMeaning), 2),
    Pass(others_stay, (acts.PutBack, acts.AddCable, acts.AddDevice), 1, ("stay", "still")),
    Pass(found_after_all, (), 0),
    Pass(heads_behind_with, (acts.AddCable, acts.AddConductors), 1, ON_A_CABLE_PIECES),
    Pass(clamps_answered, (acts.AskMeaning, acts.SetClamps), 1),
    Pass(told_not_answered, (acts.Yes,), 2, ("there",)),
    Pass(asked_and_denied, (), 1, ("no", "nah")),
    Pass(clamps_looked_for, (acts.SetClamps, acts.DontKnow), 1, ("clamp",)),
    Pass(numbers_asked_with, (acts.Number,), 2),
    Pass(denied_behind, _SAID_ANEW, 1),
    Pass(meant_not_that, (acts.Deny,), 2),
    Pass(sized_behind, (acts.AddCable,), 1),
    Pass(sized_after_way, (acts.AddCable,), 2),
    Pass(out_or_gone, (acts.AddCable,), 1, (" out",)),
    Pass(headed_by_size, (acts.AddCable,), 2),
    Pass(sized_ahead, (acts.AddConductors,), 2),
    Pass(sized_by_both, (acts.AddGrounds,), 2),
    Pass(devices_said_anew, (acts.AddDevice,), 2),
    Pass(some_become_others, (acts.AddDevice, acts.AddCable, acts.AddConductors), 2),
    Pass(
        swapped_for_that,
        (acts.AddDevice, acts.AddCable, acts.AddConductors),
        2,
        ("swap", "trade", "change", "switch", "exchange", "replace"),
    ),
    Pass(become_others, (acts.AddDevice, acts.AddCable, acts.AddConductors, acts.Restate), 2),
    Pass(denied_lists, (acts.Deny, acts.SetClamps), 1, ("or",)),
    Pass(nth_is_another, (acts.Deny,), 2),
    Pass(is_another, (acts.Deny,), 2),
    Pass(some_not_others, (acts.Deny,), 2),
    Pass(no_volume, (acts.SetVolume,), 2),
    Pass(leads_elsewhere, (acts.AddDevice, acts.Land), 1, AWAY_PIECES),
    Pass(pointed_out, (acts.Restate,), 2),
    Pass(added_put_right, (acts.Restate, acts.Deny), 2),
    Pass(read_off_devices, (acts.SetVolume,), 2),
    Pass(asked_together, (acts.PutBack,), 2),
    Pass(cables_unknown, (), 0, ("cable", "wire", "run")),
)
"""As `act_passes.FIRST`, before those of all utterances."""
PUT_RIGHT = (
    Pass(second_ones, (acts.Restate,), 1, ("second", "2nd")),
    Pass(left_after_removal, (acts.Remove,), 2),
    Pass(nods_to_others, (acts.Yes, acts.No, acts.DoIt), 1),
    Pass(put_right_after_no, (acts.No,), 2),
    Pass(meant_behind, tuple(THINGS.values()), 1),
    Pass(wires_or_cables, (acts.Restate, acts.RestateList), 2),
    Pass(said_over, (*THINGS.values(), acts.Restate), 1),
    Pass(forgotten_once, tuple(THINGS.values()), 1),
    Pass(one_at_a_side, (acts.Replace,), 1),
    Pass(why_so_many, (acts.RestateNumber, acts.Recount, acts.Restate), 1),
)
"""Of counts that are said again."""
OF_NAMES = (
    Pass(unmarked_lists, (acts.AddDevice,), 1),
    Pass(one_name, (acts.AddDevice,), 2),
    Pass(device_ahead, (acts.AddCable,), 1),
)
"""Of names that stand side by side."""
OF_SIZES = (
    Pass(sizes_asked_for, (acts.RoomFor,), 1),
    Pass(sized_grounds, (acts.AddGrounds,), 1),
    Pass(wires_uncounted, (acts.AddConductors,), 1),
)
OF_CLAMPS = (
    Pass(clamps_counted, (acts.Number,), 2),
    Pass(clamps_on_some, (acts.SetClamps,), 2),
    Pass(so_many_inside, (acts.Place, acts.SetClamps), 2),
    Pass(clamps_of_box, (acts.SetClamps,), 1),
)
"""Of clamps that are counted, or of some cables."""
OF_DENIALS = (
    Pass(no_ground_of_fixture, (acts.Deny,), 2),
    Pass(grounds_of_those, (acts.Deny,), 2),
    Pass(none_grounded, (acts.AddCable,), 2, GROUND_PIECES),
    Pass(denials_last, (acts.Deny,), 2),
    Pass(denied_at_once, (acts.Deny,), 2),
    Pass(topic_of_order, (acts.Remove, acts.Restate), 2),
)
"""Of what is denied."""
