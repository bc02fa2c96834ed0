""" "Take out one of the 14-2s", "scratch the switch": what is there comes out."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import (
    reference_ambiguity,
    references,
    wire_colors,
)
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import (
    cable_purposes,
    clamps,
    counted_parts,
    grounds,
    item_changes,
    more_of_those,
    removals_said_over,
    same_again,
)
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable

IT = re.compile(
    r"(?i)(?:it|that)(?:['’]?s)?|(?:that|the last|that last) one|(?:it|that) is|that was"
)
"""Words for what came in last, and no more of it."""
_THESE = re.compile(r"(?i)(?:those|these|them|['’]?em|they)(?:['’]?re| are)?")
"""Words for what came in last, where several did."""

#: "Another run goes out the top": one more that leaves, and none that is taken out.
_FURTHER = lazy_pattern(
    r"(?i)(?:another|one more|yet another|(?:a|the) (?:third|fourth|fifth))\b"
    r"(?!.*\b(?:yank|pulled|took|taken|cut|ripp?|remov|delet|ditch|scrap|gone\b|not\b|n['’]t\b"
    r"|(?:pull|tak(?:e|ing)|lift|haul|los(?:e|ing)|drop)\w* (?:it|that)\b"
    r"|(?:to|must|should) (?:go|come (?:back )?out|leave)"
    r"(?: too?| as well| also| then| now)*\W*(?:,|$)))"
)


def remove(turn: Turn, act: acts.Remove) -> None:
    """ "Take out one of the 14-2s", "scratch the switch"."""
    if _of_clamps(turn, act) or _of_further(turn, act) or removals_said_over.said_over(turn, act):
        return
    pronoun = act.target.kind == "anything" and act.target.count is None
    if pronoun and _THESE.fullmatch(act.target.words.strip()) and same_again.taken_out(turn, act):
        return
    act = removals_said_over.that_goes_by(turn, act)
    target = reference_ambiguity.resolved(turn.state, removals_said_over.those_of_late(turn, act))
    if target is None:
        reference_ambiguity.ask_which(turn, act)
        return
    if _of_box(turn, target, act):
        return
    if _never_told(turn, target) or _of_a_colour(turn, target):
        turn.unplaced.append(act.words)
        return
    target = _whole_cables(turn, target)
    item = references.find(turn.state, target)
    if item is None and target.kind == "grounds":
        grounds.unground_one(turn, act)
    elif item is None and target.kind == "fixture_wires":  # "leave the fixture wires out"
        turn.enter(turn.state, say("echo.no_fixture_wires"), act.words)
    elif item is None and (_gone_in_this_breath(turn, target) or _before_told(turn, target)):
        turn.understood.append(act.words)
    elif item is None:
        item_changes.not_found(turn, target, act.words)
    elif _means_all(turn, target):
        for one in references.find_all(turn.state, target):
            item_changes.recount(turn, one, 0, act.words)
    else:
        _remove_some(turn, item, target, act)


def _never_told(turn: Turn, target: Reference) -> bool:
    """Whether those are named of which nothing in the box was told by that name."""
    named = target.kind == "anything" and references.named_ones(target.words)
    return bool(named) and not references.by_words(turn.state, target.words)


def _of_a_colour(turn: Turn, target: Reference) -> bool:
    """ "Take the reds out": how many of the conductors that are there are red is not kept, so that
    it is asked, and never all of them are taken out: each counts, 314.16(B)(1)."""
    if target.kind != "conductors" or target.count is not None or target.awg is not None:
        return False
    found = references.find_all(turn.state, target)
    return wire_colors.names_color(target.words) and sum(i.content.count for i in found) > 1


def _whole_cables(turn: Turn, target: Reference) -> Reference:
    """ "Both twelves are out of here", of two 12-2s where no wires are by themselves: as many as
    there are cables of that size."""
    if target.kind != "conductors" or target.awg is None or references.find_all(turn.state, target):
        return target
    cables = replace(target, kind="cable", count=None, words="")
    found = references.find_all(turn.state, cables)
    many = sum(item.content.count for item in found)
    return replace(cables, count=many) if len(found) == 1 and many == target.count else target


def just_taken(turn: Turn) -> bool:
    """Whether what was said last took something out."""
    last = turn.history.last if turn.history is not None and not turn.history.idle else None
    now = turn.state.recalled
    return last is not None and bool(now) and last.state.recalled != now


#: "Another one goes out": a way on from the box, and no order.
_LEAVES = lazy_pattern(
    r"(?i)(?:[a-z]+,? )*?(?:another|one more)(?: one)?"
    r" (?:goes|heads|leaves|runs|comes|feeds|continues)(?: back| right| on)*(?: out| off| on)?\W*"
)


_ONE_OUT = lazy_pattern(
    r"(?i)(?:[a-z]+,? )*?(?:another|(?:one|two|three|[1-3]) more)(?: one)?(?: of (?:them|those))?"
    r"(?P<out>(?: (?:out|off|away|gone|to go|comes out|goes))?)(?: too| also| please| now)*\W*"
)


def further(turn: Turn, act: acts.More) -> None:
    """ "Pull one cable … one more out": of what was just taken out, one more; "and another" may be
    either, and is asked. Behind anything else it comes in."""
    if act.target.which == "all":
        same_again.again(turn, act)
        return
    more = _ONE_OUT.fullmatch(act.words.strip()) if just_taken(turn) else None
    if more is None or act.target.kind not in ("anything", "wire"):
        more_of_those.more(turn, act)
        return
    taken = turn.state.recalled[-1].content
    like = [one for one in turn.state.items if replace(one.content, count=taken.count) == taken]
    if not more["out"] or len(like) != 1 or like[0].content.count < (act.count or 1):
        turn.unplaced.append(act.words)
        return
    item_changes.recount(turn, like[0], like[0].content.count - (act.count or 1), act.words)


def _of_further(turn: Turn, act: acts.Remove) -> bool:
    """Whether one more that leaves is spoken of, or one for what is not known, and none that is
    to be taken out."""
    leaves = _FURTHER.match(act.words) or _LEAVES.fullmatch(act.words.strip())
    further = leaves and not _came_in_last(turn, act.target)
    if not further and not cable_purposes.unknown(turn.state, act.target):
        return False
    if further and _leaves_too(turn, act):
        turn.ahead.insert(0, acts.More(target=Reference(), count=1, words=act.words, span=act.span))
    else:
        turn.unplaced.append(act.words)
    return True


def _leaves_too(turn: Turn, act: acts.Remove) -> bool:
    """ "A 14-2 comes in … and another one goes out": one more of the cable that was said last.
    Right behind something that was taken out it may be one more of those, and is asked."""
    item = turn.state.item(turn.state.last)
    if item is None or not isinstance(item.content, Cable) or just_taken(turn):
        return False
    return act.target.kind == "anything" and _LEAVES.fullmatch(act.words.strip()) is not None


def _came_in_last(turn: Turn, target: Reference) -> bool:
    """ "And a fifth 12-2 … the fifth one comes out": the one that came in behind four others."""
    item = references.find(turn.state, target)
    told = target.words.lower().startswith("the ")  # "a fifth one" is one more
    if item is None or not told or target.ordinal != item.content.count:
        return False
    return item.key == turn.state.last and turn.state.added == 1 < item.content.count


def _gone_in_this_breath(turn: Turn, target: Reference) -> bool:
    """ "That's not a stud, take the stud off": what was denied, or taken back, a moment ago."""
    taken = any(isinstance(one, (acts.Deny, acts.Undo)) for one in turn.done)
    return taken and references.find(turn.began, target) is not None


def _before_told(turn: Turn, target: Reference) -> bool:
    """ "Took out one 14-2, that leaves three": out before any was told; what is left is told."""
    following = turn.ahead[0] if turn.ahead else None
    if following is None or not counted_parts.left_first(following, turn.state):
        return False
    left = following.target if isinstance(following, acts.Recount) else None
    return left is not None and (left.awg, left.conductors) == (target.awg, target.conductors)


def _of_clamps(turn: Turn, act: acts.Remove) -> bool:
    """ "Clamps inside … I took them out": the clamps that were said last, and no cables."""
    target = act.target
    if turn.state.last != "clamps" or target.kind != "anything" or target.count is not None:
        return False
    if target.ordinal is not None or target.words.lower().strip() not in _THEM:
        return False
    if any(isinstance(one, acts.SetClamps) for one in turn.done) and turn.state.clamps == "none":
        turn.understood.append(act.words)  # "no clamps now, I took them out"
        return True
    if turn.state.clamps in ("inside", "moulded") or turn.state.clamps_mentioned:
        clamps.set_clamps(turn, "none")
        return True
    return False


_THEM = frozenset({"them", "those", "these", "they", "both", "both of them", "them both"})


def _of_box(turn: Turn, target: Reference, act: acts.Remove) -> bool:
    """Take off a ring, cover or barrier, where one is meant; False where none is."""
    one = target.count in (None, 1)
    last = target.kind == "anything" and one and turn.state.last == "box"
    part = target.kind in ("part", "barrier") or last
    return part and (remove_part(turn, target, act) or target.kind == "barrier")


def _means_all(turn: Turn, target: Reference) -> bool:
    """Whether all that a reference can mean is meant: "both cables"; "the switches" where a
    switch and a three-way switch are there."""
    if target.which in ("all", "both"):
        return target.kind != "anything"
    named = target.kind == "device" and target.name not in (None, "device")
    if not named or target.ordinal is not None or target.count is not None:
        return False
    return references.plural(target.words) and len(references.find_all(turn.state, target)) > 1


def _remove_some(turn: Turn, item: Item, target: Reference, act: acts.Remove) -> None:
    """Take out as many of an item as are meant."""
    out = references.meant(item, target)
    pronoun = target.kind == "anything" and target.count is None
    if pronoun and IT.fullmatch(act.target.words.strip()):
        added = turn.state.added
        one = act.target.words.lower().endswith(" one")  # of two more, "the last one" is one
        out = (1 if one else added) if 0 < added < item.content.count else out
    if pronoun and _THESE.fullmatch(act.target.words.strip()) and item.key == turn.state.last:
        added = turn.state.added  # "another two 14s … take those off": those two
        out = added if 1 < added < item.content.count else out
    if pronoun and references.named_ones(act.target.words) and ";" in item.words:
        if item.key != turn.state.last or not 0 < turn.state.added < item.content.count:
            turn.unplaced.append(act.words)  # which of them are for that is not known
            return
        out = turn.state.added
    if out > item.content.count:
        _remove_across(turn, item, out, target, act.words)
        return
    item_changes.recount(turn, item, item.content.count - out, act.words)


def _remove_across(turn: Turn, item: Item, out: int, target: Reference, words: str) -> None:
    """ "Take out two switches" where a switch and a three-way switch are there: both of them; of
    more than that many it is asked which."""
    found = references.find_all(turn.state, target)
    units = sum(one.content.count for one in found)
    if units < out:
        item_changes.fewer(turn, item)
        return
    if units > out:
        turn.unplaced.append(words)
        return
    for one in found:
        item_changes.recount(turn, one, 0, words)


def _is_called(label: str, target: Reference) -> bool:
    """Whether a part is meant by its name; a ring without a kind is any ring that is there."""
    plain = re.search(r"\b(?:plaster|mud|device)\b", target.words.lower()) is None
    ring = "ring" in (target.name or "") and "ring" in label and plain
    return ring or references.same_name(label, target.name or "")


def remove_part(turn: Turn, target: Reference, act: Act) -> bool:
    """Take a ring, cover or barrier off again; False where there is none."""
    extras = turn.state.extras
    name = target.name
    for part in reversed(extras):
        label = getattr(part, "label", "barrier")
        if target.kind == "anything" or name is None or _is_called(str(label), target):
            rest = tuple(other for other in extras if other is not part)
            state = altered(turn.state, extras=rest, last="box")
            turn.enter(state, say("echo.taken_out", what=item_names.part(part)))
            return True
    if target.kind in ("part", "barrier"):
        item_changes.not_found(turn, target, act.words)
        return True
    return False
