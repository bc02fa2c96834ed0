"""What keys and clicks do goes through the conversation as acts, like words do.

Expected allowances: 2.00 in3 for each 14 AWG conductor, Table 314.16(B); one allowance for all
grounds together, 314.16(B)(5); 4 in. square boxes 1-1/2 in. deep hold 21.0 in3, Table 314.16(A).
"""

from __future__ import annotations

from boxaloud.assistant.dialogue import Conversation, Entry
from boxaloud.grammar.acts import Recount, Reference, SetSize, Undo
from boxaloud.rules import table_boxes


def recount(key: int, count: int) -> Recount:
    return Recount(target=Reference(item=key, words="line"), count=count, words="line")


def begun() -> Conversation:
    conversation = Conversation()
    conversation.hear("two 14-2 cables, one 12-2 cable and one switch")
    return conversation


def test_a_picked_line_takes_a_new_count_though_another_was_said_last() -> None:
    conversation = begun()
    key = conversation.talk.state.items[0].key
    conversation.enter((recount(key, 3),), "make that three")
    assert [item.content.count for item in conversation.talk.state.items] == [3, 1, 1]


def test_a_count_of_none_takes_the_picked_line_out_and_undo_brings_it_back() -> None:
    conversation = begun()
    before = conversation.talk.state
    key = before.items[1].key
    conversation.enter((recount(key, 0),), "take off the 12-2")
    assert [item.key for item in conversation.talk.state.items] == [1, 3]
    conversation.enter((Undo(),), "undo")
    assert conversation.talk.state == before


def test_a_picked_line_takes_a_count_though_the_clamps_were_said_last() -> None:
    conversation = begun()
    conversation.hear("no clamps")
    conversation.enter((recount(3, 2),), "make that two")
    assert [item.content.count for item in conversation.talk.state.items] == [2, 1, 2]


def test_a_line_that_has_gone_is_refused_in_a_sentence() -> None:
    reply = begun().enter((recount(99, 3),), "make that three")
    assert reply.refused
    assert reply.said.startswith("I have no")


def test_every_standard_box_can_be_picked_by_its_row() -> None:
    for row in table_boxes():
        conversation = Conversation()
        conversation.enter((SetSize(row=row.id),), row.name)
        assert conversation.talk.assessment.sheet.capacity == row.volume


def test_a_row_that_is_not_in_the_table_is_refused() -> None:
    reply = Conversation().enter((SetSize(row="nonesuch", words="that"),), "that")
    assert reply.refused


def test_what_keys_entered_is_kept_with_words_and_folds_to_the_same_box() -> None:
    conversation = begun()
    conversation.enter((SetSize(row="square-4-1.5"),), "four square box")
    kept = [record.entry for record in conversation.take_records() if record.entry]
    assert kept[-1].heard == "four square box"
    again = [Entry.from_json(entry.to_json()) for entry in kept]
    resumed = Conversation(boxes={"box 1": again})
    assert resumed.talk.state == conversation.talk.state
