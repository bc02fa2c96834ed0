"""The open question in words, and a reply without them, so that nothing is shown twice."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.dialogue.asking import ask
from assistant.dialogue.saying import say
from assistant.dialogue.talk import Talk
from assistant.screen.wording import text

TRIES = 3
"""Wordings of a question: put plainly, with an example, with a way out."""


def parted(talk: Talk, said: str) -> tuple[str, str]:
    """The question as it was just put, or as it is put first; and the reply without it.

    The short caution is left out too: it always stands on the card.
    """
    said = said.replace(say("caution_short"), "").replace("  ", " ").strip()
    wordings = list(_wordings(talk))
    if not wordings:
        return text("question.none"), said
    for words in wordings:
        if said.endswith(words):
            return _capital(words), said.removesuffix(words).rstrip()
    return _capital(wordings[0]), said


def _wordings(talk: Talk) -> Iterator[str]:
    found = talk.assessment
    if found.question is None:
        return
    ways = [(tries, again) for again in (False, True) for tries in range(TRIES)]
    for tries, again in ways:
        words = ask(found.question, talk.state, found, tries, again)
        if found.verdict != "incomplete":
            yield say("for_margin", question=words[0].lower() + words[1:])
        yield words


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]
