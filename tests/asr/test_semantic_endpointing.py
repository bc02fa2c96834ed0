"""Which words can stand as a statement and which wait for their rest. A complete one ends
after half a second, "an unfinished one (a trailing number or size) waits longer". The sentences
are our own, in the trade's way of speaking (common practice)."""

from __future__ import annotations

import pytest
from boxaloud.assistant.asr.semantic_endpointing import complete

COMPLETE = [
    ("two fourteen two cables", None),
    ("two fourteen twos", None),
    ("a fourteen three and a switch", None),
    ("eighteen cubic inches", None),
    ("no clamps", None),
    ("four inch square two and one eighth deep", None),
    ("one three way", None),
    ("yes", "confirm"),
    ("no", "confirm"),
    ("inside", "clamps"),
    ("undo", None),
    ("make that three", None),
    ("what if twenty", None),
    ("undo two", None),
    ("no twelve", None),
    ("eighteen", "box"),
    ("twenty point three", "box"),
    ("fourteen", "device_size"),
    ("three", "grounds"),
    ("edition twenty twenty", None),
    ("", None),
    ("[unk]", None),
    ("[unk] [unk] radio", None),
]
UNFINISHED = [
    ("two", None),
    ("two fourteen", None),
    ("two fourteen two", None),
    ("the box is", None),
    ("the box is twenty", None),
    ("the box is twenty point", None),
    ("two cables and", None),
    ("two fourteen twos and a", None),
    ("two fourteen twos and a fourteen", None),
    ("fourteen", None),
    ("eighteen", "clamps"),
    ("twenty point", "box"),
    ("make that", None),
    ("what if", None),
    ("take off two", None),  # of what was said last, or of what is said next
    ("change the fourteen twos", None),
    ("swap the switch", None),
    ("make it", None),
    ("so i've got", None),
    ("it has", None),
    ("four inch square two and one eighth", None),
    ("two [unk] and", None),
]


@pytest.mark.parametrize(("words", "expect"), COMPLETE, ids=[f"{w} ({e})" for w, e in COMPLETE])
def test_it_can_stand(words: str, expect: str | None) -> None:
    assert complete(words, expect)


@pytest.mark.parametrize(("words", "expect"), UNFINISHED, ids=[f"{w} ({e})" for w, e in UNFINISHED])
def test_it_waits(words: str, expect: str | None) -> None:
    assert not complete(words, expect)
