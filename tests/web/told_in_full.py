"""What dialogues come to, as text: run as it stands under this Python and under the page's.

It reads `dialogues` (JSON: a list of lists of words) and leaves `told`.
"""

from __future__ import annotations

import json
from typing import Any


def told_in_full(dialogues: list[list[str]]) -> list[list[str]]:
    """For each turn the view of the page, with every sentence and figure, and the acts entered."""
    from boxaloud.assistant.dialogue import Conversation
    from boxaloud.assistant.web import page_json
    from boxaloud.assistant.web.page_documents import Stored
    from boxaloud.assistant.web.page_presenter import page_view

    found = []
    for words in dialogues:
        talk = Conversation()
        turns = []
        for said in words:
            reply = talk.hear(said)
            records: list[Any] = [
                [record.action, record.box, record.entry and record.entry.to_json()]
                for record in talk.take_records()
            ]
            view = page_json.written(page_view(talk, reply, "job", Stored(True)))
            turns.append(f"{view}{json.dumps(records)}")
        found.append(turns)
    return found


if "dialogues" in globals():
    told = json.dumps(told_in_full(json.loads(globals()["dialogues"])))
