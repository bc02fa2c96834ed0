"""What was said, held against the box and what was said before: each reading that only they make
plain, in order. What one leaves alone the next may take."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.assistant.dialogue.interpretation.already_there import already_there
from boxaloud.assistant.dialogue.interpretation.clamps_by_pronoun import clamps_by_pronoun
from boxaloud.assistant.dialogue.interpretation.clamps_told_otherwise import (
    clamps_told_otherwise,
)
from boxaloud.assistant.dialogue.interpretation.counted_by_way import counted_by_way
from boxaloud.assistant.dialogue.interpretation.counted_once_more import counted_once_more
from boxaloud.assistant.dialogue.interpretation.counts_agreeing import counts_agreeing
from boxaloud.assistant.dialogue.interpretation.counts_anew import counts_anew
from boxaloud.assistant.dialogue.interpretation.counts_left import counts_left
from boxaloud.assistant.dialogue.interpretation.counts_not_sizes import counts_not_sizes
from boxaloud.assistant.dialogue.interpretation.denied_things import denied_things
from boxaloud.assistant.dialogue.interpretation.landed_on_those import landed_on_those
from boxaloud.assistant.dialogue.interpretation.last_step_undone import undone
from boxaloud.assistant.dialogue.interpretation.listed_over import listed_over
from boxaloud.assistant.dialogue.interpretation.one_by_its_way import one_by_its_way
from boxaloud.assistant.dialogue.interpretation.onward_untold import onward_untold
from boxaloud.assistant.dialogue.interpretation.out_and_in import out_and_in
from boxaloud.assistant.dialogue.interpretation.put_in_its_place import put_in_its_place
from boxaloud.assistant.dialogue.interpretation.reckoned_aloud import reckoned_aloud
from boxaloud.assistant.dialogue.interpretation.right_before import right_before
from boxaloud.assistant.dialogue.interpretation.said_back import said_back
from boxaloud.assistant.dialogue.interpretation.said_to_be import said_to_be
from boxaloud.assistant.dialogue.interpretation.sizes_kept import size_kept
from boxaloud.assistant.dialogue.interpretation.sizes_told_otherwise import sizes_told_otherwise
from boxaloud.assistant.dialogue.interpretation.spliced_before import spliced_before
from boxaloud.assistant.dialogue.interpretation.sums_told_behind import sums_told_behind
from boxaloud.assistant.dialogue.interpretation.taken_as_well import (
    changed_as_well,
    taken_as_well,
)
from boxaloud.assistant.dialogue.interpretation.taken_by_place import taken_by_place
from boxaloud.assistant.dialogue.interpretation.told_over import told_over
from boxaloud.assistant.dialogue.interpretation.unread_agreeing import unread_agreeing
from boxaloud.assistant.dialogue.interpretation.volume_told_otherwise import (
    volume_told_otherwise,
)
from boxaloud.assistant.dialogue.interpretation.ways_apart import ways_apart
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar.acts import Keep, OtherTalk, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.whereabouts import heard_elsewhere
from boxaloud.grammar.utterance.withdrawn_orders import withdrawn
from boxaloud.rules import Worksheet

_LONGEST = 500
"""Characters: what is longer is no correction, and is not looked through."""
#: What only asks or supposes puts nothing right.
_SUPPOSES = lazy_pattern(
    r"(?i)\W*(?:(?:so|and|but|ok|okay|well|now|um|uh|hello|hi)\W+)*"
    r"(?:what (?:happens|if|about|would)|what's|how|would|could|should|suppose|supposing|say|if"
    r"|imagine|pretend|assume|assuming|let's say)\b"
)

#: "Are there no clamps", typed without its mark; "which one has no ground?".
_ASKS_OF_IT = lazy_pattern(
    r"(?i)\W*(?:(?:so|and|but|ok|okay|well|now|um|uh|hello|hi)\W+)*"
    r"(?:(?:is|are|was|were|do|does|did|has|have)(?:n['’]?t)? (?:there|it|they|we|you|i|he|she)\b"
    r"|(?:which|what|who|why|how|where)\b[^?]*\?\W*$)"
)

#: "Don't make it a 22.5", and "we havent pulled it out", a denial that these readings do not know.
_FORBIDS = lazy_pattern(
    r"(?i)^\W*(?:(?:so|and|but|ok|okay|well|now|um|uh|hello|hi|no)\W+)*(?:do not|don['’]?t)\b"
    r"|\b(?:does|did|have|has|had|is|are|was|were|wo|could|would|should)nt\b"
)

#: What was done then may be told already: it is asked.
_EARLIER = lazy_pattern(r"(?i)\b(?:yesterday|last (?:week|month|year|night|time)|the other day)\b")


def by_the_box(
    read: Utterance, journal: Sequence[Entry], state: State, sheet: Worksheet
) -> Utterance:
    """The utterance as what it is behind what was told before; `read` where nothing was."""
    if len(read.heard) > _LONGEST:
        return read
    if journal:
        read = onward_untold(_behind(read, journal, state, sheet), state)
        read = spliced_before(read, journal)
    return unread_agreeing(read, state, sheet.capacity)


def _behind(read: Utterance, journal: Sequence[Entry], state: State, sheet: Worksheet) -> Utterance:
    orders = not (_FORBIDS.search(read.heard) or _EARLIER.search(read.heard))
    told = orders and _SUPPOSES.match(read.heard) is None
    if orders:
        read = undone(read, journal, state)
        whole = not any(map(is_thing, read.acts))  # what is told beside it would be lost
        if whole and _ASKS_OF_IT.match(read.heard) is None and not _is_elsewhere(read):
            read = clamps_told_otherwise(read, state)
            read = volume_told_otherwise(read, state, sheet.capacity)
    read = size_kept(taken_by_place(counts_not_sizes(read, state), journal, state), state)
    read = clamps_by_pronoun(read, journal, state)
    read = landed_on_those(read, journal, state)
    read = one_by_its_way(read, journal, state)
    read = counted_by_way(read, journal, state)
    read = taken_as_well(read, journal[-1], state)
    read = changed_as_well(read, journal[-1], state)
    read = right_before(read, journal, state)
    read = already_there(read, state)
    read = said_to_be(read, state)
    read = said_back(read, journal, state)
    read = sums_told_behind(read, state)
    read = counts_agreeing(read, journal, state)
    read = counted_once_more(read, journal, state, sheet)
    if told and not _is_withdrawn(read) and not _is_elsewhere(read):
        read = out_and_in(sizes_told_otherwise(read, state), state)
        read = put_in_its_place(read, state)
        read = counts_left(counts_anew(read, state), state, sheet)
    read = reckoned_aloud(read, state, sheet)
    if _ASKS_OF_IT.match(read.heard) is None:
        read = denied_things(read, state)
    if (further := ways_apart(read, journal, state)) is not None:
        return further
    read = told_over(read, state, sheet.capacity)
    return listed_over(read, state, sheet.capacity)


def _is_withdrawn(read: Utterance) -> bool:
    """Whether a part of it was withdrawn, so that its words tell nothing by themselves."""
    kept = any(isinstance(act, Keep) for act in read.acts)
    return kept and withdrawn(read.heard) is not None


def _is_elsewhere(read: Utterance) -> bool:
    """Whether all of it is of another place: what was taken out there is none of this box."""
    other = len(read.acts) == 1 and isinstance(read.acts[0], OtherTalk)
    return other and heard_elsewhere(read.heard)[1] is not None
