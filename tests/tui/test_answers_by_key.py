"""Open questions answered by keys: by tab, by sign, by arrow, by click."""

from __future__ import annotations

import pytest
from app_pilot import SWITCH, app_for, begun, drive, rows, seen, typed
from boxaloud.assistant.tui.presenters.answer_choices import choices_for
from boxaloud.grammar.acts import AddDevice, Number, Size, UnknownOperator
from boxaloud.rules.contents import Yoke
from textual.pilot import Pilot

LOOSE = ("two number 12 wires", "no clamps", "12 cubic inch box")
WIDE = (SWITCH, "a range receptacle", "no clamps", "30 cubic inch box")


def test_an_open_question_is_answered_by_tab_and_a_number() -> None:
    app = app_for(SWITCH, "18 cubic inch box")

    async def play(pilot: Pilot[None]) -> None:
        app.card.query_one("#answers").focus()
        await pilot.press("1")
        await pilot.pause()
        assert "16.00 of 18.0" in seen(app)

    drive(app, play)


@pytest.mark.parametrize(
    ("said", "slot", "typed_in", "state"),
    [
        ((SWITCH, "18 cubic inch box"), "clamps", "2", {"clamps": "outside"}),
        ((SWITCH, "18 cubic inch box"), "clamps", "3", {"clamps": "none"}),
        (LOOSE, "grounds", "0", {"grounds": "none"}),
        (WIDE, "gangs", "s", {"assumed": {"gangs 3"}}),
    ],
)
def test_an_answer_is_taken_by_typing_the_sign_before_it(
    said: tuple[str, ...], slot: str, typed_in: str, state: dict[str, object]
) -> None:
    """Past defect this prevents: “2 outside” was shown, and “2” was taken for two clamps."""
    app = app_for(*said)
    assert app.desk.conversation.asks == slot

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, typed_in)
        found = app.desk.conversation.talk.state
        assert {name: getattr(found, name) for name in state} == state

    drive(app, play)


@pytest.mark.parametrize(
    ("line", "clamps", "devices"),
    [
        ("1the switch is a dimmer", "inside", ["dimmer"]),
        ("2add a receptacle", "outside", ["switch", "receptacle"]),
        ("1 receptacle", "unknown", ["switch", "receptacle"]),
        ("2 receptacles", "unknown", ["switch", "receptacle"]),
    ],
)
def test_a_sign_before_words_answers_and_the_words_are_heard(
    line: str, clamps: str, devices: list[str]
) -> None:
    """Past defect this prevents: a sign typed without Enter ran together with what was said next.
    A line that begins with a number of its own stays as it was typed."""
    app = app_for(SWITCH, "30 cubic inch box")
    assert app.desk.conversation.asks == "clamps"

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, line)
        await pilot.pause()
        state = app.desk.conversation.talk.state
        assert state.clamps == clamps
        yokes = [i.content.name for i in state.items if isinstance(i.content, Yoke)]
        assert yokes == devices

    drive(app, play)


def test_a_number_typed_to_a_question_of_how_many_is_that_many() -> None:
    """Five grounds are one allowance and a quarter, 314.16(B)(5), 2023: 2.25 and 0.56 at 12 AWG."""
    app = app_for(*LOOSE)

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, "5")
        lines = app.desk.conversation.talk.assessment.sheet.lines
        (grounds,) = [line for line in lines if line.item == "grounds"]
        assert (grounds.count, str(grounds.allowances)) == (5, "1.25")

    drive(app, play)


def test_no_sign_stands_for_another_number() -> None:
    """A sign that is a number is the number that its answer means, wherever one is asked for."""
    for said in (
        LOOSE,
        WIDE,
        (SWITCH,),  # what volume is marked
        (SWITCH, "four square box"),  # how deep
        ("some 14-2 cables",),
        ("three conductors",),
    ):
        talk = begun(*said).talk
        for choice in choices_for(talk.asks, talk.state):
            for act in choice.acts:
                if isinstance(act, Number):
                    assert choice.sign == str(act.value)
                elif isinstance(act, Size):
                    assert choice.sign == str(act.awg)
                else:
                    assert choice.sign == "0" or not choice.sign.isdigit()


def test_arrows_choose_an_answer() -> None:
    app = app_for(SWITCH, "18 cubic inch box")

    async def play(pilot: Pilot[None]) -> None:
        app.card.query_one("#answers").focus()
        await pilot.press("right", "enter")
        await pilot.pause()
        assert "lamps outside" in seen(app)
        assert "margin 4.00" in seen(app)

    drive(app, play)


def test_a_click_answers_too() -> None:
    app = app_for(SWITCH, "18 cubic inch box")

    async def play(pilot: Pilot[None]) -> None:
        column = rows(app)[app.card.query_one("#answers").region.y].index("3 none")
        await pilot.click("#answers", offset=(column - 1, 0))
        await pilot.pause()
        assert "margin 4.00" in seen(app)

    drive(app, play)


@pytest.mark.parametrize(
    ("slot", "said", "labels"),
    [
        ("box", (SWITCH,), "choose from the list"),
        ("box_depth", (SWITCH, "four square box"), "21.0"),
        ("clamps", (SWITCH, "18 cubic inch box"), "inside outside none"),
        ("device_size", ("a 14-2 and a 12-2 and a switch", "18 cubic inch box"), "12 AWG 14 AWG"),
        ("grounds", ("two number 12 wires", "no clamps", "12 cubic inch box"), "one two three"),
        ("contents", ("18 cubic inch box",), "nothing else examples"),
    ],
)
def test_each_open_question_has_answers_to_choose(
    slot: str, said: tuple[str, ...], labels: str
) -> None:
    talk = begun(*said).talk
    asked = talk.asks
    if slot == "device_size" and asked == "clamps":
        talk = begun(*said, "no clamps").talk
        asked = talk.asks
    assert asked == slot
    shown = " ".join(choice.label for choice in choices_for(slot, talk.state))
    assert all(label in shown for label in labels.split())


def test_every_answer_that_can_be_chosen_is_taken() -> None:
    """No choice may lead to “I do not know what it counts”."""
    for said in (
        (SWITCH,),
        (SWITCH, "four square box"),
        (SWITCH, "18 cubic inch box"),
        ("a 14-2 and a 12-2 and a switch", "no clamps", "18 cubic inch box"),
        ("two number 12 wires", "no clamps", "12 cubic inch box"),
        ("18 cubic inch box",),
        (SWITCH, "18 cubic inch box", "a range receptacle", "no clamps"),
        ("three conductors",),
        ("some 14-2 cables",),
    ):
        talk = begun(*said).talk
        for choice in choices_for(talk.asks, talk.state):
            if choice.acts:
                reply = begun(*said).enter(choice.acts, choice.label)
                assert reply.changed, (said, choice.label)
                assert not reply.refused, (said, choice.label)
                assert reply.left_over == (), (said, choice.label)


@pytest.mark.parametrize(("sign", "count"), [("1", 0), ("2", 2), ("3", 1)])
def test_what_an_unknown_verb_means_is_chosen(sign: str, count: int) -> None:
    conversation = begun(SWITCH)
    thing = AddDevice(name="switch", words="the switch")
    conversation.enter((UnknownOperator(verb="flarb", thing=thing, words="flarb the switch"),), "")
    state = conversation.talk.state
    (choice,) = [one for one in choices_for(conversation.asks, state) if one.sign == sign]
    conversation.enter(choice.acts, choice.label)
    assert conversation.talk.state.pending == ()
    items = conversation.talk.state.items
    assert sum(item.content.count for item in items if isinstance(item.content, Yoke)) == count
