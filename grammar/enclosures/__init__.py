"""Pull boxes and conduit bodies as they are said: readers of their own beside the phrases.
What becomes no piece is left unread: a raceway that is stepped over makes a box too small.
Words are added in data/enclosures.toml, with a case in the corpus.
"""

from __future__ import annotations

from collections.abc import Callable

from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.building.code_questions import code_question
from boxaloud.grammar.enclosures import body_talk, pull_talk

#: Stands before the open question while a conduit body is at hand.
BODY = "body:"


def enclosure_talk(
    heard: str, expect: str | None, ordinary: Callable[[str, str | None], Utterance]
) -> Utterance | None:
    """What is said of a pull box or a conduit body, or asked of the code; None where it is of
    something else.

    `ordinary` reads, under an open question, what has nothing of them.
    """
    if (question := code_question(heard)) is not None:
        return Utterance(heard, (question,))
    if not body_talk.filled_straight(heard):
        found = pull_talk.read(heard, expect, lambda text: ordinary(text, None))
        if found is not None:
            return found
    at_hand = expect is not None and expect.startswith(BODY)
    asked = (expect or "").removeprefix(BODY) or None
    return body_talk.read(heard, at_hand, asked, lambda text: ordinary(text, asked))
