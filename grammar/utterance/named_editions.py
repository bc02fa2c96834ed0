"""A code or a place and the year of its edition, said apart: "in Canada, by the 2024 code"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining
from boxaloud.grammar.utterance.running_passes import Pass


@joining
def one_edition(one: Act, other: Act, heard: str) -> Act | None:
    """A code named without a year and a year right beside it, as the one edition that they are.

    A year of another code, and one behind a word of correction, is another edition.
    """
    if not isinstance(one, acts.SetEdition) or not isinstance(other, acts.SetEdition):
        return None
    code, year = (one, other) if one.code else (other, one)
    alone = bool(code.code) and not code.year and bool(year.year) and not year.code
    if not alone or other.function == "correction":
        return None
    span = (one.span[0], other.span[1])
    return replace(code, year=year.year, words=heard[slice(*span)], span=span)


def before_connectors(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """A code said behind connectors ahead of them: in Canada they may be those that count."""
    told = [act for act in made if isinstance(act, acts.SetEdition)]
    counted = [act for act in made if isinstance(act, acts.SetClamps) and act.count]
    if len(told) != 1 or not counted or made.index(told[0]) < made.index(counted[0]):
        return made
    return [*told, *(act for act in made if act is not told[0])]


_IN_MILLILITRES = lazy_pattern(r"(?i)\bml\b|\bmill?ilit(?:er|re)s?\b")
HINT = "perhaps Canadian"
"""The code of words that are said in Canada and name no code: which it is, is asked."""


def without_hints(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """A hint beside a code that is named adds nothing; "CEC" beside one is that of Canada, and
    so it is where millilitres are asked for."""
    codes = [act for act in made if isinstance(act, acts.SetEdition)]
    hinted = any(act.code == HINT for act in codes) or _IN_MILLILITRES.search(heard) is not None
    if not hinted or all(act.code == HINT for act in codes):
        return made
    known = [act for act in made if not isinstance(act, acts.SetEdition) or act.code != HINT]
    return [
        replace(act, code="Canadian code")
        if isinstance(act, acts.SetEdition) and act.code == "CEC"
        else act
        for act in known
    ]


_YEARS = (2008, 2011, 2014, 2017, 2020, 2023, 2026)


def years_not_counts(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "2017 GFCI, two 12-2": so many of nothing, and the edition."""
    kept: list[Act] = []
    for act in made:
        if is_thing(act) and act.count in _YEARS and act.words.startswith(str(act.count)):
            end = act.span[0] + len(str(act.count))
            span = (act.span[0], end)
            kept.append(acts.SetEdition(year=str(act.count), words=heard[slice(*span)], span=span))
            doubts = tuple(doubt for doubt in act.doubts if doubt.slot != "count")
            act = replace(
                act, count=None, doubts=doubts, words=heard[end + 1 : act.span[1]],
                span=(end + 1, act.span[1]),
            )  # fmt: skip
        kept.append(act)
    return kept


_SECTION = lazy_pattern(r"(?:110|210|250|300|312|314|404|406|410|725|800)\.\d{1,2}")


def sections_not_numbers(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Is 314.16 the box fill one": the name of a section, and no number of anything."""
    return [
        act
        for act in made
        if not (
            isinstance(act, (acts.Number, acts.RestateNumber)) and _SECTION.fullmatch(act.words)
        )
    ]


_DATE = lazy_pattern(
    r"(?i)\b(?:in|since|around|before|after|until|till|circa|back in|early|late)\s+$"
)
_DATED = lazy_pattern(
    r"(?i)\s+(?:house|home|build|addition|remodel|reno|renovation|place|building|truck|model|kitchen)\b"
)
_BARE_YEAR = lazy_pattern(r"(?i)(?:\d{4}|twenty[\w -]+)")


#: "The neighbors are on the 2017", "the next town went to the 2020", "we used to be on the 2014".
_OF_OTHERS = lazy_pattern(
    r"(?i)(?:\b(?:neighbou?rs?|(?:next|other) (?:town|city|county|state|village)"
    r"|(?:town|city|county|state|village) (?:over|next door))(?: [a-z]+){0,3}?"
    r" ?(?:are|is|['’]s|['’]re|was|were|went|uses?|goes|go)|\bused to (?:be|go|use))"
    r"(?: (?:still|all|on|by|under|to|the))*\s*$"
)


def dates_not_editions(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The house was built in 2017", "a 2014 house": a date, which names no edition; and that of
    the neighbors is none of this box."""
    return [
        acts.OtherTalk(words=act.words, span=act.span)
        if isinstance(act, acts.SetEdition) and not act.code and _is_date(act, heard)
        else act
        for act in made
    ]


def _is_date(act: acts.SetEdition, heard: str) -> bool:
    if _OF_OTHERS.search(heard[: act.span[0]]):
        return True
    bare = _BARE_YEAR.fullmatch(act.words) and "code" not in act.words and "nec" not in act.words
    start, end = act.span
    around = _DATE.search(heard[:start]) or _DATED.match(heard[end:])
    return bool(bare and around)


OF_YEARS = (
    Pass(
        sections_not_numbers,
        (acts.Number, acts.RestateNumber),
        1,
        ("110.", "210.", "250.", "300.", "312.", "314.", "404.", "406.", "410.", "725."),
    ),
    Pass(dates_not_editions, (acts.SetEdition,), 1),
)
"""The passes over numbers and years that are none of what they look like."""
