"""What is being put together of a pull box, and the rows of it: `assembling` builds on this."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, WallName
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.enclosures.raceway_items import RacewayItem

SILENT = frozenset({"silent", "break", "join"})


@dataclass(slots=True)
class RowAssembly:
    """Raceways on their way to acts, and which row each is in."""

    heard: str
    text: str
    pieces: list[Piece]
    made: list[Act] = field(default_factory=list)
    """What is said besides raceways and kinds."""
    items: list[RacewayItem] = field(default_factory=list)
    kinds: list[Piece | None] = field(default_factory=lambda: [None])
    wall: WallName | None = None
    to: WallName | None = None
    row: int | None = None
    wall_from: int = 0
    """The first item that no wall was said of since the last wall."""
    row_from: int = 0
    last_row: int = 0
    row_first: bool = False
    ways: list[Piece] = field(default_factory=list)
    """Kinds of pull that say by which way raceways go to the wall behind them."""
    corrects: bool = False
    """True behind a mark of correction: what comes next corrects."""

    def _set(self, first: int, **said: object) -> None:
        """Say something of every item from a place on that does not say it yet."""
        for item in self.items[first:]:
            wanted = {key: value for key, value in said.items() if getattr(item.act, key) is None}
            item.act = replace(item.act, **wanted)  # type: ignore[arg-type]

    def _at(self, piece: Piece) -> int:
        """The place of a piece among all."""
        return next(at for at, one in enumerate(self.pieces) if one.start == piece.start)

    def _before(self, piece: Piece) -> Piece | None:
        """The piece before, what says nothing stepped over."""
        at = self._at(piece)
        while at:
            at -= 1
            one = self.pieces[at]
            if one in self.ways:
                continue
            if one.sort not in ("silent", "join") and one.value not in (",", "name"):
                return self.pieces[at]
        return None

    def _detail(self, piece: Piece, **said: object) -> None:
        self.made.append(
            acts.SetPull(
                words=self.heard[piece.start : piece.end],
                span=(piece.start, piece.end),
                **said,  # type: ignore[arg-type]
            )
        )

    def _items(self, piece: Piece) -> None:
        for item in piece.items:
            act = acts.AddRaceways(
                count=item.count,
                size=item.size,
                wall=self.wall,
                to=self.to,
                row=self.row,
                cable=item.cable or None,
                wires=item.wires,
                ground=item.ground,
                insulation=item.insulation,
                words=self.heard[piece.start : piece.end],
                span=(piece.start, piece.end),
                function="correction" if self.corrects else "inform",
            )
            self.items.append(RacewayItem(act, len(self.kinds) - 1, item.several))
        if piece.value.startswith("conductor "):
            self._detail(piece, conductor=piece.value.removeprefix("conductor "))
        self.corrects = False

    def _of_rows(self, piece: Piece) -> None:
        """A row, how many rows there are, or what is in each."""
        match piece.sort:
            case "row" | "row_of":
                self._row(piece)
            case "rows":
                self._detail(piece, rows=piece.number)
            case "each_row":
                self._each_row()
            case _:
                self._rows_of(piece)

    def _row(self, piece: Piece) -> None:
        number = piece.number or self.last_row + 1
        behind = self.row_from < len(self.items) and piece.sort == "row" and not self.row_first
        self.last_row = number
        if behind and not self._heads_row(piece):
            self._set(self.row_from, row=number)
            self.row_from = len(self.items)
            return
        self.row, self.row_first = number, True
        self.row_from = len(self.items)

    def _heads_row(self, piece: Piece) -> bool:
        """A row before what is in it: "row one: two 3 inch"."""
        after = self.pieces[self._at(piece) + 1 :]
        following = next((p for p in after if p.sort not in ("silent", "break")), None)
        before = self._before(piece)
        return (
            following is not None
            and following.sort == "items"
            and (before is None or before.sort != "items")
        )

    def _rows_of(self, piece: Piece) -> None:
        """ "Two rows of three 2 inch": as many in each."""
        rest = [p for p in self.pieces if p.start >= piece.end and p.sort != "silent"]
        after = rest[0] if rest and rest[0].sort == "items" else None
        if after is None:
            self._detail(piece, rows=piece.number)
            return
        for number in range(1, piece.number):
            self.row = self.last_row + number
            self._items(after)
        self.row = self.last_row + piece.number
        self.last_row += piece.number
        self.row_first = True

    def _each_row(self) -> None:
        """ "Two 2 inch in each row": as many in each of the rows that were named."""
        number = next((p.number for p in self.pieces if p.sort == "rows"), 1)
        alike = [item for item in self.items[self.row_from :] if item.act.row is None]
        for item in alike:
            item.act = replace(item.act, row=1)
        self.items += [
            replace(item, act=replace(item.act, row=row))
            for row in range(2, number + 1)
            for item in alike
        ]
        self.made = [act for act in self.made if getattr(act, "rows", None) != number]
        self.row_from = len(self.items)
        self.wall_from = min(self.wall_from, self.row_from)

    def _separate(self, piece: Piece) -> None:
        """Each size in a row of its own."""
        if not self.items:
            self._detail(piece, rows=2)
        for item in self.items[self.row_from :]:
            if item.act.row is None:
                self.last_row += 1
                item.act = replace(item.act, row=self.last_row)
        self.row_from = len(self.items)

    def _heads_rows(self, piece: Piece) -> bool:
        """ "Bottom: two rows. First row …": the wall of the rows that follow."""
        start = max(self.text.rfind(sign, 0, piece.start) for sign in ".;") + 1
        told = {p.sort for p in self.pieces if start <= p.start < piece.start}
        return {"wall", "rows"} <= told and "items" not in told

    def _rows_follow(self, piece: Piece) -> bool:
        """ "Left wall, first row: … . Second row: …": the next row of the same wall."""
        rest = [p for p in self.pieces if p.start >= piece.end and p.sort not in SILENT]
        return self.row is not None and bool(rest) and rest[0].sort in ("row", "row_of")
