"""Pieces put together: raceways with their walls and rows, each pull with its raceways."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, WallName
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.enclosures.raceway_items import RacewayItem, in_order

#: What a piece says by itself, without a look at what stands beside it.
_PLAIN: dict[str, dict[str, object]] = {
    "opposite": {"walls": "opposite"},
    "adjacent": {"walls": "adjacent"},
    "same": {"walls": "same"},
    "one_row": {"rows": 1},
    "removable": {"cover": True},
    "fixed": {"cover": False},
    "each_returns": {"returns": True},
    "every_entry": {"returns": False},
    "listed": {"listed": True},
    "blocks": {"blocks": True},
}


@dataclass(slots=True)
class Assembly:
    """The pieces of one utterance put together, from left to right."""

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
    corrects: bool = False
    """True behind a mark of correction: what comes next corrects."""

    def take(self, piece: Piece) -> None:
        """Take the next piece."""
        match piece.sort:
            case "items":
                self._items(piece)
            case "kind":
                self._kind(piece)
            case "wall" | "wall_to":
                self._wall(piece)
            case "end":
                self._end(piece)
            case "row" | "row_of":
                self._row(piece)
            case "rows":
                self._detail(piece, rows=piece.number)
            case "each_row":
                self._each_row()
            case "rows_of":
                self._rows_of(piece)
            case "detail":
                self._said(piece)
            case "break" if piece.value in ".;\n":
                self._apart()

    def _items(self, piece: Piece) -> None:
        for item in piece.items:
            act = acts.AddRaceways(
                count=item.count,
                size=item.size,
                wall=self.wall,
                to=self.to,
                row=self.row,
                words=self.heard[piece.start : piece.end],
                span=(piece.start, piece.end),
                function="correction" if self.corrects else "inform",
            )
            self.items.append(RacewayItem(act, len(self.kinds) - 1, item.several))
        self.corrects = False

    def _set(self, first: int, **said: object) -> None:
        """Say something of every item from a place on that does not say it yet."""
        for item in self.items[first:]:
            wanted = {key: value for key, value in said.items() if getattr(item.act, key) is None}
            item.act = replace(item.act, **wanted)  # type: ignore[arg-type]

    def _wall(self, piece: Piece) -> None:
        """Behind raceways a wall is theirs; before them it is that of what follows."""
        before = self._before(piece)
        if before is not None and before.sort in ("wall", "wall_to"):
            self._second_wall(piece)
        elif piece.sort == "wall_to" and self.wall is not None and self._held_since():
            for item in self._held_since():
                item.act = replace(item.act, to=piece.wall)
        elif self.wall_from < len(self.items) and self.wall is None and not self._heads(piece):
            self._set(self.wall_from, wall=piece.wall)
            self.wall_from = len(self.items)
        else:
            self.wall, self.to, self.row = piece.wall, None, None
            self.wall_from = self.row_from = len(self.items)

    def _second_wall(self, piece: Piece) -> None:
        """ "In the left and out the top" of the same raceways; of what follows where none stand."""
        if self.wall is not None and self.wall_from == len(self.items):
            self.to = piece.wall
            return
        for item in reversed(self.items):
            if item.act.to is not None or item.act.wall in (None, piece.value):
                break
            if item.act.wall != self.items[-1].act.wall:
                break  # "two 3 inch left, a 2 inch in the bottom leaving by the top": of that one
            item.act = replace(item.act, to=piece.wall)

    def _walls_alone(self) -> None:
        """ "Left and top": walls with no raceways beside them answer for those known."""
        if self.wall is None or self.wall_from < len(self.items):
            return
        walls = [
            p
            for p in self.pieces
            if p.sort in ("wall", "wall_to") or p.value.startswith("opposite_")
        ]
        names = " ".join(name for name in (self.wall, self.to) if name)
        span = (walls[0].start, walls[-1].end)
        self.made.append(acts.SetPull(walls=names, words=self.heard[slice(*span)], span=span))

    def _held_since(self) -> list[RacewayItem]:
        """The items since the wall that was said before them."""
        return [item for item in self.items[self.wall_from :] if item.act.to is None]

    def _heads(self, piece: Piece) -> bool:
        """ "…, left wall: two 3 inch": a wall behind a break that raceways follow straight on."""
        at = self._at(piece)
        before = self.pieces[at - 1] if at else None
        after = next((p for p in self.pieces[at + 1 :] if p.sort != "silent"), None)
        headed = before is not None and before.sort == "break"
        colon = after is not None and after.sort == "break" and after.value == ":"
        return headed and after is not None and (after.sort == "items" or colon) and self._walled()

    def _walled(self) -> bool:
        """True where all raceways so far have their wall."""
        return all(item.act.wall is not None for item in self.items)

    def _before(self, piece: Piece) -> Piece | None:
        """The piece before, what says nothing stepped over."""
        at = self._at(piece)
        while at:
            at -= 1
            if self.pieces[at].sort not in ("silent", "join") and self.pieces[at].value != ",":
                return self.pieces[at]
        return None

    def _end(self, piece: Piece) -> None:
        for item in reversed(self.items):
            if item.act.end is not None or item.group != len(self.kinds) - 1:
                break
            item.act = replace(item.act, end=piece.entry_end)

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

    def _kind(self, piece: Piece) -> None:
        """A kind of pull, behind its raceways ("a 3 inch straight pull") or before them."""
        before = self._before_exactly(piece)
        loose = bool(self.items) and self.items[-1].group == len(self.kinds) - 1
        if before is not None and before.sort == "items" and loose and self.kinds[-1] is None:
            self.kinds[-1] = piece
            self.kinds.append(None)
        elif self._said_again(piece, loose):
            return
        elif self.kinds[-1] is None and not loose:
            self.kinds[-1] = piece
        else:
            self.kinds.append(piece)
        self._apart()
        self.wall_from = self.row_from = len(self.items)

    def _said_again(self, piece: Piece, loose: bool) -> bool:
        """The kind at hand once more, with no raceways of its own: "…, turning ninety"."""
        known = self.kinds[-1]
        follow = any(p.sort == "items" for p in self.pieces if p.start >= piece.end)
        return known is not None and known.value == piece.value and not (loose and follow)

    def _at(self, piece: Piece) -> int:
        """The place of a piece among all."""
        return next(at for at, one in enumerate(self.pieces) if one.start == piece.start)

    def _before_exactly(self, piece: Piece) -> Piece | None:
        at = self._at(piece)
        return self.pieces[at - 1] if at else None

    def _apart(self) -> None:
        """A sentence ended: a wall or row said before raceways reaches no further."""
        if self.wall is not None or self.row is not None:
            self.wall_from = self.row_from = len(self.items)
        self.wall = self.to = self.row = None

    def _said(self, piece: Piece) -> None:
        match piece.value:
            case "one_row" if any(p.sort == "row" for p in self.pieces):
                self._row(replace(piece, sort="row", number=1))
            case value if value in _PLAIN:
                if "out" in self.text[piece.start : piece.end].split() and self._one_in():
                    self._end(replace(piece, value="out"))
                self._detail(piece, **_PLAIN[value])
            case "name" if "splice" in self.text[piece.start : piece.end]:
                self._splice_box(piece)
            case "separate_rows":
                self._separate(piece)
            case "opposite_cover" | "opposite_removable":
                before = self._before(piece)
                if before is None or before.value != "back":
                    self._wall(replace(piece, sort="wall", value="back"))
                if piece.value == "opposite_removable":
                    self._detail(piece, cover=True)
            case "dimensions":
                width, height, depth = piece.dimensions
                self._detail(piece, width=width, height=height, depth=depth)
            case said if said.startswith("conductor "):
                self._detail(piece, conductor=said.removeprefix("conductor "))

    def _one_in(self) -> bool:
        """True where a raceway was said to come in, so that "out" is said of another."""
        return any(item.act.end == "in" for item in self.items)

    def _splice_box(self, piece: Piece) -> None:
        """ "A splice box": what stands in it is spliced unless a kind of pull is said."""
        others = [p for p in self.pieces if p.sort == "kind"]
        if not others and self.kinds[-1] is None:
            self.kinds[-1] = replace(piece, sort="kind", value="splice")

    def _detail(self, piece: Piece, **said: object) -> None:
        self.made.append(
            acts.SetPull(
                words=self.heard[piece.start : piece.end],
                span=(piece.start, piece.end),
                **said,  # type: ignore[arg-type]
            )
        )

    def told(self) -> list[Act]:
        """All acts, each group of raceways behind the pull that it belongs to."""
        self._walls_alone()
        if len(self.kinds) == 2 and self.kinds[0] is None and not self._of(1):
            self.kinds = [self.kinds[1]]
        kinds = [self._pull(kind) if kind is not None else None for kind in self.kinds]
        return in_order(kinds, self.items, self.made)

    def _pull(self, kind: Piece) -> acts.DescribePull:
        return acts.DescribePull(
            kind=kind.pull_kind,
            words=self.heard[kind.start : kind.end],
            span=(kind.start, kind.end),
            function="correction" if self.corrects else "inform",
        )

    def _of(self, group: int) -> bool:
        return any(item.group == group for item in self.items)
