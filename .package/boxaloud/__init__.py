"""Boxaloud: say what is in an electrical box and hear whether it fits.

`Conversation` hears utterances and answers them; `work_out` counts a described box. The rooms
are `boxaloud.rules`, `boxaloud.grammar` and `boxaloud.assistant`.

>>> from boxaloud import Conversation
>>> reply = Conversation().hear("two 14-2 cables and a switch, 18 cubic inches, no clamps")
>>> reply.verdict
'fits'
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from boxaloud.assistant.dialogue import Conversation
    from boxaloud.rules import work_out

__all__ = ["Conversation", "work_out"]

#: Imported when first asked for, so that a command which needs neither does not wait for them.
_HOME = {"Conversation": "boxaloud.assistant.dialogue", "work_out": "boxaloud.rules"}


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module 'boxaloud' has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(_HOME[name]), name)
