"""Box fill by section, edition and source: what `rules` gives to the rest of the project.

Describe a box with the classes of `rules.contents`, work it out with `work_out`, and go from
any line of the worksheet to its source with `explain`. Nothing here knows words, people,
files or screens. Volumes are `Decimal` cubic inches.

Three 14-2 cables and a receptacle in a marked 18.0 come out exactly full (published in a DIY
Chatroom thread, 102858, which adds that inside clamps would take 2.0 more):

>>> from dataclasses import replace
>>> from decimal import Decimal
>>> from boxaloud.rules import advise, explain, work_out
>>> from boxaloud.rules.contents import Box, Cable, Marked, Yoke
>>> box = Box(
...     parts=(Marked(Decimal("18.0")),),
...     contents=(Cable(awg=14, conductors=2, ground=14, count=3), Yoke("receptacle", awg=14)),
...     clamps="none",
... )
>>> sheet = work_out(box)
>>> sheet.total, sheet.margin, sheet.verdict
(Decimal('18.00'), Decimal('0.00'), 'fits')
>>> [line.section for line in sheet.lines]
['314.16(B)(1)', '314.16(B)(4)', '314.16(B)(5)']
>>> explain(sheet.lines[0].rule).says
'A conductor that comes in from outside and is spliced or ends in the box counts once.'
>>> over = replace(box, clamps="inside")
>>> work_out(over).verdict
'over'
>>> any(way.kind == "clamp_outside" and way.enough for way in advise(over))
True
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from boxaloud.rules.adoption import EditionReading, check_edition, read_edition
from boxaloud.rules.cautions import STANDING, Caution, cautions
from boxaloud.rules.checks import validate, validate_part
from boxaloud.rules.contents import DEFAULT_EDITION, Box, Content, Part
from boxaloud.rules.data import RuleNote, Source
from boxaloud.rules.differences import Difference, differences
from boxaloud.rules.editions import (
    CANADIAN,
    allowance_table,
    counted_under,
    edition_named,
    editions,
    is_canadian,
    provisional,
)
from boxaloud.rules.errors import EditionUnsure, NoSuchBox, NoSuchEdition, NotMarked, RulesError
from boxaloud.rules.governing import Governs, governing
from boxaloud.rules.notes import explain, notes
from boxaloud.rules.sizes import Allowance, allowance, ground_for
from boxaloud.rules.table import TableRow, find_rows, table_boxes, table_row
from boxaloud.rules.work import work_out
from boxaloud.rules.worksheet import Line, OpenSlot, VolumeLine, Worksheet

if TYPE_CHECKING:
    from boxaloud.rules.advice import Advice, advise
    from boxaloud.rules.conduit import (
        BodyLine,
        BodySheet,
        ConduitBody,
        RacewayWires,
        most_conductors,
        work_out_conduit_body,
    )
    from boxaloud.rules.pull import (
        Pull,
        PullBox,
        PullSheet,
        Raceway,
        Requirement,
        work_out_pull_box,
    )
    from boxaloud.rules.room import Room, room_for
    from boxaloud.rules.smallest import BoxChoice, gangs_needed, smallest_boxes
    from boxaloud.rules.spaces import Space, work_out_spaces
    from boxaloud.rules.units import inches_of, marked_in3, shown_cm3, to_cm3, to_in3

#: Imported when first asked for: a worksheet needs none of them. Nothing that has the name of
#: its module may stand here, since the module would be found in its place.
_LATER = {
    "advice": ("Advice", "advise"),
    "conduit": (
        "BodyLine", "BodySheet", "ConduitBody", "RacewayWires", "most_conductors",
        "work_out_conduit_body",
    ),
    "pull": ("Pull", "PullBox", "PullSheet", "Raceway", "Requirement", "work_out_pull_box"),
    "room": ("Room", "room_for"),
    "smallest": ("BoxChoice", "gangs_needed", "smallest_boxes"),
    "spaces": ("Space", "work_out_spaces"),
    "units": ("inches_of", "marked_in3", "shown_cm3", "to_cm3", "to_in3"),
}  # fmt: skip
_MODULE = {name: module for module, names in _LATER.items() for name in names}

__all__ = [
    "CANADIAN",
    "DEFAULT_EDITION",
    "STANDING",
    "Advice",
    "Allowance",
    "BodyLine",
    "BodySheet",
    "Box",
    "BoxChoice",
    "Caution",
    "ConduitBody",
    "Content",
    "Difference",
    "EditionReading",
    "EditionUnsure",
    "Governs",
    "Line",
    "NoSuchBox",
    "NoSuchEdition",
    "NotMarked",
    "OpenSlot",
    "Part",
    "Pull",
    "PullBox",
    "PullSheet",
    "Raceway",
    "RacewayWires",
    "Requirement",
    "Room",
    "RuleNote",
    "RulesError",
    "Source",
    "Space",
    "TableRow",
    "VolumeLine",
    "Worksheet",
    "advise",
    "allowance",
    "allowance_table",
    "cautions",
    "check_edition",
    "counted_under",
    "differences",
    "edition_named",
    "editions",
    "explain",
    "find_rows",
    "gangs_needed",
    "governing",
    "ground_for",
    "inches_of",
    "is_canadian",
    "marked_in3",
    "most_conductors",
    "notes",
    "provisional",
    "read_edition",
    "room_for",
    "shown_cm3",
    "smallest_boxes",
    "table_boxes",
    "table_row",
    "to_cm3",
    "to_in3",
    "validate",
    "validate_part",
    "work_out",
    "work_out_conduit_body",
    "work_out_pull_box",
    "work_out_spaces",
]


def __getattr__(name: str) -> Any:
    if name not in _MODULE:
        raise AttributeError(f"module 'boxaloud.rules' has no attribute {name!r}")
    found = getattr(import_module(f"boxaloud.rules.{_MODULE[name]}"), name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
