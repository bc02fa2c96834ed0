"""Replacements that no template can make, by the name that a row of data/rewrites*.toml gives them:
a count that is worked out, a sum that has to be right, words that are known or not. Each gets the
match and the open question, and gives what stands in its place; None leaves it as it is."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from decimal import Decimal

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.numbers import word_classes
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.rewriting.called_down import without_relays
from boxaloud.grammar.rewriting.counted_on_fingers import without_finger_counts
from boxaloud.grammar.rewriting.fragments import written_out
from boxaloud.grammar.rewriting.looks_behind import without_looks
from boxaloud.grammar.rewriting.named_before_counted import without_counted_names
from boxaloud.grammar.rewriting.numbered_points import without_point_numbers
from boxaloud.grammar.rewriting.pointed_counts import without_pointing
from boxaloud.grammar.rewriting.replacement_template import figure
from boxaloud.grammar.rewriting.sums_aloud import without_sums_aloud
from boxaloud.grammar.rewriting.ways_told import ways_told, ways_told_first

Found = re.Match[str]


def _worth(word: str) -> int | None:
    """What a number word or figures are worth; None for any other word."""
    digits = figure(word)
    return int(digits) if digits.isdecimal() else None


_NUMBERS = lazy_pattern(r"\w+")


def _last_of_run(found: Found, expect: str | None) -> str | None:
    """ "Three" for "one, two, three"; where only one number stands before it, at the head of what
    is counted: "the shallow one, two 14-2s" counts nothing up."""
    numbers = [*_NUMBERS.finditer(found["run"])]
    ones = [place for place, one in enumerate(numbers) if _worth(one[0]) == 1]
    if not ones:
        return None
    before, run = numbers[: ones[-1]], numbers[ones[-1] :]  # "12-3, one, two, three 12-2s"
    counted = [_worth(one[0]) for one in run]
    if [*counted, _worth(found["last"])] != list(range(1, len(run) + 2)):
        return None
    if len(run) < _TWO and (before or not _BEGINS.search(found.string, 0, found.start())):
        return None
    kept = found["run"][: run[0].start()]
    return kept.ljust(len(found["run"])) + found["last"]


_TWO = 2
_BEGINS = lazy_pattern(r"(?i)(?:^|[,.;:] ?|\b(?:count\w*|got|has|have|ok|so|uh|um|see) )$")


_TIMES = {"twice": "two", "thrice": "three"}


def _so_many_times(found: Found, expect: str | None) -> str:
    """ "Two 12-2" for "twice a 12-2"."""
    said = found["n"].lower()
    return f"{found['lead']}{_TIMES.get(said, said.split()[0])} ".ljust(len(found[0]))


def _in_and_out(found: Found, expect: str | None) -> str | None:
    """ "12-2 x2" for "12-2 one in one out"."""
    return f"{found['cable']} x{(_worth(found['in']) or 0) + (_worth(found['out']) or 0)}"


def _difference(found: Found, expect: str | None) -> str | None:
    """ "14-2 x4" for "14-2 five minus one so four"; None where the sum is wrong."""
    whole, less, left = (_worth(found[name]) for name in ("n", "less", "left"))
    right = None not in (whole, less, left) and (whole or 0) - (less or 0) == left
    return f"{found['cable']} x{left}" if right else None


def _what_is_left(found: Found, expect: str | None) -> str | None:
    """ "Three 14-2s" for "there were four 14-2s, I pulled one out, so three"; None where the sum is
    wrong."""
    whole, less, left = (_worth(found[name]) for name in ("n", "less", "left"))
    right = None not in (whole, less, left) and (whole or 0) - (less or 0) == left
    return f"{found['left']} {found['cable']}" if right else None


def _sum_of_list(found: Found, expect: str | None) -> str | None:
    """Nothing for a sum that is just what was listed before it, one by one."""
    listed = list(re.finditer(written_out(_LISTED), found.string[: found.start()], re.IGNORECASE))
    if len(listed) != _worth(found["sum"]) or any(one["count"] for one in listed):
        return None
    return ""


def _sections_of_whole(found: Found, expect: str | None) -> str | None:
    """ "42 cu in" for "42 cu in (3 ganged, 14.0 each)"; None where so many do not make it up."""
    sections = _worth(found["n"]) or 0
    return found["whole"] if sections * Decimal(found["each"]) == Decimal(found["v"]) else None


_LISTED = r"(?P<count>\b{counted} (?:more )?)?\b{cable}(?![\w/-])"


def _in_and_out_spliced(found: Found, expect: str | None) -> str | None:
    """Nothing for "six of them spliced" behind three in and three out."""
    every = (_worth(found["n"]) or 0) * _TWO == _worth(found["sum"])
    return found["kept"] if every else None


def _in_and_out_now(found: Found, expect: str | None) -> str | None:
    """ "So 8 now" for "4 in 4 out now"."""
    return f"{found['lead']}so {(_worth(found['n']) or 0) * _TWO} now"


def _sum_of_two(found: Found, expect: str | None) -> str | None:
    """Nothing for "so three" behind two and another one."""
    if (_worth(found["first"]) or 0) + 1 != _worth(found["sum"]):
        return None
    return found["told"] + " " * len(found["tail"]) + found["end"]


def _counted_up_to(found: Found, expect: str | None) -> str | None:
    """Nothing for a count aloud whose last number is said again behind it."""
    last = _NUMBERS.findall(found[0])[-1]
    return "" if figure(last) == figure(found["last"]) else None


def _one_and_others(found: Found, expect: str | None) -> str | None:
    """ "One 12/3, two 12/2" for "one's a 12/3, the other two are 12/2" of three."""
    if (_worth(found["n"]) or 0) - 1 != _worth(found["m"]):
        return None
    kept = {"one", "a", "j", "m"}
    parts = ("lost", "one", "is", "space", "a", "j", "other", "m", "are")
    return "".join(found[part] if part in kept else " " * len(found[part] or "") for part in parts)


def _most_and_others(found: Found, expect: str | None) -> str | None:
    """ "Three 14-2, and one 14-3" for "four cables, three are 14-2, and the other is 14-3"."""
    left = (_worth(found["n"]) or 0) - (_worth(found["m"]) or 0)
    if left < 1 or (left > 1 and not found["others"]) or left >= len(_FEW):
        return None
    told = f"{found['m']} {found['a']}{found['join']}{_FEW[left]} "
    return told.rjust(len(found[0]))


def _parts_told(found: Found, expect: str | None) -> str | None:
    """ "Two 14-2 and one 14-3" for "three cables, two of 14-2 and one of 14-3"."""
    if _worth(found["n"]) != (_worth(found["k"]) or 0) + (_worth(found["m"]) or 0):
        return None
    told = f"{found['k']} {found['a']} and {found['m']} {found['b']}"
    return told.rjust(len(found[0]))


_FEW = ("no", "one", "two", "three", "four", "five")


def _size_told_beside(found: Found, expect: str | None) -> str | None:
    """Nothing for the size of it all, where a cable of that size is told besides."""
    name = found["size"].casefold().removeprefix("number ")
    rest = found.string[: found.start()] + found.string[found.end() :]
    sizes = "|".join({name, figure(name)})
    told = re.search(rf"(?i)\b(?:{sizes})[-/ ](?:2|3|twos?|threes?)\b", rest)
    return "" if told else None


_GROUNDS = lazy_pattern(r"(?i)\b(\w+) (?:(?:bare|green|copper|equipment) )*grounds?\b")
_COUNTED_ONCE = 4
"""Grounds that are one allowance, 314.16(B)(5)."""


def _quarters_of_grounds(found: Found, expect: str | None) -> str | None:
    """Nothing for "one allowance and two quarters" behind six grounds."""
    counts = [_worth(one[1]) for one in _GROUNDS.finditer(found.string, 0, found.start())]
    if not counts or counts[-1] is None:
        return None
    said = found["n"] or ("1" if "quarter" in found[0].lower() else "0")
    quarters = 1 if said.lower() in ("a", "an") else _worth(said)
    return "" if quarters == max(0, counts[-1] - _COUNTED_ONCE) else None


_ROLES = lazy_pattern(r"(?i)(?:(\w+) )?(?:hot|neutral|ground|black|white|red|bare|green)s?\b")


def _pigtails_by_role(found: Found, expect: str | None) -> str | None:
    """ "Three pigtails" for "three pigtails, hot, neutral and ground": as many as were counted."""
    ones = [_worth(one[1] or "") or 1 for one in _ROLES.finditer(found["list"])]
    counted = 1 if found["n"].lower() in ("a", "an") else _worth(found["n"])
    return (
        found[0][: found.start("list") - found.start()].rstrip(" ,:;(–-").removesuffix(" for")
        if sum(ones) == counted
        else None
    )


def _strange_name(found: Found, expect: str | None) -> str | None:
    """One word that nobody knows for "what-do-you-call-it"."""
    return found["before"] + _one_word(found["name"])


def _strange_compound(found: Found, expect: str | None) -> str | None:
    """ "Do-dad": what ends with a word that nobody knows is one strange word, and no "do"."""
    parts = found[0].lower().split("-")
    strange = parts[-1] not in known_words() and len(parts[-1]) > _TWO
    if any(map(word_classes, parts)) or not (strange or (parts[0] == "do" and parts[1] != "it")):
        return None
    return _one_word(found[0])


def _one_word(name: str) -> str:
    """Words as one that nobody knows, each character in its place."""
    return "".join(letter if letter.isalpha() else "x" for letter in name)


def _whole(rewrite: Callable[[str], str]) -> Callable[[Found, str | None], str | None]:
    """What works over a whole text, and minds no open question."""
    return lambda found, expect: rewrite(found[0])


WORKED_OUT: Mapping[str, Callable[[Found, str | None], str | None]] = {
    "counted_up_to": _counted_up_to,
    "difference": _difference,
    "finger_counts": _whole(without_finger_counts),
    "in_and_out": _in_and_out,
    "in_and_out_now": _in_and_out_now,
    "in_and_out_spliced": _in_and_out_spliced,
    "last_of_run": _last_of_run,
    "looks": _whole(without_looks),
    "most_and_others": _most_and_others,
    "parts_told": _parts_told,
    "names_ahead": _whole(without_counted_names),
    "numbered_points": _whole(without_point_numbers),
    "one_and_others": _one_and_others,
    "pigtails_by_role": _pigtails_by_role,
    "pointing": _whole(without_pointing),
    "quarters_of_grounds": _quarters_of_grounds,
    "relays": _whole(without_relays),
    "sections_of_whole": _sections_of_whole,
    "size_told_beside": _size_told_beside,
    "so_many_times": _so_many_times,
    "strange_compound": _strange_compound,
    "strange_name": _strange_name,
    "sum_of_list": _sum_of_list,
    "sum_of_two": _sum_of_two,
    "ways_told": ways_told,
    "ways_told_first": ways_told_first,
    "what_is_left": _what_is_left,
    "sums_aloud": lambda found, expect: without_sums_aloud(found[0], expect),
}
