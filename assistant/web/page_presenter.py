"""The page's view of a talk: the box at hand, the reply, and the open question. Pure."""

from __future__ import annotations

from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.assessment import exact
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.nlg.sentences import say as said
from boxaloud.assistant.dialogue.policy.question_wording import ask
from boxaloud.assistant.tui.presenters.answer_choices import Choice, choices_for
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.web import box_presenter
from boxaloud.assistant.web.page_documents import (
    Answer,
    BoxList,
    BoxRow,
    OpenQuestion,
    PageView,
    SaidAct,
    SaidBack,
    Stored,
)
from boxaloud.assistant.web.web_messages import say
from boxaloud.rules import STANDING, counted_under, edition_named, provisional


def page_view(conversation: Conversation, reply: Reply, job: str, stored: Stored) -> PageView:
    """All that the page shows after a reply."""
    talk = conversation.talk
    found, state = talk.assessment, talk.state
    said_of_edition = provisional(found.sheet.edition)
    return PageView(
        job=job,
        box=talk.name,
        boxes=len(conversation.boxes.names),
        stand=stand(conversation, job),
        edition=edition_named(found.sheet.edition),
        under=counted_under(found.sheet.edition),
        provisional="" if said_of_edition is None else said_of_edition.says,
        verdict=box_presenter.verdict_card(found),
        question=open_question(talk, reply),
        reply=said_back(reply),
        fill=box_presenter.fill(found),
        contents=box_presenter.contents(state),
        sheets=box_presenter.sheets(found),
        enclosure=box_presenter.enclosure(state),
        standing_caution=" ".join(caution.says for caution in STANDING),
        stored=stored,
    )


def stand(conversation: Conversation, job: str) -> str:
    """Names the state of the box at hand: its job, its name, and how much was said of it."""
    talk = conversation.talk
    return f"{job}\n{talk.name}\n{len(talk.journal)}"


def answers_of(talk: Talk) -> tuple[Choice, ...]:
    """The answers to the open question, in the order in which they are shown."""
    return choices_for(talk.asks, talk.state)


def open_question(talk: Talk, reply: Reply) -> OpenQuestion:
    """What is open, as the reply put it, else as it is put first."""
    found = talk.assessment
    if found.question is None:
        kind = "over" if found.verdict == "over" else "exact" if exact(found) else "open"
        return OpenQuestion(None, reply.question or say(f"question.none_{kind}"), ())
    words = reply.question or ask(found.question, talk.state, found, 0, False)
    if not reply.question and found.verdict != "incomplete":
        words = said("for_margin", question=words[0].lower() + words[1:])
    shown = tuple(Answer(one.label, one.sign, one.opens) for one in answers_of(talk))
    return OpenQuestion(found.question.slot, _capital(words), shown)


def said_back(reply: Reply) -> SaidBack:
    """A reply as data. Its cautions are those of the box; each act keeps its own sentence."""
    acts = tuple(SaidAct(act.act, sizes_written(act.says), act.spoken) for act in reply.acts)
    return SaidBack(
        heard=reply.heard,
        confidence=reply.confidence,
        understood=reply.understood,
        left_over=reply.left_over,
        acts=acts,
        cautions=reply.cautions,
        assumed=reply.assumed,
        refused=reply.refused,
        changed=reply.changed,
        fault=reply.fault,
    )


def box_list(conversation: Conversation, first: int, most: int) -> BoxList:
    """Some boxes of the job. Only a box that is listed is worked out."""
    names = conversation.boxes.names
    first = max(0, min(first, len(names)))
    rows = tuple(_box(conversation, name) for name in names[first : first + most])
    return BoxList(rows, first, len(names))


def _box(conversation: Conversation, name: str) -> BoxRow:
    card = box_presenter.verdict_card(conversation.boxes.talk(name).assessment)
    margin = f"{card.margin}{'+' if card.at_least else ''} {card.unit}"
    told = say(f"boxes.{card.verdict}", margin=margin)
    told = f"{told} · {card.code}" if card.code else told
    return BoxRow(name, card.verdict, told, name == conversation.talk.name)


def _capital(words: str) -> str:
    shown = sizes_written(words)
    return shown[:1].upper() + shown[1:]


__all__ = ["answers_of", "box_list", "open_question", "page_view", "said_back", "stand"]
