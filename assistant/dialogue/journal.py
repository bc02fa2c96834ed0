"""The journal: what was said, in order. It is the only state that is ever kept.

Each entry holds the acts that the words made at that time, so that an old journal gives the same
box again under a newer grammar.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from boxaloud.assistant.dialogue import act_json
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Entry:
    """One utterance: its words, its acts, what was not read, how sure the ear was."""

    heard: str
    acts: tuple[Act, ...]
    unread: tuple[Unread, ...] = ()
    confidence: float | None = None
    refusal: str = ""
    """Why the whole utterance was not taken, where it was not."""

    @property
    def weighty(self) -> tuple[Unread, ...]:
        """What was not read and weighs."""
        return tuple(run for run in self.unread if run.weighty) if self.unread else ()

    def to_json(self) -> dict[str, Any]:
        """A plain object for a JSON line; `from_json` gives the entry back, exactly."""
        return {
            "heard": self.heard,
            "acts": [act_json.encoded(act) for act in self.acts],
            "unread": [[run.words, *run.span, run.weighty] for run in self.unread],
            "confidence": self.confidence,
            "refusal": self.refusal,
        }

    @staticmethod
    def from_json(data: Mapping[str, Any]) -> Entry:
        """The entry of an object made by `to_json`. Raises KeyError for anything else."""
        return Entry(
            heard=data["heard"],
            acts=tuple(act_json.decoded(item) for item in data["acts"]),
            unread=tuple(
                Unread(words, (start, end), weighty)
                for words, start, end, weighty in data["unread"]
            ),
            confidence=data["confidence"],
            refusal=data.get("refusal", ""),
        )
