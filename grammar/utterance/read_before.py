"""Utterances that were read a short while ago are not read anew, nor lists of things that were.

Who talks many boxes through says the same of most of them, and an ear that listens asks of the
same words several times whether they can stand. What an utterance is read as hangs on nothing but
its words, the open question and a person's own words; with own words it is always read anew.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.utterance import act_recognizer, listed_things

#: Characters of the longest utterance that is remembered, and how many are.
LONGEST, REMEMBERED = 200, 1024


def recognise(
    words: str | Sequence[Word],
    expect: str | None = None,
    aliases: Mapping[str, str] | None = None,
    enclosures: bool = True,
) -> Utterance:
    """As `act_recognizer.recognise`."""
    if isinstance(words, str) and len(words) <= LONGEST and not aliases:
        return _typed(words, expect, enclosures)
    return act_recognizer.recognise(words, expect, aliases, enclosures)


@lru_cache(maxsize=REMEMBERED)
def _typed(words: str, expect: str | None, enclosures: bool) -> Utterance:
    things = listed_things.parted(words, expect) if enclosures else []
    if things and (found := listed_things.put_together(words, things)):
        return found
    read = act_recognizer.recognise(words, expect, None, enclosures)
    if things:
        listed_things.learn(things, read)
    return read
