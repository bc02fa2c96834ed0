"""What this electrician makes of what is read back: plain English in, facts out."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Protocol

from boxaloud.assistant.dialogue.reply import SystemAct

from electrician.mind import Fact

NUMBERS = {
    "no": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip
N = r"(no|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d+)"
GROUND = r"( with ground| without ground| with a \d+ AWG ground)?"
PATH = r"( passing through| in an? (?:short )?uncut loop| that stay in the box)?"
END = r"(?= more\b|, |\.|\?|$| and | which|:)"
PATTERNS = [
    ("cable", re.compile(rf"{N} cables? of (\d+)-(\d){GROUND}{PATH}{END}", re.I)),
    ("cable", re.compile(rf"{N} (\d+)-(\d) cables?{GROUND}{PATH}{END}", re.I)),
    ("conductors", re.compile(rf"{N} conductors? of (\d+) AWG{PATH}{END}", re.I)),
    ("conductors", re.compile(rf"{N} (\d+) AWG conductors?{PATH}{END}", re.I)),
    ("grounds", re.compile(rf"{N} grounds? of (\d+) AWG{END}", re.I)),
    ("grounds", re.compile(rf"{N} (\d+) AWG grounds?{END}", re.I)),
    ("tails", re.compile(rf"{N} fixture wires? of (\d+) AWG( from the canopy)?{END}", re.I)),
    ("tails", re.compile(rf"{N} (\d+) AWG fixture wires?( from the canopy)?{END}", re.I)),
    ("device", re.compile(rf"{N} ([a-z][a-z -]*?)(?: on (\d+) AWG)?{END}", re.I)),
]  # fmt: skip
UNREAD = re.compile(
    rf"{N} [^.,?]*\b(?:cable|conductor|ground|wire|switch|receptacle|dimmer|timer|stud|hickey)s?\b",
    re.I,
)
"""A count of something that none of the patterns took: not to be passed over in a read-back."""
SMALL = {"luminaire stud": "fitting", "hickey": "fitting", "wire connector": "uncounted"}
CLAMPS = [
    ("none", re.compile(r"no clamps inside", re.I)),
    ("outside", re.compile(r"clamps outside", re.I)),
    ("inside", re.compile(r"clamps inside", re.I)),  # assumed or told: it is counted
]
MARKED = re.compile(r"\bbox marked ([\d.]+) cubic inches|\bbox of ([\d.]+) cubic inches", re.I)
STANDARD = re.compile(r"(?:square|octagon)[^,.]* box, ([\d.]+) cubic inches", re.I)
EDITION = re.compile(r"\b(?:edition|under 314\.16,) (\d{4})", re.I)
LANDED = re.compile(r"\b(?:say|it|that) (?:the )?([a-z][a-z -]*?) on (\d+) AWG\?", re.I)
VERDICT = re.compile(r"\b(Fits|Over by)\b")
TOTAL = re.compile(r"\b(?:Fits|Over by)\b[^:]*: ([\d.]+) of [\d.]+")


class Said(Protocol):
    """What the electrician gets to hear or see of a reply."""

    @property
    def said(self) -> str: ...
    @property
    def acts(self) -> Sequence[SystemAct]: ...
    @property
    def asks(self) -> str | None: ...


@dataclass
class Reading:
    """What was understood from a text."""

    things: Counter[Fact] = field(default_factory=Counter)
    clamps: str | None = None
    volume: str | None = None
    edition: str | None = None

    @property
    def empty(self) -> bool:
        return not (self.things or self.clamps or self.volume or self.edition)


def plain(volume: str) -> str:
    """Without trailing zeros: 18.0 is 18."""
    return volume.rstrip("0").rstrip(".") if "." in volume else volume


def number(word: str) -> int:
    return NUMBERS[word.lower()] if word.lower() in NUMBERS else int(word)


def singular(noun: str) -> str:
    noun = noun.strip()
    if noun.endswith(("ches", "shes")):
        return noun[:-2]
    return noun[:-1] if noun.endswith("s") and not noun.endswith("ss") else noun


def read(text: str) -> Reading:
    """Facts in a read-back or an echo. Text about totals and verdicts is no thing in the box."""
    found = Reading()
    rest = text
    for name, pattern in CLAMPS:
        if pattern.search(rest):
            found.clamps = name
            rest = pattern.sub(" ", rest)
            break
    for pattern in (MARKED, STANDARD):
        if hit := pattern.search(rest):
            found.volume = plain(next(part for part in hit.groups() if part))
            rest = pattern.sub(" ", rest)
    if hit := EDITION.search(rest):
        found.edition = hit[1]
        rest = EDITION.sub(" ", rest)
    for kind, pattern in PATTERNS:
        for hit in pattern.finditer(rest):
            fact = _fact(kind, hit)
            if fact is not None:
                found.things[fact] += number(hit[1])
        rest = pattern.sub(" ", rest)
    for hit in UNREAD.finditer(rest):
        found.things["unread", hit[0].strip().lower()] += 1
    return found


def _fact(kind: str, hit: re.Match[str]) -> Fact | None:
    match kind:
        case "cable":
            way = (hit[5],) if hit[5] else ()
            return "cable", int(hit[2]), int(hit[3]), "without" not in (hit[4] or ""), *way
        case "conductors":
            return "conductors", int(hit[2]), *((hit[3],) if hit[3] else ())
        case "grounds":
            return "grounds", int(hit[2])
        case "tails":
            return "tails", int(hit[2]), hit[3] is not None
    name = singular(hit[2])
    if number(hit[1]) == 0 or name.split()[0] in ("more", "allowance", "of", "cubic", "gang"):
        return None
    if name in SMALL:
        return SMALL[name], name
    return "device", name, int(hit[3] or 0)


def unquoted(text: str) -> str:
    """Without what is quoted: an example of what to say is nothing in the box."""
    return re.sub("“[^”]*”", "", text)


def news(text: str) -> str:
    """What an echo says is so now: not what was before, nor what was taken out."""
    text = re.sub(
        r"\b(?:Took out|Took back|Dropped|Instead of|Not counted) [^.]*(?:\.\d[^.]*)*\.",
        "",
        unquoted(text),
    )
    text = re.sub(r"\bChanged the box from [\d.]+ to ([\d.]+)", r"Box marked \1", text)
    text = re.sub(r"\bChanged .*? to ", "", text)
    text = re.sub(r": left out, up to four smaller than 14 AWG|, counting nothing", "", text)
    text = text.replace(", which count: only those smaller than 14 AWG do not", "")
    return re.sub(r" more, [\w ]+ now\b", " more", text)


def told(text: str) -> str:
    """The part of a read-back that lists things: what stands before total and verdict."""
    cut = re.search(r"\b(Fits|Over)\b|\b\d+\.\d+ (of \d[\d.]* )?so far\b", text)
    return text[: cut.start()] if cut else text


def total(text: str) -> str | None:
    """The total that is read out, cubic inches."""
    hit = TOTAL.search(text)
    return hit[1] if hit else None


def verdict(text: str) -> str | None:
    """`fits` or `over`, as read out."""
    hit = VERDICT.search(text)
    if hit is None:
        return None
    return "fits" if hit[1] == "Fits" else "over"


def landed(question: str) -> Fact | None:
    """The device, with the size it is on, that a question is about; None where it is no such."""
    hit = LANDED.search(question)
    return None if hit is None else ("device", hit[1], int(hit[2]))


def echo(reply: Said) -> Reading:
    """What a reply says was entered."""
    return read(news(" ".join(act.says for act in reply.acts if act.act == "echo")))


def last_sentence(text: str) -> str:
    """The last question in a reply, else its last sentence."""
    sentences = re.split(r"(?<=[.?!]) (?=[A-Z“\d])", text.strip())
    return next((one for one in reversed(sentences) if one.endswith("?")), sentences[-1])
