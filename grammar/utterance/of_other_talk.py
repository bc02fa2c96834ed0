"""What is said on of something else, in the same sentence, by a pronoun."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_GOES_ON = lazy_pattern(
    r"(?i)\s*(?:,|\band\b|\bbut\b)\s*(?:(?:and|but|so) )*(?:it|they|that|we|i|you)\b[^.;!?,]{0,30}"
)
_I_COUNT = lazy_pattern(
    r"(?i)\b(?:i|we)(?:['’]m| am)? (?:only |really |actually |still )*"
    r"(?:count|see|find|make it|get|have)"
)
_OF_A_BOX = lazy_pattern(r"(?i)\b(?:cu|cubic|cubes?|inch(?:es)?|box|gang)\b")
_FIGURE = lazy_pattern(
    r"(?i)\d|\b(?:an?|the) (?:six|eight|ten|twelve|fifteen|sixteen|twenty|thirty|forty|fifty|sixty"
    r"|hundred|two|three|four)\b"
)


def goes_on_of_it(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "That breaker's a 20, it should be a 15": a number of that, and no volume or count; "my
    own house is old, and it has no grounds": no grounds of that."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(last, acts.OtherTalk) and (
            _is_of_it(last, act, heard) or _listed_with_it(last, act, heard)
        ):
            if isinstance(act, (acts.Recount, acts.Unground)):
                kept.append(acts.OtherTalk(words=act.words, span=act.span))
            continue
        kept.append(act)
    return kept


_OF_THEM = lazy_pattern(r"(?i) of (?:them|those|['’]?e)")
_LISTED = lazy_pattern(r"(?i)\s*(?:,\s*(?:and\s+|or\s+|plus\s+)?|and\s+|plus\s+)")


def _listed_with_it(last: acts.OtherTalk, act: Act, heard: str) -> bool:
    """ "The list needs six switches, white, and six plates", "… breakers, six of them": what counts
    nothing, listed on, and how many there are of what was told."""
    between = heard[last.span[1] : act.span[0]]
    of_them = isinstance(act, acts.Recount) and _OF_THEM.search(act.words) is not None
    listed = of_them or isinstance(act, acts.AddUncounted)
    return listed and _LISTED.fullmatch(between) is not None


def _is_of_it(last: acts.OtherTalk, act: Act, heard: str) -> bool:
    if isinstance(act, (acts.Number, acts.RestateNumber)):
        whole = act.value is not None and act.value == int(act.value)
    elif isinstance(act, acts.SetVolume):
        whole = act.unit is None and act.volume is not None and act.volume == int(act.volume)
    elif isinstance(act, acts.Unground):
        return _GOES_ON.fullmatch(heard, last.span[1], act.span[1]) is not None
    else:
        return False
    if not whole or _FIGURE.search(last.words) is None or _OF_A_BOX.search(act.words):
        return False
    if _I_COUNT.search(heard, last.span[1], act.span[1]):
        return False  # "he told me four more, I count three"
    return _GOES_ON.fullmatch(heard, last.span[1], act.span[1]) is not None
