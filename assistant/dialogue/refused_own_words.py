"""A person's own words that are left as they are, told."""

from __future__ import annotations

from collections.abc import Mapping

from boxaloud.assistant.dialogue.nlg.sentences import listed, say
from boxaloud.grammar.utterance.own_word_refusal import refusal

MOST_TOLD = 5


def left_alone(words: Mapping[str, str]) -> str:
    """Which own words stand for nothing else, since they are numbers or commands; empty where
    all are taken."""
    refused = [f"“{word}”" for word, mean in words.items() if refusal(word, mean)]
    return say("alias.refused", words=listed(refused[:MOST_TOLD])) if refused else ""
