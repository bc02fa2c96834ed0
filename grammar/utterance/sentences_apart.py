"""What goes on in a short sentence of its own: a measure each, where a cable goes and what it is,
what the one yoke is. Each is one thing with what was said before it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining
from boxaloud.grammar.utterance.running_passes import Pass

_FOUR = Decimal(4)
_DEPTHS = (Decimal("1.25"), Decimal("1.5"), Decimal("2.125"))
_HANDY = (Decimal("1.5"), Decimal("1.875"), Decimal("2.125"))
_FACE = lazy_pattern(r"(?i)\W*(?:four|4)[ -]?inch(?:es)?\W*")
_BREAK = lazy_pattern(r"\s*[.,;]?\s*")


@joining
def measured_apart(last: Act, act: Act, heard: str) -> Act | None:
    """ "Octagon. Four inch. One and a quarter.": one box of Table 314.16(A), in inches."""
    if not isinstance(act, acts.Number) or not _BREAK.fullmatch(heard, last.span[1], act.span[0]):
        return None
    span = (last.span[0], act.span[1])
    words = heard[slice(*span)]
    family = last.family if isinstance(last, (acts.NameBoxKind, acts.SetSize)) else None
    four_inch = family in ("octagon", "square") and _FACE.fullmatch(act.words)
    if isinstance(last, acts.NameBoxKind) and four_inch:
        return acts.SetSize(
            family=family, width=_FOUR, material=last.material, words=words, span=span
        )
    if not isinstance(last, acts.SetSize) or last.width not in (None, _FOUR):
        return None
    if four_inch and last.depth is None:
        return replace(last, width=_FOUR, words=words, span=span)
    if last.width is None:
        return None
    if family in ("octagon", "square") and last.depth is None and act.value in _DEPTHS:
        return replace(last, depth=act.value, words=words, span=span)
    handy = family in (None, "handy") and last.height is None and last.depth == _HANDY[-1]
    if handy and act.value in _HANDY:
        return replace(last, height=_HANDY[-1], depth=act.value, words=words, span=span)
    return None


_SIZES = {"fourteen": 14, "twelve": 12, "ten": 10, "eight": 8, "six": 6} | {
    str(awg): awg for awg in (14, 12, 10, 8, 6)
}
_CONDUCTORS = {"two": 2, "three": 3, "four": 4, "2": 2, "3": 3, "4": 4}
_A_CABLE = lazy_pattern(
    r"(?i)(?P<size>fourteen|twelve|ten|eight|six|14|12|10|8|6)[ -](?P<of>two|three|four|[234])"
)
#: "Out to the next outlet.", "The feed.": where a cable goes, or what it is, before its size.
_ITS_WAY = lazy_pattern(
    r"(?i)(?:^|[.,;:!?] *)(?:(?:and|then|so|now|next|ok|okay|also|one|it|that|this|another) )*"
    r"(?:(?:out|up|down|over|on|off|back|in|going|goes|go|coming|comes|running|runs|heading|heads"
    r"|headed|leaving|leaves|feeding|feeds|across|through|straight|is|just)['’]?s? )*"
    r"(?:(?:to|from|for|into|towards?|up|down|feeding|feeds) (?:the |my |our |a |an |that )?"
    r"(?:(?!label|sticker|box|stamp|tag|tape|mark)[a-z]+ ){0,3}(?!label|sticker|box|stamp|tag|tape"
    r"|mark)[a-z]+"
    r"|(?:start with )?(?:the |my )?(?:feed|load|line|power|home ?run|supply|switch leg"
    r"|travelers?))"
    r"\s*[.,:;–—-]+\s*(?:(?:it['’]?s|that['’]?s|an?|is) )*$"
)


def cable_by_its_way(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Out to the next outlet. Twelve two.": a cable, and no volume of 12.2 cubic inches, whatever
    was asked."""
    return [_as_cable(act, heard) for act in made]


def _as_cable(act: Act, heard: str) -> Act:
    said = _A_CABLE.fullmatch(act.words.strip()) if isinstance(act, acts.Number) else None
    if said is None or not _ITS_WAY.search(heard[: act.span[0]]):
        return act
    return acts.AddCable(
        count=1, awg=_SIZES[said["size"].lower()], conductors=_CONDUCTORS[said["of"].lower()],
        words=act.words, span=act.span,
    )  # fmt: skip


_ONE_YOKE = lazy_pattern(
    r"(?i)(?:it|that|this)(?:['’]s| is) (?:all |just |only )*(?:one|a single) (?:yoke|strap)"
)
_NAMES = lazy_pattern(r"(?i)(?:an? |one )")


@joining
def yoke_named(last: Act, act: Act, heard: str) -> Act | None:
    """ "It's one yoke, a double pole thermostat": what stands on it, and no second one."""
    if (
        isinstance(last, acts.ShareYoke)
        and isinstance(act, acts.AddDevice)
        and act.count == 1
        and _ONE_YOKE.fullmatch(last.words.strip(" .,"))
        and heard[last.span[1] : act.span[0]].strip() == ","
        and _NAMES.match(act.words)
    ):
        span = (last.span[0], act.span[1])
        return acts.Restate(
            thing=act, words=heard[slice(*span)], span=span, doubts=act.doubts,
            function="correction",
        )  # fmt: skip
    return None


_SO = lazy_pattern(r"(?i)\W*(?:(?:so|that['’]?s|that is|that makes|which is|meaning) )+")


@joining
def all_counted(last: Act, act: Act, heard: str) -> Act | None:
    """ "All switches. So four switches": how many they are, said behind."""
    told = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(last, acts.AddDevice) or not isinstance(told, acts.AddDevice):
        return None
    vague = last.count is None and any(doubt.reason == "vague" for doubt in last.doubts)
    same = (last.name, last.awg) == (told.name, told.awg) and told.count is not None
    between = heard[last.span[1] : told.span[0]]
    if vague and same and _SO.fullmatch(between):
        return replace(told, span=(last.span[0], told.span[1]))
    return None


_ONE_THERE = lazy_pattern(
    r"(?i)(?:.*[ ,.])?there(?:['’]s| is| are) (?:one|some|two|a couple)\b[^.;!?]*"
)


def one_inside(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Actually there's one, down at the bottom. It's inside.": a clamp that was found, and where
    it is; its number counts nothing, 314.16(B)(2)."""
    told = [act for act in made if not isinstance(act, (acts.Social, acts.No, acts.Yes))]
    if [type(act) for act in told] not in (
        [acts.RestateNumber, acts.Place],
        [acts.Number, acts.Place],
    ):
        return made
    return [act for act in made if not (act is told[0] and _ONE_THERE.fullmatch(act.words))]


OF_THEIR_OWN = (
    Pass(measured_apart, (acts.Number,), 2),
    Pass(cable_by_its_way, (acts.Number,), 1),
    Pass(all_counted, (acts.AddDevice,), 2),
    Pass(one_inside, (acts.Place,), 2),
)
