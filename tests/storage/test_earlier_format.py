"""Job files of the earlier form, whose entries held flat statements, still open.

`earlier/statements.boxaloud` was written by the version that held them: six boxes told in words
and by keys, in the kitchen a count changed by key and a standard box picked from the list. That
version took “should I take out the switches” for an order, and “would it fit with the clamps
outside” for a change: both boxes were remembered as fitting.

Volumes: 2.00 in3 for each 14 AWG and 2.25 for each 12 AWG conductor, Table 314.16(B)(1); two
allowances for a device, 314.16(B)(4); one for up to four grounds, 314.16(B)(5); one of the largest
for clamps inside, 314.16(B)(2). A 4 in. square box 1-1/2 in. deep holds 21.0 in3, Table 314.16(A).
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from boxaloud.assistant.dialogue import Entry
from boxaloud.assistant.storage import Session
from boxaloud.assistant.storage.sqlite.journal_rows import entry_of

EARLIER = Path(__file__).parent / "earlier" / "statements.boxaloud"
STANDING = {
    "front hall": ("18.00", "fits"),  # six 14, a receptacle, grounds: 9 x 2.00, no clamps
    # six 14, two 12, a switch on 14, clamps and grounds at 12: 8 x 2.00 + 4 x 2.25
    "kitchen": ("25.00", "over"),
    "porch": ("16.00", "fits"),  # four 14, a switch, clamps, grounds: 8 x 2.00, exactly full
    "den": ("22.00", "over"),  # six 14, two switches, grounds: 11 x 2.00 in 18
    "loft": ("15.75", "fits"),  # four 12, a receptacle, grounds: 7 x 2.25, clamps outside
    # four 14, a range receptacle of one gang, grounds: 7 x 2.00; clamps and width are open
    "shed": ("14.00", "incomplete"),
}


@pytest.fixture
def kept(data: Path) -> Path:
    path = data / "jobs" / "heron-street.boxaloud"
    path.parent.mkdir(parents=True)
    shutil.copy(EARLIER, path)
    return path


def test_every_box_is_what_was_told(kept: Path) -> None:
    session = Session.open("Heron Street")
    boxes = session.conversation.boxes
    assert boxes.names == tuple(STANDING)
    found = {name: boxes.talk(name).assessment for name in boxes.names}
    assert {n: (str(one.sheet.total), one.verdict) for n, one in found.items()} == STANDING
    kitchen = boxes.talk("kitchen")
    assert [item.content.count for item in kitchen.state.items] == [3, 1, 1]
    assert found["kitchen"].sheet.capacity == 21


def test_the_opening_tells_a_verdict_that_is_not_the_one_remembered_once(kept: Path) -> None:
    first = Session.open("Heron Street")
    told = first.resume().acts[0]
    assert told.act == "event"
    assert "den is over, before fits" in told.says
    assert not any(name in told.says for name in STANDING if name != "den")
    first.close()
    again = Session.open("Heron Street")
    assert not any(act.act == "event" for act in again.resume().acts)
    assert again.conversation.boxes.verdict("den") == "over"


def test_a_front_end_that_hears_no_words_tells_it_too(kept: Path) -> None:
    session = Session.open("Heron Street")
    (note,) = session.take_notes()
    assert "den is over" in note
    assert session.take_notes() == ()


def test_it_is_talked_on_to_and_kept_in_the_new_form(kept: Path) -> None:
    session = Session.open("Heron Street")
    session.hear("go to the den")
    session.hear("take out one switch")
    session.close()
    again = Session.open("Heron Street")
    assert str(again.talk.assessment.sheet.total) == "18.00"
    assert again.talk.assessment.verdict == "fits"


def test_an_entry_that_cannot_be_read_is_set_aside_and_no_verdict_stands_over_it() -> None:
    later = json.dumps({"heard": "three of the new things", "acts": [{"act": "AddNewThing"}]})
    for text in (later, "no json", "[]", "{}"):
        entry = entry_of(text)
        assert entry.acts == ()
        assert entry.weighty
    assert entry_of(later).heard == "three of the new things"
    whole = Entry("a switch", ())
    assert entry_of(json.dumps(whole.to_json())) == whole
