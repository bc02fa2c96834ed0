"""What can be said, by topic: the examples of the phrases themselves."""

from __future__ import annotations

from boxaloud.grammar.phrases.phrase_files import phrases


def help_topics() -> dict[str, tuple[str, ...]]:
    """topic -> examples, in the order of the phrase files; each is understood as it stands."""
    topics: dict[str, list[str]] = {}
    for phrase in phrases():
        if phrase.topic:
            examples = topics.setdefault(phrase.topic, [])
            if phrase.example not in examples:
                examples.append(phrase.example)
    return {topic: tuple(examples) for topic, examples in topics.items()}
