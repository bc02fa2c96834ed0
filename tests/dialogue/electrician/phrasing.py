"""How this electrician says things: wording of its own, nothing of the product's."""

from __future__ import annotations

import random

from electrician.mind import Fact, Mind

WORDS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]
GAUGE = {18: "eighteen", 16: "sixteen", 14: "fourteen", 12: "twelve", 10: "ten", 8: "eight"}
VOLUME = {
    "12.5": ["twelve and a half", "twelve point five"],
    "14": ["fourteen"],
    "16": ["sixteen"],
    "18": ["eighteen"],
    "20": ["twenty"],
    "20.3": ["twenty point three"],
    "22.5": ["twenty two and a half", "twenty two point five"],
    "30": ["thirty"],
    "32": ["thirty two"],
    "34": ["thirty four"],
    "44": ["forty four"],
}
PLURALS = {"switch": "switches", "three-way switch": "three way switches"}


class Talker:
    """Puts facts into words, differently each time."""

    def __init__(self, mind: Mind, dice: random.Random) -> None:
        self.mind = mind
        self.dice = dice

    def pick(self, *ways: str) -> str:
        return self.dice.choice(ways)

    def fact(self, fact: Fact, count: int, sized: bool = True) -> str:
        """One thing in the box. `sized`: a device is said with the size it is on."""
        match fact:
            case ("cable", int(awg), int(conductors), bool(ground)):
                return self._cable(awg, conductors, ground, count)
            case ("conductors", int(awg)):
                return self._conductors(awg, count)
            case ("grounds", int(awg)):
                noun = "ground" if count == 1 else "grounds"
                return f"{WORDS[count]} number {GAUGE[awg]} {noun}"
            case ("device", str(name), int(awg)):
                return self._device(name, awg, count, sized)
            case ("tails", int(awg), bool(canopy)):
                where = " from a domed canopy" if canopy else ""
                return f"{WORDS[count]} {GAUGE[awg]} gauge fixture wires{where}"
            case ("fitting", str(name)):
                return self.pick(f"a {name}", f"one {name}")
            case ("uncounted", str(name)):
                return f"{WORDS[count]} {self.pick('wire nuts', 'wire connectors')}"
        raise ValueError(fact)

    def _cable(self, awg: int, conductors: int, ground: bool, count: int) -> str:
        pair = f"{GAUGE[awg]} {WORDS[conductors]}"
        without = "" if ground else " without ground"
        if count == 1:
            forms = [f"one {pair} cable", f"a {pair}", f"one {pair}", f"one {pair} coming in"]
        else:
            forms = [
                f"{WORDS[count]} {pair} cables",
                f"{WORDS[count]} {pair}s",
                f"{WORDS[count]} of the {pair}s",
                f"{WORDS[count]} cables of {pair}",
            ]
        if not ground:
            forms = [f"{WORDS[count]} {pair} cable{'s' if count > 1 else ''}"]
        return self.dice.choice(forms) + without

    def _conductors(self, awg: int, count: int) -> str:
        return self.pick(
            f"{WORDS[count]} number {GAUGE[awg]} wires",
            f"{WORDS[count]} number {GAUGE[awg]} conductors",
            f"{WORDS[count]} {GAUGE[awg]} gauge wires",
        )

    def _device(self, name: str, awg: int, count: int, sized: bool) -> str:
        spoken = name.replace("three-way", "three way").lower()
        if count > 1:
            spoken = PLURALS.get(name, spoken + "s")
        article = self.pick("a", "one") if count == 1 else WORDS[count]
        text = f"{article} {spoken}"
        if sized and len(self.mind.sizes) > 1:
            text += f" on the {GAUGE[awg]}s"
        return text

    def clamps(self) -> str:
        return {
            "none": self.pick("no clamps", "no clamps inside", "there are no clamps"),
            "inside": self.pick("clamps inside", "the clamps are inside", "internal clamps"),
            "outside": self.pick("clamps outside", "the clamps are outside"),
        }[self.mind.clamps]

    def box(self) -> str:
        if self.mind.standard is not None:
            shape, depth = self.mind.standard
            four = {"octagon": "four inch octagon", "square": "four square"}[shape]
            return f"{self.pick('a ', 'it is a ', '')}{four} {depth} deep"
        volume = self.dice.choice(VOLUME[self.mind.volume])
        return self.pick(
            f"{volume} cubic inch box",
            f"the box is {volume} cubic inches",
            f"it is marked {volume} cubic inches",
            f"in a {volume} cubic inch box",
        )

    def edition(self) -> str:
        year = {"2014": "fourteen", "2017": "seventeen", "2020": "twenty", "2023": "twenty three"}
        return f"use the twenty {year[self.mind.edition]} code"

    def undo(self) -> str:
        return self.pick("undo", "scratch that", "undo that", "take that back")

    def read_back(self) -> str:
        return self.pick("what have i got", "read it back", "read that back", "read it back to me")

    def start_over(self) -> str:
        return self.pick("start over", "start again")

    def take_off(self, fact: Fact, count: int) -> str:
        """Taking something out that does not belong."""
        said = self._named(fact, count)
        return f"{self.pick('take off', 'remove', 'take out')} {said}"

    def _named(self, fact: Fact, count: int) -> str:
        match fact:
            case ("cable", int(awg), int(conductors), bool(), *_):
                noun = "cable" if count == 1 else "cables"
                return f"{WORDS[count]} {GAUGE.get(awg, str(awg))} {WORDS[conductors]} {noun}"
            case ("conductors", int(awg), *_):
                return f"{WORDS[count]} number {GAUGE.get(awg, str(awg))} wires"
            case ("grounds", int(awg)):
                return f"{WORDS[count]} number {GAUGE.get(awg, str(awg))} grounds"
            case ("device" | "fitting" | "uncounted", str(name), *_):
                spoken = name.replace("-", " ").lower()
                return f"the {spoken if count == 1 else PLURALS.get(name, spoken + 's')}"
            case ("tails", *_):
                return "the fixture wires"
        raise ValueError(fact)
