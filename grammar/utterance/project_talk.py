"""What is told of the project for its report: "permit number E-2041", "prepared by Ada Quill".

Only a whole utterance tells it, in words that name the field: its value may hold any words.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from boxaloud.grammar import grammar_data
from boxaloud.grammar.acts import TellProject
from boxaloud.grammar.clauses.act_fields import BOX, THINGS
from boxaloud.grammar.phrases.statements import Statement

_WAYS = tuple(
    (row["field"], re.compile(row["say"], re.IGNORECASE))
    for row in grammar_data.table("questions")["project"]
)
_LONGEST = 300
_OF_A_BOX = frozenset({*THINGS, *BOX} - {"edition"})


def project_talk(heard: str, found: Iterable[Statement]) -> TellProject | None:
    """What an utterance tells of the project, or None; `found` is what the phrases made of it.

    Nothing of a box is ever taken for a name: "site: den, two 14-2s" tells of a box.
    """
    words = heard.strip()
    if len(words) > _LONGEST:
        return None
    of_a_box = any(one.kind in _OF_A_BOX for one in found)
    for field, way in _WAYS:
        if of_a_box and field != "date":  # a day is written like the size of a cable
            continue
        if (told := way.fullmatch(words)) and (text := told["text"].strip(" .,;:")):
            start = heard.index(words)
            return TellProject(
                field=field, text=text, words=words, span=(start, start + len(words))
            )
    return None
