"""A count or a number said anew, with a short sentence beside it that says why or how many."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.utterance.going_on import looked_at

_WHAT = lazy_pattern(r"(?:(?:no|wait|oh|so) )*<n:(?P<n>[1-9])> (?:of )?what")
_ASKS = lazy_pattern(r"(?:he|she|they|you|i) (?:asks?|says?|said|asked|want to know|wants to know)")
_COUNTED = lazy_pattern(r"<[a-z_]+:(?P<n>\d+):[a-z]*>")
_MEANT = lazy_pattern(
    r"(?:(?:no|wait|sorry|oh|well|oops) )*i (?:meant|mean|meant to say|should have said)"
    r" (?:the )?<size[^>]*>"
)


def restating(parts: Sequence[Clause], place: int) -> int:
    """How many clauses only say that what is counted next is counted anew; 0 where none does.

    "Four what, she asks. Four 14-2s.", "I meant twelves. Two 12-2s."
    """
    clause, after = parts[place], parts[place + 1 :]
    if not after:
        return 0
    if (asked := _WHAT.fullmatch(clause.line)) is not None:
        skipped = 1 if _ASKS.fullmatch(after[0].line) else 0
        named = _COUNTED.fullmatch(after[skipped].line) if len(after) > skipped else None
        return 1 + skipped if named is not None and named["n"] == asked["n"] else 0
    if _MEANT.fullmatch(clause.line) and _COUNTED.fullmatch(after[0].line):
        meant = [found.get("awg") for found in clause.found]
        return 1 if meant == [found.get("awg") for found in after[0].found] else 0
    return 0


_SAID = lazy_pattern(
    r"(?i)(?:[a-z]+ )?did (?:i|you|he|she) (?:just )?say (?P<said>\S+)(?: (?P<meant>[a-z]+))?"
)


def misspoken(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Sixty, did I say sixty? Sixteen.": the number behind stands in place of the one before."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        asked = _SAID.fullmatch(last.words.strip()) if isinstance(last, acts.Ask) else None
        if last and asked and isinstance(act, acts.Number) and act.value is not None:
            kept.pop()
            kept.append(_in_place(kept, act.value, heard, (last.span[0], act.span[1])))
            continue
        kept.append(act)
    last = kept[-1] if kept else None
    asked = _SAID.fullmatch(last.words.strip()) if isinstance(last, acts.Ask) else None
    if last and asked and asked["meant"]:
        value = numbers.value((asked["meant"].lower(),))
        if value is not None and value >= TEEN:
            kept.pop()  # an ear makes no break between them
            kept.append(_in_place(kept, value, heard, last.span))
    return kept


def _in_place(
    kept: list[Act], value: Decimal, heard: str, span: tuple[int, int]
) -> acts.RestateNumber:
    """The number that stands in place of one said just before, which goes."""
    if kept and isinstance(kept[-1], acts.Number):
        span = (kept.pop().span[0], span[1])
    return acts.RestateNumber(
        value=value, words=heard[slice(*span)], span=span, function="correction"
    )


TEEN = 10
"""A number from here on is no part of the one before it, as that of "thirty three" is."""

_LEFT = lazy_pattern(r"(?i)\W*(?:left|now|remain|remaining|then)\b")
_SO = lazy_pattern(
    r"(?i)\b(?:so|leaves|leaving|left with|makes|that is|that's|down to|back to|still)"
    r"(?: (?:just|only|us|me|the|those|still))* $"
)


def _sums(heard: str, span: tuple[int, int]) -> bool:
    before = heard[max(0, span[0] - 24) : span[0]]
    return bool(_SO.search(before) or _LEFT.match(heard, span[1]))


def what_is_left(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One 12-2 comes out. So two.", "… Three left.": how many there are of what was taken from,
    which adds nothing and is held against what is there."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(act, acts.Number) and isinstance(last, acts.Remove):
            value = _SMALL.get(act.words.lower().strip())
            if value and _sums(heard, act.span):
                kept.append(_in_all(last, value, act.words, act.span))
                continue
        kept.append(act)
    kept = [one for act in kept for one in _with_sum(act)]
    # "that leaves two and a blank"
    taken = next((one for one in reversed(kept) if not isinstance(one, acts.AddUncounted)), None)
    if isinstance(taken, acts.Remove):
        for run in left:
            value = _SMALL.get(run.words.lower().strip())
            if value and run.span[0] >= taken.span[1] and _sums(heard, run.span):
                left.remove(run)
                return [*kept, _in_all(taken, value, run.words, run.span)]
    return kept


#: "Took out one 14-2 so it's down to three": what is left, told with the order.
_SUM_WITHIN = lazy_pattern(r"(?i)^.*\b(?:down|back) to (?P<n>[a-z]+|\d)$")


def _with_sum(act: Act) -> list[Act]:
    """An order, and behind it the number that it leaves, where that is told with it."""
    if not isinstance(act, acts.Remove) or act.target.awg is None:
        return [act]
    found = _SUM_WITHIN.match(act.words)
    value = _SMALL.get(found["n"].lower()) if found is not None else None
    if found is None or not value:
        return [act]
    start = act.span[0] + found.start("n")
    return [act, _in_all(act, value, found["n"], (start, act.span[1]))]


_SMALL = {
    word: worth
    for worth, words in enumerate(
        ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine"), start=1
    )
    for word in (words, str(worth))
}


def _in_all(taken: acts.Remove, value: int, words: str, span: tuple[int, int]) -> acts.Recount:
    of = taken.target
    target = (
        Reference("device", of.name, words=words)
        if of.kind == "device"
        else Reference("anything", None, of.awg, of.conductors, which="all", words=words)
    )
    return acts.Recount(target=target, count=value, words=words, span=span, function="correction")


_TO_OTHER = lazy_pattern(
    r"(?i)(?:(?:it|they|those|these|that|both|one|is|are|'s|'re)\s+)*(?:go|goes|going|moves?|moving)"
    r"\s+(?:in)?to (?:the |a |an)?(?:other|next|another|different|new) (?:box|one)"
)
_THEY = lazy_pattern(r"(?i)\b(?:they|those|these|both|that|it)(?:'re|'s| are| is| both)* ?$")


#: "The dimmer is in the next box".
_IN_THE = lazy_pattern(
    r"(?i)(?:'s)?\s*(?:(?:is|goes|was|lives|sits|belongs|really|actually)\s+)?(?:in|into|inside)"
    r"\s+(?:the\s+|a\s+)?"
)


def gone_elsewhere(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Forget those two, they go to the other box": where they go, and no box is opened."""
    kept: list[Act] = []
    for act in (one for one in made if not looked_at(one, heard)):
        if (
            isinstance(act, (acts.OpenBox, acts.NextBox))
            and kept
            and isinstance(kept[-1], acts.Remove)
            and any(
                found.start() <= act.span[0] < found.end()
                and _THEY.search(heard[kept[-1].span[1] : found.start() + len(found[0].split()[0])])
                for found in _TO_OTHER.finditer(heard, kept[-1].span[1])
            )
        ):
            continue
        if (
            isinstance(act, acts.NextBox)
            and not act.name
            and is_thing(last := kept[-1] if kept else None)
            and last.count is None
            and _IN_THE.fullmatch(heard, last.span[1], act.span[0])
        ):
            target = just_like(last)
            words = heard[last.span[0] : act.span[1]]
            kept[-1] = acts.Remove(target=target, words=words, span=(last.span[0], act.span[1]))
            continue
        kept.append(act)
    return kept


_HIDDEN = lazy_pattern(
    r"(?i)\W*(?P<one>one)(?: of (?:them|those))? (?:was|is|were) (?:hiding|hidden|tucked|buried"
    r"|balled|wadded|stuffed|pushed|folded|jammed|back there|behind)\b"
)


def one_was_hidden(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Five 12-2s. One was hiding.": all of them, with the one that was not seen."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        thing = last.thing if isinstance(last, acts.Restate) else last
        hidden = _HIDDEN.match(heard, last.span[1]) if last is not None else None
        if (
            hidden
            and is_thing(thing)
            and (thing.count or 0) > 1
            and act.span[0] == hidden.start("one")
        ):
            continue
        kept.append(act)
    return kept


_BOTH = lazy_pattern(r"(?i)(?:they|these|those)(?:'re| are) both\b")


def both_of_a_kind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "They're both 10-2" of a 10-2 and a 10-3: both of those that are there."""
    kept: list[Act] = []
    for act in made:
        cable = act.thing if isinstance(act, acts.Restate) else None
        if (
            isinstance(act, acts.Restate)
            and isinstance(cable, acts.AddCable)
            and act.instead_of is None
            and _BOTH.match(act.words)
        ):
            act = acts.Replace(
                target=Reference("anything", which="both", words="both"),
                thing=acts.AddCable(awg=cable.awg, conductors=cable.conductors,
                    ground=cable.ground, words=cable.words, span=cable.span),
                words=act.words, span=act.span, doubts=act.doubts, function="correction",
            )  # fmt: skip
        kept.append(act)
    return kept


_SAME_YOKE = lazy_pattern(
    r"(?i)[\W_]*(?:(?:and|but|it is|it's|that is|that's|still|on|all|just|only|a|the) )*"
    r"(?:single|same|one)[ -](?:yoke|strap)\b(?: count)?"
)


def yoke_of_that(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The switch is a three-way then. Same yoke count.": the yoke of what was just corrected,
    and no further device, 314.16(B)(4)."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        corrected = isinstance(last, (acts.Replace, acts.Recount, acts.Restate))
        if (
            last is not None
            and corrected
            and isinstance(act, acts.AddDevice)
            and act.name in (None, "device")
            and (found := _SAME_YOKE.match(heard, last.span[1])) is not None
            and found.start() <= act.span[0] < found.end()
        ):
            continue
        kept.append(act)
    return kept


_ASKED = (acts.Ask, acts.AskWhy, acts.AskMeaning, acts.AskUnknown)
_ENDS_ASKED = lazy_pattern(r"(?i)[\s,]*(?:please|then|right)?\s*\?")
_SENTENCE = lazy_pattern(r"[.!?;]")


def asked_with_count(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "How's the ground figured on that, it's five of them?": all of it is a question."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.Recount)
            and last is not None
            and isinstance(last, _ASKED)
            and _ENDS_ASKED.match(heard, act.span[1])
            and not _SENTENCE.search(heard[last.span[1] : act.span[0]])
        ):
            continue
        kept.append(act)
    return kept
