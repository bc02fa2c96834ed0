"""The page's engine: what is asked of it comes back as data, and nothing that was shown earlier is
entered later."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from boxaloud.assistant.storage import Session
from boxaloud.assistant.web import page_json, page_requests
from boxaloud.assistant.web.page_engine import PageEngine

# Three 14-2 cables and a receptacle in a marked 18.0 come out exactly full; inside clamps would
# take 2.0 more (DIY Chatroom thread 102858)
FULL = "three 14-2 cables and a receptacle in an 18 cubic inch box"


@pytest.fixture
def engine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[PageEngine]:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path))
    made = PageEngine()
    yield made
    made.close()


def asked(engine: PageEngine, kind: str, **said: object) -> Any:
    request = page_requests.read(json.dumps({"kind": kind, **said}))
    return json.loads(page_json.written(engine.answer(request)))


def test_a_published_box_is_told_as_data(engine: PageEngine) -> None:
    asked(engine, "hear", words=FULL)
    shown = asked(engine, "hear", words="no clamps")
    assert shown["verdict"]["verdict"] == "fits"
    assert shown["verdict"]["margin"] == "0.00"
    assert (shown["fill"]["total"], shown["fill"]["capacity"]) == ("18.00", "18.0")
    lines = [row for row in shown["sheets"][0]["rows"] if row["kind"] == "line"]
    assert [row["section"] for row in lines] == ["314.16(B)(1)", "314.16(B)(4)", "314.16(B)(5)"]
    assert all(row["explained"] for row in lines)
    assert shown["under"] == "314.16, 2023"
    assert shown["standing_caution"]


def test_a_tapped_answer_is_entered_once(engine: PageEngine) -> None:
    shown = asked(engine, "hear", words=FULL)
    assert shown["question"]["slot"] == "clamps"
    labels = [answer["label"] for answer in shown["question"]["answers"]]
    tap = {"stand": shown["stand"], "answer": labels.index("inside")}
    over = asked(engine, "choose", **tap)
    assert over["verdict"]["verdict"] == "over"
    assert over["verdict"]["margin"] == "2.00"
    again = asked(engine, "choose", **tap)
    assert again["stand"] == over["stand"]
    assert again["verdict"] == over["verdict"]


def test_the_caution_stands_at_the_first_verdict(engine: PageEngine) -> None:
    first = asked(engine, "hear", words=FULL + ", no clamps")
    assert "caution" in [act["act"] for act in first["reply"]["acts"]]


def test_words_that_weigh_hold_the_verdict(engine: PageEngine) -> None:
    shown = asked(engine, "hear", words=FULL + ", no clamps, and 7 frobnitzers")
    assert shown["verdict"]["verdict"] == "incomplete"
    assert shown["reply"]["left_over"]


def test_a_change_is_tried_on_a_copy(engine: PageEngine) -> None:
    before = asked(engine, "hear", words=FULL + ", no clamps")
    tried = asked(engine, "try_out", words="clamps inside")
    assert (tried["now"]["verdict"], tried["then"]["verdict"]) == ("fits", "over")
    assert any(line["differs"] for line in tried["lines"])
    after = asked(engine, "look")
    assert (after["stand"], after["verdict"]) == (before["stand"], before["verdict"])


def test_a_change_that_was_not_understood_is_not_tried(engine: PageEngine) -> None:
    asked(engine, "hear", words=FULL + ", no clamps")
    tried = asked(engine, "try_out", words="frobnicate 5 of it")
    assert not tried["tried"]
    assert tried["says"]


def test_standard_boxes_say_by_how_much(engine: PageEngine) -> None:
    asked(engine, "hear", words=FULL + ", no clamps")
    rows = {row["row"]: row for row in asked(engine, "find_boxes", query="square")["rows"]}
    # NEC Table 314.16(A): a 4 by 1-1/2 square holds 21.0 cubic inches
    assert rows["square-4-1.5"]["verdict"] == "fits"
    assert "3.00" in rows["square-4-1.5"]["told"]
    picked = asked(engine, "pick_box", row="square-4-1.5")
    assert picked["verdict"]["margin"] == "3.00"


def test_a_count_is_corrected_where_it_stands(engine: PageEngine) -> None:
    shown = asked(engine, "hear", words=FULL + ", no clamps")
    cables = next(row for row in shown["contents"] if row["count"] == 3)
    two = asked(engine, "recount", stand=shown["stand"], key=cables["key"], count=2)
    # one cable less: two conductors of 2.0 (314.16(B)(1)); the grounds count once still
    assert two["verdict"]["margin"] == "4.00"
    late = asked(engine, "recount", stand=shown["stand"], key=cables["key"], count=9)
    assert late["stand"] == two["stand"]


def test_boxes_and_jobs_are_listed_and_opened(engine: PageEngine) -> None:
    asked(engine, "hear", words=FULL)
    asked(engine, "hear", words="next box den, two 12-2 cables")
    rows = asked(engine, "list_boxes")["rows"]
    assert [row["here"] for row in rows] == [False, True]
    assert asked(engine, "open_box", name=rows[0]["name"])["box"] == rows[0]["name"]
    asked(engine, "start_job", name="Heron Street")
    jobs = asked(engine, "list_jobs")["rows"]
    other = next(row for row in jobs if not row["here"])
    assert asked(engine, "open_job", file=other["file"])["boxes"] == 2


def test_what_is_shared_says_edition_section_and_caution(engine: PageEngine) -> None:
    asked(engine, "hear", words=FULL + ", no clamps")
    told = asked(engine, "share")["text"]
    assert "2023" in told
    assert "314.16(B)(5)" in told
    assert "licensed electrician" in told


@pytest.mark.parametrize(
    "text",
    ["", "7", "[]", "{}", "[" * 5000, '{"kind": "hear"}', '{"kind": "hear", "words": 5}',
     '{"kind": "hear", "words": "x", "more": 1}', '{"kind": "other"}', '{"kind": ["hear"]}',
     '{"kind": "choose", "stand": "x", "answer": true}',
     '{"kind": "recount", "stand": "x", "key": 1, "count": 1e99}',
     '{"kind": "hear", "words": "' + "x" * page_requests.MOST_LETTERS + '"}'],
)  # fmt: skip
def test_what_is_no_request_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(page_requests.NoRequest) as refusal:
        page_requests.read(text)
    assert str(refusal.value).endswith(".") or ":" in str(refusal.value)


def test_odd_values_are_refused(engine: PageEngine) -> None:
    for kind, said in (
        ("hear", {"words": " "}), ("press", {"key": "leave"}), ("pick_box", {"row": "none"}),
        ("pick_box", {"volume": "1e3"}), ("pick_box", {"row": "square-4-1.5", "gangs": 5}),
        ("open_job", {"file": "../../etc/passwd"}),
    ):  # fmt: skip
        assert asked(engine, kind, **said)["document"] == "Refused", (kind, said)
    assert asked(engine, "choose", stand="x", answer=-1)["document"] == "PageView"
    assert asked(engine, "start_job", name="")["document"] == "Refused"


def test_what_another_front_end_entered_is_there_at_the_next_turn(engine: PageEngine) -> None:
    asked(engine, "hear", words="two 14-2 cables")
    beside = Session.open()
    beside.hear("one switch")
    beside.close()
    shown = asked(engine, "hear", words="18 cubic inch box")
    assert [row["count"] for row in shown["contents"] if row["kind"] == "item"] == [2, 1]


def test_a_tap_on_what_another_front_end_changed_enters_nothing(engine: PageEngine) -> None:
    shown = asked(engine, "hear", words=FULL)
    beside = Session.open()
    beside.hear("one more switch")
    beside.close()
    after = asked(engine, "choose", stand=shown["stand"], answer=0)
    clamps = next(row for row in after["contents"] if row["kind"] == "clamps")
    assert clamps["what"] == next(r["what"] for r in shown["contents"] if r["kind"] == "clamps")
    assert [row["count"] for row in after["contents"] if row["kind"] == "item"] == [3, 1, 1]


def test_every_request_has_a_way() -> None:
    assert set(page_requests.KINDS.values()) == set(PageEngine._WAYS)
