"""One thing more that is told by its likeness to another: "same to the shed", "and its twin"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.rewriter import without
from boxaloud.grammar.utterance.masked_words import is_bare, masked, thing_of

_TABLE = grammar_data.table("clauses")["likeness"]


def _any(name: str) -> str:
    return "(?:{})".format("|".join(_TABLE[name]))


_NOUN = _any("nouns")
#: What may stand behind a word that is one thing more by itself.
_STOPS = rf"(?=$|[,.;:!)&]| [CDWX]| (?:{_any('behind')})\b)"
_LIKE = _any("like")
#: Each way to tell of one more by likeness.
_FORMS = tuple(
    lazy_pattern(form.replace(" ", r"\s+"))
    for form in (
        # "ditto the shed", "likewise to the light"
        r"\b(?:ditto|likewise)\b",
        # "same to the porch", "same on the right", "same size cable", "the same again"
        r"\b(?:the )?same (?:(?:to|for|going|goes|coming|comes|from|again|twice|at|in|over|out)\b"
        rf"(?! {_any('elsewhere')})"
        rf"|on (?:the|my) (?:left|right|top|bottom|other (?:side|end))\b)",
        rf"\b(?:the )?same (?:(?:size|type|kind|sort|gauge)(?: of)? )?{_NOUN}\b(?! as\b)",
        # "the whip takes off with the same", "it leaves with the same"
        r"\b(?:takes?|carries|carry|leaves?|exits|goes|out)(?: (?:off|out|on|away))*(?: with)?"
        r" (?:exactly |just )?the same\b(?! (?:way|size|as|box|kind|one|wall|side|place|time|thing"
        r"|day|truck|panel|circuit|breaker)\b)(?![,:]? W)",
        # "an identical one", "a matching run", "two of the same", "another just like it"
        rf"\b(?:an?|another|one|two|three|its|the|plus|and) (?:more )?(?:other )?{_LIKE}"
        rf" (?:one|{_NOUN})s?\b",
        r"\b(?:another|one|two|three)(?: more)?(?: [a-z]+)?(?: exactly| just)?"
        r" (?:like (?:it|that|those)|of the same|to match)\b",
        # "its twin", "its mate", "the companion", "a partner"
        rf"\b(?:its|their|the|an?|his|her) {_any('mates')}s?\b"
        r"(?! (?:box|plate|cover|wire|nut|loop|length|wrap|turn|tap)s?\b)",
        # "another for the fan", "one more next to it", "w/ another"
        rf"\b(?:another|one more|yet another)(?: (?:one|{_NOUN}))?{_STOPS}",
        # "a second", "a separate one", "a new one goes in", "a dead one"
        rf"\b(?:an?|my|plus|adding) (?:second|third|fourth|fifth|{_any('further')})"
        rf" (?:(?:one|{_NOUN})\b|X)",
        rf"\b(?:an?|and|adding) (?:second|third|fourth|fifth){_STOPS}",
        rf"\band one (?:{_any('further')})\b",
        rf"\bthe new (?:one|{_NOUN})\b",
        # "twice that", "double the cables", "as many again", "doubled up"
        r"\b(?:twice|double|triple) (?:that|those|this|the (?:cables?|wires?|number|same))\b",
        r"\b(?:as many|the same number) (?:again|more|of)\b|\btwice over\b|\bdoubled(?: up)?\b",
        # "on the right also", "out right as well"
        r"\b(?:on the (?:left|right|top|bottom)"
        r"|(?:out|off)(?: the)? (?:left|right|top|bottom|back)),? (?:also|too|as well)\b",
        r"\bout (?:the )?(?:left and right|right and left|top and bottom)\b",
        # "two switches and their 14-2 legs"
        r"\b(?:its|their) C+ (?:legs|runs|cables|feeds|tails)\b",
        # "cables to the bath, hall and closet, each a 14-2"
        r"\b(?:cables|runs|lines|feeds) (?:to|for|from)\b[^.;C]*,? (?:and )?(?:each|all|every one)"
        r"(?: of them)?(?: being| is| are)?(?: an?)? (?=C)",
    )
)
#: "14-2 for power, one for the light": ones that a single cable before them cannot be.
_ONES = lazy_pattern(
    r"(?<!that )(?<!this )(?<!the )(?<!which )(?<!no )(?<!any )\b"
    r"(?P<one>one (?:to|for|from|feeding|feeds|going|goes|coming|comes|headed|out|in|up|down"
    r"|back|is (?:the|a|my) (?:feed|load|line|leg|switch leg|home ?run|power|hot|supply)))\b"
)
_NTH = lazy_pattern(
    r"(?:^|[,;.CDWX] |\band )(?:the |a )?(?P<nth>second|third|fourth|fifth) (?:one|cable|run)\b"
    r"(?! of\b)"
)
_RACEWAY = r"(?:pipe|conduit|raceway|emt|side|end)"
#: "One pipe out, the same", "each pipe brings three 12s": as many as are told of another.
_OF_RACEWAYS = (
    lazy_pattern(
        rf"(?<=[CW])\b.*?(?P<of>\b{_RACEWAY}(?: (?:in|out|on|off|up|down|over))*"
        r"(?: (?:to|from|on|at) the [a-z]+)?,? (?:with |has |is )?(?:exactly |just )?the same\b)"
        r"(?! (?:size|length|kind|wall|side|way))"
    ),
    lazy_pattern(
        r"(?P<of>\beach (?:pipe|conduit|raceway) (?:brings?|carr(?:ies|y)|has|holds?))(?= [CW])"
    ),
)
_PLACES = {"second": 2, "third": 3, "fourth": 4, "fifth": 5}
#: Said alone, such words begin what somebody says; elsewhere they may be about anything.
_ALONE = lazy_pattern(
    (
        r"\s*(?:(?:um|uh|er|hello|hi|hey|please|no|wait|and|plus|also|oh|ok|okay|so|then|well|yeah"
        r"|yes|there's|there is|there are|i've got|i got|i have|we have|we've got|got|add|with"
        r"|actually|but|as well as|it's got|each of (?:those|them) has"
        r"|besides? (?:that|those|them|it)),? )*"
    ).replace(" ", r"\s+")
)
_ONE_ALONE = lazy_pattern(
    (
        r"\s*(?:(?:um|uh|er|hello|hi|hey|oh|ok|okay|so|well),? )*(?:(?:and|plus) again\b"
        r"|(?:as well as|besides? (?:that|those|them|it),?(?: there's| there is| i've got)?)"
        r" (?:one(?: more)?|a (?:second|third|fourth))\b)"
    ).replace(" ", r"\s+")
)
#: "No second one", "wait a second", "from one to another": none more.
_NONE_MORE = lazy_pattern(
    r"\b(?:no|not|never|without|don't|doesn't|isn't|ain't|won't|wait|hold on|give me|gimme|just|in"
    r"|hang on|sec|need|that's|that is|makes|so|replac\w+ (?:it|them|that) with|one|or|after|than"
    r"|box(?: is| needs)?|each) $"
)
#: "Three 14-2s, the helper stuck another one in": why there are so many.
_REASON = lazy_pattern(
    r"C,[\sa-z]+\b(?:stuck|added|pulled|put|ran|found|snuck|threw|brought|fished|slipped)"
    r"(?:\s+(?:in|up))?\s+$"
)
_OF_THE_BOX = lazy_pattern(r"\b(?:box|boxes|cover|plate|ring|house|job|clamp|clamps|connector)\b")
_THING = lazy_pattern("[CDW]")
#: "A third one, another 10-3": what it is, is said.
_NAMED = lazy_pattern(r"(?i)[,:]? (?:also |that's |it's |is )*(?:another|an?) \S")
_COUNTED_SO = lazy_pattern(r"C+ one more\b(?!.*[CD])")
_CLAUSE = lazy_pattern(r"[,.;:!?]")
_SILENT = (acts.OtherTalk, acts.Social, acts.Yes, acts.No, acts.InSpace)


def further_by_likeness(
    made: Sequence[Act], heard: str, left: Sequence[Unread]
) -> Iterator[Unread]:
    """What an utterance tells of one thing more by its likeness alone, and nothing was made of: it
    weighs, for each conductor of each cable counts, 314.16(B)(1), and each yoke, (B)(4)."""
    if heard.rstrip().endswith("?"):
        return
    text = masked(made, without("remarks", heard))
    things = any(thing_of(act) is not None for act in made)
    if not things and not all(is_bare(act) or isinstance(act, _SILENT) for act in made):
        return
    taken = [run.span for run in left]
    spans = [found.span() for found in _found(text, heard, things)]
    raceways = (found.span("of") for form in _OF_RACEWAYS for found in form.finditer(text))
    for start, end in (*spans, *_ones(made, text), *_nth(made, text), *raceways):
        if any(span[0] < end and start < span[1] for span in taken):
            continue
        taken.append((start, end))
        yield Unread(heard[start:end].strip(" ,"), (start, end), True)


def _found(text: str, heard: str, things: bool) -> Iterator[re.Match[str]]:
    """Each place of a text that tells of one more; where no thing is told with it, only one that
    the text begins with."""
    if not things:
        begin = _ALONE.match(text)
        at = begin.end() if begin is not None else 0
        if alone := _ONE_ALONE.match(text):
            yield alone
        for form in _FORMS:
            if found := form.match(text, at) or form.match(text):
                yield found
        return
    for form in _FORMS:
        for found in form.finditer(text):
            if _is_one_more(text, heard, found):
                yield found


def _is_one_more(text: str, heard: str, found: re.Match[str]) -> bool:
    """Whether words of likeness are of a thing in the box, and are not denied."""
    named = _NAMED.match(heard, found.end())
    before = _THING.findall(text[: found.start()])
    if named is not None and text[named.end() - 1] in before[-1:]:
        return False
    first = 0 if text[found.start() :].startswith(("cables", "runs", "lines", "feeds")) else None
    if first is None and not _THING.search(text, 0, found.start()):
        return False
    if _COUNTED_SO.match(text) and found.group().startswith("one more"):
        return False  # "twelve two one more to feed next"
    begin = max((stop.end() for stop in _CLAUSE.finditer(text, 0, found.start())), default=0)
    stop = _CLAUSE.search(text, found.end())
    clause = text[begin : stop.start() if stop is not None else len(text)]
    if _NONE_MORE.search(text[begin : found.start()]):
        return False
    if _REASON.search(text, 0, found.start()):
        return False
    return _OF_THE_BOX.search(clause) is None


def _cables(made: Sequence[Act]) -> int:
    """How many cables an utterance tells of."""
    cables = [told for act in made if isinstance(told := thing_of(act), acts.AddCable)]
    return sum(cable.count or 1 for cable in cables)


def _ones(made: Sequence[Act], text: str) -> Iterator[tuple[int, int]]:
    """ "14-2 for power, one for the light, one for the fan": each one more, behind a single cable;
    of several, they are those."""
    ones = list(_ONES.finditer(text))
    cables = [act for act in made if isinstance(act, acts.AddCable) and act.awg is not None]
    single = all(act.count in (None, 1) for act in cables)
    named = sum(not act.words.lower().startswith("one ") for act in cables)
    for found in ones:
        alone = named == 1 or (" is " in found["one"] and len(cables) == 1)
        if single and alone and "D" not in text[: found.start()].rsplit(".", 1)[-1]:
            yield found.span("one")


def _nth(made: Sequence[Act], text: str) -> Iterator[tuple[int, int]]:
    """ "Two 14-2s, third one capped": a further one than there are."""
    for found in _NTH.finditer(text):
        if 0 < _cables(made) < _PLACES[found["nth"]] and "C" in text[: found.start()]:
            yield found.span("nth")
