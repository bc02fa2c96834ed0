"""The fill to scale and the large characters: a drawing must not say what is not so."""

from __future__ import annotations

from decimal import Decimal

import pytest
from app_pilot import begun
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.tui.presenters.box_search import search
from boxaloud.assistant.tui.presenters.fill_drawing import LINE, MAYBE, PATTERNS, ROOM, draw
from boxaloud.assistant.tui.presenters.glyphs import large, shape, width_of
from boxaloud.assistant.tui.presenters.job_chart import bar_of, chart_rows
from boxaloud.assistant.tui.presenters.ladder_view import ladder
from boxaloud.assistant.tui.presenters.large_verdict import drawn
from boxaloud.assistant.tui.presenters.list_rows import BoxRows
from boxaloud.assistant.tui.presenters.verdict_view import glance
from boxaloud.assistant.tui.tui_messages import table, texts
from hypothesis import given, settings
from hypothesis import strategies as st

FILLS = "".join(PATTERNS.values())


def assessed(*words: str) -> Assessment:
    return begun(*words).talk.assessment


@settings(max_examples=60, deadline=None)
@given(
    cables=st.integers(1, 9),
    hundredths=st.integers(400, 6000),
    width=st.integers(12, 240),
    clamps=st.sampled_from(["clamps inside", "no clamps", "what is the total"]),
)
def test_the_drawing_stands_on_the_same_side_of_the_line_as_the_figures(
    cables: int, hundredths: int, width: int, clamps: str
) -> None:
    """Over passes the line, exactly full touches it, under stops short of it."""
    volume = Decimal(hundredths) / 100
    found = assessed(f"{cables} 14-2 cables", f"{volume} cubic inch box", clamps)
    bar = draw(found, width).bar
    before, _, after = bar.partition(LINE)
    capacity = found.sheet.capacity
    assert capacity == volume
    assert len(bar) <= width
    inked = any(block in after for block in FILLS + MAYBE)
    assert inked == (found.high > capacity)
    assert (ROOM in before) == (found.high < capacity)


def test_a_fill_that_meets_the_volume_exactly_touches_the_line() -> None:
    """Seven allowances of 2.00 in a 14.0 in3 box: a margin of zero fits, 314.16(B)."""
    found = assessed("two 14-2 cables and one switch", "14 cubic inch box", "no clamps")
    assert found.verdict == "fits"
    assert draw(found, 76).bar.rstrip().endswith(f"{PATTERNS['grounds']}{LINE}")


def test_kinds_differ_by_pattern_and_not_by_colour() -> None:
    assert len(set(PATTERNS.values())) == len(PATTERNS)
    assert set(PATTERNS) == set(texts("fill.name"))


def test_every_verdict_word_and_figure_has_a_drawing() -> None:
    glyphs = table("glyphs")["glyph"]
    for word in (*texts("verdict.word").values(), "0123456789.+"):
        assert set(word) <= set(glyphs)
    for rows in glyphs.values():
        assert len({len(row) for row in rows}) == 1
        assert len(rows) == 5


def test_no_two_figures_are_drawn_alike() -> None:
    drawn_figures = ["\n".join(large(figure)) for figure in "0123456789"]
    assert len(set(drawn_figures)) == 10
    assert len({"\n".join(shape(v)) for v in ("fits", "over", "incomplete")}) == 3


@pytest.mark.parametrize("size", [(20, 5), (60, 5), (80, 5), (80, 10), (200, 10), (300, 15)])
def test_the_glance_never_leaves_its_room(size: tuple[int, int]) -> None:
    shown = glance(assessed("three 12-2 cables", "12.25 cubic inch box", "clamps inside"))
    rows = drawn(shown, *size)
    assert len(rows) <= size[1]
    assert width_of(rows) <= size[0]


def test_the_margin_that_may_still_grow_has_a_plus() -> None:
    shown = glance(assessed("two 14-2 cables and one switch", "18 cubic inch box"))
    assert (shown.word, shown.margin, shown.at_least) == ("FITS", "2.00", True)


@pytest.mark.parametrize(
    ("said", "figure", "code"),
    [
        # four of 24.6 mL of 300: Rule 12-3034, Table 22, DIY Chatroom 48926
        (("Canadian code", "two 14-2s, no wire nuts", "300 mL box"), "201.60 mL", "CE Code 2024"),
        # counted as 2023, 314.16(B)(1) and (5): five of 2.00 of 18.0
        (("use 2026", "two 14-2s in an 18, no clamps"), "8.00 in³", "edition 2026, provisional"),
    ],
)
def test_another_code_and_its_unit_stand_with_every_verdict(
    said: tuple[str, ...], figure: str, code: str
) -> None:
    conversation = Conversation()
    for words in said:
        conversation.hear(words)
    shown = glance(conversation.talk.assessment)
    bar = chart_rows([bar_of(conversation.talk)], 80)[0]
    for told in (shown.tiny, bar.right):
        assert figure in told
        assert code in told
    assert code in ladder(shown, "", 200, 40)
    assert code in BoxRows(conversation)[0].right
    assert code.split()[-1] in shown.caption


@pytest.mark.parametrize(
    ("query", "volumes"),
    [
        ("square 4 by 1 and 1/2", ["21.0"]),  # Table 314.16(A)
        ("octagon", ["12.5", "15.5", "21.5"]),
        ("masonry", ["14.0", "21.0"]),
        ("20.3", ["20.3"]),  # no row: a marked volume
        ("nothing like it", []),
    ],
)
def test_the_box_list_finds_by_name_and_by_volume(query: str, volumes: list[str]) -> None:
    shown = [pick.shown for pick in search(query)]
    found = [f"{row.left} {row.right}".split(" in³")[0].split()[-1] for row in shown]
    if query.startswith("square"):
        assert found[:1] == volumes
    else:
        assert found == volumes


@pytest.mark.parametrize("query", ["0", "-3", "nan", "inf", "1e999999", "٣", "  "])
def test_figures_that_are_no_volume_are_not_offered_as_one(query: str) -> None:
    assert all(pick.row is not None for pick in search(query))
