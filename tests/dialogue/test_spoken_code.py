"""To the ear, too, a verdict of another code names it, each time, with its unit."""

from __future__ import annotations

import pytest
from boxaloud.assistant.dialogue import Conversation


def last(*said: str) -> str:
    conversation = Conversation()
    for words in said[:-1]:
        conversation.hear(words)
    return conversation.hear(said[-1]).spoken


@pytest.mark.parametrize(
    "more",
    [
        ("one 14-2",),
        ("brief", "one 14-2"),
        ("what is the margin",),
        ("how many more 14-2s can I bring in",),
        ("will a 12-2 still fit",),
        ("what if the clamps were inside",),
    ],
)
def test_the_code_is_named_each_time(more: tuple[str, ...]) -> None:
    """Rule 12-3034, Table 22: 24.6 mL for each 14 AWG conductor, DIY Chatroom 48926. No change of
    314.16 in 2026 was found in public material, which is not proof."""
    canada = ("Canadian code", "two 14-2s, no wire nuts", "300 mL box")
    assert "CE Code" in last(*canada)
    assert "millilitres" in last(*canada)
    assert "CE Code" in last(*canada, *more)
    unread = ("use 2026", "two 14-2s in an 18, no clamps")
    assert "provisional" in last(*unread)
    assert "provisional" in last(*unread, *more)
