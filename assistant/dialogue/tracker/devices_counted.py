"""So many devices in all, said anew before those that are new: "make it two devices, there's a
receptacle beside the switch"."""

from __future__ import annotations

from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules.contents import Yoke


def made_up_behind(turn: Turn, act: acts.Restate) -> bool:
    """Whether the devices that are there, and those that the same breath adds behind, come to the
    count: each yoke counts once, 314.16(B)(4), and what is there stays what it is."""
    thing = act.thing
    if not isinstance(thing, acts.AddDevice) or thing.name not in (None, "device"):
        return False
    if thing.count is None or act.instead_of is not None:
        return False
    new = sum(_new(one, act) for one in turn.ahead)
    there = sum(item.content.count for item in turn.state.items if isinstance(item.content, Yoke))
    return new > 0 and there + new == thing.count


def _new(act: acts.Act, counted: acts.Restate) -> int:
    """How many devices an act brings in that are named behind the count."""
    if not isinstance(act, acts.AddDevice) or act.function != "inform":
        return 0
    if act.name in (None, "device") or act.span[0] < counted.span[1]:
        return 0
    there = act.words.lower().startswith(("the ", "that ", "this "))
    return 0 if there else act.count or 0
