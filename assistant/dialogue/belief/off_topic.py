"""What the grammar read, held against how people talk: is this of the box at all?

Where the words are hardly ever said of a box, nothing of them is entered, whatever the grammar
made of them; questions stay. Words that it could not use weigh nothing there, where they are even
less likely of one. Where they nearly always change a box and the grammar made nothing of them, they
weigh, and no verdict stands over them. Between the two the grammar decides.
"""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.belief import belief_table
from boxaloud.assistant.dialogue.belief.relevance import relevance
from boxaloud.assistant.dialogue.belief.unread_words import CHANGING, FILLING
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing

_FEWEST_WORDS = 3
"""Two words are an answer as often as not, and tell too little."""


def sifted(read: Utterance, begun: bool) -> Utterance:
    """The utterance without what is of no box, or as words that weigh; `begun` where the box at
    hand has contents."""
    heard = read.heard.strip()
    if len(heard.split()) < _FEWEST_WORDS:
        return read
    enters = any(map(_enters, read.acts))
    weighs = any(run.weighty for run in read.unread)
    if not (enters or weighs or (begun and _is_nothing(read))):
        return read
    likely, known = relevance(heard), belief_table.table()
    if likely < (known.off_topic if enters else known.inert):
        kept = tuple(act for act in read.acts if not _enters(act))
        other = acts.OtherTalk(words=heard, span=(0, len(read.heard)))
        return replace(read, acts=kept or (other,), unread=())
    if not (enters or weighs) and likely > known.on_topic:
        return replace(read, acts=(), unread=(Unread.whole(read.heard),))
    return read


def _enters(act: Act) -> bool:
    """Whether an act says or changes what is in a box, or what box it is."""
    kind = belief_table.kind(act)
    return is_thing(act) or kind in FILLING or kind in CHANGING or kind in ("Number", "Size")


def _is_nothing(read: Utterance) -> bool:
    """Whether nothing was made of an utterance."""
    return all(isinstance(act, acts.OtherTalk) for act in read.acts)
