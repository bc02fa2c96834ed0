"""The passes over what is dictated without marks, each with the kinds of acts and the pieces of
words that it does nothing without."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.utterance.box_depths import face_then_depth
from boxaloud.grammar.utterance.boxes_by_outlet import (
    further_by_order,
    in_its_outlet,
    said_of_its_type,
)
from boxaloud.grammar.utterance.defined_boxes import defined_by_device
from boxaloud.grammar.utterance.running_passes import Pass
from boxaloud.grammar.utterance.same_ways import SAME_PIECES, same_out
from boxaloud.grammar.utterance.sums_of_wires import (
    SUM_PIECES,
    UNNAMED_PIECES,
    grounds_summed,
    of_no_name,
    one_device_said,
)

OF_WIRES = (
    Pass(same_out, (), 0, SAME_PIECES),
    Pass(grounds_summed, (acts.AddGrounds,), 2, SUM_PIECES),
    Pass(of_no_name, (acts.AddCable, acts.AddConductors, acts.AddDevice), 1, UNNAMED_PIECES),
)
OF_DEVICES = (
    Pass(said_of_its_type, (acts.AddDevice,), 2, ("type", "style", "kind", "model")),
    Pass(one_device_said, (acts.AddDevice,), 2, ("device",)),
    Pass(defined_by_device, (acts.AddDevice, acts.Restate), 3),
    Pass(in_its_outlet, (acts.AddDevice,), 2),
)
AT_LAST = (
    Pass(face_then_depth, (acts.SetSize,), 2),
    Pass(further_by_order, (acts.AddDevice,), 1, ("add", "put in", "throw in", "install")),
)
