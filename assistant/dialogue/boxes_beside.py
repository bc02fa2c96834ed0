"""Boxes of the job beside one another: "which of the two has more room", "how does the hall compare
with the den". They are told by what is left of their volumes; nothing is entered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.box_names import meant
from boxaloud.assistant.dialogue.box_verdict_list import MOST_LISTED
from boxaloud.assistant.dialogue.nlg.sentences import joined, listed, marked, say, sentence, volume
from boxaloud.grammar.utterance.compared_boxes import ComparedBox, comparisons


def compared(heard: str, names: Sequence[str], at: str) -> tuple[str, ...]:
    """The boxes of the job that a question sets beside one another; empty for any other."""
    if len(names) < 2:
        return ()
    for boxes in comparisons(heard):
        if not boxes:
            return tuple(names)
        first = _box(boxes[0], names, at, "")
        second = _box(boxes[1], names, at, first)
        if first and second and first != second:
            return first, second
    return ()


def _box(said: ComparedBox, names: Sequence[str], at: str, beside: str) -> str:
    """The box that is meant; empty where none is."""
    if said.which == "here":
        return at
    if said.which == "other":
        others = [name for name in names if name != (beside or at)]
        return others[0] if len(others) == 1 else ""
    return meant(said.name, names) or ""


def told(found: Mapping[str, Assessment]) -> str:
    """What is left of each box, and which of them has the most room, where that is certain."""
    shown = [*found.items()]
    shown = shown if len(shown) <= MOST_LISTED else _ends(shown)
    rows = sentence(joined([_row(name, one) for name, one in shown], by="; "))
    return joined([rows, _ranked(found)])


def _ends(found: list[tuple[str, Assessment]]) -> list[tuple[str, Assessment]]:
    """Of many boxes the one with the least room and the one with the most, as far as is known."""
    known = [(name, one) for name, one in found if one.sheet.capacity is not None]
    known.sort(key=lambda row: (row[1].sheet.capacity or row[1].high) - row[1].high)
    return [known[0], known[-1]] if len(known) > 1 else known


def _row(name: str, found: Assessment) -> str:
    sheet = found.sheet
    room = sheet.capacity
    title = name[:1].upper() + name[1:]
    if room is None or not found.by_volume or found.spaces:
        return say("job.beside.open", name=title, total=volume(sheet.total, sheet.unit))
    exact = "" if found.low == found.high else "_least"
    values = {"name": title, "capacity": marked(room, sheet.unit)}
    if found.low > room:
        margin = volume(found.low - room, sheet.unit)
        return say(f"job.beside.over{exact}", margin=margin, **values)
    if found.verdict != "fits":
        return say("job.beside.open", name=title, total=volume(sheet.total, sheet.unit))
    margin = volume(room - found.high, sheet.unit)
    return say(f"job.beside.left{exact}", margin=margin, **values)


def _ranked(found: Mapping[str, Assessment]) -> str:
    """Which box has the most room, where whatever is open cannot change that."""
    known = {name: one for name, one in found.items() if one.verdict != "incomplete"}
    rooms = {
        name: (one.sheet.capacity - one.high, one.sheet.capacity - one.low)
        for name, one in known.items()
        if one.sheet.capacity is not None and one.by_volume and not one.spaces
    }
    if len(rooms) < len(found) or len({one.sheet.unit for one in found.values()}) > 1:
        return ""
    most = max(rooms, key=lambda name: rooms[name])
    rest = [room for name, room in rooms.items() if name != most]
    if all(room == rooms[most] and room[0] == room[1] for room in rest):
        return say("job.beside.same", names=listed(list(rooms)))
    if any(room[1] >= rooms[most][0] for room in rest):
        return ""
    return say("job.beside.most" if len(rooms) > 2 else "job.beside.more", name=most)
