"""Every task of the screen, done by keys alone.

Volumes: 2.00 in3 for each 14 AWG conductor, Table 314.16(B); two allowances for a device,
314.16(B)(4); one for up to four grounds, 314.16(B)(5); none for clamps outside and one for
clamps inside, 314.16(B)(2). So two 14-2 cables and a switch take 7 x 2.00 = 14.00 in3. A 4 in.
square box 1-1/2 in. deep holds 21.0 in3, Table 314.16(A).
"""

from __future__ import annotations

from app_pilot import SWITCH, app_for, begun, drive, rows, seen, typed
from boxaloud.assistant.tui.presenters.help_text import help_lines
from boxaloud.assistant.tui.presenters.prompt import prompt, without_question
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.grammar import help_topics
from textual.pilot import Pilot
from textual.widgets import Static


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


def test_a_sentence_typed_over_the_welcome_is_not_lost() -> None:
    app = app_for()

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press(*"two")
        await pilot.pause()
        await typed(pilot, " 14-2s and a switch, 18 cubic inches, no clamps")
        assert "fits · margin 4.00 in³ · 14.00 of 18.0 · 314.16, edition 2023" in seen(app)

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


def test_words_refused_there_do_not_join_the_next() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "clamps inside")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f6")
        await pilot.pause()
        await typed(pilot, "10 cubic inch box")
        assert any(row.strip().startswith("»") for row in rows(app))
        await typed(pilot, "two florbs")
        assert not any(row.strip().startswith("»") for row in rows(app))  # nothing is compared
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert "nothing to take over yet" in seen(app)
        await typed(pilot, "clamps outside")
        shown = seen(app)
        assert "Margin 2.00 becomes 4.00" in shown
        assert "clamps outside" in shown  # what is compared can be read
        assert "florbs" not in shown
        await pilot.press("up", "up")
        await pilot.pause()
        assert "two florbs" in seen(app)

    drive(app, play)


def test_a_spoken_what_if_is_shown_side_by_side() -> None:
    app = app_for(SWITCH, "18 cubic inch box", "clamps inside")

    async def play(pilot: Pilot[None]) -> None:
        await typed(pilot, "what if the clamps were outside")
        assert "Difference: 2.00 in³ less" in seen(app)

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
