"""How a box would stand with what is supposed, over everything that it leaves open."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.assessment import Assessment, assess
from boxaloud.assistant.dialogue.belief.held_figures import is_held
from boxaloud.assistant.dialogue.nlg.sentences import joined, marked, say, volume
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import PartialBox
from boxaloud.assistant.dialogue.tracker import table_box
from boxaloud.rules.contents import TableBox


def total_of(found: Assessment) -> str:
    """The total, or the least and the greatest where it hangs on what is open."""
    unit = found.sheet.unit
    if found.low == found.high:
        return volume(found.low, unit)
    return say("what_if.range", low=volume(found.low, unit), high=volume(found.high, unit))


def outcome(state: State, now: State) -> str:
    """A total, and the margin where there is one, in a few words.

    It never says "fits" while words of the box as it is `now` are unread or wait to be confirmed,
    nor of what may be over when it is known what is open.
    """
    found = assess(state)
    total, sheet = total_of(found), found.sheet
    if sheet.capacity is None:
        return say("what_if.total", total=total)
    exact = found.low == found.high
    if found.low > sheet.capacity:
        margin = volume(found.low - sheet.capacity, sheet.unit)
        return say("what_if.over" if exact else "what_if.over_least", total=total, margin=margin)
    if found.high > sheet.capacity:
        return say("what_if.open", total=total)
    margin = volume(sheet.capacity - found.high, sheet.unit)
    if is_held(now):
        return say("what_if.held", total=total, margin=margin)
    return say("what_if.margin" if exact else "what_if.margin_least", total=total, margin=margin)


def each_depth(supposed: State, partial: PartialBox, now: State) -> str:
    """A box named without its depth: every depth with its outcome."""
    told = []
    for row in table_box.rows_of(partial):
        part = TableBox(row.id, partial.gangs)
        found = assess(replace(supposed, box=(part,), partial=None))
        capacity = found.sheet.capacity or row.volume
        if found.low > capacity:
            key, margin = "what_if.each_over", found.low - capacity
        elif found.high > capacity:
            key, margin = "what_if.each_open", capacity - found.low
        else:
            key = "what_if.each_held" if is_held(now) else "what_if.each_margin"
            margin = capacity - found.high
        told.append(say(key, row=row.name, volume=marked(row.volume), margin=volume(margin)))
    total = total_of(assess(supposed))
    return say("what_if.each", total=total, new=joined(told, by="; "), now=outcome(now, now))
