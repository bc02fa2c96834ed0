"""A job is taken up where it was left, by one front end or by several."""

from __future__ import annotations

from decimal import Decimal
from typing import Any, cast

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Entry, Record, faults
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.box_removal import remove, restore
from boxaloud.assistant.text.problem import Problem
from boxaloud.grammar import acts
from boxaloud.grammar.lexer.heard_words import Word

TALK = [
    "two 14-2 cables and a switch",
    "18 cubic inches",
    "no clamps",
    "next box island",
    "edition 2020",
    "three 12-2 cables and a receptacle",
    "next box porch",
    "one 14-2 and a switch",
]


def told(session: Session, *lines: str) -> str:
    reply = ""
    for line in lines:
        reply = session.hear(line).said
    return reply


def heard(session: Session) -> list[str]:
    return [entry.heard for entry in session.talk.journal]


def test_a_job_resumes_at_the_box_and_the_question_that_were_open() -> None:
    first = Session.start("Heron Street")
    told(first, *TALK)
    asked, state = first.asks, first.talk.state
    first.close()
    again = Session.open("heron")
    assert again.talk.name == "porch"
    assert again.asks == asked == "box"
    assert again.talk.state == state
    said = again.resume().said
    assert said.startswith("Job Heron Street, 3 boxes. Back at porch.")
    assert said.endswith("?")


def test_what_is_resumed_is_what_a_conversation_without_a_file_has() -> None:
    session, plain = Session.start("Heron Street"), Conversation()
    for line in TALK:
        assert ReplyDocument.of(session.hear(line)) == ReplyDocument.of(plain.hear(line))
    session.close()
    again = Session.open()
    assert again.conversation.boxes.names == plain.boxes.names
    for name in plain.boxes.names:
        assert again.conversation.boxes.talk(name).state == plain.boxes.talk(name).state


def test_a_box_keeps_the_edition_that_it_began_under() -> None:
    """Past defect: 'porch', begun after 'edition 2020', came back under the job's 2023."""
    session = Session.start("Heron Street")
    told(session, *TALK)
    session.close()
    assert ReplyDocument.of(Session.open().hear("total")).edition == "2020"


def test_go_back_still_knows_the_way_after_a_return() -> None:
    session = Session.start("Heron Street")
    told(session, *TALK)
    session.close()
    again = Session.open()
    told(again, "go back")
    assert again.talk.name == "island"
    again.close()
    third = Session.open()
    assert third.talk.name == "island"
    told(third, "go back")
    assert third.talk.name == "box 1"


def test_undo_goes_back_past_a_return() -> None:
    session = Session.start("Heron Street")
    told(session, "two 14-2 cables", "18 cubic inches")
    before = session.talk.state
    told(session, "three receptacles")
    session.close()
    again = Session.open()
    told(again, "undo")
    assert again.talk.state == before


def test_renamed_and_copied_boxes_come_back_as_they_were() -> None:
    session = Session.start("Heron Street")
    told(session, *TALK[:3], "call this box hall", "copy that box")
    copy = session.talk.name
    told(session, "add a switch")
    states = {n: session.conversation.boxes.talk(n).state for n in ("hall", copy)}
    session.close()
    again = Session.open()
    assert again.conversation.boxes.names == ("hall", copy)
    assert {n: again.conversation.boxes.talk(n).state for n in ("hall", copy)} == states
    assert states["hall"] != states[copy]


def test_two_front_ends_on_one_job_lose_nothing_of_each_other() -> None:
    one = Session.start("Heron Street")
    told(one, "two 14-2 cables")
    two = Session.open("Heron Street")
    told(one, "18 cubic inches")
    assert "18.0" in told(two, "a switch")
    told(one, "no clamps")
    assert heard(two)[-1] == "a switch"
    told(two, "total")
    assert heard(two) == ["two 14-2 cables", "18 cubic inches", "a switch", "no clamps", "total"]
    one.close()
    two.close()
    assert heard(Session.open()) == heard(two)


def test_the_other_front_end_writing_between_reading_and_keeping_is_noticed() -> None:
    """The words are heard again in the light of what the other one said."""
    one = Session.start("Heron Street")
    told(one, "two 14-2 cables", "18 cubic inches")
    two = Session.open("Heron Street")
    answer = one._answer

    def interrupted(*said: object) -> object:
        one._answer = answer  # type: ignore[method-assign]
        reply = answer(*said)  # type: ignore[arg-type]
        told(two, "no clamps")
        return reply

    one._answer = interrupted  # type: ignore[method-assign,assignment]
    told(one, "a switch")
    assert one.talk.assessment.verdict == "fits"
    assert heard(one)[-2:] == ["no clamps", "a switch"]
    assert heard(one).count("a switch") == 1


def test_each_front_end_stays_at_its_own_box() -> None:
    one = Session.start("Heron Street")
    told(one, "two 14-2 cables")
    two = Session.open("Heron Street")
    told(two, "next box porch")
    told(one, "a switch")
    told(two, "three 12-2 cables")
    assert one.talk.name == "box 1"
    assert two.talk.name == "porch"


def test_a_rename_by_the_other_front_end_is_followed() -> None:
    one = Session.start("Heron Street")
    told(one, "two 14-2 cables")
    two = Session.open("Heron Street")
    told(two, "call this box hall")
    told(one, "a switch")
    assert one.talk.name == "hall"
    assert heard(one) == ["two 14-2 cables", "call this box hall", "a switch"]


def test_own_words_hold_in_the_next_job() -> None:
    one = Session.start("Heron Street")
    told(one, "when I say blue box I mean 18 cubic inches")
    one.close()
    two = Session.start("Barn Lane")
    told(two, "blue box")
    assert ReplyDocument.of(two.hear("capacity")).capacity_in3 == "18.0"


def test_a_new_job_is_started_in_the_talk() -> None:
    session = Session.start("Heron Street")
    told(session, "two 14-2 cables")
    assert told(session, "new job Barn Lane").startswith("Job ")
    assert session.name.casefold() == "barn lane"
    told(session, "three 12-2 cables")
    assert {place.name.casefold() for place in repository.places()} == {"heron street", "barn lane"}
    assert heard(Session.open("barn")) == ["three 12-2 cables"]


def test_counting_boxes_folds_none_that_was_not_touched() -> None:
    session = Session.start("Heron Street")
    told(session, *TALK)
    expected = told(session, "how many boxes are over")
    session.close()
    again = Session.open()
    assert told(again, "how many boxes are over") == expected
    assert set(again.conversation.boxes._talks) == {"porch"}


def test_a_fault_of_ours_loses_no_words(monkeypatch: pytest.MonkeyPatch) -> None:
    session = Session.start("Heron Street")
    told(session, "two 14-2 cables")
    items = session.talk.state.items
    with monkeypatch.context() as patch:
        patch.setattr(Conversation, "hear", lambda self, words: 1 / 0)
        with pytest.raises(ZeroDivisionError):
            session.hear("a switch")
        patch.setattr(faults, "raised", False)
        reply = session.hear("a dimmer")
        assert (reply.heard, reply.refused) == ("a dimmer", True)
        assert reply.fault == "ZeroDivisionError: division by zero"
    assert session.talk.state.items == items
    assert session.talk.state.unread == ("a switch", "a dimmer")  # no verdict stands over it
    assert session.talk.assessment.verdict == "incomplete"
    told(session, "18 cubic inches")
    assert heard(session) == ["two 14-2 cables", "a switch", "a dimmer", "18 cubic inches"]


@pytest.mark.usefixtures("faults_told")
def test_a_job_with_an_entry_that_cannot_be_folded_opens_and_tells_it_once() -> None:
    session = Session.start("Heron Street")
    told(session, "two 14-2 cables")
    poison = acts.SetVolume(volume=cast(Any, "eighteen"), words="poison")
    session._keep([Record("entry", "box 1", Entry("poison", (poison,)))])
    told(session, "a switch")
    session.close()
    again = Session.open()
    first = again.resume().said
    assert "could not take up 1 statement" in first
    assert "“poison”" in first
    assert "could not take up" not in again.hear("total").said
    # Table 314.16(B)(1), 2.00 each: 4 conductors, a device 2, a ground
    assert again.talk.assessment.sheet.total == Decimal("14.00")
    assert again.talk.assessment.sheet.capacity is None


def test_a_removed_box_can_be_brought_back() -> None:
    session = Session.start("Heron Street")
    told(session, *TALK)
    island = session.conversation.boxes.talk("island").state
    session.close()
    place = repository.find("heron")
    remove(place, "island")
    assert Session.open().conversation.boxes.names == ("box 1", "porch")
    with pytest.raises(Problem, match="no removed box called shed"):
        restore(place, "shed")
    restore(place, "island")
    again = Session.open()
    assert again.conversation.boxes.names == ("box 1", "porch", "island")
    assert again.conversation.boxes.talk("island").state == island


def test_boxes_are_found_and_named_as_people_say_it() -> None:
    session = Session.start("Heron Street")
    told(session, "next box kitchen island", "two 14-2 cables", "next box the hall", "a switch")
    assert session.conversation.boxes.names == ("kitchen island", "hall")
    told(session, "go back to the island box")
    assert session.talk.name == "kitchen island"
    session.close()
    assert Session.open().conversation.boxes.names == ("kitchen island", "hall")


def test_what_is_said_behind_a_new_job_is_of_its_first_box() -> None:
    """Past defect this prevents: the cables of the new job went into the old one's box."""
    session = Session.start("Heron Street")
    told(session, "18 cubic inch box", "a switch")
    reply = session.hear("new job Barn Lane, two 14-2 cables, 20 cubic inch box")
    assert session.name == "Barn Lane"
    assert str(reply.sheet.total) == "10.00"  # four conductors and the grounds, 2.00 each
    assert reply.sheet.capacity == 20
    assert reply.left_over == ()
    assert [entry.content.count for entry in session.talk.state.items] == [2]
    session.close()
    again = Session.open("Heron Street")
    assert [item.content.count for item in again.talk.state.items] == [1]
    assert again.talk.assessment.sheet.capacity == 18


def test_heard_words_go_on_behind_a_new_job_with_their_doubt() -> None:
    session = Session.start("Heron Street")
    said = [Word(text, 0.9) for text in ("new", "job", "barn", "and")]
    reply = session.hear([*said, Word("fifteen", 0.3), Word("fourteen", 0.9), Word("twos", 0.9)])
    assert session.name != "Heron Street"
    assert reply.asks == "confirm"


def test_without_a_keeper_what_is_said_behind_a_new_job_is_told_as_not_used() -> None:
    conversation = Conversation()
    reply = conversation.hear("new job Barn Lane, two 14-2 cables")
    assert reply.left_over == ("two 14-2 cables",)
    assert conversation.talk.state.items == ()
