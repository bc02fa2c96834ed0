"""Questions that the user asks: they are answered, and change nothing in the box."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.interpretation.references import TYPES
from boxaloud.assistant.dialogue.nlg import box_status
from boxaloud.assistant.dialogue.nlg.sentences import (
    Told,
    counted,
    joined,
    listed,
    marked,
    say,
    sentence,
    volume,
)
from boxaloud.assistant.dialogue.state import Form, State, to_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.rules import (
    CANADIAN,
    BoxChoice,
    advise,
    editions,
    explain,
    is_canadian,
    smallest_boxes,
)
from boxaloud.rules.worksheet import Unit


def read_back(turn: Turn, act: Act) -> None:
    """ "what have I got", "read it back"."""
    turn.shows_sheet = True
    turn.answer(box_status.read_back(turn.state, assess(turn.state)), act.words)


def total(turn: Turn, act: Act) -> None:
    """ "what's the total"."""
    text = box_status.status(turn.state, assess(turn.state)) or say("nothing_yet")
    turn.answer(text, act.words)


def margin(turn: Turn, act: Act) -> None:
    """ "what's the margin"."""
    found = assess(turn.state)
    sheet = found.sheet
    if sheet.margin is None:
        text = say("margin.unknown", total=with_unit(sheet.total, sheet.unit))
    elif found.verdict == "incomplete" or found.low != found.high:
        text = box_status.status(turn.state, found) or say("nothing_yet")
    else:
        key = "known" if sheet.margin >= 0 else "over"
        text = say(f"margin.{key}", margin=volume(abs(sheet.margin), sheet.unit))
    turn.answer(text, act.words)


def capacity(turn: Turn, act: Act) -> None:
    """ "how big is the box"."""
    sheet = assess(turn.state).sheet
    if sheet.capacity is None:
        turn.answer(say("capacity.unknown"), act.words)
        return
    parts = listed([f"{part.what} {marked(part.volume)}" for part in sheet.volumes])
    room = f"{marked(sheet.capacity)} {say(f'unit.{sheet.unit}')}"
    text = say("capacity.known", capacity=room, parts=parts)
    turn.answer(text, act.words)


def with_unit(value: Decimal, unit: Unit) -> str:
    """A volume with its unit in words."""
    return f"{volume(value)} {say(f'unit.{unit}')}"


ITEMS = {
    "clamps": ("clamps",),
    "grounds": ("grounds", "isolated_grounds"),
    "device": ("yokes",),
    "conductors": ("conductors", "pass_through", "loops", "not_counted"),
    "cable": ("conductors", "pass_through", "loops"),
    "fitting": ("support_fittings",),
    "fixture_wires": ("fixture_wires", "not_counted"),
    "terminal_block": ("terminal_blocks",),
}
"""What can be asked about, and the worksheet items that answer."""


def why(turn: Turn, act: acts.AskWhy) -> None:
    """ "why", "why do the clamps count": section and reasoning of a line, in a sentence."""
    lines = assess(turn.state).sheet.lines
    of = act.of
    wanted = ITEMS.get(of) if of else None
    if of is None:
        wanted = _said_last(turn.state)
    chosen = [line for line in lines if wanted is None or line.item in wanted]
    if of is None:
        chosen = chosen[-1:]
    if not chosen:
        clamps = turn.state.clamps in ("none", "outside") and wanted == ITEMS["clamps"]
        turn.answer(say("why.no_clamps" if clamps else "why.nothing"), act.words)
        return
    said = []
    for line in chosen[:2]:
        note = explain(line.rule)
        said.append(say("why.line", what=line.what, reason=note.says, section=line.section))
        if note.mark == "from memory":
            said.append(say("why.memory"))
        if turn.state.form == "full":
            said.append(say("why.source", source=note.source))
    turn.answer(sentence(joined(said)), act.words)


def _said_last(state: State) -> tuple[str, ...] | None:
    """The worksheet items of the thing said last, None where it has none."""
    if state.last == "clamps":
        return ITEMS["clamps"]
    item = state.item(state.last)
    if item is None:
        return None
    kind = next(name for name, made in TYPES.items() if type(item.content) in made)
    return ITEMS.get(kind)


def why_ask(turn: Turn, act: Act) -> None:
    """ "why do you ask"."""
    turn.answer(say(f"why.ask.{turn.asked or 'nothing'}"), act.words)


FAMILIES = ("square", "octagon", "device", "handy")
"""Where a smallest box is looked for: what stands on a joist, not cast FS or masonry boxes."""


def smallest_box(turn: Turn, act: Act) -> None:
    """ "what's the smallest box"."""
    if not turn.state.items:
        turn.answer(say("boxes.empty"), act.words)
        return
    if is_canadian(turn.state.edition):
        turn.answer(say("boxes.canada"), act.words)
        return
    found = smallest_boxes(to_box(turn.state), FAMILIES)
    if not found:
        turn.answer(say("boxes.none"), act.words)
        return
    first = found[0]
    text = say(
        "boxes.smallest",
        row=_box_name(first),
        volume=marked(first.volume),
        margin=volume(first.margin),
    )
    turn.answer(text, act.words)
    proposal = acts.SetSize(row=first.row.id, gangs=first.gangs, words=_box_name(first))
    turn.state = altered(turn.state, proposed=(proposal,))


def _box_name(choice: BoxChoice) -> str:
    if choice.gangs == 1:
        return choice.row.name
    return say("boxes.ganged", row=choice.row.name, gangs=counted(choice.gangs))


def advice(turn: Turn, act: Act) -> None:
    """ "what can I do about it"."""
    found = assess(turn.state)
    if found.verdict == "fits":
        turn.answer(say("advice.fits"), act.words)
        return
    if found.spaces:
        turn.answer(say("advice.divided"), act.words)
        return
    turn.answer(advice_text(turn.state), act.words)


ALOUD = 2
"""Ways out that are said; the rest stands in print."""


def advice_text(state: State, most: int = 3) -> str:
    """The best changes for an overfull box, the most useful first."""
    found = advise(to_box(state))
    enough = [item.what for item in found if item.enough][:most]
    if enough:
        things = Told("; or ".join(enough), "; or ".join(enough[:ALOUD]))
        return say("advice.lead", things=things)
    if not found:
        return say("advice.none")
    best = found[0]
    return say("advice.best", what=best.what, saves=volume(best.saves))


def which_edition(turn: Turn, act: Act) -> None:
    """ "which edition are you on"."""
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
    if turn.state.items or turn.state.box:
        read_back(turn, act)
    else:
        turn.social.append(say("fine"))
        turn.understood.append(act.words)


def largest(turn: Turn, act: Act) -> None:
    """ "what's the biggest thing in there"."""
    lines = assess(turn.state).sheet.lines
    if not lines:
        turn.answer(say("nothing_yet"), act.words)
        return
    unit = assess(turn.state).sheet.unit
    line = max(lines, key=lambda one: one.subtotal)
    turn.answer(
        say(
            "answer.largest",
            what=line.what,
            volume=volume(line.subtotal, unit),
            section=line.section,
        ),
        act.words,
    )


def metric(turn: Turn, act: Act) -> None:
    """ "convert to mL": 16.4 cm³ is a cubic inch in the code's own tables."""
    from boxaloud.rules import shown_cm3

    sheet = assess(turn.state).sheet
    if sheet.unit == "mL":
        total(turn, act)
        return
    parts = [say("answer.metric_total", total=shown_cm3(sheet.total))]
    if sheet.capacity is not None:
        parts.append(say("answer.metric_capacity", capacity=shown_cm3(sheet.capacity)))
    turn.answer(joined(parts), act.words)


def missing(turn: Turn, act: Act) -> None:
    """ "what else do you need": the open question is put again."""
    turn.answers.append("" if turn.asked else say("nothing_asked"))
    turn.understood.append(act.words)


def stricter(turn: Turn, act: Act) -> None:
    """ "which is stricter": the total under each edition held."""
    totals = {year: assess(altered(turn.state, edition=year)).sheet.total for year in editions()}
    told = listed([f"{year}: {volume(total)}" for year, total in totals.items()])
    turn.answer(say("answer.stricter", totals=told), act.words)


def _plain_answer(key: str) -> Callable[[Turn, Act], None]:
    def answer(turn: Turn, act: Act) -> None:
        turn.answer(say(key, name=turn.box_name), act.words)

    return answer


def _again(turn: Turn, act: Act) -> None:
    assert isinstance(act, acts.Ask)
    turn.replay = act.about
    turn.understood.append(act.words)


def certainty(turn: Turn, act: Act) -> None:
    """ "how sure are you": what the total rests on."""
    open_ = assess(turn.state).question
    turn.answer(say("answer.certain" if open_ is None else "answer.certain_open"), act.words)


ABOUT: dict[str, Callable[[Turn, Act], None]] = {
    "read_back": read_back,
    "understood": read_back,
    "total": total,
    "margin": margin,
    "capacity": capacity,
    "why_ask": why_ask,
    "smallest_box": smallest_box,
    "advice": advice,
    "which_edition": which_edition,
    "help": help_,
    "repeat": _again,
    "slower": _again,
    "largest": largest,
    "metric": metric,
    "missing": missing,
    "need_asked": missing,
    "stricter": stricter,
    "certainty": certainty,
    "identity": _plain_answer("answer.identity"),
    "live_work": _plain_answer("answer.live_work"),
    "fan_rated": _plain_answer("answer.fan_rated"),
    "box_name": _plain_answer("answer.box_name"),
}


def ask(turn: Turn, act: acts.Ask) -> None:
    """A question of a fixed kind."""
    ABOUT[act.about](turn, act)


def meaning(turn: Turn, act: acts.AskMeaning) -> None:
    """ "what is a yoke", "does a wire nut count", "how much is a twelve worth"."""
    from boxaloud.assistant.dialogue.policy import glossary

    state = turn.state
    if "canad" in turn.heard.lower():  # asked of that code, whatever the box is counted by
        state = altered(state, edition=CANADIAN)
    turn.answer(glossary.answer(act, state), act.words)


def unknown(turn: Turn, act: acts.AskUnknown) -> None:
    """A question that there is no answer to here."""
    turn.answers.append(say("answer.unknown"))
    turn.understood.append("")
