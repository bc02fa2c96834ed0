"""Pull boxes and conduit bodies, described and worked out (see rules.pull, rules.conduit)."""

from __future__ import annotations

from assistant.conversation.turn import Turn
from grammar.statements import Statement


def pull(turn: Turn, statement: Statement) -> None:
    """A described pull."""
    turn.unplaced.append(statement.words)
