"""A thing that is there and has become another: "the receptacle in there is a GFCI now"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import pointed_at
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_PLACE = (
    r"(?:(?:in|on|over|at|up|down|back|right)\s+)*"
    r"(?:there|here|this one|that one|this box|the box|it"
    r"|(?:the |its )?(?:left|right|top|bottom|middle|end|front|back|corner)(?: side| hand side)?)"
    r"|(?:that |which )?(?:we|i|you|they|he|she|somebody|someone)(?: already)?"
    r" (?:had|have|put|said|told you|mentioned|called)(?: in| there| in there| before| first)*"
)
_AGAIN = r"(?:changed|swapped|switched|replaced|turned|upgraded|converted|traded|made|bumped)"
_BECOMES = (
    r"(?:['’]s(?: been)?|is|are|was|were|has been|have been|got|gets|is getting|are getting"
    r"|is being|will be|is going to be|are going to be|should be|must be)"
    rf"(?: (?:now|actually|really|just|all|going to be|supposed to be|to be|{_AGAIN}"
    r"(?: out| over| up)?(?: to| for| into| with| by| from)?))*"
    r"|(?:(?:just|now|has|have|since|recently|then) )*(?:became|become|becomes)"
    r"(?: now| actually| really)*"
    r"|(?:(?:just|now|has|have|since) )*(?:turn(?:s|ed)?|ended up|ends up|end up)"
    r"(?: (?:in|out|into|to|be|being|as))*"
)
_TURNED = lazy_pattern(
    rf"(?i) ?(?:(?:{_PLACE})(?: |(?=['’])))*(?:{_BECOMES}) ?"
    r"(?:(?:a|an|the|just|now|actually) )*".replace(" ?", r"\s*").replace(" ", r"\s+")
)
_PASSIVE = lazy_pattern(rf"(?i)\b{_AGAIN}\b|\b(?:now|becom|became|turn|end(?:s|ed)? up)")
_POINTS = lazy_pattern(r"(?i)(?:the|that|this|those|these|my|our|his|your) ")
#: "First 14-2 is a 14-3": which one it is, where a clause begins.
_WHICH_ONE = lazy_pattern(
    r"(?i)(?:^|[,.;:!?-])\s*(?:(?:so|and|but|oh|ok|okay|well|no|wait|actually|now|sorry)\W+)*"
    r"(?P<which>left|right|first|second|third|fourth|last|bottom|top|middle|left hand|right hand) $"
)
_ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "last": -1}
_POINTS_BEFORE = lazy_pattern(
    r"(?i)(?:^|[\s,.;:])(?:the|that|this|those|these|my|our|his|your) (?:(?:left|right|first"
    r"|second|third|last|other|old|middle|bottom|top|far|near|front|back|upper|lower|existing"
    r"|original|[a-z]+['’]s) ?(?:hand )?)+$"
)
_BEGINS = lazy_pattern(
    r"(?i)\s*(?:(?:so|and|but|oh|ok|okay|well|no|wait|actually|now|sorry|um|uh|er|hello|hi|hey"
    r"|yeah|yes),?\s+)*"
)
_MORE = lazy_pattern(r"(?i)\b(?:another|second|other|more|extra|also|too|as well|plus)\b")
_BESIDES = lazy_pattern(
    r"(?i)\b(?:besides?|apart from|aside from|other than|in addition to|on top of|along with"
    r"|together with|next to|as well as|alongside) $"
)
_KINDS = (acts.AddDevice, acts.AddCable, acts.AddConductors)


def _told(act: Act) -> Act:
    """What is told in an act; of a correction, what is corrected to."""
    return act.thing if isinstance(act, acts.Restate) else act


@joining
def become_others(was: Act, new: Act, heard: str) -> Act | None:
    """ "The switch got swapped for a dimmer": one in the other's place, and neither comes in."""
    was, new = _told(was), _told(new)
    if not isinstance(was, _KINDS) or not isinstance(new, _KINDS) or type(was) is not type(new):
        return None
    if was.count is not None:
        return _went_from(was, new, heard)
    which = _WHICH_ONE.search(just_before(heard, was.span[0]))
    if _BESIDES.search(heard, 0, was.span[0]):
        return None  # "besides the switch there's a dimmer"
    name = was.words[:-2] if was.words.lower().endswith(("'s", "’s")) else was.words
    end = was.span[1] - (len(was.words) - len(name) if name is not was.words else 0)
    between = _TURNED.fullmatch(heard, was.span[0] + len(name), new.span[0])
    if between is None or not (which or _is_there(was, heard, between.group())):
        return None
    if _MORE.search(new.words):
        return None
    span = (was.span[0], new.span[1])
    words = heard[slice(*span)]
    one = isinstance(was, acts.AddDevice) and not name.lower().endswith(("es", "s"))
    named = f"{which['which']} " if which else ""
    target = pointed_at(was, named + heard[was.span[0] : end])
    place = _ORDINALS.get(which["which"].lower()) if which else None
    target = replace(target, count=1 if (one or which) and not place else None, ordinal=place)
    doubts = tuple(doubt for doubt in new.doubts if doubt.reason != "vague")
    unsized = isinstance(was, acts.AddCable) and was.awg is None  # "the cables are three 14-2s"
    every = target.count is None and target.ordinal is None and not unsized
    thing = replace(new, count=None if every else new.count, doubts=doubts)
    return acts.Replace(
        target=target, thing=thing, words=words, span=span, doubts=doubts, function="correction"
    )


_FROM = lazy_pattern(
    r"(?i)\b(?:went|gone|goes|go|going|chang(?:e|ed|es|ing)|switch(?:ed|ing)?|swap(?:ped|ping)?"
    r"|turned)\s+(?:over\s+)?from\s+$"
)
_TO = lazy_pattern(r"(?i)\s+(?:over\s+)?(?:to|into)\s+(?:(?:a|an|the)\s+)?")


def _went_from(was: Act, new: Act, heard: str) -> acts.Replace | None:
    """ "It went from a receptacle to a GFCI", "one receptacle is a GFCI now"; and "one 14-2 is a
    14-3", since no cable is of two sizes."""
    if isinstance(was, acts.AddCable) and isinstance(new, acts.AddCable):
        return _other_size(was, new, heard)
    if not isinstance(was, acts.AddDevice) or not isinstance(new, acts.AddDevice):
        return None
    went = _FROM.search(just_before(heard, was.span[0])) and _TO.fullmatch(
        heard, was.span[1], new.span[0]
    )
    turned = _TURNED.fullmatch(heard, was.span[1], new.span[0])
    now = turned is not None and (_PASSIVE.search(turned.group()) or _NOW.match(heard, new.span[1]))
    if not went and not now:
        return None
    span = (was.span[0], new.span[1])
    return acts.Replace(
        target=pointed_at(was, was.words), thing=new, words=heard[slice(*span)], span=span,
        doubts=new.doubts, function="correction",
    )  # fmt: skip


_NOW = lazy_pattern(r"(?i)\s+(?:now|instead)\b")


def _is_there(was: Act, heard: str, between: str) -> bool:
    """Whether what is told of is in the box: it is pointed at, or said to have changed."""
    before = heard[: was.span[0]]
    if _POINTS.match(was.words) or _POINTS_BEFORE.search(before):
        return True
    return bool(_BEGINS.fullmatch(before) and _PASSIVE.search(between))


_ONE_OF = lazy_pattern(r"(?i)(?:one|two|three|both|some) of (?:the|those|these|my|them)\b")
_IS_A = lazy_pattern(r"(?i)\s*(?:is|are|was|were|['’]s)(?: [a-z]+)? (?:a |an )?(?:[a-z]+|#?\d+)$")


def no_volume(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One of the twelves is a ten": the number is of the wire and of no box; which cable it is
    nobody said, so that it is left unread."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            last is not None
            and isinstance(act, acts.SetVolume)
            and act.unit is None
            and _ONE_OF.match(last.words)
            and _IS_A.fullmatch(heard, last.span[1], act.span[1])
        ):
            span = (last.span[0], act.span[1])
            kept[-1:] = []
            left.append(Unread(heard[slice(*span)], span, True))
            continue
        kept.append(act)
    return kept


def _other_size(was: acts.AddCable, new: acts.AddCable, heard: str) -> acts.Replace | None:
    """So many cables of one size that are said to be as many of another."""
    sizes = (was.awg, was.conductors), (new.awg, new.conductors)
    if sizes[0] == sizes[1] or None in (*sizes[0], *sizes[1]) or new.count not in (None, was.count):
        return None
    if _TURNED.fullmatch(heard, was.span[1], new.span[0]) is None or _MORE.search(was.words):
        return None
    span = (was.span[0], new.span[1])
    doubts = tuple(doubt for doubt in new.doubts if doubt.reason != "vague")
    return acts.Replace(
        target=pointed_at(was, was.words), thing=replace(new, count=was.count, doubts=doubts),
        words=heard[slice(*span)], span=span, doubts=doubts, function="correction",
    )  # fmt: skip
