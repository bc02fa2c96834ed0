"""What is said in a roundabout way, read as its plain form: "the last two are 14-2 not 14-3" is
"two of the 14-3s are 14-2s"."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Unread, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.paraphrases import paraphrase
from boxaloud.grammar.utterance.numbered_headings import headed_by_number
from boxaloud.grammar.utterance.numbered_places import headed_by_place
from boxaloud.grammar.utterance.numbered_rooms import room_named

_LEAD = (
    r"(?:(?:hello|hi|hey|please|ok|okay|so|and|no|nope|oh|ah|uh|um|hmm?|well|wait|sorry|actually"
    r"|hang on|hold on|right|yeah|now|alright|shoot|dang|ugh|oops),? )*"
)
_ORDER = (
    r"(?:in (?:room |box |number )?[a-z0-9]+,? )?(?:swap|change|replace|switch|add|take|pull|remove"
    r"|drop|make|put|move|delete|throw|lose|give it|set|bring|run|feed|fish|stick|use|count)\b"
)
#: "Can you text the office, no forget it I'll call": asked of somebody, and of no box.
_OF_SOMEBODY = lazy_pattern(
    rf"\s*{_LEAD}one (?:of (?:them|those) )?(?:is|just|goes)\b[^0-9?]*\bcounts?,?"
    r" (?:right|huh|yeah)\s*[.!]?\s*|"
    rf"\s*{_LEAD}(?:can|could|will|would) (?:you|somebody|someone) (?:text|call|phone|email|tell"
    r"|ask|message|radio|page)\b[^0-9?]*,? (?:no|nah|nope|actually|never ?mind|forget)\b[^0-9?]*"
)
#: "Swap one of them for a 14-2, no never mind": the order is taken back before it is done.
_DROPPED = lazy_pattern(
    rf"\s*{_LEAD}{_ORDER}[^.;?]*?,? (?:(?:no|nah|nope|actually|wait|oh|hmm+|uh|um|er"
    r"|you know what|on second thought),? )+(?:never ?mind|forget (?:it|that|about it)"
    r"|leave (?:it|that)(?: alone| as is| be| like it is| the way it is| there)?|don't bother"
    r"|don't)(?:,? (?:never ?mind|leave it(?: alone)?|forget it|it's fine|please|sorry))*"
    r"\s*[.!]?\s*"
)
#: One of these stands in all that is said so.
_HINT = lazy_pattern(
    r"of (?:the|those|these|them)\b|last|those|they|these|\bgrounds?\b|\bring\b|measured|same one"
    r"|same cable|altogether|in all|total|going|moving|moved|one more|things|only|just|really"
    r"|actually|separate|mind|forget|leave|don't|counts?\b|\bback to"
)


def in_plain_form(
    heard: str, read: Callable[[str], Utterance], expect: str | None = None
) -> Utterance | None:
    """What is told of a box that is named by its room, or in a roundabout way; else None."""
    named = headed_by_number(heard, read) or room_named(heard, read) or headed_by_place(heard, read)
    return named or plainer(heard, read, expect)


def plainer(
    heard: str, read: Callable[[str], Utterance], expect: str | None = None
) -> Utterance | None:
    """What an utterance tells by its plain form; None for one that has none."""
    low = " ".join(heard.lower().replace("’", "'").split())
    if not _HINT.search(low):
        return None
    span = (0, len(heard))
    if _DROPPED.fullmatch(low) or _OF_SOMEBODY.fullmatch(low):
        return Utterance(heard, (acts.OtherTalk(words=heard, span=span),))
    if (plain := paraphrase(low, expect)) is None:
        return None
    told = read(plain)
    if not told.acts or any(run.weighty for run in told.unread):
        return None
    made = tuple(replace(act, span=span) for act in told.acts)
    return Utterance(heard, made, tuple(Unread(r.words, span, r.weighty) for r in told.unread))
