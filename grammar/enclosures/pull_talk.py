"""What is said of a pull or junction box of large conductors: its words as acts, 314.28.

A number, a size or a wall that nothing is made of weighs: a dimension that leaves a raceway out
would be too small.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Unread, Utterance
from boxaloud.grammar.enclosures import cable_wires
from boxaloud.grammar.enclosures.asked_distances import told_of
from boxaloud.grammar.enclosures.assembling import Assembly
from boxaloud.grammar.enclosures.bare_answers import SILENT_DETAILS, bare_answer, size_asked
from boxaloud.grammar.enclosures.enclosure_words import shows, words
from boxaloud.grammar.enclosures.likely_pulls import counted_by_volume, likely, shows_large
from boxaloud.grammar.enclosures.pieces import scan
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.enclosures.question_sources import without_sources
from boxaloud.grammar.enclosures.raceways_out import taken_out
from boxaloud.grammar.enclosures.reading import Ordinary, asks
from boxaloud.grammar.enclosures.unread_weight import sounds_like_a_count, weighs
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.tokens import plain_text

_TELLING = frozenset(
    {
        "items",
        "wall",
        "wall_to",
        "end",
        "kind",
        "row",
        "row_of",
        "rows",
        "rows_of",
        "each_row",
        "pointed",
    }
)
_ANSWERS = (
    acts.Number, acts.Size, acts.Place, acts.NoneOfThem, acts.Yes, acts.No, acts.DontKnow,
)  # fmt: skip
_VOLUME = lazy_pattern(r"\b(?:cubic|cubes?|cu|volume|in3|marked|stamped)\b")
#: "No make the big one a 3 inch", heard without a break.
_MENDING = ("make ", "it's ", "that's ")
_PREPOSITION = lazy_pattern(
    r"(?:^|\b(?:in|for|at|near|by|behind|from|to|under|over|called|feeding) "
    r"(?:the |a |an |my |our )?)$"
)


#: "3in in the back": inches, written to their figure.
_SHORT_INCH = lazy_pattern(r"(?<=\d)in\b")


def is_about(text: str) -> bool:
    """Whether a text speaks of a pull box by itself."""
    alone = words("alone").fullmatch(text.strip(" .!"))
    return shows("about").search(text) is not None or alone is not None


def read(heard: str, expect: str | None, ordinary: Ordinary) -> Utterance | None:
    """An utterance about a pull box; None where it is about something else.

    `expect` begins with `pull` where a pull box is at hand.
    """
    text = without_sources(cable_wires.with_sets(heard, plain_text(heard)))
    text = text.replace("-and-a-", " and a ")  # "two-and-a-half inch"
    text = _SHORT_INCH.sub('" ', text)
    if (answer := bare_answer(heard, text, expect)) is not None:
        return Utterance(heard, (answer,))
    at_hand = bool(expect) and str(expect).startswith("pull")
    if not at_hand and not is_about(text):
        return _likely(heard, text, ordinary)
    if at_hand and words("high_voltage").search(text):
        return Utterance(heard, (), (Unread.whole(heard),))  # 314.28 is of 1,000 volts and less
    if not at_hand and words("naming").fullmatch(text.strip(" .!?")) is not None:
        span = (0, len(heard))
        named = acts.NameBoxKind(name="pull box", words=heard.strip(), span=span)
        return Utterance(heard, (named,))
    pieces = scan(text, lone=expect == "pull_size")
    if at_hand and (out := taken_out(heard, text, pieces)) is not None:
        return Utterance(heard, (out,))
    if at_hand and (question := size_asked(heard, told_of(text, pieces))) is not None:
        return Utterance(heard, (question,))
    walls_asked = expect in ("pull_wall", "pull_walls")
    telling = [piece for piece in pieces if _tells(piece, at_hand)]
    if not at_hand and not any(piece.begins or piece.counts for piece in pieces):
        return _measured(heard, text, pieces, ordinary)
    if not any(walls_asked or piece.sort != "wall" or not piece.number for piece in telling):
        return None  # "that's right" names no wall
    found = _Reading(heard, text, pieces, ordinary, at_hand).utterance()
    measured = any(piece.value == "centres" for piece in pieces)
    if found.weighty and not measured:
        return None if counted_by_volume(is_about(text), pieces, ordinary(heard)) else found
    return found


def _measured(heard: str, text: str, pieces: list[Piece], ordinary: Ordinary) -> Utterance | None:
    """ "Pull box, 24 by 24 by 8": its name, lost beside its sides, which are read as any box's."""
    if not is_about(text) or asks(text):
        return None
    if sum(piece.value.startswith("side ") for piece in pieces) > 1:
        return _sided(heard, text, pieces, ordinary)
    if not any(piece.value == "dimensions" for piece in pieces):
        return None
    found = ordinary(heard)
    if any(isinstance(act, acts.NameBoxKind) for act in found.acts) or not found.acts:
        return None
    span = (0, len(heard))
    name = acts.NameBoxKind(name="pull box", words=heard.strip(), span=span)
    return replace(found, acts=(name, *found.acts))


def _sided(heard: str, text: str, pieces: list[Piece], ordinary: Ordinary) -> Utterance | None:
    """ "Pull box. 36 wide, 24 high": its sides by their names, which raceways go by."""
    found = _Reading(heard, text, pieces, ordinary, True).utterance()
    if found.weighty or not all(isinstance(act, acts.SetPull) for act in found.acts):
        return None
    span = (0, len(heard))
    name = acts.NameBoxKind(name="pull box", words=heard.strip(), span=span)
    return replace(found, acts=(name, *found.acts))


def _likely(heard: str, text: str, ordinary: Ordinary) -> Utterance | None:
    """A junction or splice box: one of large conductors where all of it says so, or where nothing
    of it is anything else."""
    if not shows_large(text):
        return None
    pieces = scan(text)
    if not likely(text, pieces):
        return None
    found = _Reading(heard, text, pieces, ordinary).utterance()
    named = any(piece.sort == "kind" for piece in pieces)
    return None if found.weighty and not (named and not ordinary(heard).acts) else found


def _tells(piece: Piece, at_hand: bool) -> bool:
    detail = piece.sort == "detail" and piece.value not in SILENT_DETAILS
    return piece.sort in _TELLING or piece.begins or (detail and at_hand)


@dataclass(slots=True)
class _Reading:
    """The pieces of one utterance put together, from left to right."""

    heard: str
    text: str
    pieces: list[Piece]
    ordinary: Ordinary
    at_hand: bool = False
    assembly: Assembly = field(init=False)
    left: list[Unread] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.assembly = Assembly(self.heard, self.text, self.pieces)
        sorts = {piece.sort for piece in self.pieces}
        whole = {"kind", "items"} <= sorts  # a pull with its raceways is another one
        self.assembly.corrects = not whole and words("remaking").match(self.text) is not None

    def utterance(self) -> Utterance:
        """The acts in the order said, and what was not read."""
        if self._refuses():
            return Utterance(self.heard, (), (Unread.whole(self.heard),))
        for said in self._clauses():
            clause = told_of(self.text, said)
            if any(_tells(piece, True) for piece in clause):
                self._clause(clause)
            else:
                self._elsewhere(clause)
        told = self.assembly.told()
        asked = self.at_hand and bool(told) and asks(self.text)
        if asked or words("supposing").search(self.text):
            span = (0, len(self.heard))
            whole = acts.Suppose(acts=tuple(told), asks_fit=asked, words=self.heard, span=span)
            told = [whole]
        return Utterance(self.heard, tuple(told), tuple(self.left))

    def _refuses(self) -> bool:
        """A denial or a change that nobody can place: nothing of it may be entered."""
        for piece in self.pieces:
            if piece.sort not in ("unread", "silent"):
                continue
            rest = self.text[piece.start :]
            said = self.text[piece.start : piece.end]
            if piece.sort == "silent" and not words("denying").fullmatch(said):
                continue  # "no other pipes": all of them were told
            if words("changing").match(rest):
                return True
            if words("denying").match(rest) and not self._mark(piece.start):
                return True
        return False

    def _mark(self, at: int) -> bool:
        """Whether a mark of correction begins here: at the start, or between breaks."""
        found = words("correcting").match(self.text, at)
        if found is None:
            return False
        before, after = self.text[:at].rstrip(), self.text[found.end() :].lstrip()
        return (not before or before[-1] in ",.;-") and (
            found[0] != "no" or after[:1] in (",", "-", ".") or after.startswith(_MENDING)
        )

    def _clauses(self) -> list[list[Piece]]:
        """The pieces between breaks."""
        found: list[list[Piece]] = [[]]
        for piece in self.pieces:
            found[-1].append(piece)
            if piece.sort == "break" and piece.value not in ("(", ")"):
                found.append([])
        return [clause for clause in found if clause]

    def _elsewhere(self, clause: list[Piece]) -> None:
        """A clause with nothing of a pull box in it, read as any other."""
        for piece in clause:
            if piece.sort == "break" or piece.value == "name":
                self.assembly.take(piece)
        kept = [piece for piece in clause if piece.sort not in ("break", "join")]
        for piece in (one for one in kept if self._may_count(one)):
            self._leave([piece])
        if not kept or all(piece.sort in ("silent", "detail") for piece in kept):
            return
        start, end = kept[0].start, kept[-1].end
        if self._mark(start):
            self.assembly.corrects = True
            return
        said = self.text[start:end]
        if words("of_raceways").search(said) or words("high_voltage").search(said):
            self.left.append(Unread(self.heard[start:end], (start, end), True))
            return
        found = self.ordinary(self.heard[start:end])
        bare = any(isinstance(act, (*_ANSWERS, acts.SetSize)) for act in found.acts)
        if any(isinstance(act, acts.SetVolume) for act in found.acts):
            bare = bare or _VOLUME.search(said) is None  # "the run is three and a half"
        if bare or not found.acts:
            weighs = self._weighs(start, end, True) or self._amid_raceways(start, end)
            self.left.append(Unread(self.heard[start:end], (start, end), weighs))
            return
        self.assembly.made += [replace(act, span=_moved(act.span, start)) for act in found.acts]
        self.left += [replace(run, span=_moved(run.span, start)) for run in found.unread]

    def _amid_raceways(self, start: int, end: int) -> bool:
        """Whether a clause of a word or two stands behind raceways: it may have been one."""
        said = self.text[start:end]
        behind = any(piece.sort in ("items", "kind") for piece in self.pieces if piece.end <= start)
        apart = _PREPOSITION.match(said.split()[0] + " ") is not None
        short = len(said.split()) < 4
        return behind and not apart and short and self._weighs(start, end, False)

    def _clause(self, clause: list[Piece]) -> None:
        run: list[Piece] = []
        for piece in clause:
            nowhere = piece.sort == "each_row" and not self._counts_rows()
            if (
                piece.sort == "unread"
                or piece.value == "centres"
                or nowhere
                or self._may_count(piece)
            ):
                run.append(piece)
                continue
            self._leave(run)
            run = []
            self.assembly.take(piece)
        self._leave(run)

    def _counts_rows(self) -> bool:
        """Whether it was said how many rows there are."""
        return any(piece.sort == "rows" for piece in self.pieces)

    def _may_count(self, piece: Piece) -> bool:
        return sounds_like_a_count(self.text, self.pieces, piece)

    def _leave(self, run: list[Piece]) -> None:
        """Words that became nothing, graded."""
        if not run:
            return
        start, end = run[0].start, run[-1].end
        if self._mark(start):
            self.assembly.corrects = True
            return
        self.left.append(
            Unread(self.heard[start:end], (start, end), self._weighs(start, end, False))
        )

    def _weighs(self, start: int, end: int, apart: bool) -> bool:
        """Whether unread words may have been a size, a count, a wall, or anything like it."""
        kind_told = any(piece.sort == "kind" for piece in self.pieces)
        return weighs(self.text, start, end, apart, kind_told)


def _moved(span: tuple[int, int], by: int) -> tuple[int, int]:
    return span[0] + by, span[1] + by
