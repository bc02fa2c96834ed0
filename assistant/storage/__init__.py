"""Jobs: every box kept, resumed and handed on.

`Session` is what a front end needs: it hears words as a `Conversation` does, and what was
said is on the disk before the reply is given. `shelf` finds, starts, copies and removes jobs.

>>> from boxaloud.assistant.storage import Session
>>> session = Session.start("Heron Street")
>>> session.hear("three 14-2 cables and a receptacle in an 18 cubic inch box").asks
'clamps'
>>> session.close()
>>> again = Session.open("heron")
>>> again.hear("none").verdict
'fits'
>>> again.close()
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from boxaloud.assistant.storage.session import Session

__all__ = ["Session"]


def __getattr__(name: str) -> Any:
    """Import `Session` when it is first asked for: the command's help needs none of it."""
    if name != "Session":
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from boxaloud.assistant.storage.session import Session

    return Session
