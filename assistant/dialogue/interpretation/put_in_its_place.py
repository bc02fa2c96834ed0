"""What comes in place of what was brought last, named by a pronoun alone: "instead of that one I'll
bring a 14-2", "put a 14-2 in its place", where one like it is there already."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Thing, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable, Yoke

_THAT = r"(?:that|it|this|them|that last|the last)(?: one)?"
_INSTEAD = lazy_pattern(
    rf"(?i)\b(?:instead|in place|in lieu)(?: of {_THAT})?\s*(?:$|[,.;!]|(?:i|we|he|she|they|put"
    r"|bring|run|use)\b)|\bin (?:its|that one['’]s) (?:place|stead)\b"
)
#: It is no order, is of more than one, or of something that is named.
_OPEN = lazy_pattern(
    r"(?i)\?|\b(?:if|would|could|should|might|maybe|suppose|supposing|say|imagine|pretend|not|never"
    r"|another|more|also|too|as well|both|all|what|how)\b|n['’]t\b"
)
_KINDS: dict[type[Act], type] = {acts.AddCable: Cable, acts.AddDevice: Yoke}


def put_in_its_place(read: Utterance, state: State) -> Utterance:
    """The utterance as one of what came last becoming another; else `read` as it is."""
    if state.pending or not state.items or any(run.weighty for run in read.unread):
        return read
    thing = _brought(read)
    last = state.item(state.last)
    if thing is None or last is None or not state.added:
        return read
    if not _INSTEAD.search(read.heard) or _OPEN.search(read.heard):
        return read
    like = replace(references.to_thing(thing), count=None)
    is_other = isinstance(last.content, _KINDS[type(thing)]) and not references.agrees(last, like)
    if not is_other or not any(references.agrees(item, like) for item in state.items):
        return read  # another reading knows what one is that is not there yet
    act = acts.Replace(
        target=Reference(kind=like.kind, item=last.key, count=1), thing=thing,
        words=read.heard.strip(), span=(0, len(read.heard)), function="correction",
    )  # fmt: skip
    return replace(read, acts=(act,), unread=())


def _brought(read: Utterance) -> Thing | None:
    """The only thing that is told, one of it."""
    told = [act for act in read.acts if not isinstance(act, acts.Social | acts.Yes | acts.No)]
    thing = told[0] if len(told) == 1 else None
    if isinstance(thing, acts.Restate):
        thing = thing.thing if thing.instead_of is None else None
    if thing is None or not is_thing(thing) or type(thing) not in _KINDS:
        return None
    return thing if getattr(thing, "count", None) == 1 and not thing.doubts else None
