""" "That's a 14-3": said of what was just asked about, or of what came in last."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import item_changes, mentions, replacements
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers
from boxaloud.rules.contents import Cable, Yoke

_POINTS = lazy_pattern(
    r"(?i)(?:(?:oh|no|well|so|and|um|uh|yeah|yes|sorry|ok|okay|i think|i mean|actually|probably)"
    r"[\s,]+)*(?:that|it|this|that one|the last one|those|they)"
    r"(?: really| actually| truly| still| definitely| indeed)*(?:['’]?s|['’]?re| is| are| was"
    r"| were| would be| (?:should|must|was supposed|was meant|were supposed|has|had|needs|ought"
    r"|was going)(?: to)?(?: have)?(?: be| been))"
    r"(?! (?:[a-z]+ )?(?:all|both|each|every))\b"
    r"|[^,.;]*\b(?:it|that) (?:is|was)(?: then| after all)?\W*$"  # "fourteen two it is"
)
_CHANGES = frozenset(grammar_data.table("clauses")["other"]["change"])


def pointed(turn: Turn, act: acts.Restate) -> bool:
    """Take what is said of what was not understood, or of what came in last; False for others."""
    if _so_many_of_the_last(turn, act) or _said_instead(turn, act):
        return True
    if act.instead_of is not None or turn.supposed or _POINTS.match(act.words) is None:
        return False
    return (
        _of_the_unread(turn, act)
        or _of_the_last(turn, act)
        or _of_all_that_came_last(turn, act)
        or _of_one_cable(turn, act)
    )


_INSTEAD = lazy_pattern(
    r"(?i)(?:instead of|rather than|in place of|in lieu of|not) (?P<n>[a-z]+|\d{1,2})"
    r"(?:,? (?:please|then|now|thanks|actually|really))*\W*$"
)


def _so_many_of_the_last(turn: Turn, act: acts.Restate) -> bool:
    """ "Add two #14. Make it one #14 instead of two": of what came in last, and not of all."""
    state, count = turn.state, act.thing.count
    item, added = state.item(state.last), state.added
    if item is None or count is None or not 0 < added < item.content.count or turn.supposed:
        return False
    said = _INSTEAD.search(turn.heard, act.span[0])
    if said is None or numbers.value((said["n"].lower(),)) != added or state is not turn.began:
        return False
    if references.find(state, references.to_thing(act.thing)) != item:
        return False
    item_changes.recount(turn, item, item.content.count - added + count, act.words)
    if turn.state is not state:
        turn.state = altered(turn.state, added=count)
    return True


_NO = lazy_pattern(
    r"(?i)\s*(?:(?:hi|hey|hello|please|ok|okay|oh|um|uh|well|wait|sorry|oops|whoops|shoot)"
    r"[\s,.!]+)*(?:no|nope|oops|whoops|sorry)(?:[\s,.!]+(?:wait|sorry|no|i meant?))*[\s,.!]+$"
)


def _said_instead(turn: Turn, act: acts.Restate) -> bool:
    """ "Add a 14-3." "Make that a 14-2": in place of the one that came in last, and no count of
    those that were there before."""
    last = turn.state.item(turn.state.last)
    if last is None or turn.supposed or act.instead_of is not None or turn.state is not turn.began:
        return False
    if isinstance(act.thing, acts.AddDevice):
        return _is_one_device(last) and _one_instead(turn, act, act.thing, last)
    if not isinstance(act.thing, acts.AddCable) or _alike(last, act.thing):
        return False
    if isinstance(last.content, Cable):
        return last.content.count == 1 and _one_instead(turn, act, act.thing, last)
    article = _ONE.match(act.thing.words) is not None
    if not article or _NO.match(turn.heard[: act.thing.span[0]]) is None:
        return False
    several = any(_alike(one, act.thing) and one.content.count > 1 for one in turn.state.items)
    if several:  # "add a dimmer", "no, a 14-2", of two: one of them less, or one more?
        turn.unplaced.append(act.words)
    return several


#: "There's only a 14-2", "they're all 14-2": how many there are, or what all of them are.
_COUNTS = lazy_pattern(r"(?i)\b(?:only|just|all|both|every|they|those|these|there)\b")
_THAT = lazy_pattern(r"(?i)\b(?:that|it|this|the last)\b")


def _is_one_device(last: Item) -> bool:
    return isinstance(last.content, Yoke) and last.content.count == 1


def _one_instead(
    turn: Turn, act: acts.Restate, thing: acts.AddCable | acts.AddDevice, last: Item
) -> bool:
    """ "My mistake, 14-2", "I mean a switch", of one of another kind that came in last."""
    bare = thing.count is None and not _PLURAL.match(thing.words)
    if not bare and _ONE.match(thing.words.lower().removeprefix("only ")) is None:
        return False
    if _COUNTS.search(turn.heard[: thing.span[1]]) and _THAT.search(act.words) is None:
        return False
    others = [one for one in turn.state.items if one is not last]
    if not any(_alike(one, thing) for one in others):
        return False
    of_that = acts.Reference(references.kind_of(thing), item=last.key, count=1, words=act.words)
    one = replace(thing, count=1)
    replacements.replace_act(
        turn, acts.Replace(target=of_that, thing=one, words=act.words, span=act.span)
    )
    return True


_ONE = lazy_pattern(r"(?i)an? ")
_IT = lazy_pattern(
    r"(?i)(?:[a-z]+[\s,]+)*?(?:it|that)(?:['’]?s| (?:[a-z]+ )?(?:is|was))\b"
    r"|.*\b(?:it|that) (?:is|was)\b"
)
_PLURAL = lazy_pattern(r"(?i).*(?:s|cables)$")


def _of_one_cable(turn: Turn, act: acts.Restate) -> bool:
    """ "I was wrong, it's a 12-2", behind "one of those is a 12-3": the one that is another, and no
    count of the 12-2s. Of several that are all alike nobody can say what it means."""
    thing = act.thing
    if not isinstance(thing, acts.AddCable) or not _is_one(act, thing):
        return False
    cables = [one for one in turn.state.items if isinstance(one.content, Cable)]
    alike = [one for one in cables if _alike(one, thing)]
    others = [one for one in cables if one.content.count == 1 and not _alike(one, thing)]
    if not any(one.content.count > 1 for one in alike):
        return False
    last = [one for one in others if one.key == turn.state.last]
    meant = last or others
    if len(meant) != 1:
        turn.unplaced.append(act.words)
        return True
    of_that = acts.Reference("cable", item=meant[0].key, count=1, words=act.words)
    replacements.replace_act(
        turn, acts.Replace(target=of_that, thing=thing, words=act.words, span=act.span)
    )
    return True


def _is_one(act: acts.Restate, thing: acts.AddCable) -> bool:
    """ "It's a 12-2", "12-2 it is"."""
    single = thing.count is None and not _PLURAL.match(thing.words)
    return _ONE.match(thing.words) is not None or (single and _IT.match(act.words) is not None)


_THOSE = lazy_pattern(r"(?i)(?:[a-z]+,? )?(?:those|they|these)\b")


def _of_all_that_came_last(turn: Turn, act: acts.Restate) -> bool:
    """ "And there's two 14-3s. Those are actually 14-2": all of them, and not the others."""
    item, thing = turn.state.item(turn.state.last), act.thing
    if item is None or turn.state is not turn.began or _THOSE.match(act.words) is None:
        return False
    if not isinstance(item.content, Cable) or not isinstance(thing, acts.AddCable):
        return False
    same = (thing.awg, thing.conductors) == (item.content.awg, item.content.conductors)
    whole = turn.state.added == item.content.count and thing.count in (None, item.content.count)
    if same or not whole or thing.awg is None:
        return False
    others = [one for one in turn.state.items if isinstance(one.content, Cable) and one is not item]
    if not any(_alike(one, thing) for one in others):
        return False  # there is nothing else that it could be said of
    of_those = acts.Reference("cable", item=item.key, words=act.words)
    replacements.replace_act(
        turn, acts.Replace(target=of_those, thing=thing, words=act.words, span=act.span)
    )
    return True


def _alike(item: Item, thing: acts.AddCable | acts.AddDevice) -> bool:
    content = item.content
    if isinstance(thing, acts.AddDevice):
        return isinstance(content, Yoke) and content.name == thing.name
    return isinstance(content, Cable) and (content.awg, content.conductors) == (
        thing.awg, thing.conductors,
    )  # fmt: skip


def _of_the_unread(turn: Turn, act: acts.Restate) -> bool:
    """The answer to "what is the home run?" is of that, and of nothing that is there. Where a
    change was not understood it may be of what is there."""
    unread = turn.began.unread
    if turn.first_asked != "unread" or not unread or act.thing.words == act.words:
        return False
    said = {word for run in unread for word in run.lower().split()}
    if said & _CHANGES or all(word.isdigit() for word in said):
        return False
    mentions.mention(turn, act.thing)
    return True


def _of_the_last(turn: Turn, act: acts.Restate) -> bool:
    """ "Another cable goes up. That's a 14-3": the ones that came in last, and not all of them."""
    state = turn.state
    item, added = state.item(state.last), state.added
    if item is None or not 0 < added < item.content.count or state is not turn.began:
        return False
    if not isinstance(item.content, references.TYPES[references.kind_of(act.thing)]):
        return False
    if act.thing.count not in (None, added):
        return False
    replacements.replace_some(turn, item, added, act.thing)
    return True
