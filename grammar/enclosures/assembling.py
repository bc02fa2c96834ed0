"""Pieces put together: raceways with their walls and rows, each pull with its raceways."""

from __future__ import annotations

from dataclasses import dataclass, replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.enclosures.bare_answers import SILENT_DETAILS
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.enclosures.raceway_items import in_order
from boxaloud.grammar.enclosures.row_assembly import SILENT
from boxaloud.grammar.enclosures.u_pull_exits import left_by_another
from boxaloud.grammar.enclosures.wall_assembly import LED_BY, WallAssembly
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: What a piece says by itself, without a look at what stands beside it.
_PLAIN: dict[str, dict[str, object]] = {
    "opposite": {"walls": "opposite"},
    "adjacent": {"walls": "adjacent"},
    "same": {"walls": "same"},
    "alike": {"walls": "alike"},
    "one_row": {"rows": 1},
    "removable": {"cover": True},
    "fixed": {"cover": False},
    "each_returns": {"returns": True},
    "every_entry": {"returns": False},
    "listed": {"listed": True},
    "blocks": {"blocks": True},
}

_BACK_OUT = lazy_pattern(r"\bback out\b")
_OTHER_IS = lazy_pattern(r"the other (?:one|conduit|pipe|raceway) is ")
_WAYS_OUT = frozenset({"out", "leaves", "leaving", "exits", "exiting"})


@dataclass(slots=True)
class Assembly(WallAssembly):
    """The pieces of one utterance put together, from left to right."""

    def take(self, piece: Piece) -> None:
        """Take the next piece."""
        match piece.sort:
            case "items" if piece not in self.ways:
                self._items(piece)
            case "kind":
                self._kind(piece)
            case "wall" | "wall_to":
                self._wall(piece)
            case "end":
                self._entered(piece)
            case "pointed":
                self._pointed(piece)
            case "row" | "row_of" | "rows" | "each_row" | "rows_of":
                self._of_rows(piece)
            case "detail" if piece.value == "same" and self._beside_the_last(piece):
                self.wall, self.to = self.items[-1].act.wall, None
                self.wall_from = self.row_from = len(self.items)
            case "detail":
                self._said(piece)
            case "break" if piece.value in ".;\n" and self._goes_on(piece):
                self._closing(piece)
                self._apart()

    def _pointed(self, piece: Piece) -> None:
        """Raceways that stand already, and what is said of them."""
        if piece.pointed is None:
            return
        span = (piece.start, piece.end)
        function = "correction" if self.corrects else piece.pointed.function
        words = self.heard[slice(*span)]
        self.made.append(replace(piece.pointed, words=words, span=span, function=function))
        self.corrects = False
        self._apart()

    def _goes_on(self, piece: Piece) -> bool:
        """Whether anything of a pull box is said behind a full stop, or before its walls."""
        if self._heads_rows(piece) or self._rows_follow(piece):
            return False
        rest = [p for p in self.pieces if p.start >= piece.end]
        return bool(self.items) or not all(
            p.sort in SILENT or p.value in SILENT_DETAILS for p in rest
        )

    def _entered(self, piece: Piece) -> None:
        if self._end_to_end(piece):
            self._detail(piece, walls="opposite")
        if self._side_beside_back(piece):
            self._wall(replace(piece, sort="wall", value="left"))
        else:
            self._end(piece)

    def _end_to_end(self, piece: Piece) -> bool:
        """ "In one end, a 4 inch out the other": ends of a box lie opposite each other."""
        before = [p for p in self.pieces if p.sort == "end" and p.end <= piece.start]
        said = [self.text[p.start : p.end] for p in before]
        named = any(p.sort == "kind" or "splice" in self._words(p) for p in self.pieces)
        return not named and piece.value == "out" and any(one.endswith("one end") for one in said)

    def _side_beside_back(self, piece: Piece) -> bool:
        """ "In one side", where another raceway enters the back: a wall beside it, not an end."""
        said = self.text[piece.start : piece.end]
        backs = [p for p in self.pieces if p.value in ("back", "opposite_cover")]
        backs += [p for p in self.pieces if p.value == "opposite_removable"]
        return said.endswith(("one side", "one wall")) and bool(backs)

    def _kind(self, piece: Piece) -> None:
        """A kind of pull, behind its raceways ("a 3 inch straight pull") or before them."""
        if self._is_a_way(piece):
            self.ways.append(piece)
            return
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

    def _is_a_way(self, piece: Piece) -> bool:
        """ "A 2 inch on the left going straight to the right": its walls tell how it goes."""
        after = next((p for p in self.pieces if p.start >= piece.end), None)
        if piece.value != "straight" or after is None or after.sort != "wall_to" or not self.items:
            return False
        last = self.items[-1].act
        plain = "pull" not in self.text[piece.start : piece.end]
        return plain and self.kinds[-1] is None and last.wall is not None and last.to is None

    def _said_again(self, piece: Piece, loose: bool) -> bool:
        """The kind at hand once more, with no raceways of its own: "…, turning ninety"."""
        known = self.kinds[-1]
        follow = any(p.sort == "items" for p in self.pieces if p.start >= piece.end)
        return known is not None and known.value == piece.value and not (loose and follow)

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
                said = self._sentence(piece).split()
                if not _WAYS_OUT.isdisjoint(said) and self._one_in():
                    self._end(replace(piece, value="out"))
                self._detail(piece, **_PLAIN[value])
            case "name" if "splice" in self.text[piece.start : piece.end]:
                self._splice_box(piece)
            case "separate_rows":
                self._separate(piece)
            case "opposite_cover" | "opposite_removable":
                if not self._of_the_back(piece):
                    self._wall(replace(piece, sort="wall", value="back"))
                if piece.value == "opposite_removable":
                    self._detail(piece, cover=True)
            case "dimensions" | "apart" | "volume":
                self._measured(piece)
            case said if said.startswith("side "):
                self._sides(piece)
            case said if said.startswith(("insulation ", "conductor ")):
                slot, _, value = said.partition(" ")
                self._detail(piece, **{slot: value})

    def _sentence(self, piece: Piece) -> str:
        """What is said in the sentence of a piece, as far as it: "it leaves as a 2 inch by the
        next wall"."""
        start = max(self.text.rfind(sign, 0, piece.start) for sign in ".;?") + 1
        return self.text[start : piece.end]

    def _of_the_back(self, piece: Piece) -> bool:
        """ "Enters the back (cover opposite comes off)": said of a wall that stands already."""
        heard = [p for p in self.pieces if p.start < piece.start and p.sort not in SILENT]
        return bool(heard) and heard[-1].value == "back"

    def _beside_the_last(self, piece: Piece) -> bool:
        """ "Next to it on that wall a 2 inch": what follows enters the wall said last."""
        after = next((p for p in self.pieces if p.start >= piece.end and p.sort != "silent"), None)
        said = self.text[piece.start : piece.end]
        beside = "next to" in said or "beside" in said or "that same" in said
        walled = bool(self.items) and self.items[-1].act.wall is not None
        return beside and walled and after is not None and after.sort == "items"

    def _measured(self, piece: Piece) -> None:
        """The sides of the box, its volume, or how far raceways are apart."""
        if piece.value == "volume":
            span = (piece.start, piece.end)
            words = self.heard[slice(*span)]
            self.made.append(acts.SetVolume(volume=piece.dimensions[0], words=words, span=span))
        elif piece.value == "apart":
            self._detail(piece, apart=piece.dimensions[0])
        else:
            width, height, depth = piece.dimensions
            self._detail(piece, width=width, height=height, depth=depth)

    def _sides(self, piece: Piece) -> None:
        """All sides that are said one by one, as one: "30 inches long and 12 wide"."""
        sides = [p for p in self.pieces if p.value.startswith("side ")]
        if piece is sides[0]:
            said = {p.value.removeprefix("side "): p.dimensions[0] for p in sides}
            named = not set(said).isdisjoint({"width", "height"}) or None
            self._detail(piece, sided=named, **said)

    def _one_in(self) -> bool:
        """True where a raceway was said to come in, so that "out" is said of another."""
        return any(item.act.end == "in" for item in self.items)

    def _splice_box(self, piece: Piece) -> None:
        """ "A splice box": what stands in it is spliced unless a kind of pull is said."""
        others = [p for p in self.pieces if p.sort == "kind"]
        if not others and self.kinds[-1] is None:
            self.kinds[-1] = replace(piece, sort="kind", value="splice")

    def told(self) -> list[Act]:
        """All acts, each group of raceways behind the pull that it belongs to."""
        self._walls_alone()
        if len(self.kinds) == 2 and self.kinds[0] is None and not self._of(1):
            self.kinds = [self.kinds[1]]
        if self.kinds == [None] and (back := self._turned_back()) is not None:
            self.kinds = [back]
            self._detail(back, returns=False)
        elif (last := left_by_another(self.text, self.pieces)) is not None:
            self._detail(last, returns=False)
        elif (other := self._other_told()) is not None:
            self._detail(other, returns=False)
        kinds = [self._pull(kind) if kind is not None else None for kind in self.kinds]
        return in_order(kinds, self.items, self.made)

    def _other_told(self) -> Piece | None:
        """ "The other conduit is 2 inch": of a U pull the one that its conductors leave by."""
        told = [p for p in self.pieces if p.sort == "items"]
        said = [self.text[p.start : p.end] for p in told]
        return told[0] if len(told) == 1 and _OTHER_IS.match(said[0]) else None

    def _turned_back(self) -> Piece | None:
        """ "In the bottom, and the wires go back out the bottom in another": a U pull."""
        walls = {item.act.wall for item in self.items}
        if len(self.items) < 2 or len(walls) != 1 or None in walls:
            return None
        ways = [p for p in self.pieces if p.sort == "wall_to" and self._led_out(p)]
        return replace(ways[0], sort="kind", value="u") if ways else None

    def _led_out(self, piece: Piece) -> bool:
        """Whether "back out the bottom" is said of a raceway of its own behind it."""
        after = next((p for p in self.pieces if p.start >= piece.end and p.sort == "items"), None)
        back = _BACK_OUT.search(self.text, piece.start, piece.end) is not None
        return (
            back
            and after is not None
            and LED_BY.fullmatch(self.text, piece.end, after.start) is not None
        )

    def _pull(self, kind: Piece) -> acts.DescribePull:
        return acts.DescribePull(
            kind=kind.pull_kind,
            words=self.heard[kind.start : kind.end],
            span=(kind.start, kind.end),
            function="correction" if self.corrects else "inform",
        )

    def _of(self, group: int) -> bool:
        return any(item.group == group for item in self.items)
