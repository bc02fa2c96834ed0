"""The caution is said once in a conversation, with the first verdict of whatever box."""

from __future__ import annotations

from boxaloud.assistant.dialogue import Conversation


def test_the_caution_is_said_once_in_a_conversation() -> None:
    talk = Conversation()
    first = talk.hear("two 14-2s, a switch, no clamps, 18 cubic inches")
    second = talk.hear("next box, den, two 14-2s, a switch, no clamps, 18 cubic inches")
    third = talk.hear("go back")
    assert "test first" in first.spoken
    assert "test first" not in second.spoken + third.spoken
    assert second.cautions == first.cautions  # what is printed


def test_the_caution_waits_for_the_first_verdict_of_whatever_box() -> None:
    talk = Conversation()
    talk.hear("two 14-2s and a switch")
    second = talk.hear("next box, den, two 14-2s, a switch, no clamps, 18 cubic inches")
    assert "test first" in second.spoken


def test_the_first_verdict_aloud_is_under_a_section_and_an_edition() -> None:
    talk = Conversation("2020")
    first = talk.hear("two 14-2s, a switch, no clamps, 18 cubic inches")
    assert "three fourteen sixteen, twenty twenty" in first.spoken
