"""Rows are replayed as the kinds of record that are known, and no other is passed over."""

from __future__ import annotations

import pytest
from boxaloud.assistant.storage.replay import replay
from boxaloud.assistant.storage.sqlite.journal_rows import Row
from boxaloud.assistant.storage.sqlite.storage_errors import TooNew


def test_a_record_of_a_later_kind_is_refused_in_a_sentence() -> None:
    """Past defect: a record of an unknown kind was ignored, and the box came out without it."""
    opened = Row(1, "2031-01-01T00:00:00Z", "opened", "hall", "", "", "", 0)
    merged = Row(2, "2031-01-01T00:00:00Z", "merged", "hall", "porch", "", "", 0)
    assert replay([opened]).current == "hall"
    with pytest.raises(TooNew, match="“merged”, which a newer Boxaloud wrote"):
        replay([opened, merged])
