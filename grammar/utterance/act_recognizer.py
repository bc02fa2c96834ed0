"""Dialogue act recognition: words in, acts out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.clauses.clause_splitter import clauses
from boxaloud.grammar.clauses.quotations import quotes
from boxaloud.grammar.enclosures import BODY, enclosure_talk
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.phrases.statement_parser import understand
from boxaloud.grammar.rewriting.rewriter import rewritten, rewritten_first, rewritten_words
from boxaloud.grammar.utterance import whereabouts
from boxaloud.grammar.utterance.asked_behind import asked_apart
from boxaloud.grammar.utterance.box_copies import box_copied, named_as_copy
from boxaloud.grammar.utterance.box_naming import box_named
from boxaloud.grammar.utterance.box_openings import opening
from boxaloud.grammar.utterance.boxes_in_places import of_numbered_box
from boxaloud.grammar.utterance.boxes_named_alone import named_alone
from boxaloud.grammar.utterance.clause_acts import clause_acts
from boxaloud.grammar.utterance.correction_markers import (
    COUNTS,
    DISPUTE,
    MISQUOTED,
    TRAILING,
    dispute,
    is_marker,
    marker_acts,
    not_but,
    restated_after_all,
    restated_for,
    without_asides,
)
from boxaloud.grammar.utterance.denied_numbers import (
    denied_behind,
    denied_count,
    denied_first,
    denied_number,
    denies_things,
    in_its_place,
    instead,
    only_denied,
)
from boxaloud.grammar.utterance.denied_tails import without_denied_values
from boxaloud.grammar.utterance.device_words import names_device
from boxaloud.grammar.utterance.forbidden_orders import forbidden_order
from boxaloud.grammar.utterance.gone_back import taken_back
from boxaloud.grammar.utterance.headings import BOX_TOPIC, of_the_box
from boxaloud.grammar.utterance.layout import single_spaced, trimmed
from boxaloud.grammar.utterance.lone_numbers import restated_alone
from boxaloud.grammar.utterance.other_talk import dismay_answers, small_talk
from boxaloud.grammar.utterance.plainer_words import in_plain_form
from boxaloud.grammar.utterance.project_talk import project_talk
from boxaloud.grammar.utterance.restated_counts import sums_up
from boxaloud.grammar.utterance.said_anew import restating
from boxaloud.grammar.utterance.shared_orders import orders_shared
from boxaloud.grammar.utterance.suppositions_changed import suppositions_changed
from boxaloud.grammar.utterance.things_named import things_named
from boxaloud.grammar.utterance.untold_things import untold_elsewhere, untold_things
from boxaloud.grammar.utterance.whole_utterance import tidied, without_empty_steps
from boxaloud.grammar.utterance.wire_lists import heard_counted, wires_counted


def recognise(
    words: str | Sequence[Word],
    expect: str | None = None,
    aliases: Mapping[str, str] | None = None,
    enclosures: bool = True,
) -> Utterance:
    """The dialogue acts of an utterance, in the order said, and what was not read.

    `expect` names the open question (`box`, `clamps`, `device_size` …) and only breaks ties
    between readings of a bare answer. `aliases` are a person's own words and what they mean.
    Without `enclosures` nothing is read as of a pull box or a conduit body.
    """
    open_question, expect = expect, (expect or "").removeprefix(BODY) or None
    words = single_spaced(words) if isinstance(words, str) and enclosures else words
    words = rewritten_first(words, expect)
    elsewhere, of_others = whereabouts.heard_elsewhere(words, open_question)
    if of_others is not None:
        return untold_elsewhere(of_others)
    if isinstance(words, str):
        laid, held = wires_counted(rewritten(words, expect))
        found = understand(laid, expect, aliases)
        if laid is not words:
            found = replace(found, heard=words)
    else:
        words = rewritten_words(trimmed(words), expect)
        listed, held = heard_counted(words)
        found = understand(listed, expect, aliases)
        laid = found.heard
        if listed is not words:
            found = replace(found, heard=" ".join(word.text for word in words))
    if named := box_named(found.heard):
        return Utterance(found.heard, (named,))
    if copied := box_copied(found.heard, lambda part: recognise(part, expect, aliases)):
        return copied
    if enclosures and (
        numbered := of_numbered_box(found.heard, lambda part: recognise(part, open_question))
        or in_plain_form(found.heard, lambda part: recognise(part, open_question, aliases), expect)
    ):
        return numbered
    if (social := small_talk(found.heard)) and not dismay_answers(social, expect):
        return Utterance(found.heard, (social,))
    if alone := taken_back(found.heard) or project_talk(found.heard, found.statements):
        return Utterance(found.heard, (alone,))
    if enclosures and (
        enclosed := enclosure_talk(
            found.heard, open_question, lambda part, asked: recognise(part, asked, aliases, False)
        )
    ):
        return enclosed
    parts = without_denied_values(asked_apart(without_asides(clauses(laid, found.statements))))
    reading = _Reading(found.heard, orders_shared(suppositions_changed(parts)), expect, elsewhere)
    reading.read()
    left = [
        run
        for run in reading.left
        if names_device(found.heard, run.span)
        or not any(s <= run.span[0] and run.span[1] <= e for s, e in found.passed)
    ]
    made, left = restated_alone(reading.made, left, reading.parts, found.heard, expect)
    made = things_named(made, found.heard, recognise)
    made = named_as_copy(made, lambda part: recognise(part, expect, aliases))
    made, left = tidied(made, left, reading.parts, found.heard)
    made = named_alone(without_empty_steps(made, found.heard), found.heard, expect)
    if any(isinstance(act, acts.DescribePull) for act in made):  # and what else is of it is lost
        return Utterance(found.heard, (), (Unread.whole(found.heard),))
    left = untold_things(made, found.heard, [*left, *held])
    return Utterance(found.heard, tuple(made), tuple(left))


#: Things that, said alone between two breaks, neither open a box nor deny, mark or correct: what
#: does so is a word.
_WORDLESS = frozenset({"cable", "device", "clamps", "box_volume", "conductors", "grounds"})
_NAMELESS = frozenset({"cable", "conductors"})  # nor name one where they come first


@dataclass(slots=True)
class _Reading:
    """The clauses of an utterance read one after the other: what they made, what they left."""

    heard: str
    parts: list[Clause]
    expect: str | None
    elsewhere: Sequence[whereabouts.Piece] = ()
    """The pieces of the utterance that are not about the box at hand."""
    made: list[Act] = field(default_factory=list)
    left: list[Unread] = field(default_factory=list)
    place: int = 0
    corrective: bool = False
    """True behind a mark of correction: what comes next corrects."""
    described: bool = False
    """True where a box is described in any of the clauses."""

    def read(self) -> None:
        """Read every clause, in order."""
        self.described = whereabouts.describes_a_box(self.parts)
        while self.place < len(self.parts):
            clause = self.parts[self.place]
            if other := whereabouts.told_elsewhere(clause, self.elsewhere, self.heard, self.left):
                self.made.append(other)
                self.place += 1
                continue
            if clause.thing in (_NAMELESS if self._first else _WORDLESS):
                self.corrective = self.corrective or sums_up(clause, self.made)
                self._tell()
                continue
            if self._topic(clause) or self._opens(clause) or self._forbidden(clause):
                continue
            if self.place and sums_up(clause, self.made):
                self.corrective = True
            if self._contrast(clause) or self._mark(clause) or self._afterthought(clause):
                continue
            self._tell()

    def _tell(self) -> None:
        self.made += self._told(self.place, self.corrective)
        self.corrective = False

    @property
    def _first(self) -> bool:
        """Whether nothing was told before."""
        return all(isinstance(act, acts.Social) for act in self.made)

    @property
    def _last(self) -> bool:
        """Whether no clause follows."""
        return self.place + 1 == len(self.parts)

    def _told(self, place: int, corrective: bool) -> list[Act]:
        """The acts of the clause at a place; the reading goes on behind it."""
        self.place, told, weighty = clause_acts(
            self.parts, place, self.heard, corrective, self.described
        )
        self.left += weighty
        return told

    def _topic(self, clause: Clause) -> bool:
        """ "The box: 20": what follows is of the box."""
        if self._last or not BOX_TOPIC.match(clause.line):
            return False
        self.made += [of_the_box(act) for act in self._told(self.place + 1, True)]
        return True

    def _opens(self, clause: Clause) -> bool:
        """ "Kitchen island: …", "next one's the hall 3-way": what begins or opens a box."""
        opened = opening(self.parts, self.place, self.heard, self._first)
        if opened is None:
            return False
        self.made += opened[0]
        self.place += opened[1]
        return True

    def _forbidden(self, clause: Clause) -> bool:
        """ "Don't delete box one": an order behind "do not" leaves all as it is."""
        if (kept := forbidden_order(self.parts, self.place, self.heard)) is None:
            return False
        self.made.append(kept)
        self.place += 2
        return True

    def _contrast(self, clause: Clause) -> bool:
        """ "Not two, one", "not a switch, a dimmer"."""
        following = self.parts[self.place + 1 :]
        denied = denied_number(clause, following)
        if denied is not None or (following and denies_things(clause)):
            place, left = self.place, list(self.left)
            behind = self._told(place + 1, True)
            told = instead(denied, behind) if denied else denied_count(clause, following, behind)
            if told:
                self.made += told
                return True
            self.place, self.left = place, left
        if not following and denied_behind(clause, self.made):
            self.made = in_its_place(clause, self.made)
            self.place += 1
            return True
        if not following and (wrong := only_denied(clause, self.heard)):
            self.made += wrong
            self.place += 1
            return True
        if (contrast := not_but(clause, self.parts, self.place)) is not None:
            self.made.append(contrast)
            self.place += 2
            return True
        if not self._last and denied_first(clause):
            told = self._told(self.place + 1, True)
            self.made += restated_for(clause, told)
            return True
        return False

    def _mark(self, clause: Clause) -> bool:
        """A clause that only marks a correction; behind it, what is wrong may be unsaid."""
        quoted = not self._last and self._put_right(clause)
        if quoted or (MISQUOTED.fullmatch(clause.line) and (self.made or not self._last)):
            self.corrective = not self._last
            self.place += 1
            return True
        if passed := restating(self.parts, self.place):
            self.corrective = True
            self.place += passed
            return True
        if clause.closes == "?" or not is_marker(clause):
            return False
        if not self._last:
            self.corrective = True
            self.made += marker_acts(clause)
        elif self.expect != "confirm" and DISPUTE.search(clause.line):
            # what is wrong is yet to be said
            words = self.heard[slice(*clause.span)]
            self.made.append(acts.Mistaken(words=words, span=clause.span))
        else:
            return False
        self.place += 1
        return True

    def _put_right(self, clause: Clause) -> bool:
        """ "I said inside, but they're outside": what was said before is only repeated."""
        return quotes(clause.line) and self.parts[self.place + 1].line.startswith("but ")

    def _afterthought(self, clause: Clause) -> bool:
        """ "Three 12-2s, I mean"; "no" at the end, or by itself."""
        if (
            self.place
            and not any(COUNTS.search(part.line) for part in self.parts[self.place + 1 :])
            and TRAILING.fullmatch(clause.line)
            and self.parts[self.place - 1].closes in (",", "", "-")
        ):
            self.made = restated_after_all(self.made)
        elif is_marker(clause) and (plain := marker_acts(clause) or dispute(clause)):
            self.made += plain
        else:
            return False
        self.place += 1
        return True
