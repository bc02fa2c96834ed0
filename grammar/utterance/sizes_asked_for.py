"""Sizes that stand beside the question how many of them fit: of these it asks.

They are not in the box: "I want to splice twelves in there, how many can I have", "how many 12 AWG
may be spliced in it, or how many 14 AWG".
"""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_SIZES = {"eighteen": 18, "sixteen": 16, "fourteen": 14, "twelve": 12, "ten": 10, "eight": 8,
          "six": 6}  # fmt: skip
_SIZE = lazy_pattern(
    r"(?i)(?:(?:just|all|only|some|number|no\.?|#) ?)*"
    r"(?:(?P<awg>18|16|14|12|10|8|6)['’]?s|(?P<word>eighteen|sixteen|fourteen|twelve|ten|eight"
    r"|six|twelv|sixe)e?s)"
)
_OR = lazy_pattern(r"(?i)\bor (?:else |(?:if (?:it|they) (?:is|are|were) ))?(?:how many )?$")


def sizes_asked_for(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The questions with the sizes that they are for, and no such wires in the box."""
    rooms = [act for act in made if isinstance(act, acts.RoomFor)]
    if len(rooms) != 1:
        return made
    (room,) = rooms
    if room.thing is None:
        return [_named(act, left) if act is room else act for act in made]
    return [_also(act, room, heard) for act in made]


def _named(room: acts.RoomFor, left: list[Unread]) -> acts.RoomFor:
    """A question without a thing, of the one size that was named before it and not read."""
    before = [run for run in left if run.span[1] <= room.span[0] and _SIZE.fullmatch(run.words)]
    if len(before) != 1:
        return room
    left.remove(before[0])
    said = _SIZE.fullmatch(before[0].words)
    awg = int(said["awg"]) if said and said["awg"] else _worth(said["word"] if said else "")
    thing = acts.AddConductors(awg=awg, words=before[0].words, span=before[0].span)
    return acts.RoomFor(
        thing=thing, count=room.count, given=room.given, words=room.words, span=room.span
    )


def _worth(word: str) -> int:
    low = word.lower()
    return next(awg for name, awg in _SIZES.items() if name.startswith(low) or low.startswith(name))


def _also(act: Act, room: acts.RoomFor, heard: str) -> Act:
    """ "…, or how many 14 AWG": asked as well, and not told."""
    if not isinstance(act, acts.AddConductors) or act.count is not None or act.awg is None:
        return act
    if act.span[0] < room.span[1] or not _OR.search(heard[: act.span[0]]):
        return act
    thing = acts.AddConductors(awg=act.awg, words=act.words, span=act.span)
    return acts.RoomFor(thing=thing, given=room.given, words=act.words, span=act.span)
