"""Something that the person can mend, told in one sentence."""

from __future__ import annotations


class Problem(Exception):
    """Something the user can mend: the message says what is wrong, where, and what to do."""
