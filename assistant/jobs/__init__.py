"""Jobs: every box kept, resumed and handed on.

`Session` is what a front end needs: it hears words as a `Conversation` does, and what was
said is on the disk before the reply is given. `shelf` finds, starts, copies and removes jobs.
"""

from assistant.jobs.session import Session

__all__ = ["Session"]
