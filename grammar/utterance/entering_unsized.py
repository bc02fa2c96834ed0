"""What comes into the box besides, of a size or a number that nobody said: "and the home run",
"a jumper out to the other box", "I forgot the feed". Each conductor that enters counts,
314.16(B)(1), so that no verdict stands over one of which nothing was made."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.masked_words import is_bare, masked

_TABLE = grammar_data.table("clauses")["entering"]


def _any(name: str) -> str:
    return "(?:{})".format("|".join(_TABLE[name]))


_NOUN = _any("nouns")
_DEVICE = _any("devices")
_COLOURED = _any("coloured")
_END = r"(?:,?\s+(?:please|then|too|as well|i guess))*\s*[.!]*\s*$"
#: Up to four words that say which; none of them begins what another thing does.
_WHICH = rf"(?:(?!(?:{'|'.join(_TABLE['parting'])})\b)[a-z][a-z'-]*\s+){{0,4}}?"
_LEAD = rf"(?:{_any('leads')},?\s+)*"
_BESIDES = _any("besides")
#: "The feed", "the rest of the cable", "an extra leg".
_ARTICLE = _any("articles")
_STOP = rf"(?=\s*$|[,.;!]|\s+{_any('behind')}\b)"
_ALONE = (
    # "and the home run", "plus the rest of the cable", "with the leads from the fan"
    lazy_pattern(rf"\s*{_LEAD}{_BESIDES},?\s+(?P<new>(?:{_ARTICLE}\s+)?{_WHICH}{_NOUN}){_STOP}"),
    # "and a USB charger", "plus a little gizmo for the fan"
    lazy_pattern(
        rf"\s*{_LEAD}{_BESIDES},?\s+(?P<new>(?:an?|another|one|the|some)\s+{_WHICH}{_DEVICE}){_STOP}"
    ),
    # "cable to the light", "a leg to the light", "cable out the bottom"
    lazy_pattern(
        rf"\s*{_LEAD}(?P<new>(?:(?:an?|one|another|some|more|two|three)\s+)?{_WHICH}{_NOUN})"
        rf"\s+{_any('leaving')}\b"
    ),
    # "a handful of wires in the back", "and two spares"
    lazy_pattern(
        rf"\s*{_LEAD}(?:{_BESIDES}\s+)?(?P<new>{_any('amounts')}(?:\s+of)?\s+{_WHICH}{_COLOURED})"
        rf"{_STOP}"
    ),
    lazy_pattern(
        rf"\s*{_LEAD}{_BESIDES}\s+(?P<new>(?:{_ARTICLE}\s+)?(?:loose\s+|extra\s+)?{_COLOURED}){_STOP}"
    ),
    # "the old feed is still there", "I left the old cable in"
    lazy_pattern(
        rf"\s*{_LEAD}(?P<new>(?:the|that|an?)\s+{_any('left_there')}\s+(?:{_NOUN}|ones?))\s+"
        rf"(?:(?:is|are|was|still|just|all)\s+)*{_any('stays')}\b"
    ),
    lazy_pattern(
        rf"\s*{_LEAD}(?:i|we|they|he|she)(?:'m|'re|\s+am|\s+are|'ve|\s+have|'ll|\s+will)?\s+"
        rf"(?:also\s+|just\s+)?{_any('kept')}\s+"
        rf"(?P<new>(?:the|that|an?)\s+{_any('left_there')}\s+(?:{_NOUN}|ones?))\b"
    ),
    # "this box also feeds the hallway", "the porch light is fed from here too"
    lazy_pattern(
        rf"\s*{_LEAD}(?:and\s+)?(?P<new>(?:it|this\s+box|this\s+one|this)\s+also\s+"
        rf"(?:feeds|powers|supplies|runs|goes|continues)\b.*"
        rf"|the\s+[a-z ]+\s+is\s+(?:also\s+)?fed\s+from\s+(?:here|this\s+box)\s+"
        r"(?:too|also|as\s+well))"
    ),
    # "etc", "and so on", "plus everything else"
    lazy_pattern(rf"\s*{_LEAD}(?P<new>(?:(?:and|plus|with)\s+)?{_any('and_so_on')}){_END}"),
    # "and a paddle", "plus two stacks"
    lazy_pattern(
        rf"\s*{_LEAD}(?:and|plus|also|as\s+well\s+as)\s+(?P<new>(?:an?|another|one|two|three)\s+"
        rf"{_any('device_like')}s?){_END}"
    ),
    # "the smoke alarm wire comes through here too", "a second feed enters the back"
    lazy_pattern(
        rf"\s*{_LEAD}(?:{_BESIDES}\s+)?(?P<new>{_ARTICLE}\s+{_WHICH}{_NOUN})\s+"
        rf"(?:also\s+|still\s+|just\s+)*{_any('enters')}\b(?P<behind>.*)"
    ),
    # "they ran the sub feed through here"
    lazy_pattern(
        rf"\s*{_LEAD}(?:they|he|she|somebody|someone|we|i)\s+(?:also\s+)?{_any('brought')}\s+"
        rf"(?P<new>{_ARTICLE}\s+{_WHICH}(?:{_NOUN}|one))(?P<behind>$|[,.!].*|\s.*)"
    ),
    # "I forgot one", "I left out the fan wire", "I didn't count the feed"
    lazy_pattern(
        rf"\s*{_LEAD}(?:and\s+)?(?:i|we|you)\s+(?:also\s+|just\s+|had\s+|have\s+)*{_any('missed')}"
        rf"\s+(?P<new>(?:one|another|two|three|a\s+few|some|a\s+couple)(?:\s+more)?"
        rf"|(?:the|a|that)\s+(?:other\s+)?one|(?:{_ARTICLE}\s+)?{_WHICH}{_NOUN}){_STOP}"
    ),
    # "one up to the attic", "one loops through", "there's one tucked behind"
    lazy_pattern(
        rf"\s*{_LEAD}(?:{_BESIDES}\s+)?(?:there(?:'s|\s+is|\s+are)\s+)?"
        rf"(?P<new>{_any('pronouns')})\s+(?:also\s+|just\s+|that\s+)*{_any('ways')}\b"
    ),
    # "I see one", "found another one behind"
    lazy_pattern(
        rf"\s*{_LEAD}(?:i|we)\s+(?:also\s+|just\s+|now\s+)*{_any('seen')}\s+"
        rf"(?P<new>(?:one|another|two|three|a\s+few|some|a\s+couple)(?:\s+(?:more|one))?){_STOP}"
    ),
    # "also a couple more", "several more wires", "there's a bunch more going out the back"
    lazy_pattern(
        rf"\s*{_LEAD}(?:{_BESIDES}\s+)?(?:(?:there(?:'s|\s+is|\s+are)|i\s+have|i've\s+got)\s+)?"
        rf"(?P<new>(?:{_any('amounts')}\s+more|more)(?:\s+{_WHICH}{_NOUN})?){_STOP}"
    ),
)
#: "The feed comes in the back" of what is there; "comes in here too" is of one besides.
_BESIDE = lazy_pattern(r"\b(?:too|also|as well|through|thru|in here|into here|here)\b")
_KNOWN = lazy_pattern(r"(?:the|this|that|these|those|my|our|his|her)\b")
_LIGHT = lazy_pattern(_any("light"))
_OF_OTHERS = lazy_pattern(_any("of_others"))
_SILENT = (acts.OtherTalk, acts.Social, acts.Yes, acts.No, acts.AskUnknown)


def entering_unsized(made: Sequence[Act], heard: str, left: Sequence[Unread]) -> Iterator[Unread]:
    """What an utterance of nothing else says to be in the box, and nothing was made of."""
    if left or heard.rstrip().endswith("?"):
        return
    if not all(is_bare(act) or isinstance(act, _SILENT) for act in made):
        return
    text = masked(made, heard)
    if _LIGHT.search(text) or _OF_OTHERS.search(text):
        return
    for form in _ALONE:
        found = form.match(text)
        if found is not None and _weighs(found):
            yield Unread(heard[slice(*found.span("new"))], found.span("new"), True)
            return


def _weighs(found: re.Match[str]) -> bool:
    """ "The feed comes in the back" tells where one goes that is there."""
    said = found.groupdict()
    return (
        "behind" not in said
        or _KNOWN.match(said["new"]) is None
        or _BESIDE.search(found.group()[found.end("new") - found.start() :]) is not None
    )
