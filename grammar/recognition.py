"""Dialogue act recognition: words in, acts out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from grammar import acts
from grammar.acts import Act, Unread, Utterance
from grammar.clauses import clauses
from grammar.understanding import understand
from grammar.utterance.clause_acts import clause_acts
from grammar.utterance.headings import (
    BOX_TOPIC,
    LETTERED,
    NUMBERED,
    box_heading,
    of_the_box,
)
from grammar.utterance.layout import plain_layout, single_spaced, trimmed
from grammar.utterance.markers import (
    DISPUTE,
    TRAILING,
    dispute,
    is_marker,
    marker_acts,
    not_but,
    restated_after_all,
    without_asides,
)
from grammar.utterance.other_talk import small_talk
from grammar.utterance.wholes import tidied, without_empty_undo
from grammar.words import Word


def recognise(
    words: str | Sequence[Word],
    expect: str | None = None,
    aliases: Mapping[str, str] | None = None,
) -> Utterance:
    """The dialogue acts of an utterance, in the order said, and what was not read.

    `expect` names the open question (`box`, `clamps`, `device_size` …) and only breaks ties
    between readings of a bare answer. `aliases` are a person's own words and what they mean.
    """
    if isinstance(words, str):
        words = single_spaced(words)
        laid = plain_layout(words)
        found = understand(laid, expect, aliases)
        if laid is not words:
            found = replace(found, heard=words)
    else:
        found = understand(trimmed(words), expect, aliases)
        laid = found.heard
    if letter := LETTERED.fullmatch(found.heard.strip().lower()):
        return Utterance(
            found.heard,
            (acts.NextBox(name=letter[1], words=found.heard, span=(0, len(found.heard))),),
        )
    if social := small_talk(found.heard):
        return Utterance(found.heard, (social,))
    made: list[Act] = []
    left: list[Unread] = []
    parts = without_asides(clauses(laid, found.statements))
    place = 0
    corrective = False
    while place < len(parts):
        clause = parts[place]
        if BOX_TOPIC.match(clause.line) and place + 1 < len(parts):
            place, told, weighty = clause_acts(parts, place + 1, found.heard, True)
            made += [of_the_box(act) for act in told]
            left += weighty
            continue
        if not place and (name := box_heading(clause, parts, found.heard)):
            made.append(acts.NextBox(name=name, words=name, span=clause.span))
            place += 1
            continue
        if (
            not place
            and len(parts) > 1
            and clause.closes in (".", ":", ";", "\n")
            and NUMBERED.fullmatch(clause.line)
        ):
            place += 1  # "Number six. Two 14-3s …": a heading
            continue
        if (
            place
            and clause.line.startswith("so ")
            and any(act.function == "correction" for act in made)
            and clause.mood == "declarative"
        ):
            corrective = True  # "… so three 14-2s and one 14-3" sums up what is now
        if (contrast := not_but(clause, parts, place)) is not None:
            made.append(contrast)
            place += 2
            continue
        if (
            clause.line.startswith("not <")
            and clause.closes in (",", ".", ";", "-")
            and len(clause.elements) < 4
            and place + 1 < len(parts)
        ):
            place, told, weighty = clause_acts(parts, place + 1, found.heard, True)
            made += told
            left += weighty
            continue
        if is_marker(clause) and place + 1 < len(parts) and clause.closes not in ("?",):
            corrective = True
            made += marker_acts(clause)
            place += 1
            continue
        if (
            is_marker(clause)
            and expect != "confirm"
            and DISPUTE.search(clause.line)
            and clause.closes != "?"
        ):
            # what is wrong is yet to be said
            words = found.heard[clause.span[0] : clause.span[1]]
            made.append(acts.Mistaken(words=words, span=clause.span))
            place += 1
            continue
        if (
            place
            and place + 1 == len(parts)
            and TRAILING.fullmatch(clause.line)
            and parts[place - 1].closes in (",", "", "-")
        ):
            made = restated_after_all(made)  # "three 12-2s, I mean"
            place += 1
            continue
        if is_marker(clause) and (plain := marker_acts(clause) or dispute(clause)):
            made += plain  # "no" at the end, or by itself
            place += 1
            continue
        place, told, weighty = clause_acts(parts, place, found.heard, corrective)
        made += told
        left += weighty
        corrective = False
    if found.passed:
        left = [
            run
            for run in left
            if not any(s <= run.span[0] and run.span[1] <= e for s, e in found.passed)
        ]
    made, left = tidied(made, left, parts, found.heard)
    made = without_empty_undo(made)
    return Utterance(found.heard, tuple(made), tuple(left))
