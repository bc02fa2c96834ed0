"""The dialogue acts that an utterance is made of: the contract between grammar and dialogue.

One frozen dataclass per intent, so that the type checker sees every handler. The communicative
functions are those of ISO 24617-2, as far as this work needs them. What was not said is None.
Only acts that inform, answer, correct or request may change a box; a question, a supposition or
talk about something else never does.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal, TypeAlias

Value: TypeAlias = int | Decimal | str | bool | None
Function: TypeAlias = Literal["inform", "correction", "request"]
"""What a telling act does: `correction` where the words mark it as one ("actually", "I mean"),
`request` where it is an order ("add", "make it"), else `inform`."""

Reason: TypeAlias = Literal[
    "heard", "repaired", "confusable", "unusual", "vague", "carried", "beside", "flips",
    "unsized", "operator", "conflict",
]  # fmt: skip
"""Why a slot is not to be trusted yet.

`heard`: the ear was unsure; `repaired`: a misspelling was mended; `confusable`: it sounds like
another value; `unusual`: a value that is rarely right; `vague`: several were said, not how many;
`carried`: left unsaid, taken from a neighbour; `beside`: a word that was not understood stands
right beside it; `flips`: it turns the verdict over; `unsized`: wires without a size; `operator`:
an unknown verb stands before it; `conflict`: two values for one slot in one breath.
"""


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why a slot of an act is not to be trusted yet."""

    slot: str
    reason: Reason
    instead: Value = None
    """The other value it may have been, where there is one: its rival."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """What every act carries: the speaker's own words and their place in the utterance."""

    words: str = ""
    span: tuple[int, int] = (0, 0)
    doubts: tuple[Doubt, ...] = ()
    function: Function = "inform"


# -- things that may be in a box, as they were said --------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class AddCable(Act):
    """Cables of one kind. `count` None: one. `role` is only echoed ("feed", "switch leg")."""

    count: int | None = None
    awg: int | None = None
    conductors: int | None = None
    ground: bool | None = None
    ground_awg: int | None = None
    path: str | None = None
    role: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddConductors(Act):
    """Insulated conductors named one by one."""

    count: int | None = None
    awg: int | None = None
    path: str | None = None
    role: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddGrounds(Act):
    """Equipment grounding conductors; `count` None: some, nobody said how many."""

    count: int | None = None
    awg: int | None = None
    isolated: bool | None = None
    canopy: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddJumper(Act):
    """An equipment bonding jumper."""

    count: int | None = None
    awg: int | None = None
    enters: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddFixtureWires(Act):
    """The tails of a luminaire, with how many grounds."""

    count: int | None = None
    awg: int | None = None
    canopy: bool | None = None
    grounds: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddDevice(Act):
    """Yokes, each with one or more devices on it."""

    count: int | None = None
    name: str | None = None
    awg: int | None = None
    gangs: int | None = None
    depth: Decimal | None = None
    """How far it reaches behind its strap, in inches, or in `unit` cm or mm."""
    unit: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddFitting(Act):
    """A luminaire stud, a hickey or another support fitting."""

    count: int | None = None
    name: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddTerminalBlock(Act):
    """Terminal block assemblies."""

    count: int | None = None
    awg: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddUncounted(Act):
    """Something that takes no allowance. `awg`: the largest wire under a wire connector."""

    count: int | None = None
    name: str | None = None
    awg: int | None = None


Thing: TypeAlias = (
    AddCable
    | AddConductors
    | AddGrounds
    | AddJumper
    | AddFixtureWires
    | AddDevice
    | AddFitting
    | AddTerminalBlock
    | AddUncounted
)

ThingKind: TypeAlias = Literal[
    "cable", "conductors", "grounds", "jumper", "fixture_wires", "device", "fitting",
    "terminal_block", "uncounted", "wire", "box", "clamps", "part", "barrier", "anything",
]  # fmt: skip
"""Kinds of thing that a word can point at. `wire`: a cable or conductors; `anything`: unsaid."""

Which: TypeAlias = Literal["said", "last", "other", "others", "all", "both", "first"]


@dataclass(frozen=True, slots=True)
class Reference:
    """What words point at among the things of the box: "one of the 14-2s", "the second cable",
    "it". `count` is how many of them are meant, `ordinal` counts from 1 (-1: the last)."""

    kind: ThingKind = "anything"
    name: str | None = None
    awg: int | None = None
    conductors: int | None = None
    count: int | None = None
    ordinal: int | None = None
    which: Which = "said"
    item: int | None = None
    """The key of an item picked on a screen; never said."""
    words: str = ""


# -- the box itself ------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class SetClamps(Act):
    """Where the cable clamps are: inside, outside, none, moulded, or present (place unsaid)."""

    where: str = "present"
    count: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetVolume(Act):
    """A volume marked on the box, in cubic inches, or in `unit` cm3."""

    volume: Decimal | None = None
    unit: str | None = None
    gangs: int | None = None
    each: bool = False
    """True where the volume is that of each gang."""
    family: str | None = None
    material: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetSize(Act):
    """A standard metal box by its size in inches, in the order of Table 314.16(A)."""

    family: str | None = None
    width: Decimal | None = None
    height: Decimal | None = None
    depth: Decimal | str | None = None
    gangs: int | None = None
    material: str | None = None
    row: str | None = None
    """A row of the table picked from a list; never said."""
    unit: str | None = None
    """`mm` or `cm` where the dimensions are metric, None for inches."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NameBoxKind(Act):
    """A box named without volume or size."""

    gangs: int | None = None
    family: str | None = None
    material: str | None = None
    name: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPart(Act):
    """A plaster ring, extension ring, domed or raised cover."""

    name: str | None = None
    volume: Decimal | None = None
    unit: str | None = None
    gangs: int | None = None
    family: str | None = None
    width: Decimal | None = None
    depth: Decimal | str | None = None
    marked: bool | None = None
    material: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class InSpace(Act):
    """ "On the first side of the barrier": where in a divided box things stand, from 1."""

    which: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class AddClampAssembly(Act):
    """A listed clamp assembly with a cable termination, and its volume inside the box."""

    count: int | None = None
    volume: Decimal | None = None
    unit: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Hang(Act):
    """What the box carries: `name` is `fan`, `luminaire` or unsaid, `weight` in pounds or in
    `unit` kg."""

    name: str | None = None
    weight: Decimal | None = None
    unit: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddBarrier(Act):
    """A barrier that divides the box."""

    material: str | None = None
    volume: Decimal | None = None
    unit: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetEdition(Act):
    """The edition of the code to count by: a year, a `code` or a place by name, or both."""

    year: str = ""
    code: str | None = None
    """`residential`, `Canadian code`, `CEC`, or the name of a place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DescribePull(Act):
    """A pull of large conductors begins: straight, angle, u or splice. The trade sizes stand in
    `AddRaceways` behind it; journals of before hold them here."""

    kind: str | None = None
    size: Decimal | None = None
    count: int | None = None
    others: Decimal | None = None
    sizes: tuple[Decimal, ...] = ()
    """Further trade sizes said after it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AddRaceways(Act):
    """Raceways (or cables, by the raceway they would need) that enter a pull box, 314.28(A)."""

    count: int | None = None
    size: Decimal | None = None
    """Trade size, inches; None where none was said."""
    wall: str | None = None
    """`left`, `right`, `top`, `bottom` or `back`, where it was said."""
    to: str | None = None
    """The wall that the same raceway size leaves by, where it was said."""
    end: str | None = None
    """`in` or `out` where it is only one end of a pull."""
    row: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOutRaceways(Act):
    """ "Take out the 2 inch": raceways of a pull box that are not there after all."""

    count: int | None = None
    """None: all of that size."""
    size: Decimal | None = None
    wall: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPull(Act):
    """What is said of a pull box besides its raceways."""

    conductor: str | None = None
    """The largest conductor: `4`, `2/0`, `500`."""
    cover: bool | None = None
    """Whether the cover opposite the back wall is removable."""
    walls: str | None = None
    """`opposite`, `adjacent` or `same`, or names of walls with spaces between."""
    rows: int | None = None
    """How many rows there are, where nobody said what is in which."""
    returns: bool | None = None
    """True where each raceway named comes in and goes out beside itself, False where every entry
    was named."""
    listed: bool | None = None
    """True where the box is listed and marked for fewer or smaller conductors, 314.28(A)(3)."""
    blocks: bool | None = None
    """True where a power distribution block is in it, 314.28(E)."""
    width: Decimal | None = None
    height: Decimal | None = None
    depth: Decimal | None = None
    """Inside dimensions of the box at hand, inches."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetBody(Act):
    """What is said of a conduit body besides what is in it, 314.16(C)."""

    shape: str | None = None
    """`LB`, `LL`, `LR`, `C`, `T` …"""
    raceway: str | None = None
    """`emt`, `imc`, `rmc`, `pvc40`: the largest raceway on it."""
    size: Decimal | None = None
    """Trade size of that raceway, inches."""
    insulation: str | None = None
    """`thhn`, `xhhw` or `tw`."""
    spliced: bool | None = None
    short_radius: bool | None = None
    marked: bool | None = None
    """False where the maker marked no volume on it."""
    both_sides: bool | None = None
    """True where each spliced conductor comes in from both sides."""


# -- denials ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Deny(Act):
    """There is no such thing in the box. It takes nothing away but what it names."""

    target: Reference = field(default_factory=Reference)


@dataclass(frozen=True, slots=True, kw_only=True)
class NothingElse(Act):
    """There is nothing more in the box. `of` is `else`, `other` or a kind of thing."""

    of: str = "else"


# -- answers that need the open question ---------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Number(Act):
    """A bare number."""

    value: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Size(Act):
    """A bare wire size: "fourteen", "on the twelves". Never a volume."""

    awg: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Place(Act):
    """A bare place: inside or outside."""

    where: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoneOfThem(Act):
    """ "None", "not any"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Yes(Act):
    """Confirm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class No(Act):
    """Disconfirm, by itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DontKnow(Act):
    """The speaker cannot tell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Skip(Act):
    """Leave the open question."""


# -- corrections -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Restate(Act):
    """ "Actually three 14-2s", "it's a smart dimmer": `thing` in place of what it can mean.

    `instead_of` names what it replaces, where that was said ("14-3s not 14-2s").
    """

    thing: Thing
    instead_of: Reference | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RestateNumber(Act):
    """ "Make that three", "no, twenty": a bare number in place of the one it can mean."""

    value: Decimal
    instead_of: Decimal | None = None
    of: Reference | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Recount(Act):
    """ "The 14-2s are three", "only one of the 12-3s": how many of them there are."""

    target: Reference
    count: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Resize(Act):
    """ "Make the twelves fourteens", "they're twelves": the wire size of what is meant."""

    target: Reference
    awg: int
    conductors: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Replace(Act):
    """ "Change one of the 14-2s to a 14-3", "swap the dimmer for a switch"."""

    target: Reference
    thing: Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class Remove(Act):
    """ "Take out one of the 14-2s", "scratch the switch"; no target: the last thing."""

    target: Reference


@dataclass(frozen=True, slots=True, kw_only=True)
class More(Act):
    """ "One more of those", "another": as many more of what is meant."""

    target: Reference
    count: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Land(Act):
    """ "The switch goes on the twelves": the largest conductor landed on a device."""

    target: Reference
    awg: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Widen(Act):
    """ "It takes two gangs": how many gangs a device needs."""

    target: Reference
    gangs: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Deepen(Act):
    """ "The dimmer is four centimetres deep": how far a device reaches behind its strap, cm."""

    target: Reference
    depth: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Unground(Act):
    """ "That 14-2 has no ground": a cable without its ground, or with it."""

    target: Reference
    ground: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Reclassify(Act):
    """ "Two are grounds": some of the conductors said before are something else."""

    count: int | None
    kind: ThingKind
    path: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Route(Act):
    """ "Those pass straight through": how the conductors meant meet the box."""

    target: Reference
    path: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SetCanopy(Act):
    """Whether the fixture wires come from a domed canopy, 314.16(B)(1) Exception."""

    canopy: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class PutBack(Act):
    """ "Put back the 14-2": what was taken out or replaced comes again."""

    target: Reference


@dataclass(frozen=True, slots=True, kw_only=True)
class Keep(Act):
    """ "Don't remove the receptacle", "leave it": nothing is to change."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnknownOperator(Act):
    """An operator that is not known, beside a thing that is: asked back with choices."""

    verb: str
    thing: Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistaken(Act):
    """ "That's wrong", "no, scratch": a correction whose value was not said or not understood."""


# -- questions and suppositions ------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Suppose(Act):
    """ "What if …", "would it fit with …", "should I take out …": tried on a copy."""

    acts: tuple[Act, ...] = ()
    asks_fit: bool = False
    """True for "is an 18 enough for …": of an empty box it describes the box."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomFor(Act):
    """ "How many more 14-2s", "will a dimmer still fit"."""

    thing: Thing | None = None
    count: int | None = None


QuestionKind: TypeAlias = Literal[
    "read_back", "total", "margin", "capacity", "why_ask", "smallest_box", "advice",
    "which_edition", "help", "repeat", "slower", "identity", "largest", "metric", "certainty",
    "missing", "live_work", "box_name", "stricter", "fan_rated", "understood", "need_asked",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class AskFill(Act):
    """ "How many 12 THHN in half inch EMT": Chapter 9 Table 1. `count`: "will ten fit"."""

    count: int | None = None
    awg: int | None = None
    insulation: str | None = None
    raceway: str | None = None
    size: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask(Act):
    """A question of a fixed kind about the box, the count or the talk."""

    about: QuestionKind


@dataclass(frozen=True, slots=True, kw_only=True)
class AskWhy(Act):
    """ "Why do the clamps count": a line's section and reasoning."""

    of: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AskEdition(Act):
    """ "What changes under 2017"."""

    year: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskMeaning(Act):
    """ "What is a yoke", "does a wire nut count", "how much is a twelve worth"."""

    term: str = ""
    thing: Thing | None = None
    awg: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AskUnknown(Act):
    """A question that there is no answer to here. It changes nothing."""


# -- control of the talk ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Undo(Act):
    """Take back so many steps. `last`: "scratch that", which takes back what was just said."""

    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Redo(Act):
    """Take a step forward again."""

    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class StartOver(Act):
    """Empty the box."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetForm(Act):
    """Short or long answers."""

    brief: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Done(Act):
    """The box is finished."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DoIt(Act):
    """ "Do it", "lock that in": what was supposed or proposed is taken."""


SocialKind: TypeAlias = Literal["thanks", "greeting", "farewell", "apology", "pause", "noted"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Social(Act):
    """Thanking, greeting, pausing: let pass in a word."""

    what: SocialKind = "noted"


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherTalk(Act):
    """Talk about something else; nothing of it is entered."""


# -- the boxes of a job ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class NextBox(Act):
    """A new box begins."""

    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenBox(Act):
    """Back to a box by name or number, or to the `previous` or `first` one."""

    name: str = ""
    which: Literal["", "previous", "first", "last"] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CopyBox(Act):
    """A new box, the same as this one or as the one named."""

    name: str = ""
    like: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NameBox(Act):
    """This box's name."""

    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DeleteBox(Act):
    """A box is taken out of the job; undo brings it back."""

    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListBoxes(Act):
    """The boxes of the job; `only` the ones over, or those not finished."""

    only: Literal["", "over", "incomplete", "fits"] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NewJob(Act):
    """A new job: outside this talk."""

    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alias(Act):
    """A person's own words, and what they mean."""

    say: str = ""
    mean: str = ""


@dataclass(frozen=True, slots=True)
class Unread:
    """Words of the utterance that became part of no act.

    `weighty`: a number, a negation, a quantity word, a likely thing, a verb of change: no verdict
    stands over it. Everything else is inert and not even mentioned.
    """

    words: str
    span: tuple[int, int]
    weighty: bool


@dataclass(frozen=True, slots=True)
class Utterance:
    """An utterance read: its acts in the order said, and what was not read."""

    heard: str
    acts: tuple[Act, ...]
    unread: tuple[Unread, ...] = ()

    @property
    def weighty(self) -> tuple[Unread, ...]:
        """What was not read and weighs."""
        return tuple(run for run in self.unread if run.weighty)
