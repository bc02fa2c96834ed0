"""The safety net, tried against its table: what is accepted, asked back, refused."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache
from pathlib import Path
from typing import Any

from boxaloud.assistant.dialogue import Conversation, Entry, Reply
from boxaloud.assistant.dialogue.belief import belief_table, sound_effects
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Doubt, Reference, Unread
from boxaloud.grammar.lexer.heard_words import Word
from standing import Standing, standing

SWITCH = Reference("device", name="switch")
CABLE = acts.AddCable(count=3, awg=14, conductors=2, words="three 14-2s")
FILLED: dict[str, dict[str, Any]] = {
    "AddCable": {"count": 2, "awg": 14, "conductors": 2},
    "AddConductors": {"count": 4, "awg": 14},
    "AddGrounds": {"count": 1, "awg": 14},
    "AddJumper": {"count": 1},
    "AddFixtureWires": {"count": 2, "awg": 18},
    "AddDevice": {"count": 1, "name": "switch"},
    "AddFitting": {"count": 1, "name": "luminaire stud"},
    "AddTerminalBlock": {"count": 1},
    "AddUncounted": {"count": 1, "name": "wire connector"},
    "NoneOfThem": {},
    "SetClamps": {"where": "inside"},
    "Place": {"where": "inside"},
    "SetVolume": {"volume": Decimal(18)},
    "SetSize": {"family": "square", "width": Decimal(4), "depth": Decimal("1.5")},
    "AddPart": {"name": "plaster ring"},
    "AddBarrier": {"material": "metal"},
    "SetEdition": {"year": "2017"},
    "Deny": {"target": SWITCH},
    "Number": {"value": Decimal(18)},
    "Size": {"awg": 14},
    "Restate": {"thing": CABLE},
    "RestateNumber": {"value": Decimal(3)},
    "Recount": {"target": SWITCH, "count": 2},
    "Resize": {"target": SWITCH, "awg": 12},
    "Replace": {"target": SWITCH, "thing": CABLE},
    "Remove": {"target": SWITCH},
    "More": {"target": SWITCH, "count": 1},
    "Land": {"target": SWITCH, "awg": 12},
    "Widen": {"target": SWITCH, "gangs": 2},
    "Deepen": {"target": SWITCH, "depth": Decimal(4)},
    "AddClampAssembly": {"volume": Decimal("1.5")},
    "InSpace": {"which": 1},
    "ShareSpaces": {"which": 1, "volume": Decimal(14)},
    "Hang": {"name": "fan", "weight": Decimal(40)},
    "Unground": {"target": SWITCH},
    "Reclassify": {"count": 2, "kind": "grounds"},
    "Route": {"target": SWITCH, "path": "through"},
    "PutBack": {"target": SWITCH},
    "Ask": {"about": "total"},
}


@lru_cache(maxsize=1)
def table() -> dict[str, Any]:
    """The table as it is written."""
    return tomllib.loads((Path(__file__).parent / "belief_table.toml").read_text("utf-8"))


def sample(kind: str) -> Act:
    """An act of a kind, with the slots that it takes."""
    made: Act = getattr(acts, kind)(words=kind, **FILLED.get(kind, {}))
    return made


def decided() -> Iterator[tuple[str, str]]:
    """Every row by every kind: its name, and what was wrong (empty: nothing)."""
    for row in table()["row"]:
        for kind in table()["kinds"][row["kinds"]]:
            act = sample(kind)
            spoken = row["voice"] == "heard"
            if spoken:
                act = belief_table.unsure(act, row["confidence"])
                act = sound_effects.asked_first(act, row["confidence"])
            if "doubt" in row:
                act = replace(act, doubts=(Doubt("", row["doubt"]),))
            got = belief_table.decide(act, spoken, row["flips"], row.get("rejected", False))
            how = f"{row['voice']} {row['confidence']}{' flips' if row['flips'] else ''}"
            name = f"{kind} {how}{' rejected' if row.get('rejected') else ''}"
            yield name, "" if got == row["becomes"] else f"{got}, not {row['becomes']}"


def doubted() -> Iterator[tuple[str, str]]:
    """Every reason of a doubt, typed and heard; and "some" of every kind."""
    for row in table()["doubt"]:
        for reason in row["reasons"]:
            for voice in ("typed", "heard"):
                act = replace(CABLE, doubts=(Doubt("count", reason),))
                got = belief_table.decide(act, voice == "heard", False)
                yield f"{reason} {voice}", "" if got == row[voice] else f"{got}, not {row[voice]}"
    for row in table()["vague"]:
        for kind in row["kinds"]:
            some = replace(sample(kind), doubts=(Doubt("count", "vague"),))
            got = belief_table.decide(some, False, False)
            wrong = got != row["becomes"]
            yield f"some {kind}", f"{got}, not {row['becomes']}" if wrong else ""


def talked() -> Iterator[tuple[str, str]]:
    """Every talk of the table: what became of its last words."""
    for row in table()["talk"]:
        talk = Conversation()
        for said in row["was"]:
            talk.hear(said if row.get("typed") else heard(said))
        reply = talk.hear(row["say"] if row.get("typed") else heard(row["say"]))
        got = standing(talk)
        wrong = not _became(row["becomes"], talk, reply, got) or got.total != Decimal(row["total"])
        fault = f"{got}, asks {reply.asks}: {reply.said}" if wrong else ""
        yield f"{row['guard']}: {' / '.join((*row['was'], row['say']))}", fault


def strayed() -> Iterator[tuple[str, str]]:
    """Bare answers heard behind other acts with a gap: the question of the clamps stays open."""
    for kind in table()["stray"]["answers"]:
        talk = Conversation()
        for said in ("two fourteen twos and a switch", "fifteen cubic inches"):
            talk.hear(heard(said))
        told = (sample("AddUncounted"), sample(kind))
        gap = Unread("eleven zorbs", (5, 17), True)
        talk.talk.hear(Entry("a nut eleven zorbs and so on", told, (gap,), 0.95))
        state, got = talk.talk.state, standing(talk)
        stays = state.clamps == "unknown" and not state.assumed and got.capacity == 15
        yield f"stray {kind}", "" if stays and got.verdict == "incomplete" else str(got)


def _became(becomes: str, talk: Conversation, reply: Reply, got: Standing) -> bool:
    state = talk.talk.state
    waits = bool(state.pending or state.unread)
    if becomes == "accept":
        return not waits
    if becomes == "ask":
        return waits and got.verdict != "fits" and reply.asks in ("confirm", "unread")
    if becomes == "open":  # nothing answered the question that was open
        return waits and got.verdict != "fits" and state.clamps == "unknown"
    return not state.pending and reply.asks != "confirm"


def heard(said: str) -> list[Word]:
    """The words of a talk of the table, each with how sure the ear was."""
    parts = (word.partition("|") for word in said.split())
    return [Word(text, float(score or 0.95)) for text, _, score in parts]


def misses(known: frozenset[str] = frozenset()) -> dict[str, str]:
    """All that is not as the table says, but for the faults that are known."""
    found = {}
    for check in (decided, doubted, talked, strayed):
        for name, fault in check():
            if fault and name not in known:
                found[name] = fault
    return found
