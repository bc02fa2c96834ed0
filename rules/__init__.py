"""Box fill by section, edition and source: what `rules` gives to the rest of the project.

Describe a box with the classes of `rules.contents`, work it out with `work_out`, and go from
any line of the worksheet to its source with `explain`. Nothing here knows words, people,
files or screens. Volumes are `Decimal` cubic inches.
"""

from __future__ import annotations

from rules.checks import validate, validate_part
from rules.contents import DEFAULT_EDITION, Box, Content, Part
from rules.data import RuleNote, Source
from rules.editions import EditionReading, check_edition, editions, read_edition
from rules.errors import NoSuchBox, NoSuchEdition, RulesError
from rules.notes import explain, notes
from rules.sizes import Allowance, allowance, ground_for
from rules.table import TableRow, find_rows, table_boxes, table_row
from rules.units import marked_in3, shown_cm3, to_cm3, to_in3
from rules.work import work_out
from rules.worksheet import Line, OpenSlot, VolumeLine, Worksheet

__all__ = [
    "DEFAULT_EDITION",
    "Allowance",
    "Box",
    "Content",
    "EditionReading",
    "Line",
    "NoSuchBox",
    "NoSuchEdition",
    "OpenSlot",
    "Part",
    "RuleNote",
    "RulesError",
    "Source",
    "TableRow",
    "VolumeLine",
    "Worksheet",
    "allowance",
    "check_edition",
    "editions",
    "explain",
    "find_rows",
    "ground_for",
    "marked_in3",
    "notes",
    "read_edition",
    "shown_cm3",
    "table_boxes",
    "table_row",
    "to_cm3",
    "to_in3",
    "validate",
    "validate_part",
    "work_out",
]
