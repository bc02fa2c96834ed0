"""Sizes of large conductors: "three 500 kcmil", "4/0 copper", "the largest is number 2"."""

from __future__ import annotations

import re

from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.enclosure_words import words
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.lazy_patterns import lazy_pattern

_GAUGE = lazy_pattern(
    r"(?:#|number |no\. ?)(?P<bare>[1-4]|one|two|three|four)(?P<ought>/0)?(?:'?s\b)?"
    r"(?![\d/-]| inch| ?\")"
    r"|(?P<awg>[1-4]|one|two|three|four) (?:awg|gauge)"
    r"|(?P<aught>[1-4]|one|two|three|four)(?:/0(?:'?s)?|[- ](?:ought|aught|oh|o)s?)(?!\w)"
    r"|(?P<kcmil>\d{3,4}|[a-z -]+? (?:hundred|thousand)(?: (?:and )?fifty)?"
    r"|(?:two|three|seven) fifty)"
    r"[- ]?(?:k ?c ?mils?|m ?c ?m|k ?c ?m|thousand circular mils?|circular mils?|mils?)\b"
)  # fmt: skip
_PLURAL = lazy_pattern(
    r"(?P<n>\d{3,4}|(?:two|three|four|five|six|seven|eight|nine) (?:hundred|fiftie)"
    r"|(?:two|three|seven) fifty)(?:'?s\b|(?= (?:copper |aluminum )?(?:thhn|thwn|xhhw|thw)\b))"
)
_PREFIX = lazy_pattern(
    r"(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten|twelve|sets? of|some|parallel) "
)


def conductor(text: str, at: int, lone: bool) -> Piece | None:
    """ "three 500 kcmil", "4/0 copper", "the largest is number 2"."""
    lead = words("before_wire").match(text, at)
    place = lead.end() + 1 if lead else at
    for start in (place, *_behind_count(text, place)):
        if (found := _GAUGE.match(text, start)) is not None:
            size = _gauge(found)
        elif (found := _PLURAL.match(text, start)) is not None:
            size = _kcmil_size(found["n"].replace("fiftie", "fifty"))
        else:
            continue
        if size is None:
            continue
        end = found.end()
        while (more := re.compile(r" ?(?:awg|gauge)?[ ,]*").match(text, end)) and (
            noun := words("wire").match(text, more.end())
        ):
            end = noun.end()
        return Piece("detail", at, end, f"conductor {size}")
    return None


def _behind_count(text: str, at: int) -> tuple[int, ...]:
    found = _PREFIX.match(text, at)
    return (found.end(),) if found else ()


def _gauge(found: re.Match[str]) -> str | None:
    """The conductor size that was said, as the tables write it."""
    if (text := found["aught"]) is not None:
        return f"{_figure(text)}/0"
    if (text := found["kcmil"]) is not None:
        return _kcmil_size(text.strip(" -"))
    text = found["bare"] or found["awg"]
    return f"{_figure(text)}/0" if found["ought"] else _figure(text)


def _kcmil_size(text: str) -> str | None:
    """ "500" of "500 kcmil" and "500s"; None for what is no such size."""
    worth = _kcmil(text)
    return str(worth) if worth is not None and 250 <= worth <= 2000 else None


def _figure(text: str) -> str:
    worth = lengths.value(text)
    return str(worth) if worth is not None else text


def _kcmil(text: str) -> int | None:
    hundreds = re.fullmatch(r"(two|three|seven) fifty", text)
    if hundreds:
        return int(lengths.value(hundreds[1]) or 0) * 100 + 50
    worth = lengths.value(text) if text.isdigit() else lengths.value(text.replace("-", " "))
    return None if worth is None else int(worth)


def lone_conductor(text: str) -> str | None:
    """The conductor that a bare answer names: "500", "4/0", "a two"."""
    text = text.strip(" .!")
    if (found := re.fullmatch(r"(?:a |the )?(\d{3,4}|[1-4](?:/0)?|[a-z ]+?)", text)) is None:
        return None
    said = found[1]
    if re.fullmatch(r"[1-4](?:/0)?", said):
        return said
    worth = _kcmil(said)
    if worth is None:
        return None
    return str(worth) if 250 <= worth <= 2000 or 1 <= worth <= 4 else None
