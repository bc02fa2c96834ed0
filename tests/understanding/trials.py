"""Trials of a talk: an opening, one more utterance, and what went wrong with it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from boxaloud.assistant.dialogue import Conversation, Reply
from standing import Standing, entered, standing
from trial import DEFINITE, Trial
from trial_sentences import Voice, begun


@dataclass(frozen=True)
class Played:
    """A talk after one more utterance, and how things stood before it."""

    talk: Conversation
    reply: Reply
    before: tuple[object, ...]
    stood: Standing
    asked: str | None

    @property
    def unchanged(self) -> bool:
        """True where nothing that was entered changed."""
        return entered(self.talk) == self.before

    @property
    def stands(self) -> Standing:
        """Where the box stands now."""
        return standing(self.talk)


Wrong = Callable[[Played], bool]


def then(opening: tuple[str, ...], said: str, voice: Voice, wrong: Wrong) -> Trial:
    """Say `said` in a voice after an opening that was typed, and look whether it went wrong."""
    talk = begun(opening)
    before, stood, asked = entered(talk), standing(talk), talk.asks
    name = " / ".join((*opening, said))
    try:
        reply = talk.hear(voice(said))
    except Exception as error:  # a fault of the program is a miss of this trial alone
        return Trial(name, f"faults: {error!r}")
    played = Played(talk, reply, before, stood, asked)
    if not wrong(played):
        return Trial(name, "")
    got = played.stands
    return Trial(name, f"was {stood}, now {got}: {reply.said}", got.verdict == "fits")


def all_then(
    opening: tuple[str, ...], said: Iterator[str], voice: Voice, wrong: Wrong
) -> Iterator[Trial]:
    """The same for many sentences."""
    for one in said:
        yield then(opening, one, voice, wrong)


def changed(played: Played) -> bool:
    """True where what was said entered something."""
    return not played.unchanged


def turned(played: Played) -> bool:
    """True where it entered something or made another definite verdict."""
    verdict = played.stands.verdict
    return changed(played) or (verdict in DEFINITE and verdict != played.stood.verdict)
