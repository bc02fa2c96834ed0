"""The passes over what is counted anew or further, each with the kinds of acts and the number of
acts that it does nothing without."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.utterance.further_wires import definite_first, further_wires
from boxaloud.grammar.utterance.named_closely import named_closely
from boxaloud.grammar.utterance.partly_grounded import grounds_in_those, partly_grounded
from boxaloud.grammar.utterance.parts_counted import parts_counted
from boxaloud.grammar.utterance.restated_beside import (
    another_so_many,
    clamps_taken_out,
    grounds_too,
    one_more_in_all,
    size_explained,
    sizes_counted,
    to_be_with,
)
from boxaloud.grammar.utterance.running_passes import Pass
from boxaloud.grammar.utterance.said_of_each import UNKNOWN_PIECES, nobody_knows_which

OF_COUNTS = (
    Pass(parts_counted, (acts.AddCable,), 1, (" are ", " were ")),
    Pass(named_closely, (acts.AddConductors, acts.AddDevice), 2),
    Pass(partly_grounded, (acts.Unground, acts.Restate, acts.Deny), 1),
    Pass(grounds_in_those, (acts.Recount,), 2),
    Pass(another_so_many, (acts.AddCable, acts.AddDevice), 2),
    Pass(one_more_in_all, (acts.Recount,), 2),
    Pass(sizes_counted, (acts.RestateNumber,), 2),
    Pass(size_explained, (acts.Restate,), 2),
    Pass(grounds_too, (acts.Resize,), 1),
    Pass(to_be_with, (acts.AddDevice,), 2),
    Pass(clamps_taken_out, (acts.Remove,), 2),
    Pass(further_wires, (acts.AddConductors, acts.AddCable), 1),
    Pass(definite_first, (acts.AddDevice,), 2),
    Pass(nobody_knows_which, (), 0, UNKNOWN_PIECES),
)
