"""What the grammar read, held against how people talk: is this of the box at all?

Where the words are hardly ever said of a box, and wish for nothing here, nothing of them is
entered, whatever the grammar made of them; questions stay. Words that it could not use weigh
nothing there, where they are even less likely of one. Where they nearly always change a box and the
grammar made nothing of them, they weigh, and no verdict stands over them. Between the two the
grammar decides.
"""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import belief_table
from boxaloud.assistant.dialogue.belief.relevance import relevance
from boxaloud.assistant.dialogue.belief.unread_words import CHANGING, FILLING, OF_BOX
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.utterance.whereabouts import heard_elsewhere

ANSWERING = OF_BOX | {"Number", "Size", "SetClamps"}
_ENTERING = FILLING | CHANGING | ANSWERING | {"NextBox"}
LEAVING = frozenset(
    {"OpenBox", "CopyBox", "NameBox", "DeleteBox", "ListBoxes", "NewJob", "SetEdition"}
)
"""Of which box, and of which code: nothing that other talk is like."""
_CLAUSE = re.compile(r"[,.;:!?]+(?!\d)|\b(?:but|and) ")
#: "The owner would like a switch right here."
_WISHED_HERE = re.compile(r"(?i)\b(?:wants?|would like|needs?|asked for)\b.*\b(?:here|there)\W*$")
_UNSURE = 25
"""A clause above it may be of the box, in hundredths of log odds; below it tells too little."""
_FEWEST_WORDS = 3
"""Two words are an answer as often as not, and tell too little."""
_FEWEST_TO_LET_GO = 5
"""So few words list a thing as often as not: "two wire nuts", of a box in Canada."""


def sifted(read: Utterance, begun: bool, asked: bool) -> Utterance:
    """The utterance without what is of no box, or as words that weigh.

    `begun` where the box at hand has contents, `asked` where a detail is asked for: then, and of a
    correction or what was not understood, the words have to be less likely of a box than where
    something is told. What is said of the boxes of the job is left alone.
    """
    heard = read.heard.strip()
    kinds = {belief_table.kind(act) for act in read.acts}
    if len(heard.split()) < _FEWEST_WORDS or kinds & LEAVING or any(map(_of_raceways, read.acts)):
        return read
    told = any(map(_enters, read.acts))
    weighs = any(run.weighty for run in read.unread)
    if not (told or weighs or (begun and _is_nothing(read))):
        return read
    likely, known = relevance(heard), belief_table.table()
    surely = asked or not told or bool(kinds & (CHANGING | {"NextBox"}))
    unlikely = likely < (known.inert if surely else known.off_topic)
    unlikely = unlikely and len(heard.split()) >= _FEWEST_TO_LET_GO
    if unlikely and not (_any_of_box(heard) or _WISHED_HERE.search(heard)):
        kept = tuple(act for act in read.acts if not _enters(act))
        other = acts.OtherTalk(words=heard, span=(0, len(read.heard)))
        return replace(read, acts=kept or (other,), unread=())
    if not (told or weighs) and likely > known.on_topic and not _is_of_another(read.heard):
        return replace(read, unread=(Unread.whole(read.heard),))
    return read


def _any_of_box(heard: str) -> bool:
    """Whether one clause alone may be of a box: "lunch is at noon, one more comes in"."""
    clauses = [one for one in _CLAUSE.split(heard) if len(one.split()) > 1]
    return len(clauses) > 1 and any(relevance(one) > _UNSURE for one in clauses)


def _is_of_another(heard: str) -> bool:
    """Whether all of an utterance says that it is of another box, and where that is."""
    found, whole = heard_elsewhere(heard)
    return whole is not None and all(piece.of_box for piece in found)


def _of_raceways(act: Act) -> bool:
    """Whether an act is of a pull box or a conduit body, of which too little was heard to judge."""
    named = isinstance(act, acts.NameBoxKind) and act.name in ("pull box", "conduit body")
    return named or type(act).__module__ == acts.DescribePull.__module__


def _enters(act: Act) -> bool:
    """Whether an act says or changes what is in a box, or what box it is."""
    return belief_table.kind(act) in _ENTERING or is_thing(act)


def _is_nothing(read: Utterance) -> bool:
    """Whether nothing was made of an utterance."""
    return all(isinstance(act, acts.OtherTalk) for act in read.acts)
