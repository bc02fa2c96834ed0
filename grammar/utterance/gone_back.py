"""What was said last, taken back: "undo, I was right before", "forget I said that"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.some_are_gone import some_are_gone
from boxaloud.grammar.utterance.volumes_again import volume_again

_LEAD = (
    r"(?i)[\s,.]*(?:(?:no|nah|nope|oh|ok|okay|well|wait|sorry|hm+|um|uh|actually|and|but|so|please"
    r"|alright|hello|hi|hey|you know what|on second thought|shoot|dang|yeah)[\s,.]+)*"
)
_RIGHT = (
    r"(?:(?:i|it|that|we|you)(?:'d| had| was| were|'s)?(?: had)?(?: it| that)? right"
    r"(?: the first time| before| at first| all along| to begin with)?)"
)
_SAID = r"(?:i|we)(?: just)? (?:said|told you|mentioned)"
_BACK = lazy_pattern(
    _LEAD
    + r"(?:undo(?: (?:that|it))?[\s,.:]+"
    + _RIGHT
    + rf"|forget(?: that)?(?: {_SAID}(?: that| it| anything| so)?| the last (?:one|thing|bit|part))"
    + rf"|(?:ignore|strike|disregard|skip|scratch) (?:the last (?:one|thing|bit|part)(?: {_SAID})?"
    + rf"|what {_SAID}(?: last)?|that last (?:one|thing|bit|part))"
    + r"|(?:take|pull|throw) (?:the last (?:one|thing|bit)|those|them|these|that|it)(?: last)?"
    + r"(?: (?:two|three|four|[2-4]|ones?))?"
    + r" (?:back|back out)(?: out)?"
    + r"|(?:go|put it|set it|change it|make it|leave it|it'?s|keep it)(?: back)?"
    + r" (?:to |at |as |like |the way |how )+(?:what |how |like |the way )?(?:it|that|they|i)"
    + r" (?:was|were|had it)(?: before(?: that| this)?| at first| the first time)?"
    + r"(?:[\s,.:;–—-]+(?:with |so |just )?(?:it'?s |that'?s )?(?:both|two|three|four|one|[1-4])"
    + r" (?:fourteen|twelve|ten|1[024])[- /](?:twos?|threes?|[23]s?)(?: cables?)?)?"
    + r"|(?:okay |ok )?never ?mind (?:(?:about )?(?:that|those|the)(?: last)?"
    + r" (?:second|third|fourth|fifth|sixth|seventh|eighth|two|three|four|[2-4]|extra|last)"
    + r"(?: ones?)?))"
    + r"(?:[\s,.]+(?:please|then|sorry|my bad|my mistake|thanks))*[\s.,!]*"
    + r"(?:,? *(?:they|those|it|that)(?: one| last one)?(?:'re|'s| are| is| go| goes| went|"
    r" belong)\b[^?]{0,60})?"
)
_BEFORE_ALL = lazy_pattern(_LEAD + _RIGHT + r"[\s.,!]*(?:,? *[\w/-]+)?(?:,? *please)?[\s.,!]*")


def taken_back(heard: str) -> Act | None:
    """An utterance that only takes back what was said last, or some of several, or goes back to a
    volume; None for any other."""
    if gone := some_are_gone(heard):
        return gone
    if again := volume_again(heard):
        return again
    return _undone(heard)


def _undone(heard: str) -> acts.Undo | None:
    whole = _BACK.fullmatch(heard)
    again = _BEFORE_ALL.fullmatch(heard) if whole is None else None
    if again is not None and not any(
        word in heard.lower() for word in ("first time", "before", "at first", "all along")
    ):
        again = None  # "that's right" assents
    if again is not None and heard.rstrip(" .!").rsplit(" ", 1)[-1].isdigit():
        again = None  # "I was right the first time: 18" says what it is
    if whole is None and again is None:
        return None
    return acts.Undo(words=heard.strip(), span=(0, len(heard)))


_ONLY = lazy_pattern(r"(?i)\b(?:just|only|still)\b")


def only_that(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Never mind, just the one receptacle": what there is when that is taken back, and no more;
    and "no hickey, scratch that": what is denied is all that goes."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(act, acts.Undo) and isinstance(last, (acts.Deny, acts.Remove)):
            continue
        named = act.thing if isinstance(act, acts.Restate) else act
        if (
            isinstance(last, acts.Undo)
            and is_thing(named)
            and _ONLY.search(heard[last.span[1] : act.span[1]])
        ):
            kept.append(
                acts.Restate(
                    thing=named, instead_of=replace(just_like(named), count=None),
                    words=act.words, span=act.span, doubts=act.doubts, function="correction",
                )
            )  # fmt: skip
            continue
        kept.append(act)
    return kept


def done_once(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Do it, take one out": what was proposed, said twice; "I'll reroute those two, they're out":
    what is done with them."""
    made = _without_outcome(made)
    proposed = any(isinstance(act, acts.DoIt) for act in made)
    return [
        act
        for act in made
        if not (proposed and isinstance(act, acts.Remove) and act.target.kind == "anything")
    ]


_OUT = lazy_pattern(
    r"(?i)(?:and |so )?(?:they|it|that|those)(?:['’](?:re|s)| are| is) (?:all |both )?(?:out|gone)"
)


def _without_outcome(made: list[Act]) -> list[Act]:
    return [
        act
        for place, act in enumerate(made)
        if not (
            place
            and isinstance(act, acts.DoIt)
            and isinstance(made[place - 1], acts.Remove)
            and _OUT.fullmatch(act.words.strip())
        )
    ]
