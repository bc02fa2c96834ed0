"""What is taken back by its place alone, or denied right behind it: "without the second and the
third now", "no there isn't" behind "there's a clamp inside"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation.counts_anew import pointing_at
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable, Conductors, Yoke

_PLACES = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7}
_NTH = rf"(?:{'|'.join(_PLACES)})"
_LEAD = (
    r"\W*(?:(?:ok|okay|so|and|now|then|no|wait|actually|well|um|uh|please|hello|hi|just|it's"
    r"|that's)\b\W*)*"
)
_WITHOUT = lazy_pattern(
    rf"{_LEAD}(?:without|minus|less|los(?:e|ing)|drop(?:ping)?|scratch"
    r"|tak(?:e|ing) (?:out|off|away)|remove|forget|pull|strike|delete|ditch|nix|leave out)"
    rf" (?P<nths>(?:the |that )?{_NTH}(?: one)?"
    rf"(?:(?:,| and|, and| or) (?:the |that )?{_NTH}(?: one)?)*)"
    r"(?: ones?)?(?:,? (?:now|too|again|then|please|out|off))*[\s.!]*"
)
_EACH = lazy_pattern(_NTH)
_DENIED = lazy_pattern(
    r"\W*(?:(?:oh|wait|sorry|actually|well|um|uh|ah|hello|hi|hang on|hold on)\b\W*)*"
    r"(?:(?:no|nope|nah)\b\W*)*(?:there(?:'s not| isn't| is not| aren't| are not| wasn't| was not"
    r"| isnt| arent| wasnt| ain't)"
    r"|it (?:isn't|is not|isnt|wasn't|hasn't|doesn't|ain't)"
    r"(?: (?:there|have (?:it|one|any|that)))?)"
    r"(?:,? (?:any|one|either|really|actually|after all|now|please))*[\s.!]*"
)


def taken_by_place(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance as what goes by it; else `read` as it is."""
    if state.pending or read.heard.rstrip().endswith("?"):
        return read
    words = read.heard.lower().replace("’", "'")
    if (found := _WITHOUT.fullmatch(words)) is not None:
        places = {_PLACES[one] for one in _EACH.findall(found["nths"])}
        line = _line(state, max(places))
        if line is None or line.count <= len(places):
            return read
        left = acts.Recount(
            target=pointing_at(line), count=line.count - len(places), words=read.heard.strip(),
            span=(0, len(read.heard)), function="correction",
        )  # fmt: skip
        return replace(read, acts=(left,), unread=())
    if _DENIED.fullmatch(words):
        return _denied(read, journal[-1], state)
    return read


def _line(state: State, most: int) -> Cable | Conductors | Yoke | None:
    """The line said last, of which there are so many; else the only one of which there are."""
    lines = [
        item
        for item in state.items
        if isinstance(item.content, Cable | Conductors | Yoke) and item.content.count >= most
    ]
    last = [item for item in lines if item.key == state.last]
    found = last or lines
    content = found[0].content if len(found) == 1 else None
    devices = [item.content for item in state.items if isinstance(item.content, Yoke)]
    if not (last or isinstance(content, Yoke)) and sum(one.count for one in devices) >= most:
        return None  # "the second one" may be the receptacle as well
    return content if isinstance(content, Cable | Conductors | Yoke) else None


def _denied(read: Utterance, before: Entry, state: State) -> Utterance:
    """What was told alone right before is not so, where no question is open that it may answer."""
    told = [act for act in before.acts if not isinstance(act, acts.Social | acts.OtherTalk)]
    if len(told) != 1 or before.weighty or before.heard.rstrip().endswith("?"):
        return read
    span, words = (0, len(read.heard)), read.heard.strip()
    act = told[0]
    if isinstance(act, acts.SetClamps) and act.where in ("inside", "present"):
        none = acts.SetClamps(where="none", words=words, span=span, function="correction")
        return replace(read, acts=(none,), unread=())
    if is_thing(act) and state.clamps != "unknown" and state.added:
        return replace(read, acts=(acts.Undo(words=words, span=span),), unread=())
    return read
