"""What if: a change tried on a copy of the box, line by line. Nothing is entered."""

from __future__ import annotations

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.tui.presenters import box_comparison
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.web.box_presenter import verdict_card
from boxaloud.assistant.web.page_documents import ComparedLine, Comparison


def comparison(conversation: Conversation, words: str) -> Comparison:
    """The box as it stands beside the box with a change said in words.

    A change that was not wholly understood is not tried: the reply says what was not.
    """
    tried = box_comparison.suppose(conversation, words)
    reply, now = tried.reply, verdict_card(tried.now)
    if not tried.tried:
        return Comparison(False, words, sizes_written(reply.said), now)
    lines = tuple(
        ComparedLine(sizes_written(line.what), line.now, line.then, line.differs)
        for line in box_comparison.compared(tried.now, tried.then)
    )
    told = tuple(box_comparison.difference(tried.now, tried.then))
    return Comparison(
        True, words, sizes_written(reply.said), now, verdict_card(tried.then), lines, told
    )
