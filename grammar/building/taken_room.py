"""Questions how much of the box is taken by something that is in it."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

_HOW_MUCH = lazy_pattern(
    r"\bhow (?:much(?! more\b)|many (?:cubic|cubes?|inch(?:es)?|cu|allowances?|of (?:that|it)))\b"
)
_WHAT = lazy_pattern(
    r"\bwhat\b.*\b(?:come to|comes to|cost|costs|worth|takes?|taking|uses?|using|eats?|eating"
    r"|add up|adds up|account for|accounts for|(?:count|counted|figured?|allow|allowed|charge|put)"
    r"(?: down)? for|allowances?|volume|cubic inch(?:es)?)\b"
)
#: "How much is left", "how much would it take", "how much room is there": of no line that stands.
_OF_NO_LINE = lazy_pattern(
    r"\b(?:left|spare|remaining|over by|short|would|will|could|can|should|if|need|needs|there"
    r"|amps?|volts?|wire do|wire does|long|section|edition|code)\b|\b(?:room|space) for\b"
)
_THERE = lazy_pattern(r"<(?:[a-z_]+):[^>]*:d>")
#: The things of a kind, which no phrase finds by themselves, and the term that they come under.
_KIND = lazy_pattern(r"\b(?:the|those|these|my|all) (?:the )?(wires|conductors|cables|devices)\b")
_TERMS = {"wires": "size", "conductors": "size", "cables": "size", "devices": "device"}


def asks_what_it_takes(line: str) -> bool:
    """Whether a clause asks how much something takes that is in the box."""
    measured = _HOW_MUCH.search(line) or _WHAT.search(line)
    return bool(measured and not _OF_NO_LINE.search(line))


def points(line: str) -> bool:
    """Whether a clause points at a thing: "the dimmer", "those 14-2s"."""
    return _THERE.search(line) is not None


def term_of_all(line: str) -> str | None:
    """The term for all things of a kind that a clause names: "the wires"; None without one."""
    named = _KIND.search(line)
    return _TERMS[named[1]] if named is not None else None
