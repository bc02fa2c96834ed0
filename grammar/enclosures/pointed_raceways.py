"""Raceways of a pull box that were told already, pointed at: "the 3 goes out the top", "make the
big ones three inch", "one goes left".

They are pointed at by their size, their wall, their place in what was said, or as all of them;
which they are in the box is found where the box is known.
"""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import PointRaceways
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.enclosures.raceways_named import (
    WALL,
    WALL_NAMES,
    Pointing,
    named,
    trade_size,
)
from boxaloud.grammar.lazy_patterns import lazy_pattern

_BEGINS = lazy_pattern(
    r"(?:^|[.;:,!?-]|\b(?:and|while|but|so|then|ok|okay|no|nope|wait|actually|also|now|hold on"
    r"|sorry|well|plus|left|right|top|bottom|back|say|suppose|what if|if))\s*$"
)
_SOME = lazy_pattern(
    r"(?P<n>one|two|three|four|five|six|[1-6])(?: of (?:them|those|these|the (?:two|three|four)))?"
    r"(?= (?:go(?:es)?|comes?|turns?|heads?|runs?|leaves?|exits?|enters?)\b)"
)
_ALL = lazy_pattern(
    r"(?:(?:they|those|these) (?:all|both)|all(?: of (?:them|those|these|it))?"
    r"|both(?: of (?:them|those|these))?)(?= )"
)
_COUNTED = lazy_pattern(
    r"(?:both|(?:all |the )(?P<n>two|three|four|five|six|[2-6])) (?:of the |the )?"
    r"(?:pipes|conduits|raceways|runs)(?= )"
)
_THEM = lazy_pattern(r"(?:them(?: all| both)?|those|these|(?:all|both) of (?:them|those))(?= )")
_THAT = lazy_pattern(r"(?:it|that|this)(?= )")
_UNIT = lazy_pattern(r"inch|\"")
_ARE_ALL = lazy_pattern(
    r"(?:they(?:'re| are) (?:all|both)|(?:all|both)(?: of (?:them|those))? (?:are|is)"
    r"|both(?=,? (?:an? )?[\w½¼/-]+(?: and an? \w+)? ?(?:inch|\")))(?: really| actually)?,? "
)
_WERE = lazy_pattern(
    r"(?:(?:what if|if|suppose|say) )(?:they|those|these|both|all)(?: all| both| of them)*"
    r" (?:were|are|was)(?: all| both)?(?: an?)? "
)
_ITS = lazy_pattern(
    r"(?:it's|it is|that's|they're|they are)(?: really| actually| all| both)*(?: an?)? "
)
_MENDS = lazy_pattern(r"(?:no|nope|wait|actually|sorry|i mean|hold on|scratch that)[, .-]*$")
_FIRST = r"(?: (?:then|just|also|both|all|now|actually|that|which))*"
_CORNER = (
    r" (?:makes?|takes?|does|do) (?:an? |the )?(?:90|ninety|turn|corner|bend)(?:,? and|,)?"
    r"| turns?(?: (?:up|down|over|the corner|ninety|90))?(?:,? and|,)?(?: then)?"
)
_VERB = (
    r" (?:go(?:es)?|going|runs?|running|heads?|heading|turns?|carr(?:y|ies)(?: on)?|continues?"
    r"|leaves?|leaving|exits?|exiting|comes? out|coming out)"
)
_GOES = rf"{_FIRST}(?:(?:{_CORNER})(?:{_VERB})?|{_VERB})"
_WAY = (
    r"(?: (?:and|right|straight|back|up|down|over|on|across|out|off))*"
    r"(?: (?:of|through|by|at|on|to|toward|into|via|from))*"
)
_LEAVES = lazy_pattern(rf"{_GOES}{_WAY} {WALL}")
_ENTERS = lazy_pattern(
    rf"{_FIRST} (?:(?:comes?|is|are|goes?|going|coming|runs?)(?: actually| really)? in(?:to)?"
    rf"|enters?|entering|comes?(?= (?:through|from|by))|(?:is|are) (?:on|at))"
    rf"(?: (?:on|at|by|through|from))* {WALL}"
)
_UPRIGHT = lazy_pattern(rf"{_GOES}(?: straight| right)? (?P<way>up|down)(?=\s*(?:[.,;!?]|$))")
_OPPOSITE = lazy_pattern(
    rf"{_GOES}(?: (?:right|straight|out|on|of|by|at|to|through|across))*"
    r" the (?:far|opposite|other) (?:side|wall|end)"
    rf"|{_GOES}(?: (?:right|on))* straight (?:across|through)(?! (?:to )?the (?!box))"
)
_ADJACENT = lazy_pattern(
    rf"{_GOES}(?: (?:right|out|of|by|at|to|through|on))*"
    r" the (?:next|adjacent|adjoining|neighbou?ring) (?:side|wall)"
)
_SAME = lazy_pattern(
    rf"{_GOES}(?: (?:right|back|out|of|by|at|through|on))* the same (?:side|wall)(?= |[.,;!?]|$)"
)
_SAME_SIZE = lazy_pattern(
    r"(?:,? (?:all |both )?(?:in |at |of )?(?:the )?same (?:trade )?sizes?(?: (?:out|too))?)"
    r"(?=[ .,;!?]|$)"
)
_AS = lazy_pattern(r",? (?:as|in|into) an? (?=\S)")
_MAKE = lazy_pattern(
    r"(?:(?:let's |please |just |we(?:'ll)? |i(?:'ll)? )*(?:make|change|switch|bump|upsize|downsize"
    r"|take|bring)) (?=\S)"
)
_TO = lazy_pattern(r"(?: up| down)?(?:,? (?:to be|to|into|all|both))*(?: an?)? ")
_IS = lazy_pattern(r"(?: (?:is|are))(?: (?:really|actually|now|all|both))*(?: an?)? ")
_WAS = lazy_pattern(r" (?:was|were)(?: (?:really|actually|all|both))*(?: an?)? ")
_SHOULD = lazy_pattern(
    r" (?:should|has to|have to|needs? to|ought to|must) (?:be|have been)"
    r"(?: (?:all|both))?(?: an?)? "
)
_WENT = lazy_pattern(
    r"(?:(?:what if|if|suppose|say) )?(?:i|we|you|they|he|she)(?:'d)?"
    r" (?:went|go|used?|bump(?:ed)?|did)(?: it| them)?(?: up| down)?(?: to| with)?(?: all)?"
    r"(?: an?)? "
)


def pointed(text: str, at: int, lone: bool) -> Piece | None:
    """Raceways that stand already and what is said of them, from the start of a clause on."""
    if _BEGINS.search(text[:at]) is None:
        return None
    for reader in (_made, _told_all, _gone_to, _routed, _is_now):
        if (found := reader(text, at)) is not None:
            act, end = found
            return Piece("pointed", at, end, pointed=act)
    return None


def _made(text: str, at: int) -> Pointing | None:
    """ "Make the big ones three inch"."""
    begins = _MAKE.match(text, at)
    if begins is None:
        return None
    them = _THEM.match(text, begins.end()) or _it(text, at, begins)
    found = (PointRaceways(), them.end()) if them else named(text, begins.end())
    return None if found is None else _anew(_becoming(text, found, _TO))


def _it(text: str, at: int, begins: re.Match[str]) -> re.Match[str] | None:
    """ "Change that to three and a half", said by itself; "make that 3 inch" corrects one size of
    several that were told before it."""
    found = _THAT.match(text, begins.end())
    if found is None or _UNIT.search(text, found.end()) or text[:at].strip(" ,.!"):
        return None
    return found


def _told_all(text: str, at: int) -> Pointing | None:
    """ "They're all 3 inch", "both three inch"."""
    found = _ARE_ALL.match(text, at)
    if found is None:
        return None
    size = trade_size(text, found.end())
    return None if size is None else (PointRaceways(size=size[0]), size[1])


def _gone_to(text: str, at: int) -> Pointing | None:
    """ "What if I went to two inch"."""
    found = _WENT.match(text, at) or _WERE.match(text, at)
    size = trade_size(text, found.end()) if found else None
    return None if size is None else _anew((PointRaceways(size=size[0]), size[1]))


def _anew(found: Pointing | None) -> Pointing | None:
    """What is said of raceways in place of what was told: without that, a size that is another
    than the one told tells nothing of them."""
    return None if found is None else (replace(found[0], function="correction"), found[1])


def _is_now(text: str, at: int) -> Pointing | None:
    """ "The big one is a three inch"."""
    found = named(text, at)
    if found is None:
        return _mended(text, at)
    told = found[0].which in ("largest", "smallest", "rest")  # "the biggest pipe is a three inch"
    meant = _anew(_becoming(text, found, _SHOULD)) or _anew(_becoming(text, found, _WAS))
    return meant if meant or told else _becoming(text, found, _IS)


def _mended(text: str, at: int) -> Pointing | None:
    """ "Actually it's four": behind a mark of correction, the size of all."""
    found = _ITS.match(text, at)
    if found is None or _MENDS.search(text[:at]) is None:
        return None
    size = trade_size(text, found.end())
    if size is None or text[size[1] :].strip(" .!"):
        return None
    return _anew((PointRaceways(size=size[0]), size[1]))


def _becoming(text: str, found: Pointing, link: re.Pattern[str]) -> Pointing | None:
    act, end = found
    behind = link.match(text, end)
    size = trade_size(text, behind.end()) if behind else None
    return None if size is None else (replace(act, size=size[0]), size[1])


def _routed(text: str, at: int) -> Pointing | None:
    """ "The 3 turns and goes out the top", "one goes left"."""
    found = _all(text, at) or _some(text, at) or named(text, at)
    if found is None:
        return None
    act, end = found
    gone = _way(text, end)
    if gone is None:
        return None
    where, end = gone
    made = replace(act, wall=where.wall, to=where.to, placing=where.placing)
    if (same := _SAME_SIZE.match(text, end)) is not None:
        return made, same.end()
    led = _AS.match(text, end)
    size = trade_size(text, led.end()) if led else None
    return (made, end) if size is None else (replace(made, leaves_as=size[0]), size[1])


def _way(text: str, at: int) -> Pointing | None:
    """By which wall they enter or leave, whichever reaches furthest."""
    ways: list[Pointing] = []
    if (found := _ENTERS.match(text, at)) is not None:
        ways.append((PointRaceways(wall=WALL_NAMES[found["wall"]]), found.end()))
    elif (found := _LEAVES.match(text, at)) is not None:
        ways.append((PointRaceways(to=WALL_NAMES[found["wall"]]), found.end()))
    elif (found := _UPRIGHT.match(text, at)) is not None:
        ways.append((PointRaceways(to="top" if found["way"] == "up" else "bottom"), found.end()))
    placings: tuple[tuple[re.Pattern[str], acts.Placed], ...] = (
        (_OPPOSITE, "opposite"), (_ADJACENT, "adjacent"), (_SAME, "same"),
    )  # fmt: skip
    for pattern, placing in placings:
        if (found := pattern.match(text, at)) is not None:
            ways.append((PointRaceways(placing=placing), found.end()))
    return max(ways, key=lambda way: way[1], default=None)


def _all(text: str, at: int) -> Pointing | None:
    if (found := _COUNTED.match(text, at)) is not None:
        worth = lengths.value(found["n"]) if found["n"] else 2
        return PointRaceways(count=int(worth or 2)), found.end()
    found = _ALL.match(text, at)
    return None if found is None else (PointRaceways(), found.end())


def _some(text: str, at: int) -> Pointing | None:
    """ "One goes left" of raceways whose wall was told; before that it is a share of them."""
    found = _SOME.match(text, at)
    if found is None or (
        "inch" in text[:at] and not re.search(r"\b(?:left|right|top|bottom|back)\b", text[:at])
    ):
        return None
    worth = lengths.value(found["n"])
    return None if worth is None else (PointRaceways(count=int(worth)), found.end())
