"""What a cable is, said of it: "one 12-2 is the feed, one 12-2 is the load"."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.cable_roles import ROLE_PATTERN

_SIZE = (
    r"(?:[a-z]+ )?(?:1[024]|[68]|fourteen|twelve|ten|eight|six)[-/ ](?:[234]|two|three)"
    r"(?: cable)?"
)
_IS = (
    r"(?P<is> (?:is|was|being) (?:(?:just|only|really|actually) )?(?:the|a|an|my|our)"
    r"(?: [a-z]+)? )"
)
_ROLE = rf"(?P<role>{ROLE_PATTERN})"
#: The cable, that it is something, what it is, and the break behind it.
_IS_ROLE = lazy_pattern(
    rf"(?i)(?P<cable>\b(?:one|an?|another|the other|1) {_SIZE}){_IS}{_ROLE}"
    r"(?P<end> ?,|(?= (?:and |plus |also )?(?:one|an?|another|the other|two|three|four|\d) ))"
)
_OTHER_IS_ROLE = lazy_pattern(
    rf"(?i)(?P<cable>\b(?:another|(?:the|one) other) {_SIZE}){_IS}{_ROLE}(?P<end>\b)"
)


def told_by_role(text: str) -> str:
    """The text with a cable named by its role where it is said to be that, each character in its
    place: what stands behind the comma is another.

    >>> told_by_role("one 12-2 is the feed, one 12-2 is the load")
    'one 12-2        feed. one 12-2 is the load'
    """
    told = _IS_ROLE.sub(_named, text) if " is " in text.lower() else text
    return text if told is text or told == text else _OTHER_IS_ROLE.sub(_named, told)


def _named(found: re.Match[str]) -> str:
    if not found["end"]:  # an ear gives no break, and the next would be of this role
        return found["cable"].ljust(len(found[0]))
    return f"{found['cable']}{' ' * len(found['is'])}{found['role']}.".ljust(len(found[0]))
