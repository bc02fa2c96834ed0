"""A change that is begun and withdrawn in one breath: "take the stud off, no, don't, it stays".

Nothing of it is entered. What is said behind it only keeps what there is, where that is so in the
box; else it is told anew, or left unread, and then no verdict stands over it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.utterance.layout import single_spaced
from boxaloud.grammar.utterance.withdrawn_orders import Withdrawn, changing, withdrawn
from boxaloud.rules.contents import Cable, Yoke

_SILENT = (acts.No, acts.Yes, acts.Keep, acts.OtherTalk, acts.Social, acts.NothingElse)
_Reader = Callable[[str | Sequence[Word]], Utterance]


def withdrawn_at_once(
    said: str | Sequence[Word], heard: str, state: State, capacity: Decimal | None, read: _Reader
) -> Utterance | None:
    """The utterance without what it withdraws, held against the box; None for any other."""
    if isinstance(said, str):
        said = heard = single_spaced(said)
    found = withdrawn(heard)
    if found is None:
        return None
    if found.agreeing and not _may_be_so(
        _piece(said, heard, found.begun, found.withdrawn, read), found, state
    ):
        return None
    before = _piece(said, heard, 0, found.begun, read)
    if found.several or _placed_otherwise(
        heard, found
    ):  # which of them is withdrawn nobody can tell
        rest = heard[found.begun :]
        unread = Unread(rest, (found.begun, len(heard)), True)
        return Utterance(heard, before.acts, (*before.unread, unread))
    behind = _behind(_piece(said, heard, found.behind, len(heard), read), found, state, capacity)
    if found.agreeing and (behind.acts or behind.unread):
        return None
    span = (found.begun, found.behind)
    kept = acts.Keep(words=heard[slice(*span)].strip(), span=span)
    return Utterance(
        heard, (*before.acts, kept, *behind.acts), (*before.unread, *behind.unread)
    )  # fmt: skip


_COUNTED = re.compile(
    r"(?i)\W*(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|[a-z]+teen) "
)


def _may_be_so(begun: Utterance, found: Withdrawn, state: State) -> bool:
    """Whether the box can be as it was: what was counted wrong is there, "eight wires, no, six";
    what was seen wrong is not, "there's a stud, no, that's a nail, there isn't"."""
    if not found.absent and _COUNTED.match(begun.heard) is None:
        return True
    if found.absent and any(isinstance(act, acts.SetClamps) for act in begun.acts):
        return state.clamps in ("none", "outside")
    things = [replace(references.to_thing(act), count=None) for act in begun.acts if is_thing(act)]
    return all((references.find(state, one) is None) == found.absent for one in things)


_CLAMPS = re.compile(r"(?i)\b(?:clamps?|connectors?)\b")
_PLACED = re.compile(
    r"(?i)\b(?:they|it)(?:['’](?:re|s)| are| is) (?:in|out|inside|outside|there|gone)\b"
)


def _placed_otherwise(heard: str, found: Withdrawn) -> bool:
    """ "I could leave the clamps out but no, they're in": what is said behind is of the clamps."""
    begun, behind = heard[found.begun : found.withdrawn], heard[found.behind :]
    return _CLAMPS.search(begun) is not None and _PLACED.search(behind) is not None


def _piece(
    said: str | Sequence[Word], heard: str, start: int, end: int, read: _Reader
) -> Utterance:
    """What is read of a part of the utterance, each act in its place there."""
    words = heard[start:end]
    if not words.strip(" ,.;:!?…–—-"):
        return Utterance(words, ())
    at = len(heard[:start].split())
    part = words if isinstance(said, str) else said[at : at + len(words.split())]
    made = read(part)
    shift = start + max(0, words.find(made.heard))
    return Utterance(
        words,
        tuple(replace(act, span=_moved(act.span, shift)) for act in made.acts),
        tuple(replace(run, span=_moved(run.span, shift)) for run in made.unread),
    )


def _moved(span: tuple[int, int], by: int) -> tuple[int, int]:
    return span[0] + by, span[1] + by


def _behind(read: Utterance, found: Withdrawn, state: State, capacity: Decimal | None) -> Utterance:
    """What is said behind, without what only keeps what the box holds."""
    anew = changing().search(read.heard.lower()) is not None
    held = _numbers_of(state, capacity)
    told = tuple(
        act
        for act in read.acts
        if not _is_silent(act) and (anew or not _is_kept(act, state, capacity, held))
    )
    left = tuple(run for run in read.weighty if anew or not _numbers(run.words) <= held)
    if not anew and not found.reported:  # "no, don't, it's a dimmer": of what, nobody can tell
        left += tuple(Unread(act.words, act.span, True) for act in told if _corrects(act))
        told = tuple(act for act in told if not _corrects(act))
    named = any(isinstance(act, acts.Restate) or is_thing(act) for act in read.acts)
    if found.agreeing and not (found.absent or named or _numbers(read.heard)):
        left = (*left, Unread.whole(read.heard))
    return replace(read, acts=told, unread=left)


def _corrects(act: Act) -> bool:
    return isinstance(act, acts.Restate | acts.RestateNumber | acts.RestateList | acts.Resize)


def _is_silent(act: Act) -> bool:
    if isinstance(act, acts.Undo):
        return "undo" not in act.words.lower()
    if isinstance(act, acts.PutBack):  # "it's staying put"
        return "stay" in act.words.lower()
    return isinstance(act, _SILENT)


def _is_kept(act: Act, state: State, capacity: Decimal | None, held: set[Decimal]) -> bool:
    """Whether what an act says is so in the box already."""
    match act:
        case acts.Restate():
            return _is_kept(act.thing, state, capacity, held)
        case acts.AddUncounted():
            return True
        case acts.SetClamps():
            return act.where == state.clamps
        case acts.SetVolume():
            return capacity is not None and act.volume in (capacity, int(capacity))
        case acts.Number() | acts.RestateNumber() | acts.Size() | acts.Recount():
            return _numbers(act.words) <= held
        case acts.Deny():
            return references.find(state, act.target) is None
        case acts.AddConductors() if act.awg is None:
            return _numbers(act.words) <= held
    if not is_thing(act):
        return False
    item = references.find(state, references.to_thing(act))
    count = getattr(act, "count", None)
    return item is not None and (count in (None, item.content.count) or _is_named(act))


def _is_named(act: Act) -> bool:
    """ "It stays a plain plug": one of them, however many there are."""
    return re.match(r"(?i)(?:an?|the|that|this) ", act.words) is not None


def _numbers_of(state: State, capacity: Decimal | None) -> set[Decimal]:
    """Every number that the box is told by: counts, sizes, conductors, sums and the volume."""
    held = {Decimal(1)}
    for item in state.items:
        for slot in ("count", "awg", "conductors"):
            value = getattr(item.content, slot, None)
            if isinstance(value, int):
                held.add(Decimal(value))
    for kind in (Cable, Yoke):
        held.add(Decimal(sum(i.content.count for i in state.items if isinstance(i.content, kind))))
    if capacity is not None:
        held |= {capacity, Decimal(int(capacity))}
    return held


_TOKEN = re.compile(
    r"(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)[ -]"
    r"(?:one|two|three|four|five|six|seven|eight|nine)\b|[a-z]+|\d+(?:\.\d+)?"
)


def _numbers(words: str) -> set[Decimal]:
    """The numbers that words hold: "four's right", "leave it at tens"."""
    plain = re.sub(r"['’]s\b", "", words.lower())
    found: set[Decimal] = set()
    for token in _TOKEN.findall(plain):
        texts = tuple(re.split(r"[ -]", token))
        worth = numbers.value(texts)
        worth = numbers.value((token.removesuffix("s"),)) if worth is None else worth
        if worth is not None and token not in ("to", "for", "a", "an", "no", "won", "ate", "too"):
            found.add(worth)
    return found


__all__ = ["withdrawn_at_once"]
