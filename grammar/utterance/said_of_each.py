"""What is said of each of those just counted, and of a cable whose size nobody can read."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.utterance.neighbours import joining

_EACH = lazy_pattern(
    r"(?i),? (?:each|every one|all|both)(?: of (?:them|which|those))?(?: (?:is|are|was|were))?"
    r"(?: (?:left|run|kept|pulled|looped|coiled|put|laid|folded|sitting))*"
    r"(?: (?:as|in|into|with|through))? *"
)


@joining
def each_in_loop(last: Act, act: Act, heard: str) -> Act | None:
    """ "Four 12s each left in an unbroken loop": those four are looped, and none comes on top. An
    uncut loop of twice the free length counts twice, 314.16(B)(1)."""
    if (
        isinstance(act, acts.AddConductors)
        and isinstance(last, acts.AddConductors)
        and act.path is not None
        and last.path is None
        and act.count in (None, 1)
        and any(doubt.reason == "carried" for doubt in act.doubts)
        and _EACH.fullmatch(heard, last.span[1], act.span[0])
    ):
        span = (last.span[0], act.span[1])
        # "an uncut loop": the words "an uncut" alone would let them pass through
        looped = "loop" in heard[act.span[0] : act.span[1] + 6].lower()
        path = "loop" if looped else act.path
        return replace(last, path=path, words=heard[slice(*span)], span=span)
    return None


_WITH_EACH = lazy_pattern(
    r"(?i)(?: (?:enter|come|arrive|run|land|are|brought|coming|entering|here|in|there|it|the box))*"
    r"[,:;.]? *(?:(?:and|with|plus|but) )*(?:each|every(?: one|body|thing)?|everyone"
    r"|(?:they(?:['’]ve)? |them )?all)(?: one| cable| run)?(?: of (?:them|which|those))?(?:['’]s)?"
    r"(?: (?:also|too|has|have|with|gets?|carries|comes|got|having|its|their|an?|one|own|bring"
    r"|brings|carry|includes?|along|in|a bare))* *"
)
_EACH_BEHIND = lazy_pattern(r"(?i),? (?:each|apiece|in each|per cable|on each|with each)\b")
_SO_MANY = lazy_pattern(
    r"(?i)[,;.]? *(?:(?:so|that['’]?s|that is|that makes|makes|which makes|it['’]?s|and) )+"
    r"(?P<n>\w+) (?:isolated|iso|igs?)(?: equipment)?(?: grounds?| ones)?\b"
)


def ground_of_each(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Three 12-2 and each with an isolated ground": as many isolated grounds as cables; "so
    three isolated" behind that counts them, and adds none. 314.16(B)(5). "Everybody has a ground":
    the one that a cable brings anyway."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.AddGrounds)
            and act.isolated
            and act.count in (None, 1)
            and isinstance(last, acts.AddCable)
            and (last.count or 1) > 1
            and (
                _WITH_EACH.fullmatch(heard[last.span[1] : act.span[0]])
                or _EACH_BEHIND.match(heard, act.span[1])
            )
        ):
            act = replace(act, count=last.count)
            _count_told(act, heard, left)
        elif isinstance(act, acts.AddGrounds) and _own_ground(act, last, heard):
            if _of_every_cable(last, heard):
                kept.pop()  # "every cable has its ground": those that were told
            left[:] = [run for run in left if not _between(run, last, act)]
            if act.awg is not None and act.awg != getattr(last, "awg", None):
                left.append(Unread(act.words, act.span, True))  # "…got a ground, 18"
            continue
        elif isinstance(last, acts.AddGrounds) and last.isolated and _sums_up(last, act, heard):
            continue
        kept.append(act)
    return kept


def _between(run: Unread, last: Act | None, act: Act) -> bool:
    """Whether words stand between two acts."""
    return last is not None and last.span[1] <= run.span[0] < run.span[1] <= act.span[0] + 1


_EVERY = lazy_pattern(r"(?i)\b(?:each|every) $")


def _of_every_cable(last: Act | None, heard: str) -> bool:
    """ "Every cable": those that were told, and no further one."""
    unsized = isinstance(last, acts.AddCable) and last.awg is None and last.count in (None, 1)
    return unsized and last is not None and _EVERY.search(heard[: last.span[0]]) is not None


def _own_ground(act: acts.AddGrounds, last: Act | None, heard: str) -> bool:
    """ "Three 14-2, everybody has a ground": of the cables, each of which brings its own."""
    if act.isolated or act.count not in (None, 1):
        return False
    if not isinstance(last, acts.AddCable) or last.ground is False:
        return False
    between = heard[last.span[1] : act.span[0]]
    lead = "each" if _of_every_cable(last, heard) else ""
    return _WITH_EACH.fullmatch(lead + between) is not None


def _sums_up(last: acts.AddGrounds, act: Act, heard: str) -> bool:
    """ "…, so four isolated grounds": those that were just said."""
    if not isinstance(act, acts.AddGrounds) or not act.isolated:
        return False
    said = _SO_MANY.match(heard, last.span[1])
    return said is not None and numbers.value((said["n"].lower(),)) == last.count


def _count_told(act: acts.AddGrounds, heard: str, left: list[Unread]) -> None:
    """Take the number that counts them again out of what is unread, if it is theirs."""
    said = _SO_MANY.match(heard, act.span[1])
    if said is None or numbers.value((said["n"].lower(),)) != act.count:
        return
    left[:] = [run for run in left if run.span != said.span("n")]


_THERE = r"(?: (?:in|at|on|behind|down|up) (?:the |it|there|here)(?:back|bottom|top|side)?)?"
_UNREADABLE = lazy_pattern(
    r"(?i),? (?:(?:but|and|that|which|where|one) )*(?:(?:i|we|you|he) )?"
    r"(?:can(?:['’]?t|not| not)|couldn['’]?t|could not|don['’]?t|do not)"
    r" (?:read|see|make out|tell|find|know) (?:the|its|it['’]?s|what|any) ?"
    r"(?:size|gauge|marking|print|writing|label)\b"
    rf"|{_THERE},? (?:(?:but|and|that|which) )*(?:i|we|you|he) (?:just |still |really )*"
    r"(?:can(?:['’]?t|not| not)|couldn['’]?t|could not) (?:quite |really |even )*"
    r"(?:make (?:(?:it|them) )?out|identify|recogni[sz]e)(?: yet| from here| well)*\s*(?=[.,;!]|$)"
    r"|,? (?:no idea what size|of unknown size|size unknown|unmarked|no marking on it)\b"
)


def unreadable(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Plus one more cable, can't read the size on it": of no size that another cable has, so
    that it waits until somebody says its size."""
    kept: list[Act] = []
    for act in made:
        if _sizeless(act) and _UNREADABLE.match(heard, act.span[1]):
            left.append(Unread(heard[slice(*act.span)], act.span, True))
            if isinstance(act, acts.AddConductors):
                kept.append(act)  # so many at least, until somebody says what they are
            continue
        kept.append(act)
    return kept


def _sizeless(act: Act) -> bool:
    """A cable more whose size is none of its own; wires and a device of no kind that was said."""
    if isinstance(act, acts.AddDevice):
        return act.name == "device"
    if isinstance(act, acts.AddConductors):
        return act.awg is None
    if isinstance(act, acts.More):
        return act.target.kind == "cable"
    return isinstance(act, acts.AddCable) and (
        act.awg is None or any(doubt.reason == "carried" for doubt in act.doubts)
    )


_KNOWN_NOT = (
    r"(?:(?:but|that|which|and) )*(?:(?:i|we|you) (?:just |really |still )*)?(?:dunno"
    r"|do not know|don['’]?t (?:know|recogni[sz]e)|(?:(?:have|has|had|got|with) )?(?:no|not an?"
    r"|zero) (?:idea|clue)|can(?:['’]?t|not) (?:tell|place|identify|figure out)"
    r"|(?:nobody|no one) (?:knows|can (?:tell|place|identify|figure out)))"
)
_NOBODY_KNOWS = lazy_pattern(
    r"(?i)\b(?:some|an?|one|another|the|that|two|three|couple of)"
    r"(?: (?:other|more|mystery|odd|old|extra|random|further|second|third))*"
    rf" (?:wires?|cables?|conductors?|lines?),? {_KNOWN_NOT}"
    r"(?: (?:about|what(?: kind| size)?|which|it|that|them|its|is|are|they|one|on|for|goes|to))*"
    r"(?=\s*(?:[.,;!]|$|(?:and|is|was|an?|no|with|one|two|three|four|ten|twelve|twenty|thirty"
    r"|[a-z]+teen|\d+)\b))"
)
UNKNOWN_PIECES = (
    "dunno", "know", "recogni", "idea", "clue", "tell", "place", "identify", "figure out",
)  # fmt: skip
"""One of them stands in what is found."""


def nobody_knows_which(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A 12-2 and some other wire I dunno": what it is is asked, and nothing fits before that is
    known; "dunno" answers no question there."""
    kept = list(made)
    for found in _NOBODY_KNOWS.finditer(heard):
        there = [act for act in kept if found.start() <= act.span[0] < found.end()]
        if any(not isinstance(act, acts.DontKnow) and not _sizeless(act) for act in there):
            continue
        if any(run.span[0] < found.end() and found.start() < run.span[1] for run in left):
            continue
        kept = [act for act in kept if act not in there or isinstance(act, acts.AddConductors)]
        left.append(Unread(found[0], found.span(), True))
    return kept
