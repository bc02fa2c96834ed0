"""Wires that are named once: "five 14s enter and five leave", "six enter and are spliced", "all
conductors are number eight"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Doubt, Unread
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.lazy_patterns import lazy_pattern

PIECES = ("through", "enter", "come", "coming", "are ", "all ", "everything")
"""Of which an utterance holds one where any of these is said."""
_NUMBER = (
    r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    r"|sixteen|\d{1,2})"
)
_IN = r"(?:enter(?:s|ing)?|come(?:s)? in(?:to)?|coming in(?:to)?)"
_OUT = (
    r"(?:leav(?:e|es|ing)|exit(?:s|ing)?|(?:go|goes|going|come|comes|coming|continue|continues)"
    r"(?: back)? out)"
)
_JOINED = r"(?:spliced|joined|connected|terminated|landed|made up|tied together|ended)"
#: Behind wires that come in, those that go out again, of which it is said only how many.
_AND_OUT = lazy_pattern(
    rf"(?i) (?:that |which )?{_IN}\b[^.;:?!]*?,? (?:and|while) (?P<n>{_NUMBER})"
    rf"(?= (?:of them |more |others? )?{_OUT}\b)"
)
_BY_WAY = lazy_pattern(
    rf"(?i)(?:^\s*|[.;:,] ?|\band )(?P<all>(?P<n>{_NUMBER}) (?:of them |that |which )?{_IN}"
    r"(?: (?:the |this )?box| it| there)?,? (?:and |that |which )?(?:(?:are|is|get|gets) )?"
    rf"(?:all )?{_JOINED}(?: together| in (?:it|there|the box))?)"
)
_GAUGE = (
    r"(?P<awg>18|16|14|12|10|8|6|eighteen|sixteen|fourteen|twelve|ten|eight|six)(?: (?:awg|gauge))?"
    r"(?![\w/x×-]|\.\d)"
)
_ALL_ARE = lazy_pattern(
    r"(?i)\ball (?:of )?(?:the |these |those )?(?:conductors|wires)(?: in (?:it|there|the box))?"
    rf" (?:are|being) (?:all )?(?:#|number |no\. ?)?{_GAUGE}"
)
#: "Five are joined, one goes straight through": not one of those.
_AND_ONE_THROUGH = lazy_pattern(
    rf"(?i)\b{_JOINED}(?: together| in (?:it|there|the box))?[,;.]? (?:and |while )?"
    r"(?P<one>one (?:more |other )?(?:just )?(?:goes|runs|passes) (?:straight |right )?through)"
)
#: "…, three that go straight through".
_THAT_PASS = lazy_pattern(
    rf"(?i)(?:^\s*|[.;:,] ?|\band )(?P<all>(?P<n>{_NUMBER}) (?:more |others? )?(?:that|which) "
    r"(?:just |only |all )?(?:go|goes|pass|passes|run|runs) (?:straight |right |clear )?through)"
)
#: "All number 12: six spliced wires", "everything's number eight; …".
_HEADED = lazy_pattern(
    r"(?i)(?:^|[.;:!?,] )\s*(?:(?:so|ok|okay|and|well|um|uh|hey|hello),? )*"
    r"(?:(?:it|they|these)(?:['’]s|['’]re| is| are) )?"
    r"(?:all(?: of (?:it|them))?|everything(?:['’]s)?)(?: (?:is|are))?(?: in)?"
    rf" (?:#|number |no\. ?){_GAUGE}(?=\s*[.,:;–-])"
)


def elided_wires(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts with the wires that only a number or a size was said of."""
    if any(isinstance(act, (acts.AddCable, acts.Remove, acts.Suppose)) for act in made):
        return made  # "two 14-2s, four enter": wires of those
    made = _out_again(made, heard, left)
    for found in _BY_WAY.finditer(heard):
        span = found.span("all")
        if not _left(left, found.span("n")) or _covered(made, span):
            continue
        told = acts.AddConductors(
            count=_worth(found["n"]),
            doubts=(Doubt("awg", "unsized"),),
            words=found["all"],
            span=span,
        )
        made = _put(made, told, left)
    found_one = _AND_ONE_THROUGH.search(heard)
    if found_one is not None and not _covered(made, found_one.span("one")):
        through = acts.AddConductors(
            count=1, path="through", words=found_one["one"], span=found_one.span("one")
        )
        made = _put(made, through, left)
    for found in _THAT_PASS.finditer(heard):
        span = found.span("all")
        if any(_overlaps(act, span) and not isinstance(act, acts.Number) for act in made):
            continue
        passing = acts.AddConductors(
            count=_worth(found["n"]), path="through", words=found["all"], span=span
        )
        made = _put([act for act in made if not _overlaps(act, span)], passing, left)
    return _of_one_size(made, heard, left)


def _overlaps(act: Act, span: tuple[int, int]) -> bool:
    return act.span[0] < span[1] and span[0] < act.span[1]


def _of_one_size(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The size that is said once for all wires, on those that have none; by itself without any."""
    found = _ALL_ARE.search(heard) or _HEADED.search(heard)
    if found is None or _covered(made, found.span()):
        return made
    awg, span = _worth(found["awg"]), found.span()
    wires = [one for one in made if isinstance(one, acts.AddConductors)]
    unsized = [one for one in wires if one.awg is None]
    if not any(one.awg in (None, awg) for one in wires):
        size = acts.Size(awg=awg, words=found[0], span=span)
        return _put(made, size, left) if _ALL_ARE.search(heard) else made
    left[:] = [run for run in left if not (span[0] <= run.span[0] < span[1])]
    return [_sized(act, awg) if act in unsized else act for act in made]


def _sized(act: Act, awg: int) -> Act:
    if not isinstance(act, acts.AddConductors):
        return act
    return replace(act, awg=awg, doubts=tuple(one for one in act.doubts if one.slot != "awg"))


def _out_again(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """Five that leave beside five that enter: as many wires more, of their size."""
    for act in made:
        if not isinstance(act, acts.AddConductors) or act.awg is None or act.path is not None:
            continue
        found = _AND_OUT.match(heard, act.span[1])
        if found is None or not _left(left, found.span("n")):
            continue
        told = acts.AddConductors(
            count=_worth(found["n"]), awg=act.awg, words=found["n"], span=found.span("n")
        )
        return _put(made, told, left)
    return made


def _worth(said: str) -> int:
    number = lengths.value(said.lower())
    return 0 if number is None else int(number)


def _left(left: list[Unread], span: tuple[int, int]) -> bool:
    """Whether a number stands among the words of which nothing was made."""
    return any(run.span[0] <= span[0] and span[1] <= run.span[1] for run in left)


def _covered(made: list[Act], span: tuple[int, int]) -> bool:
    return any(_overlaps(act, span) for act in made)


def _put(made: list[Act], told: Act, left: list[Unread]) -> list[Act]:
    """The acts with one more at its place, whose words are unread no longer."""
    start, end = told.span
    left[:] = [run for run in left if not (start <= run.span[0] and run.span[1] <= end)]
    return sorted([*made, told], key=lambda act: act.span[0])
