"""Walls of the raceways of one utterance: before them, behind them, and the way out."""

from __future__ import annotations

from dataclasses import dataclass, replace

from boxaloud.grammar import acts
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.enclosures.raceway_items import RacewayItem
from boxaloud.grammar.enclosures.row_assembly import RowAssembly
from boxaloud.grammar.lazy_patterns import lazy_pattern

LED_BY = lazy_pattern(r" (?:of the (?:pull )?box )?(?:in|through|by|via|on) ")


@dataclass(slots=True)
class WallAssembly(RowAssembly):
    """Raceways on their way to acts, and which wall each enters and leaves by."""

    def _wall(self, piece: Piece) -> None:
        """Behind raceways a wall is theirs; before them it is that of what follows."""
        before = self._before(piece)
        if self.ways and self._size_behind(piece):
            self._led_alike(piece)
        elif self._size_behind(piece):
            self.wall, self.to, self.row = piece.wall, None, None
            self.wall_from = self.row_from = len(self.items)
        elif before is not None and before.sort in ("wall", "wall_to"):
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

    def _size_behind(self, piece: Piece) -> bool:
        """ "A 2 inch in the bottom, out the side, 2 inch", "… out the side in a 3 inch": the
        raceway of the way out stands behind it."""
        rest = [p for p in self.pieces if p.start >= piece.end and p.sort != "silent"]
        if piece.sort != "wall_to" or not self.items or not self._walled() or not rest:
            return False
        if rest[0].sort == "items":
            return LED_BY.fullmatch(self.text, piece.end, rest[0].start) is not None
        if [p.sort for p in rest[:2]] != ["break", "items"] or rest[0].value != ",":
            return False
        if self.items[-1].act.size not in {item.size for item in rest[1].items}:
            return False
        return len(rest) == 2 or rest[2].value in (".", ";", "?")

    def _led_alike(self, piece: Piece) -> None:
        """ "… on the left going straight to the right, 2 inch": it by its way out."""
        last = self.items[-1]
        last.act = replace(last.act, to=piece.wall)
        self.ways += [p for p in self.pieces if p.start >= piece.end and p.sort == "items"][:1]
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

    def _end(self, piece: Piece) -> None:
        for item in reversed(self.items):
            if item.act.end is not None or item.group != len(self.kinds) - 1:
                break
            item.act = replace(item.act, end=piece.entry_end)

    def _words(self, piece: Piece) -> str:
        return self.text[piece.start : piece.end]

    def _closing(self, piece: Piece) -> None:
        """A wall at the end of a sentence, behind its raceways: "… that turns and out the top."""
        if self.wall is None or self.wall_from < len(self.items) or not self.items:
            return
        walls = [p for p in self.pieces if p.sort in ("wall", "wall_to") and p.end <= piece.start]
        last = self.items[-1].act
        if walls[-1].sort == "wall_to" and last.wall not in (None, self.wall) and last.to is None:
            self._led(self.wall)
        else:
            self._walls_alone()

    def _led(self, wall: acts.WallName) -> None:
        """The raceways told last, by the wall that they leave by."""
        entered = self.items[-1].act.wall
        for item in reversed(self.items):
            if item.act.wall != entered or item.act.to is not None:
                break
            item.act = replace(item.act, to=wall)

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
        if not self.items and self.kinds == [None] and [p.sort for p in walls] == ["wall_to"]:
            words = self.heard[slice(*span)]
            way: acts.Function = "correction" if self.corrects else "inform"
            self.made.append(acts.PointRaceways(to=self.wall, words=words, span=span, function=way))
            return
        function: acts.Function = "correction" if self.corrects else "inform"
        words = self.heard[slice(*span)]
        self.made.append(acts.SetPull(walls=names, words=words, span=span, function=function))
