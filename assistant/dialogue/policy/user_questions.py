"""Questions that the user asks: they are answered, and change nothing in the box."""

from __future__ import annotations

from collections.abc import Callable

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.belief.held_figures import held_text
from boxaloud.assistant.dialogue.nlg.sentences import joined, listed, say
from boxaloud.assistant.dialogue.policy.box_choice import smallest_box
from boxaloud.assistant.dialogue.policy.reason_questions import why_ask
from boxaloud.assistant.dialogue.policy.remedy_questions import advice
from boxaloud.assistant.dialogue.policy.volume_questions import (
    allowances,
    capacity,
    certainty,
    conductors,
    largest,
    largest_wire,
    margin,
    metric,
    perhaps_canadian,
    read_back,
    stricter,
    total,
    volume_asked,
)
from boxaloud.assistant.dialogue.state import Form
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules import CANADIAN, editions


def which_edition(turn: Turn, act: Act) -> None:
    """ "Which edition are you on", "which code does Oregon use"."""
    given = act.given if isinstance(act, acts.Ask) else ()
    for one in given:
        if isinstance(one, acts.SetEdition):
            from boxaloud.assistant.dialogue.tracker import adopted_edition

            turn.answer(adopted_edition.adopted(turn.state, one), act.words)
            return
    text = say("edition.which", year=turn.state.edition, held=listed(list(editions())))
    turn.answer(text, act.words)


def edition(turn: Turn, act: acts.SetEdition) -> None:
    """ "use 2020": an edition we hold, or a refusal by name."""
    from boxaloud.assistant.dialogue.tracker import adopted_edition

    adopted_edition.edition(turn, act)


def help_(turn: Turn, act: Act) -> None:
    """ "help": how to answer the open question, or examples from the grammar."""
    if turn.asked is not None and turn.asked != "contents":
        turn.answer(say(f"how_to.{turn.asked}"), act.words)
        return
    from boxaloud.grammar import help_topics  # a text turn needs none of it

    examples = [example for topic in help_topics().values() for example in topic[:1]]
    quoted = listed([f"“{example}”" for example in examples[:6]])
    turn.answer(joined((say("help.lead"), say("help.more", examples=quoted))), act.words)


def form(turn: Turn, act: acts.SetForm) -> None:
    """ "brief", "full": shorter or longer answers."""
    wanted: Form = "brief" if act.brief else "full"
    turn.enter(altered(turn.state, form=wanted), say(f"echo.{wanted}"))


def done(turn: Turn, act: acts.Done) -> None:
    """ "that's it": where it stands, with the worksheet."""
    if turn.state.items or turn.state.box or turn.state.pulls:
        read_back(turn, act)
    else:
        turn.social.append(say("fine"))
        turn.understood.append(act.words)


def missing(turn: Turn, act: Act) -> None:
    """ "what else do you need": the open question is put again."""
    turn.answers.append("" if turn.asked else say("nothing_asked"))
    turn.understood.append(act.words)


def _plain_answer(key: str) -> Callable[[Turn, Act], None]:
    def answer(turn: Turn, act: Act) -> None:
        turn.answer(say(key, name=turn.box_name), act.words)

    return answer


def _again(turn: Turn, act: acts.Ask) -> None:
    turn.replay = act.about
    turn.understood.append(act.words)


ABOUT: dict[acts.QuestionKind, Callable[[Turn, acts.Ask], None]] = {
    "read_back": read_back,
    "understood": read_back,
    "total": total,
    "margin": margin,
    "capacity": capacity,
    "why_ask": why_ask,
    "smallest_box": smallest_box,
    "volume": volume_asked,
    "conductors": conductors,
    "advice": advice,
    "which_edition": which_edition,
    "help": help_,
    "repeat": _again,
    "slower": _again,
    "largest": largest,
    "largest_wire": largest_wire,
    "metric": metric,
    "allowances": allowances,
    "missing": missing,
    "need_asked": missing,
    "stricter": stricter,
    "certainty": certainty,
    "identity": _plain_answer("answer.identity"),
    "live_work": _plain_answer("answer.live_work"),
    "fan_rated": _plain_answer("answer.fan_rated"),
    "box_name": _plain_answer("answer.box_name"),
    "how_report": _plain_answer("report.how"),
}


_FIGURES: frozenset[acts.QuestionKind] = frozenset(
    {"smallest_box", "allowances", "stricter", "conductors"}
)
"""Questions whose answer is a figure of all that is in the box, with nothing said beside it."""
_ALLOWANCES = lazy_pattern(r"(?i)\bhow many (?:conductor |volume |wire )?allowances\b")


def ask(turn: Turn, act: acts.Ask) -> None:
    """A question of a fixed kind."""
    about = "metric" if perhaps_canadian(turn) else act.about
    if about in _FIGURES and (held := held_text(turn.state)):
        turn.answer(held, act.words)
        return
    if about == "smallest_box" and _ALLOWANCES.search(act.words):
        allowances(turn, act)
    ABOUT[about](turn, act)


def meaning(turn: Turn, act: acts.AskMeaning) -> None:
    """ "what is a yoke", "does a wire nut count", "how much is a twelve worth"."""
    from boxaloud.assistant.dialogue.policy import glossary, line_questions

    state = turn.state
    if act.there and (lines := line_questions.told(act, state)):
        turn.answer(lines, act.words)
        return
    if "canad" in turn.heard.lower():  # asked of that code, whatever the box is counted by
        state = altered(state, edition=CANADIAN)
    act = glossary.spoken_of(act, state)
    turn.answer(glossary.answer(act, state), act.words, *glossary.figures(act, state))


def unknown(turn: Turn, act: acts.AskUnknown) -> None:
    """A question that there is no answer to here."""
    turn.answers.append(say("answer.unknown"))
    turn.understood.append("")
