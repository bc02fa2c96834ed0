"""Acts that change nothing by themselves: "leave it in", chatter, unknown verbs, "that's wrong"."""

from __future__ import annotations

import re

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.tracker import cable_purposes, removals, restorations
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable, Conductors

_ARTICLE = re.compile(r"(?:the|that|this|an?|one) ", re.IGNORECASE)


def keep(turn: Turn, act: acts.Keep) -> None:
    """ "Don't remove the receptacle": everything stays; "leave it in", "keep the timer", of what
    was just taken out: it comes again."""
    if removals.just_taken(turn) and (_LEFT_IN.match(act.words) or _keeps_that(turn, act)):
        restorations.put_back(turn, acts.PutBack(target=acts.Reference(), words=act.words))
        return
    turn.state = altered(turn.state, mistaken=False)
    turn.answer(say("echo.kept"), act.words)


_LEFT_IN = re.compile(
    r"(?i)(?:(?:no|just|let['’]?s|we['’]ll|i['’]ll|i|we|will|please|and),? )*"
    r"(?:leave|leaving|keep|keeping)"
    r" (?:it|that|them|those|that one|the \w+(?: \w+)?)(?: back)? in\b"
)


_KEPT = re.compile(
    r"(?i)(?:(?:no|just|let['’]?s|we['’]ll|i['’]ll|i['’]m|we['’]re|i|we|will|please|and|but|ok|so"
    r"),? )*(?:keep|keeping)"
    r" (?:(?:it|that|them|those|that one)|(?:the|that|those|my) (?P<what>[a-z -]+?))"
    r"(?: (?:then|after all|instead|please|though|too))*[.!]*"
)


def _keeps_that(turn: Turn, act: acts.Keep) -> bool:
    """Whether what is to be kept is what was just taken out."""
    kept = _KEPT.fullmatch(act.words.strip())
    if kept is None:
        return False
    name = item_names.heard(turn.state.recalled[-1].content).lower()
    return kept["what"] is None or kept["what"].lower().rstrip("s") in name


def unknown(turn: Turn, act: acts.UnknownOperator) -> None:
    """An unknown verb beside a thing: of what is there, asked with choices; else it comes in."""
    if references.find(turn.state, references.to_thing(act.thing)) is None:
        turn.ahead.insert(0, act.thing)
        return
    held_acts.wait(turn, act, "", "operator")


def mistaken(turn: Turn, act: Act) -> None:
    """ "That's wrong": no verdict stands until it is said what, or "skip"."""
    state = turn.state
    turn.understood.append(act.words)
    if state.items or state.box or state.partial:
        turn.state = altered(state, mistaken=True)
    else:
        turn.social.append(say("fine"))


def social(turn: Turn, act: acts.Social) -> None:
    """Thanks, greetings, pauses: let pass in a word."""
    turn.social.append(say(f"social.{act.what}"))
    turn.understood.append(act.words)


_FORGOTTEN = lazy_pattern(
    r"(?i)(?:(?:no|nah|ok|okay|well|actually|wait|so|and),? )*(?:just )?"
    r"(?:never mind|forget|scratch|skip|drop|lose|ditch|cancel|scrap|nix)(?: about)? "
    r"(?:the|that) (?P<what>[a-z]+(?: [a-z]+){0,2})"
)


def other_talk(turn: Turn, act: acts.OtherTalk) -> None:
    """Talk about something else: nothing of it is entered; "forget the pond pump" takes out the one
    cable that was said to be for it."""
    named = _FORGOTTEN.fullmatch(act.words.strip(" .!,"))
    if named is not None and cable_purposes.is_for(turn.state, named["what"]):
        target = acts.Reference(words=f"the {named['what']}")
        removals.remove(turn, acts.Remove(target=target, words=act.words, span=act.span))
        return
    turn.social.append(say("social.other"))
    turn.understood.append("")


def described(act: acts.UnknownOperator, turn: Turn) -> str:
    """The thing that an unknown verb stood before, as it is in the box."""
    item = references.find(turn.state, references.to_thing(act.thing))
    if item is None or isinstance(item.content, (Cable, Conductors)):
        return _ARTICLE.sub("", act.thing.words, count=1)
    return item_names.bare(item.content)
