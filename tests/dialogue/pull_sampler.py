"""Pull boxes at random, said in words as a person might, with what they must come to.

The words are drawn from lists of this module; nothing of the grammar is read. The right answer
is worked out by the plain implementation beside the rules' tests (314.28, sources there).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from random import Random

from boxaloud.rules import Pull, PullBox, Raceway

SPOKEN = {
    Fraction(1, 2): ("half inch", "1/2 inch", '1/2"', "one half inch"),
    Fraction(3, 4): ("three quarter inch", "3/4 inch", '3/4"', "3/4 in."),
    Fraction(1): ("one inch", "1 inch", '1"', "1-inch"),
    Fraction(5, 4): ("one and a quarter inch", "inch and a quarter", "1-1/4 inch", '1 1/4"'),
    Fraction(3, 2): ("one and a half inch", "inch and a half", "1-1/2 inch", '1 1/2"', "1.5 inch"),
    Fraction(2): ("two inch", "2 inch", '2"', "2-inch", "2 in."),
    Fraction(5, 2): ("two and a half inch", "2-1/2 inch", '2 1/2"', "2½ inch", "two point five inch"
    ),
    Fraction(3): ("three inch", "3 inch", '3"', "3-inch", "trade size 3"),
    Fraction(7, 2): ("three and a half inch", "3-1/2 inch", '3-1/2"', "3.5 inch"),
    Fraction(4): ("four inch", "4 inch", '4"', "4-inch"),
    Fraction(5): ("five inch", "5 inch", '5"'),
    Fraction(6): ("six inch", "6 inch", '6"'),
}  # fmt: skip
WORDS = {1: ("a", "one", "1"), 2: ("two", "2", "(2)"), 3: ("three", "3", "(3)"), 4: ("four", "4")}
NOUNS = ("", "", " conduit", " raceway", " pipe", " EMT", " rigid", " PVC conduit")
CONDUCTORS = {
    "4": ("number 4", "#4", "4 AWG"), "2": ("number two", "#2 copper"), "1/0": ("1/0", "one ought"),
    "4/0": ("4/0", "four ought", "4/0 copper"), "250": ("250 kcmil", "250 MCM"),
    "350": ("350 kcmil", "three fifty kcmil"), "750": ("750 kcmil",),
    "500": ("500 kcmil", "five hundred kcmil", "500 mcm"),
}  # fmt: skip
FACING = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
ALONG = {"left": "top", "right": "bottom", "top": "left", "bottom": "right"}
Groups = list[tuple[int, Fraction]]


@dataclass
class Sample:
    """What is said, the answers to what may be asked, and the box that it describes."""

    say: str
    box: PullBox
    answers: dict[str, str] = field(default_factory=dict)


class Sampler:
    """Draws pull boxes, each a way of describing one."""

    def __init__(self, seed: int) -> None:
        self.rng = Random(seed)
        self.raceways: list[Raceway] = []
        self.pulls: list[Pull] = []

    def sample(self) -> Sample:
        """The next pull box."""
        self.raceways, self.pulls = [], []
        way = self.rng.choice(
            (self._loose, self._loose, self._rows, self._between, self._both_walls, self._u,
             self._splice, self._back, self._two_pulls, self._kind_later)
        )  # fmt: skip
        return way()

    # -- how things are said -------------------------------------------------------------------

    def _pick(self, *ways: str) -> str:
        return self.rng.choice(ways)

    def _groups(self, most: int = 3) -> Groups:
        sizes = self.rng.sample(sorted(SPOKEN), self.rng.randint(1, most))
        return [(self.rng.choice((1, 1, 2, 3, 4)), size) for size in sizes]

    def _one(self, count: int, size: Fraction) -> str:
        text = self.rng.choice(SPOKEN[size])
        head = self.rng.choice(WORDS[count])
        if text.startswith("one half") or (text.startswith("inch") and head in "a1"):
            text = text.replace("one half", "half") if text.startswith("one") else f"1-{text[11:]}"
            text = {"1-quarter": "1-1/4 inch", "1-half": "1-1/2 inch"}.get(text, text)
        clash = head[-1].isdigit() and text[:3] in ("1/2", "3/4", "½")
        words_then_part = head in ("one", "two", "three") and text[:3] in ("1/2",)
        if clash or words_then_part:
            text = {Fraction(1, 2): "half inch", Fraction(3, 4): "three quarter inch"}[size]
        if text.startswith("inch and") and count > 1:
            text = {Fraction(5, 4): "1-1/4 inch", Fraction(3, 2): "1-1/2 inch"}[size]
        if head.isdigit() and text[0].isdigit() and " 1/" in text:
            text = text.replace(" 1/", "-1/")
        noun = self.rng.choice(NOUNS)
        plural = "s" if count > 1 and noun and not noun.endswith(("EMT", "rigid")) else ""
        if head == "a" and text[0] in "18½" and text.startswith("8"):
            head = "an"
        return f"{head} {text}{noun}{plural}"

    def _list(self, groups: Groups) -> str:
        whole = all(count == 1 and size == int(size) for count, size in groups)
        if whole and len(groups) > 1 and self.rng.random() < 0.5:
            return self._short(groups)
        said = [self._one(count, size) for count, size in groups]
        if len(said) == 1:
            return said[0]
        return (
            self._pick(", ", " and ").join(said[:-1])
            + self._pick(" and ", ", ", ", and ")
            + said[-1]
        )

    def _short(self, groups: Groups) -> str:
        """ "Four, three and two inch conduits", "a 4 and a 3 inch"."""
        names = [SPOKEN[size][self.rng.choice((0, 1))].split()[0] for _, size in groups]
        if self.rng.random() < 0.4:
            names = [f"a {name}" for name in names]
        return ", ".join(names[:-1]) + f" and {names[-1]} inch" + self._pick("", " conduits")

    # -- the raceways of the truth ----------------------------------------------------------------

    def _raceway(self, size: Fraction, wall: str, row: int = 1) -> str:
        name = f"r{len(self.raceways)}"
        self.raceways.append(Raceway(name, size, wall, row))  # type: ignore[arg-type]
        return name

    def _through(self, kind: str, groups: Groups, start: str, end: str, row: int = 1) -> None:
        for count, size in groups:
            for _ in range(count):
                ends = self._raceway(size, start, row), self._raceway(size, end, row)
                self.pulls.append(Pull(kind, *ends))  # type: ignore[arg-type]

    def _paired(
        self,
        kind: str,
        ones: list[Fraction],
        others: list[Fraction],
        walls: tuple[str, str],
        conductor: str = "",
    ) -> None:
        pairs = zip(sorted(ones, reverse=True), sorted(others, reverse=True), strict=True)
        for one, other in pairs:
            ends = self._raceway(one, walls[0]), self._raceway(other, walls[1])
            self.pulls.append(Pull(kind, *ends, conductor))  # type: ignore[arg-type]

    def _box(self, removable: bool = True) -> PullBox:
        return PullBox(tuple(self.raceways), tuple(self.pulls), removable)

    # -- the ways of describing one ---------------------------------------------------------------

    def _loose(self) -> Sample:
        """Raceways without walls: each comes in by one and leaves by another, in one row."""
        kind, groups = self.rng.choice(("straight", "angle")), self._groups()
        self._through(kind, groups, "left", "right" if kind == "straight" else "top")
        listed = self._list(groups)
        lead = self._pick("", "pull box, ", "I have a pull box: ", "Okay, ")
        row = self._pick("", "", " in one row", " all in one row") if kind == "angle" else ""
        named = self._pick(f"{kind} pull", f"{'an' if kind == 'angle' else 'a'} {kind} pull")
        say = self._pick(f"{lead}{named} with {listed}{row}", f"{lead}{named}, {listed}{row}",
                         f"{lead}{named}: {listed}{row}.")  # fmt: skip
        return Sample(say, self._box())

    def _kind_later(self) -> Sample:
        """The kind is left out, and asked for."""
        kind, groups = self.rng.choice(("straight", "angle")), self._groups(2)
        self._through(kind, groups, "left", "right" if kind == "straight" else "top")
        lead = self._pick("a pull box with", "pull box, ", "the pull box has")
        return Sample(f"{lead} {self._list(groups)}", self._box(), {"pull_kind": kind})

    def _rows(self) -> Sample:
        """Two rows, each by itself."""
        first, second = self._groups(2), self._groups(2)
        self._through("angle", first, "left", "top", 1)
        self._through("angle", second, "left", "top", 2)
        one, two = self._list(first), self._list(second)
        say = self._pick(
            f"angle pull, first row {one}; second row {two}",
            f"an angle pull in two rows: {one} in the first row and {two} in the second row",
            f"angle pull, row one {one}, row two {two}",
            f"angle pull with a row of {one} and a row of {two}",
        )
        return Sample(say, self._box())

    def _between(self) -> Sample:
        """Raceways from one wall to another."""
        kind, groups = self.rng.choice(("straight", "angle")), self._groups(2)
        start = self.rng.choice(list(FACING))
        end = FACING[start] if kind == "straight" else ALONG[start]
        self._through(kind, groups, start, end)
        listed = self._list(groups)
        say = self._pick(
            f"{kind} pull, {listed} from the {start} to the {end}",
            f"{kind} pull with {listed} in the {start} wall and out the {end}",
            f"pull box, {listed} entering the {start} side and leaving the {end} side",
            f"{kind} pull from the {start} wall to the {end} wall, {listed}",
        )
        return Sample(say, self._box(), {"pull_kind": kind})

    def _both_walls(self) -> Sample:
        """Each wall by itself, with as many raceways."""
        count = self.rng.randint(1, 3)
        start = self.rng.choice(list(FACING))
        ones, others = ([self.rng.choice(sorted(SPOKEN)) for _ in range(count)] for _ in "ab")
        self._paired("angle", ones, others, (start, ALONG[start]))
        one, other = (self._list([(1, size) for size in sizes]) for sizes in (ones, others))
        say = self._pick(
            f"pull box with {one} in the {start} wall and {other} in the {ALONG[start]} wall",
            f"angle pull, {start} wall: {one}; {ALONG[start]} wall: {other}",
            f"angle pull, {one} on the {start}, {other} on the {ALONG[start]}",
        )
        return Sample(say, self._box())

    def _u(self) -> Sample:
        """A U pull: every entry named, or each raceway in and out."""
        groups = self._groups(2)
        sizes = sorted((size for count, size in groups for _ in range(count)), reverse=True)
        returns = len(sizes) % 2 == 1 or self.rng.random() < 0.5
        if returns:
            self._through("u", groups, "left", "left")
        else:
            for one, other in zip(sizes[::2], sizes[1::2], strict=True):
                ends = self._raceway(one, "left"), self._raceway(other, "left")
                self.pulls.append(Pull("u", *ends))
        listed = self._list(groups)
        tail = self._pick(", each comes back out", "") if returns else self._pick(" in all", "")
        if len(groups) == 1 and groups[0][0] == 2 and returns:
            tail = ", each in and out"
        say = self._pick(f"a U pull with {listed}{tail}", f"u-pull, {listed}{tail}")
        return Sample(say, self._box(), {"pull_returns": "no" if returns else "yes"})

    def _splice(self) -> Sample:
        """A splice between two walls."""
        count = self.rng.randint(1, 3)
        start, end = self.rng.sample(list(FACING), 2)
        ones, others = ([self.rng.choice(sorted(SPOKEN)) for _ in range(count)] for _ in "ab")
        self._paired("splice", ones, others, (start, end))
        one, other = (self._list([(1, size) for size in sizes]) for sizes in (ones, others))
        say = self._pick(
            f"junction box with {one} on the {start} and {other} on the {end}, spliced",
            f"splice box with {one} in the {start} wall and {other} in the {end} wall",
            f"pull box, {one} at the {start}, {other} at the {end}, all spliced",
        )
        return Sample(say, self._box())

    def _back(self) -> Sample:
        """An entry in the back; the cover and the conductor may be left to be asked."""
        start = self.rng.choice(list(FACING))
        one, other = (self.rng.choice(sorted(SPOKEN)) for _ in "ab")
        conductor, removable = self.rng.choice(sorted(CONDUCTORS)), self.rng.random() < 0.7
        self._paired("angle", [one], [other], (start, "back"), conductor)
        said = self.rng.choice(CONDUCTORS[conductor])
        first, second = self._one(1, one), self._one(1, other)
        where = "in the back"
        if removable:
            where = self._pick(
                where, "opposite a removable cover", "in the back opposite the removable cover"
            )
        tail = self._pick("", f", {said}", f", largest conductor {said}")
        say = f"pull box, {first} in the {start} wall and {second} {where}{tail}"
        answers = {"pull_cover": "yes" if removable else "no", "pull_conductor": said}
        return Sample(say, self._box(removable), answers)

    def _two_pulls(self) -> Sample:
        """A straight pull and an angle pull that share a wall, in one row."""
        start = self.rng.choice(list(FACING))
        straight, angle = self._groups(2), self._groups(2)
        self._through("straight", straight, start, FACING[start])
        self._through("angle", angle, start, ALONG[start])
        say = (
            f"straight pull, {self._list(straight)} from the {start} to the {FACING[start]}; "
            f"angle pull, {self._list(angle)} from the {start} to the {ALONG[start]}"
        )
        return Sample(say, self._box())
