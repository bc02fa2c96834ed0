"""What the line front ends share: starting a conversation, printing a reply, the exit status."""

from __future__ import annotations

import sys

from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.text.problem import Problem


def shown_in(units: str) -> str:
    """The units to show volumes in: `in3`, or `cm3` for cubic centimetres beside them."""
    if units not in ("in3", "cm3"):
        raise Problem(f"I show volumes in in3 or cm3, not in “{units}”: say one of the two.")
    return units


def put(text: str) -> None:
    """One line on standard output, at once."""
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


def put_json(reply: Reply) -> None:
    """A reply as one JSON object on a line."""
    import json

    put(json.dumps(reply.to_json(), ensure_ascii=False))
