"""The open question in words, and the rest of a reply, so that nothing is shown twice."""

from __future__ import annotations

from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.policy.question_wording import ask
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.tui.tui_messages import text

ELSEWHERE = ("question", "caution")
"""System acts that have a place of their own: the question's line, and the line of caution that
always stands on the card."""


def prompt(talk: Talk, reply: Reply | None = None) -> str:
    """The question as the reply put it, else the open question as it is put first."""
    if reply is not None and reply.question:
        return _capital(reply.question)
    found = talk.assessment
    if found.question is None:
        return text("question.none_over" if found.verdict == "over" else "question.none")
    words = ask(found.question, talk.state, found, 0, False)
    if found.verdict != "incomplete":
        words = say("for_margin", question=words[0].lower() + words[1:])
    return _capital(words)


def short_prompt(talk: Talk, reply: Reply | None = None) -> str:
    """What is to be read from afar: the open question at its shortest, nothing where none is.

    A reply that entered nothing says why, and is read in its place.
    """
    if reply is not None and not reply.changed and reply.heard:
        return reply.said
    found = talk.assessment
    if found.question is None:
        return ""
    return _capital(ask(found.question, talk.state, found, 0, True))


def without_question(reply: Reply) -> str:
    """What a reply says besides its question."""
    return sizes_written(" ".join(act.says for act in reply.acts if act.act not in ELSEWHERE))


def _capital(words: str) -> str:
    return sizes_written(words[0].upper() + words[1:])
