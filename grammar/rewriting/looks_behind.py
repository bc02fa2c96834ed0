"""A device that is pulled out of the box to look behind it, and stays in it: "I just pulled it out
and there's another 12-2 behind it"."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

_DEVICE = (
    r"(?:(?:the|that|this|my|those|both|these|all)(?: the| of the| of them)?"
    r"(?: (?!cables?|wires?|grounds?)[a-z]+){0,2}?"
    r" (?:switch(?:es)?|receptacles?|outlets?|plugs?|devices?|dimmers?|gfcis?|gfi|duplex(?:es)?"
    r"|three-?ways?|four-?ways?|3-?ways?|4-?ways?|timers?|sensors?|fixtures?|lights?)|it|them|both)"
)
_WHO = r"(?:(?:i|we|he|she|they|you)(?:['’]?(?:ve|d|s)| have| had| has)? ?)"
_DID = (
    r"(?:(?:just|now|finally|already|only) )*"
    r"(?:pulled|took|taken|slid|popped|backed|worked|unscrewed|drew|eased|got|yanked)"
)
_DO = r"(?:pull|take|slide|pop|back|work|unscrew|ease|get|yank)"
_OUT = (
    r"(?: (?:right|all the way|back|halfway|partway|now))* out"
    r"(?: (?:now|here|of the way|again|just now))*"
)
#: "Let me pull the switch out and look again": what is done to look.
_TO_LOOK = lazy_pattern(
    r"(?i)\b(?:let me|let['’]?s|let us|lemme|i['’]?ll|i will|i['’]?m going to|going to|gonna"
    rf"|i had to|i have to|have to) (?P<pull>(?:just )?{_DO}"
    rf" (?:{_DEVICE}{_OUT}|out {_DEVICE}) (?:and|to) )"
    r"(?=(?:take (?:a|another) |have (?:a|another) |get a (?:better )?)?"
    r"(?:look|see|check|count|recount))"
)
#: "Now that I've pulled the switch out", "when I pulled both switches out": when it was seen.
_WHEN = lazy_pattern(
    rf"(?i)\b(?P<pull>(?:now that|when|once|since|as soon as) {_WHO}{_DID}"
    rf" (?:{_DEVICE}{_OUT}|out {_DEVICE}),?)(?=,? (?:(?:and|but|so|now|actually|then) )*"
    r"(?:there['’]?s|there is|there are|there['’]?re|there were"
    r"|(?:i|we)(?: can)? (?:see|saw|found|find|count|counted|spotted|noticed|got|have)|it['’]?s)\b)"
)
#: "I just pulled it out and there's another 12-2 behind it": that a cable was seen there.
_SEEN = lazy_pattern(
    rf"(?i)(?P<pull>\b{_WHO}?{_DID} (?:{_DEVICE}{_OUT}|out {_DEVICE}))"
    r"(?=[,.;]? (?:(?:and|but|so|now|then|turns out|looks like|yeah|oh|hey) )*"
    r"(?:there['’]?s|there is|there are|there['’]?re|there was|there were"
    r"|(?:i|we)(?: can)? (?:see|saw|found|find|count|counted|spotted|noticed)|(?:see|saw|found"
    r"|spotted|noticed)|it['’]?s got)"
    r"[^.;?!]{0,40}?(?:\b(?:another|more|extra|hiding|hidden|tucked|jammed|stuffed)\b"
    r"|\b(?:behind|under|underneath|beneath|in back of) (?:it|them|there)\b|\bback there\b"
    r"|\b(?:in|at) (?:the )?(?:very )?(?:back|bottom)\b|\bbehind\b(?! schedule)))"
)
#: "Three-way switch up front. Pull that out, and there's a 14-3": whoever does so sees a cable.
_CABLE = (
    r"(?:(?:an?|one|two|three|another|\d) )?(?:14|12|10|fourteen|twelve|ten)[-/ ]"
    r"(?:two|three|[234])s?\b"
)
_IF_PULLED = lazy_pattern(
    rf"(?i)(?<=[.;!?…,] )(?P<pull>(?:you |so |now )*{_DO} (?:that|it|them|both|those){_OUT},?)"
    rf"(?=[,.…]* and (?:there['’]?s|there is|there are"
    rf"|you(?:['’]?ll)? (?:see|find|get|have)) {_CABLE}"
    r"(?![^.;]*\b(?:left|remain\w*|only|just|stays?|instead)\b))"
)
#: "Dimmer comes out… 14-3 behind it": what is behind it is seen, and nothing is taken away.
_COMES_OUT = lazy_pattern(
    r"(?i)\b(?:switch|receptacle|outlet|dimmer|gfci|gfi|duplex|timer|sensor|three-?way|four-?way)"
    r" (?P<pull>(?:comes|is coming|came|pops|popped|slides) out)"
    rf"(?=[,.;…]+ (?:and |there['’]?s |there is |i see |with )*{_CABLE}[^.;…]{{0,20}}? "
    r"(?:behind|back of|in back of) (?:it|that|there)\b)"
)
#: A device that is seen there may have come in the place of the one that was taken out.
_DEVICE_SEEN = lazy_pattern(
    r"(?i)\b(?:switch(?:es)?|receptacles?|outlets?|devices?|dimmers?|gfcis?|gfi|duplex|timers?"
    r"|sensors?|(?:three|four|3|4)-?ways?)\b"
)
_NOUN = lazy_pattern(f"(?i){_DEVICE}")
_POINTS = lazy_pattern(r"(?i)it|them|both")


def without_looks(text: str) -> str:
    """The text with what was pulled out only to look blanked, each character in its place; a
    device that is told of nowhere else stays.

    >>> without_looks("Let me pull the switch out and look again, it has one switch.")
    'Let me                         look again, it has one switch.'
    """
    for form in (_TO_LOOK, _WHEN, _SEEN, _IF_PULLED, _COMES_OUT):
        for found in tuple(form.finditer(text)):
            if form is not _SEEN or not _DEVICE_SEEN.search(_clause(text, found.end())):
                text = _blanked(text, *found.span("pull"))
    return text


def _blanked(text: str, start: int, end: int) -> str:
    """A text with the words of a look blanked, but for the device, where it is told of only here:
    it is in the box."""
    pulled = text[start:end]
    named = next((n for n in _NOUN.finditer(pulled) if not _POINTS.fullmatch(n[0])), None)
    elsewhere = f"{text[:start]} {text[end:]}"
    if named is None or _DEVICE_SEEN.search(elsewhere):
        return text[:start] + " " * len(pulled) + text[end:]
    kept = " " * named.start() + named[0]
    return text[:start] + f"{kept},".ljust(len(pulled))[: len(pulled)] + text[end:]


def _clause(text: str, start: int) -> str:
    """What is said from a place to the end of its sentence."""
    rest = text[start:].lstrip(" ,.;")
    ends = [rest.find(stop) for stop in (". ", "; ", "! ") if stop in rest]
    return rest[: min(ends)] if ends else rest
