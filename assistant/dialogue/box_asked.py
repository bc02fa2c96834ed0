"""Which box is meant: what was said of a box that nobody knows waits until that is answered.

Of all that waits nothing comes into the box at hand. Its words stand unread there, so that no
verdict is given meanwhile and the journal keeps them; what they say is heard again by the box that
is named.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from boxaloud.assistant.dialogue.belief.unread_words import says_again
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.box_names import meant, near
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.nlg.sentences import listed, say
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass

_MOST = 6
"""The most names that are offered."""
_TOLD = (
    acts.Number, acts.Size, acts.Place, acts.NoneOfThem, acts.DoIt, acts.NothingElse,
    acts.UnknownOperator,
)  # fmt: skip
_PASSED = frozenset({"um", "uh", "er", "hi", "hello", "hey", "please", "well"})
_HERE = lazy_pattern(
    r"(?:(?:no|it is|it's|i mean|i meant|the) )*(?:this|here|this box|this one|that one|the same"
    r"|same box|the one i am on|the current one|current)(?: one| box| here)*"
)
_NEW = lazy_pattern(
    r"(?:(?:no|yes|it is|it's|that is|that's|make it|begin|start|open|as|a|the) )*"
    r"new(?: box| one)*|yes"
)
_LEAD = lazy_pattern(r"^(?:(?:no|oh|i mean|i meant|it is|it's|in|to|back to|for|that is) )+")
_DROPPED = lazy_pattern(
    r"(?:(?:no|oh|ok|okay|just|then) )*(?:skip|skip it|skip that|never ?mind|undo"
    r"|forget it|forget that|cancel"
    r"|cancel that|drop it|drop that|leave it|scratch that|neither|none|none of them|none of those)"
)


@dataclass(frozen=True, slots=True)
class Answer:
    """What the question came to: a box, by its name or new; or that all is dropped."""

    kind: Literal["box", "new", "dropped"]
    name: str = ""

    def act(self, heard: str) -> Act:
        """What is done at that answer."""
        span = (0, len(heard))
        if self.kind == "new":
            return acts.NextBox(name=self.name, words=heard, span=span)
        return acts.OpenBox(name=self.name, words=heard, span=span)


@dataclass(frozen=True, slots=True)
class Waiting:
    """What waits: the name that no box has, and what was said, with how sure the ear was."""

    name: str
    parts: tuple[tuple[Utterance, float | None], ...] = ()

    def answered(self, heard: str, names: Sequence[str], at: str) -> Answer | None:
        """The answer in an utterance; None where it is none."""
        words = re.sub(r"[^\w\s'-]+", " ", heard.lower()).split()
        said = " ".join(word for word in words if word not in _PASSED)
        if _DROPPED.fullmatch(said):
            return Answer("dropped")
        if _HERE.fullmatch(said):
            return Answer("box", at)
        if _NEW.fullmatch(said):
            return Answer("new", self.name)
        bare = re.sub(
            r"^(?:(?:no|oh|i mean|i meant|it is|it's|in|to|back to|for|that is) )+", "", said
        )
        found = meant(bare, names) if bare and len(bare.split()) < 8 else None
        return Answer("box", found) if found else None

    def and_also(self, read: Utterance, confidence: float | None) -> Waiting:
        """The same, with one more utterance that waits."""
        return replace(self, parts=(*self.parts, (read, confidence)))

    def question(self, names: Sequence[str]) -> str:
        """The question that is asked: of the boxes that are nearly called so, else of all."""
        close = near(self.name, names) or tuple(names)
        offered = listed([f"“{name}”" for name in close[:_MOST]])
        return say("job.which_box", names=offered)


def held(read: Utterance, confidence: float | None) -> Entry:
    """The entry that keeps what waits, as words unread of the box at hand."""
    return Entry(read.heard, (), (Unread.whole(read.heard),), confidence)


def box_or_thing(talk: Talk, told: Sequence[Act]) -> bool:
    """Whether it is open what there is one more of: "another one just like it", right after a box
    was finished, may be of the box or of what is in it."""
    before = talk.journal[-1].acts if talk.journal else ()
    if not told or not any(isinstance(act, acts.Done) for act in before):
        return False
    return isinstance(told[0], acts.More) and told[0].target.kind == "anything"


def released(heard: str, waiting: Waiting) -> Entry:
    """The entry that takes what waited out of the box at hand again."""
    return Entry(heard, (acts.Undo(count=len(waiting.parts), words=heard, span=(0, len(heard))),))


def tells(read: Utterance) -> bool:
    """Whether an utterance says something of a box, which must not come into a wrong one."""
    return bool(read.weighty) or any(_tells(act) for act in read.acts)


def _tells(act: Act) -> bool:
    return says_again(act) or isinstance(act, _TOLD)
