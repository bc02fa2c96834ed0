"""What the line front ends share: starting a conversation, printing a reply, the exit status."""

from __future__ import annotations

from typing import cast, get_args

from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.text import printing
from boxaloud.assistant.text.problem import Problem
from boxaloud.rules.units import VolumeUnit


def shown_in(units: str) -> VolumeUnit:
    """The units to show volumes in: `in3`, or `cm3` for cubic centimetres beside them."""
    for known in get_args(VolumeUnit):
        if units == known:
            return cast("VolumeUnit", known)
    raise Problem(f"I show volumes in in3 or cm3, not in “{units}”: say one of the two.")


def put(text: str) -> None:
    """One line on standard output, at once."""
    printing.put(text)


def put_json(reply: Reply) -> None:
    """A reply as one JSON object on a line."""
    import json

    from boxaloud.assistant.contract.reply_document import ReplyDocument

    as_ascii = not printing.takes_all_letters()
    told = json.dumps(ReplyDocument.of(reply).to_json(), ensure_ascii=as_ascii)
    printing.put(printing.clean_json(told))
