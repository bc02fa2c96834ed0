"""What is said in a roundabout way, read as its plain form: "the last two are 14-2 not 14-3" is
"two of the 14-3s are 14-2s"."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Unread, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.numbered_rooms import room_named

_LEAD = (
    r"(?:(?:hello|hi|hey|please|ok|okay|so|and|no|nope|oh|ah|uh|um|hmm?|well|wait|sorry|actually"
    r"|hang on|hold on|right|yeah|now|alright|shoot|dang|ugh|oops),? )*"
)
_END = r"(?:,? (?:please|thanks|thank you|sorry|man|boss))*\s*[.!]?"
_N = (
    r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    r"|sixteen|eighteen|twenty|[1-9]|1[0-9]|20)"
)
_SIZE = r"(?:number |#)?(?:fourteen|twelve|ten|eight|six|14|12|10|8|6)"
_SIZES = r"(?:fourteens|twelves|tens|eights|sixes|14s|12s|10s|8s|6s)"
_CABLE = r"(?:14|12|10|8|6)[-/ ][234]"
_PARTS = r"(?:half|quarter|eighth|three quarters|\d/\d)"
_DEPTH = rf"(?:one|two|three|[1-3])(?: inch(?:es)?)?(?: and)? (?:an? )?{_PARTS}"
_GONE = r"(?:gone|out|pulled(?: out)?|removed|cut out|taken out|out of there)"
_ELSEWHERE = r"(?:somewhere else|someplace else|elsewhere|to another box|in another box)"

#: A way to say it, and its plain form.
_WAYS = tuple(
    (lazy_pattern(rf"{_LEAD}{said}{_END}"), plain)
    for said, plain in (
        (
            rf"(?:those|they|these|all of (?:them|those))(?:'re| are| were)(?: all| both| really"
            rf"| actually)* (?P<size>{_SIZES})",
            "make those {size}",
        ),
        (
            rf"(?:the )?(?P<size>{_SIZES}) (?:are|is|were)(?: only| just| really| actually)+"
            rf" (?P<n>{_N})",
            "there are only {n} {size}",
        ),
        (
            rf"the last (?P<n>{_N}) (?:are|were)(?: really| actually)? (?P<new>{_CABLE})s?,? not"
            rf" (?P<old>{_CABLE})s?",
            "{n} of the {old}s are {new}s",
        ),
        (
            rf"(?P<n>{_N}) of the {_N} (?P<does>(?:are|go|run|is|goes|pass)\b[^,?]*?through)"
            r"(?:,? (?:not spliced|no splices?|unspliced|uncut|without a splice))?"
            r"(?:,? (?:does (?:that|it) matter|is that a problem))?",
            "{n} of them {does}",
        ),
        (
            rf"(?P<n>{_N}) of (?:those|the|these) (?P<of>[a-z0-9/ -]+?) (?:is|are|was|were)"
            rf"(?: all| both| now| capped off| dead| cut| and)* {_GONE}(?:,? so (?:just )?{_N})?",
            "take out {n} of those {of}",
        ),
        (
            rf"(?P<a>an? [a-z]+) and (?P<b>an? [a-z]+), {_N} (?:things|of them|separate things)",
            "no, {a} and {b}",
        ),
        (
            r"(?:(?:plus|also|there's) )?(?:a |the )?(?:switch(?:ed)? leg|hot|neutral|travell?er"
            rf"|feed|spare|return), (?P<more>one more (?:{_SIZE}|{_CABLE}))",
            "{more}",
        ),
        (
            r"(?:i'm told |they say |they said |he says |i guess )?(?:the|that)"
            rf" (?P<of>(?!box|clamp|ring)[a-z -]+?)(?:'s| is)"
            rf" (?:going|moving|getting moved|supposed to go) {_ELSEWHERE}"
            r"(?P<rest>(?:,? no devices?)?)",
            "take out the {of}{rest}",
        ),
        (
            rf"grounds?[,:]?(?: are| is| there's| i see)? (?P<n>{_N}) (?P<size>{_SIZE})s?",
            "{n} {size} grounds",
        ),
        (
            rf"(?:the )?(?:mud |plaster )?ring (?:says|is|reads|was)(?: actually| really)?"
            rf" (?P<n>{_N}(?: and a half)?)(?: cubic inch(?:es)?)?(?:,? not {_N})?",
            "the ring is marked {n} cubic inches",
        ),
        (
            rf"(?:i |just |we )*measured(?: it| that)?,?(?: it's| it is)? (?P<n>{_DEPTH})"
            r"(?: deep)?",
            "it's {n} deep",
        ),
        (
            rf"{_N} of the {_N} (?:turn(?:s|ed) out to be|is|was|are|were)(?: really| actually)*"
            rf" (?:an? )?(?:{_CABLE}|three way|single pole)s?"
            rf"(?: and (?:it's got|it has) an? {_CABLE})?,?"
            rf" so (?P<list>{_N} (?:[a-z]+ )?{_CABLE}.*)",
            "it's {list}",
        ),
        (
            r"(?:that's|it's|that was) the same (?:one|cable)(?: that)?(?: i)?(?: already| just)?"
            r"(?: counted| said| had| told you about)?(?: before| already)?,?(?: so)?(?: it's)?"
            rf" (?P<n>{_N})",
            "so {n} altogether",
        ),
        (
            r"(?:the )?[a-z ]+ ones? (?:get|got|are|were|is|gets) (?:pulled|taken|cut|pulling)"
            rf"(?: back)? out,? (?:so )?back (?:down )?to (?P<n>{_N})",
            "so {n} altogether",
        ),
        (
            rf"(?P<x>(?:another|one more) {_CABLE}) (?:is|might be|could be) (?:coming|going in)"
            r" (?:tomorrow|later|next week|soon|monday),? (?:would|will|does|could) (?:that|it|one)"
            r" (?:go|fit|work|be ok|be okay)",
            "would {x} fit",
        ),
        (
            rf"(?:add|put in|just) {_N},? so (?P<n>{_N}) (?:altogether|in all|total|in total)",
            "so {n} altogether",
        ),
    )
)
_ORDER = (
    r"(?:in (?:room |box |number )?[a-z0-9]+,? )?(?:swap|change|replace|switch|add|take|pull|remove"
    r"|drop|make|put|move|delete|throw|lose|give it|set)\b"
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
    rf"\s*{_LEAD}{_ORDER}[^.;?]*?,? (?:(?:no|nah|nope|actually|wait|oh|you know what|on second"
    r" thought),? )+(?:never ?mind|forget (?:it|that|about it)|leave (?:it|that)(?: alone| as is"
    r"| be| like it is| the way it is| there)?|don't bother|don't)"
    r"(?:,? (?:never ?mind|leave it(?: alone)?|forget it|it's fine|please|sorry))*\s*[.!]?\s*"
)
_HINT = lazy_pattern(
    r"of (?:the|those|these|them)\b|last|those|they|these|\bgrounds?\b|\bring\b|measured|same one"
    r"|same cable|altogether|in all|total|going|moving|moved|one more|things|only|just|really"
    r"|actually|separate|mind|forget|leave|don't|counts?\b|\bback to"
)


def in_plain_form(
    heard: str, read: Callable[[str], Utterance], expect: str | None = None
) -> Utterance | None:
    """What is told of a box that is named by its room, or in a roundabout way; else None."""
    return room_named(heard, read) or plainer(heard, read, expect)


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
    for way, plain in _WAYS:
        said = way.fullmatch(low)
        if said is None or (plain.startswith("make those") and expect == "device_size"):
            continue
        told = read(plain.format(**{k: v or "" for k, v in said.groupdict().items()}))
        if not told.acts or any(run.weighty for run in told.unread):
            return None
        made = tuple(replace(act, span=span) for act in told.acts)
        return Utterance(heard, made, tuple(Unread(r.words, span, r.weighty) for r in told.unread))
    return None
