"""A fault of ours over one utterance: told, the words kept, the rest stands, the talk goes on.

Volumes: NEC 2023 Table 314.16(B)(1), 2.00 in³ for each 14 AWG conductor; 314.16(B)(1), (4), (5).
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any, cast

import pytest
from boxaloud.assistant.dialogue import Conversation, Entry
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.grammar import acts, recognise

POISON = acts.SetVolume(volume=cast(Any, ["eighteen"]), words="poison")
"""An act as no grammar makes it; a file edited by hand may hold one."""


def entry(words: str) -> Entry:
    read = recognise(words)
    return Entry(words, read.acts, read.unread)


@pytest.mark.usefixtures("faults_told")
@pytest.mark.parametrize("place", range(4))
def test_folding_sets_a_poisoned_entry_aside_and_the_rest_stands(place: int) -> None:
    sound = [entry("two 14-2 cables"), entry("a switch"), entry("18 cubic inches, no clamps")]
    talk = Talk.fold([*sound[:place], Entry("poison", (POISON,)), *sound[place:]], "2023")
    # 4 conductors (1), a device 2 (4), one ground (5), each of 2.00
    assert talk.assessment.sheet.total == Decimal("14.00")
    assert [one.heard for one in talk.aside] == ["poison"]
    assert len(talk.journal) == 4


@pytest.mark.usefixtures("faults_told")
def test_no_verdict_stands_over_what_was_set_aside() -> None:
    sound = [entry("two 14-2 cables and a switch"), entry("18 cubic inches, no clamps")]
    talk = Talk.fold([*sound, Entry("poison", (POISON,))], "2023")
    assert talk.assessment.verdict == "incomplete"
    assert talk.asks == "unread"


@pytest.mark.usefixtures("faults_told")
def test_an_entry_that_is_no_entry_at_all_is_stepped_over() -> None:
    strange = Entry(cast(Any, None), cast(Any, 5), cast(Any, "x"), cast(Any, "sure"))
    talk = Talk.fold([entry("two 14-2 cables"), strange, entry("a switch")], "2023")
    assert talk.assessment.sheet.total == Decimal("14.00")
    assert len(talk.aside) == 1


@pytest.mark.usefixtures("faults_told")
def test_a_fault_is_told_and_the_talk_goes_on() -> None:
    talking = Conversation()
    talking.hear("two 14-2 cables")
    reply = talking.enter((POISON,), "poison")
    assert reply.fault.startswith(("TypeError", "AttributeError", "ValueError"))
    assert [act.act for act in reply.acts].count("refuse") == 1
    assert reply.sheet.total == Decimal("10.00")  # 4 conductors and a ground
    assert talking.hear("a switch").sheet.total == Decimal("14.00")
    talking.hear("undo")
    assert talking.talk.assessment.sheet.total == Decimal("10.00")
    kept = [record.entry.heard for record in talking.take_records() if record.entry]
    assert kept == ["two 14-2 cables", "poison", "a switch", "undo"]


@pytest.mark.usefixtures("faults_told")
def test_a_fault_of_the_grammar_keeps_the_words(monkeypatch: pytest.MonkeyPatch) -> None:
    talking = Conversation()
    talking.hear("two 14-2 cables")
    with monkeypatch.context() as patch:
        patch.setattr("boxaloud.assistant.dialogue.conversation.recognise", lambda *_: 1 / 0)
        reply = talking.hear("a switch")
    assert reply.fault == "ZeroDivisionError: division by zero"
    assert talking.talk.state.unread == ("a switch",)
    assert talking.take_records()[-1].entry == talking.talk.journal[-1]
    assert talking.hear("a dimmer").sheet.total == Decimal("14.00")


def test_tests_see_a_fault() -> None:
    with pytest.raises((TypeError, AttributeError, ValueError)):
        Conversation().enter((POISON,), "poison")
