"""Every task of the screen, done by keys alone.

Volumes: 2.00 in3 for each 14 AWG conductor, Table 314.16(B); two allowances for a device,
314.16(B)(4); one for up to four grounds, 314.16(B)(5); none for clamps outside and one for
clamps inside, 314.16(B)(2). So two 14-2 cables and a switch take 7 x 2.00 = 14.00 in3. A 4 in.
square box 1-1/2 in. deep holds 21.0 in3, Table 314.16(A).
"""

from __future__ import annotations

import pytest
from app_pilot import app_for, begun, drive, rows, seen, typed
from boxaloud.assistant.tui.presenters.answer_choices import choices_for
from boxaloud.assistant.tui.presenters.help_text import help_lines
from boxaloud.assistant.tui.presenters.prompt import prompt, without_question
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.widgets.row_list import RowList
from boxaloud.grammar import help_topics
from boxaloud.grammar.acts import AddDevice, Number, Size, UnknownOperator
from boxaloud.rules.contents import Yoke
from textual import events
from textual.pilot import Pilot
from textual.widgets import Static

SWITCH = "two 14-2 cables and one switch"
LOOSE = ("two number 12 wires", "no clamps", "12 cubic inch box")
WIDE = (SWITCH, "a range receptacle", "no clamps", "30 cubic inch box")


def test_first_run_leads_to_a_first_verdict_in_seven_keys() -> None:
    app = app_for()

    async def play(pilot: Pilot[None]) -> None:
        assert "boxaloud chat" in seen(app)
        assert "2 Enter the example" in seen(app)
        await pilot.press("2")
        await pilot.pause()
        assert "What volume is marked on the box?" in seen(app)
        await pilot.press("f7", "1", "8", "enter")
        await pilot.pause()
        assert "fits · margin at least 2.00 in³ · at most 16.00 of 18.0" in seen(app)
        await pilot.press("alt+3")
        await pilot.pause()
        assert "fits · margin 4.00 in³ · 14.00 of 18.0 · 314.16, edition 2023" in seen(app)

    drive(app, play)


def test_the_welcome_can_be_left_for_the_line_mode() -> None:
    app = app_for()

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("3")
        await pilot.pause()
        assert not app.is_running or app._exit

    drive(app, play)


def test_typing_and_what_was_left_over() -> None:
    app = app_for(SWITCH)

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, "clamps outside and 7 bananas")
        left = str(app.card.query_one("#heard", Static).content).partition("·")[0]
        assert left.startswith("Not used: 7")
        assert "bananas" in left
        assert app.desk.conversation.talk.state.clamps == "outside"

    drive(app, play)


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


def test_the_question_is_shown_once_and_nothing_of_a_reply_is_lost() -> None:
    """Each act of a reply has one place: the question's line, the caution's, or the reply's."""
    conversation = begun()
    for words in (
        SWITCH,
        "18 cubic inch box",
        "what's the total",
        "a flurbed 7",
        "undo",
        "no clamps",
    ):
        reply = conversation.hear(words)
        shown = without_question(reply)
        elsewhere = [act.says for act in reply.acts if act.act in ("question", "caution")]
        assert all(act.says in shown or act.says in elsewhere for act in reply.acts)
        if reply.question:
            assert prompt(conversation.talk, reply).lower() == reply.question.lower()
            assert reply.question not in shown
    assert prompt(conversation.talk) == text("question.none")


def test_tab_order_reaches_answers_lists_and_line() -> None:
    app = app_for(SWITCH, "18 cubic inch box")

    async def play(pilot: Pilot[None]) -> None:
        reached = set()
        for _ in range(6):
            await pilot.press("tab")
            reached.add(app.focused.id if app.focused else None)
        assert {"answers", "worksheet", "entry"} <= reached

    drive(app, play)


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


def test_a_line_is_picked_its_count_changed_removed_and_brought_back() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f3", "3")
        await pilot.pause()
        assert "over by 0.00" not in seen(app)
        assert "18.00 of 18.0" in seen(app)
        await pilot.press("plus")
        await pilot.pause()
        assert "over by 4.00 in³ · 22.00 of 18.0" in seen(app)
        await pilot.press("minus", "down", "delete")
        await pilot.pause()
        assert "14.00 of 18.0" in seen(app)
        await pilot.press("ctrl+z")
        await pilot.pause()
        assert "18.00 of 18.0" in seen(app)
        await pilot.press("ctrl+y")
        await pilot.pause()
        assert "14.00 of 18.0" in seen(app)

    drive(app, play)


def test_letters_typed_in_a_list_go_to_the_input_line() -> None:
    app = app_for(SWITCH)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f4")
        await typed(pilot, "no clamps")
        assert "Heard: no clamps" in seen(app)

    drive(app, play)


def test_the_clamps_and_the_box_are_changed_from_the_list() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f3", "end", "enter")
        await pilot.pause()
        assert "Where are the cable clamps?" in seen(app)
        await pilot.press("1")
        await pilot.pause()
        assert "16.00 of 18.0" in seen(app)
        await pilot.press("f3", "end", "up", "enter")
        await pilot.pause()
        await typed(pilot, "square 1 and 1/2")
        assert "16.00 of 21.0" in seen(app)

    drive(app, play)


def test_a_worksheet_line_opens_to_its_section_reasoning_and_source() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "clamps inside")

    async def play(pilot: Pilot[None]) -> None:
        for number, section in enumerate(("314.16(A)", "314.16(B)(1)", "314.16(B)(2)")):
            await pilot.press("f4", "home", *["down"] * number, "enter")
            await pilot.pause()
            opened = seen(app)
            assert f"Section: {section}" in opened
            assert "Why: " in opened
            assert "Source: " in opened
            await pilot.press("escape")
            await pilot.pause()

    drive(app, play)


def test_boxes_of_the_job_are_begun_and_opened_again() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("ctrl+n")
        await pilot.pause()
        assert "· box 2" in rows(app)[0]
        await typed(pilot, "three 14-3 cables")
        await pilot.press("f5")
        await pilot.pause()
        listed = [" ".join(row.split()) for row in rows(app)]
        assert "✓ box 1 fits 4.00" in listed
        assert "▸ ▪ ? box 2 not yet" in listed
        await pilot.press("home", "enter")
        await pilot.pause()
        assert "· box 1" in rows(app)[0]
        assert "14.00 of 18.0" in seen(app)

    drive(app, play)


def test_what_if_stands_side_by_side_and_enters_nothing() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "clamps inside")

    async def play(pilot: Pilot[None]) -> None:
        before = app.desk.conversation.talk.state
        await pilot.press("f6")
        await pilot.pause()
        await typed(pilot, "clamps outside")
        shown = seen(app)
        lines = [" ".join(row.split()) for row in rows(app)]
        assert "» margin 2.00 4.00" in lines
        assert "» the clamps inside 2.00 –" in lines
        assert lines.index("» the clamps inside 2.00 –") < lines.index(
            "four 14 AWG conductors 8.00 8.00"
        )
        assert "Difference: 2.00 in³ less" in shown
        assert "Margin 2.00 becomes 4.00" in shown
        await pilot.press("escape")
        await pilot.pause()
        assert app.desk.conversation.talk.state == before

    drive(app, play)


def test_what_was_tried_is_taken_over_by_a_key() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "clamps inside")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f6")
        await pilot.pause()
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert "nothing to take over yet" in seen(app)
        await typed(pilot, "10 cubic inch box")
        assert "FITS becomes OVER" in seen(app)
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert "over by 6.00 in³ · 16.00 of 10.0" in seen(app)

    drive(app, play)


def test_a_spoken_what_if_is_shown_side_by_side() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "clamps inside")

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, "what if the clamps were outside")
        assert "Difference: 2.00 in³ less" in seen(app)

    drive(app, play)


def test_a_standard_box_is_searched_with_its_volume() -> None:
    app = app_for(SWITCH, "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f7")
        await pilot.pause()
        await typed(pilot, "octagon", enter=False)
        listed = [row for row in rows(app) if "octagon" in row]
        assert [row.split(" in³")[0].split()[-1] for row in listed[1:]] == ["12.5", "15.5", "21.5"]
        await pilot.press("down", "enter")
        await pilot.pause()
        assert "14.00 of 15.5" in seen(app)

    drive(app, play)


def test_a_device_box_is_ganged_in_the_list() -> None:
    """Two 3 x 2 x 3-1/2 device boxes ganged hold 2 x 18.0, Table 314.16(A)."""
    app = app_for(SWITCH, "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f7", "ctrl+right")
        await pilot.pause()
        await typed(pilot, "device 36")
        assert "14.00 of 36.0" in seen(app)

    drive(app, play)


def test_a_search_that_finds_nothing_says_what_to_do() -> None:
    app = app_for(SWITCH)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f7")
        await typed(pilot, "pancake", enter=False)
        assert "type its volume" in seen(app)
        await pilot.press("enter", "escape")
        await pilot.pause()
        assert app.screen is app.card

    drive(app, play)


def test_the_palette_does_what_keys_do() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("ctrl+p")
        await pilot.pause()
        await typed(pilot, "standard", enter=False)
        for _ in range(20):
            await pilot.pause(0.05)
            if "Choose a box" in seen(app):
                break
        await pilot.press("enter")
        await pilot.pause(0.1)
        assert "Which box?" in seen(app)

    drive(app, play)


def test_cautions_stand_on_the_card_and_open_whole() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        assert "De-energise and test." in seen(app)
        await app.run_action("cautions")
        await pilot.pause()
        shown = seen(app).lower()
        assert "authority having jurisdiction" in shown
        assert "amendments" in shown

    drive(app, play)


def test_the_list_keeps_the_pointer_in_view_with_five_hundred_boxes() -> None:
    app = app_for(*["next box"] * 499)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f5", "home")
        await pilot.pause()
        assert "▸   ? box 1 " in "\n".join(rows(app))
        await pilot.press("end")
        await pilot.pause()
        assert "▸ ▪ ? box 500 " in "\n".join(rows(app))
        assert app.card.query_one("#boxes", RowList).pointed == 499

    drive(app, play)


def test_the_help_is_the_grammars_own() -> None:
    lines = "\n".join(help_lines())
    for topic, examples in help_topics().items():
        assert f"  {topic}\n" in lines
        assert all(f"“{example}”" in lines for example in examples)
    assert "boxaloud chat" in lines
    app = app_for(SWITCH)

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f1")
        await pilot.pause()
        before = rows(app)
        await pilot.press("end")
        await pilot.pause()
        assert rows(app) != before

    drive(app, play)


def test_a_click_opens_a_worksheet_line() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.click("#worksheet", offset=(6, 1))
        await pilot.pause()
        assert "Section: 314.16(B)(1)" in seen(app)

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


def test_keys_typed_ahead_reach_the_list_they_were_meant_for() -> None:
    """A terminal may send several keys at once; none of them may land in the input line."""
    app = app_for(SWITCH, "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        for key, character in (("f3", None), ("down", None), ("3", "3")):
            app.post_message(events.Key(key, character))
        await pilot.pause()
        assert [item.content.count for item in app.desk.conversation.talk.state.items] == [2, 3]

    drive(app, play)
