"""What the phrases find in an utterance: flat statements, inside the grammar only.

A statement is a kind and its slots: a noun group, a value or a command. `grammar.clauses` puts
each into its clause as one tag, and the words around the tags decide what act it becomes
(`grammar.acts`, the contract with the dialogue). Operators (`make_that`, `what_if`, `no` …) are
statements of their own; their words are read anew in the clause.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from boxaloud.grammar.acts import Doubt, Value
from boxaloud.grammar.quick_dataclass import dataclass

__all__ = ["KINDS", "Doubt", "Statement", "Understanding", "Value"]


@dataclass(frozen=True, slots=True)
class Statement:
    """One thing said. `words` are the speaker's own; `span` their places in the utterance."""

    kind: str
    slots: Mapping[str, Value] = field(default_factory=dict)
    words: str = ""
    span: tuple[int, int] = (0, 0)
    doubts: tuple[Doubt, ...] = ()

    def get(self, slot: str, default: Value = None) -> Value:
        """The value of a slot, or `default` where it was not said."""
        return self.slots.get(slot, default)


@dataclass(frozen=True, slots=True)
class Understanding:
    """An utterance understood: statements in the order said, and what was not understood.

    One order is changed: "fourteen, not forty" gives the `no` first, as "no, fourteen" does.

    `left_over` holds every run of words that is neither phrase nor filler, as said. A number
    or a trade word that no phrase covers is always in it.
    """

    heard: str
    statements: tuple[Statement, ...]
    left_over: tuple[str, ...]
    passed: tuple[tuple[int, int], ...] = ()
    """The places of words that a phrase took and that say nothing by themselves."""


#: kind -> slots. A slot that was not said is absent (never None). int unless noted.
KINDS: dict[str, tuple[str, ...]] = {
    # -- what is in the box ------------------------------------------------------------------
    "cable": ("count", "awg", "conductors", "ground", "ground_awg", "path", "role"),
    #   count absent: one. ground: bool, absent when unsaid. path: str, see rules.contents.Path.
    #   role: str, "feed", "switch leg", "traveller" … only to echo.
    "conductors": ("count", "awg", "path", "role"),  # role: str ("white", "traveller" …)
    "grounds": ("count", "awg", "isolated", "canopy"),  # count 0: "no grounds"; absent: some
    "jumper": ("count", "awg", "enters"),
    "fixture_wires": ("count", "awg", "canopy", "grounds"),  # grounds: how many grounds with them
    "device": (
        "count",
        "name",
        "awg",
        "gangs",
        "depth",
        "unit",
    ),  # name: str, canonical ("three-way switch")
    "fitting": ("count", "name"),  # name: "luminaire stud", "hickey" …
    "terminal_block": ("count", "awg"),
    "uncounted": ("count", "name", "awg"),  # name: "wire connector", "locknut", "pigtail" …
    "clamps": ("where", "count"),  # where: inside, outside, none, moulded, present (unsaid)
    "nothing": ("of",),  # of: "device", "else", "fitting", "cover" …
    # -- the box itself ----------------------------------------------------------------------
    # volume: Decimal; rival: Decimal, the other of "18 or 20"
    "box_volume": ("volume", "rival", "unit", "gangs", "family", "material", "each"),
    #   unit: in3 (absent) or cm3. family: str, such as "old work", "pancake", "octagon".
    "box_size": ("family", "width", "height", "depth", "gangs", "material", "row", "unit"),
    #   Decimal inches, in the order of Table 314.16(A) (3 x 2 x 2-1/2 is width 3, height 2).
    #   family: square, octagon, device, handy, masonry, fs, fd, pancake. depth: Decimal, or the
    #   words "deep" or "shallow" as str. What was not said is absent.
    #   row: str, a row of Table 314.16(A) picked from a list; never said.
    "box_kind": ("gangs", "family", "material", "name"),  # a box named without volume or size
    "part": ("name", "volume", "unit", "gangs", "family", "width", "depth", "marked", "material"),
    #   name: "plaster ring", "extension ring", "domed cover", "raised cover"; marked: False for
    #   "unmarked".
    "barrier": ("material", "volume", "unit"),
    "clamp_assembly": ("count", "volume", "unit"),  # the part of it inside the box
    "space": ("which",),  # int: a space of a divided box
    "share": ("equal", "which", "volume", "rest", "unit"),  # how barriers share the volume out
    "hang": ("name", "weight", "unit"),  # what the box carries: fan, luminaire; pounds or kg
    "edition": ("year", "code"),  # year: str; code: str, a code or a place by its name
    "pull": ("kind", "size", "count", "others"),  # a pull box: straight, angle, u
    "unclear": ("unit", "gangs", "family", "material"),
    #   a figure, a measure or a range that is asked about and never taken; what stood around it
    # -- answers that need the open question -------------------------------------------------
    "number": ("value",),  # Decimal
    "size": ("awg",),  # "fourteen", "the twelves", "number ten"
    "place": ("where",),  # inside, outside
    "none": (),
    "yes": (),
    "no": (),
    "dont_know": (),
    "skip": (),
    # -- operators: they act on the next statement, or on the last thing said ----------------
    "make_that": ("count", "of"),  # count: "make it four of them", with nothing after it;
    #   of: str, "cable" where it is said of what
    "what_if": (),
    "more": ("count",),  # "and one more of those", "same again"
    "take_off": ("count", "awg", "conductors"),  # followed by what is taken off; alone: the last
    #   thing. awg and conductors: "take one 14-2 away", where what is taken off stands inside.
    "change": ("of", "item", "awg", "conductors"),
    #   "change the box to", "change the 14-2s to": followed by the new value.
    #   of: box, clamps, cable, conductors …, or the name of a device.
    #   awg, conductors: what the cable or conductors to be changed are now.
    #   item: int, the key of an item picked on a screen; never said.
    "lands_on": ("name", "awg", "count"),  # "(two of) the switches go on the twelves"
    "alias": ("say", "mean"),  # "when I say blue box I mean …" (both str)
    # -- questions and control ---------------------------------------------------------------
    "undo": ("count",),
    "redo": (),
    "scratch": (),
    "start_over": (),
    "read_back": (),
    "total": (),
    "margin": (),
    "capacity": (),
    "why": ("of",),  # of: str, the line asked about ("clamps", "grounds" …); absent: the last
    "why_ask": (),
    "room_for": ("count",),  # "how many more"/"will … fit": followed by a cable or conductors
    "smallest_box": (),
    "metric": (),
    "advice": (),
    "what_changes": ("year",),  # year: str
    "which_edition": (),
    "repeat": (),
    "slower": (),
    "brief": (),
    "full": (),
    "help": (),
    "go_back": (),
    "next_box": ("name",),
    "open_box": ("name",),
    "new_job": ("name",),
    "copy_box": ("name", "like"),
    "name_box": ("name",),
    "list_boxes": ("only",),  # only: str, the verdict that is asked for
    "delete_box": ("name",),
    "report": ("of", "form"),  # of: str, "job" or "box"; form: str, "pdf", "html", "csv", "json"
    "done": (),
}
