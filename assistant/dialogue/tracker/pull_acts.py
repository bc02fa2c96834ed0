"""What each act of a pull box does; few talks are of one, and those alone bring these in."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from boxaloud.assistant.dialogue.tracker import led_raceways, pull_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

HANDLERS: dict[type[Act], Callable[[Turn, Any], None]] = {
    acts.DescribePull: pull_box.pull,
    acts.AddRaceways: pull_box.raceways,
    acts.TakeOutRaceways: pull_box.take_out,
    acts.PointRaceways: led_raceways.pointed,
    acts.SetPull: pull_box.detail,
}
