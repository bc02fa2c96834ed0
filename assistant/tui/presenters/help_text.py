"""The help: what can be said, from the grammar itself, and the keys."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.state import to_box
from boxaloud.assistant.tui.tui_messages import text, texts
from boxaloud.grammar import help_topics
from boxaloud.rules import STANDING, cautions


def help_lines() -> list[str]:
    """The paragraphs of the help screen."""
    return [*_keys(), "", *_reader(), "", *_phrases()]


def _keys() -> Iterator[str]:
    yield text("help.keys_title").upper()
    yield from (f"  {line}" for line in texts("help.key").values())


def _reader() -> Iterable[str]:
    return (text("help.reader_title").upper(), f"  {text('help.reader')}")


def _phrases() -> Iterator[str]:
    yield text("help.title").upper()
    yield f"  {text('help.lead')}"
    for topic, examples in help_topics().items():
        yield ""
        yield f"  {topic}"
        yield from (f"    “{example}”" for example in examples)


def cautions_of(conversation: Conversation) -> list[str]:
    """What to look out for: what always holds, and what this box calls for."""
    found = cautions(to_box(conversation.talk.state))
    lines = [caution.says for caution in STANDING]
    lines += [f"{caution.says} ({caution.section})" for caution in found]
    return [f"• {line}" for line in lines]
