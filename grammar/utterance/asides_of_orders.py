"""What is said beside an order or a count and changes nothing in it: the reason of it, what was
only joked, that somebody was right before. "Scratch the 14-3 thats next room", "back to 2017 nah im
kidding", "i was right three"."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern

_COUNT = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d{1,2})"
_CABLE = r"(?:(?:1[024]|[68])[-/][234]s?|(?:fourteen|twelve|ten)[- ](?:two|three)s?)"
_END = r"(?=(?:,? (?:please|thanks|then|now))?\s*[.!]*$)"
_LEAD = (
    r"^\s*(?:(?:um|uh|hello|hi|please|ok|okay|so|then|now|well|and|n|no|nah|wait|ugh|grr+|argh|dang|shoot|yeah|ya|hey|oh"
    r"|lol|haha|man|jeez|hang on|hold on),? )*"
)
#: "Scratch the 14-3, thats next room": why it goes.
_REASON = lazy_pattern(
    rf"(?i)(?P<kept>{_LEAD}(?:scratch|drop|lose|remove|delete|nix|kill|forget|ditch|scrap|take out"
    r"|take off) (?:the|that|one|a|an|those|both|two) [^,.;?!]*?)"
    r"(?P<gone>,? (?:thats|that['’]s|its|it['’]s|theyre|they['’]re) (?:(?:for|in|of|to) )?"
    rf"(?:the )?(?:next|other|another|neighbou?r)(?: [a-z]+){{0,2}}?){_END}"
)
#: "The dishwashers got its own box, take that one off".
_OWN_BOX = lazy_pattern(
    rf"(?i)(?P<kept>{_LEAD})(?P<gone>(?:the )?[a-z]+(?:['’]?s)? (?:got|gets|has|have) (?:its|their"
    r"|a) own (?:box|one)[,.]?)(?= (?:so |just )?(?:take|lose|drop|remove|scratch|pull) )"
)
#: "Take it out and do it at the switch".
_DONE_THERE = lazy_pattern(
    r"(?i)(?P<kept>\b(?:take|pull|leave) (?:it|that|that one|them) out)(?P<gone>,? (?:and|n|ill"
    r"|i['’]ll|we['’]ll) (?:do|splice|make|catch|pick|feed) (?:it|that|them)(?: up)? (?:at|in|from)"
    rf" (?:the )?[a-z]+(?: [a-z]+)?){_END}"
)
#: "Back to 2017, nah im kidding, leave 23".
_KIDDING = lazy_pattern(
    r"(?i)^(?P<kept>)(?P<gone>[^?]{0,60}\b(?:nah|no|lol|jk|haha)?,? ?(?:i['’]?m|i am|just|only)"
    r" kidding\b[,.]?(?: (?:leave|keep) (?:it |that |the )?(?:at )?(?:\d\d|twenty[- ][a-z]+)?)?)"
    r"(?=\s*(?:$|[,.;]))"
)
#: "Feeds here too, so plus a 14-2", "loops to the next one, so another": why there is one more.
_FEEDS = lazy_pattern(
    rf"(?i)(?P<kept>{_LEAD})(?P<gone>(?:(?:it |that |this |the power )?(?:feeds?|power|comes)"
    r" (?:in )?(?:here|in here)(?: too| also)?|(?:actually )?(?:it |that |this )?loops?"
    r" (?:on |out |over )?to (?:the |a )?[a-z ]{3,24}),? so)"
    rf"(?= (?:plus|add|and|another|one more) (?:an? |one )?{_CABLE})"
)
_LOW_VOLTAGE = lazy_pattern(
    r"(?i)(?P<kept>\b(?:is not|isn['’]?t|aint|ain['’]t) (?:real|one|a real one))"
    r"(?P<gone>,? (?:its|it['’]s|thats|that['’]s) (?:the |a |just )*low[- ]volt(?:age)?"
    r"(?: (?:cable|wire|line))?)"
)
#: "Put it back 14-3": what it was before.
_PUT_BACK = lazy_pattern(
    rf"(?i)(?P<kept>{_LEAD}(?:nvm,? |never ?mind,? )?put (?:it|that) back)"
    rf"(?P<gone>,? (?:to )?(?:an? |the )?{_CABLE}){_END}"
)
#: "They always give me 18s", "told em we need a 20": what was wished for, and no volume.
_WISHED = lazy_pattern(
    r"(?i)(?P<kept>)(?P<gone>\(i know\)|\b(?:they always (?:give|gave|hand|send) (?:me|us)"
    r" \d\d(?:\.\d+)?s?|(?:told|asked) (?:em|them|him|her) (?:that )?(?:we|i) (?:needed|need|want"
    r"|wanted) an? (?:\d\d(?:\.\d+)?|sixteen|eighteen|twenty(?:[- ][a-z]+)?(?= they)))(?!\.?\d))"
)
#: "No ground wire, emts the ground".
_PIPE_GROUNDS = lazy_pattern(
    r"(?i)(?P<kept>\bno (?:ground|green)(?: wires?)?,? )(?P<gone>(?:the )?(?:emt|pipe|conduit)"
    r"(?:['’]?s| is) the ground)"
)
_BLANKED = (
    _PIPE_GROUNDS,
    _REASON, _OWN_BOX, _DONE_THERE, _KIDDING, _FEEDS, _LOW_VOLTAGE, _PUT_BACK, _WISHED,
)  # fmt: skip
#: "Wait, i was right, three".
_RIGHT = lazy_pattern(
    rf"(?i)(?P<lead>{_LEAD})(?P<said>(?:i (?:was right|had it right)|was right),?"
    rf"(?: (?:before|first|the first time))?,? (?:its |it['’]s |it was )?)(?P<n>{_COUNT}){_END}"
)
#: "No 8 was right", "six. final. six".
_WAS_RIGHT = lazy_pattern(
    rf"(?i)(?P<lead>{_LEAD})(?P<n>{_COUNT}) (?:was|is|were) (?:right|correct){_END}"
)
_FINAL = lazy_pattern(
    rf"(?i)^(?P<lead>\s*)(?P<n>{_COUNT})[.,!]+ (?:final(?: answer)?|for real|really)[.,!]+"
    rf" (?P=n){_END}"
)
#: "The last 14-2 goes elsewhere, remove it".
_GOES_ELSEWHERE = lazy_pattern(
    rf"(?i)(?P<lead>{_LEAD})(?P<which>(?:the last|that|the other) {_CABLE}) (?:goes|is going|went)"
    r" (?:elsewhere|somewhere else|to another box),? (?:so )?(?:remove|take|drop|lose|delete)"
    rf" (?:it|that)(?: out| off)?{_END}"
)
#: "Lose the pair", of two that came in last.
_PAIR = lazy_pattern(
    rf"(?i)(?P<order>{_LEAD}(?:lose|drop|remove|scratch|delete|nix|take out|pull)) the pair{_END}"
)
#: "Those two pass straight thru": of what is there.
_THOSE_PASS = lazy_pattern(
    r"(?i)\b(?:those|these) (?P<n>two|three|four|[2-4])(?= (?:(?:just|both|all|go|are) )*"
    r"(?:pass|passing|straight|run|running|going|go)\b[a-z ]*\b(?:through|thru)\b)"
)
#: "Third one nook, four 14-2s, outlet, 20": the next box by its name.
_NEXT_BOX = lazy_pattern(
    r"(?i)^\s*(?:(?:ok|okay|so|and|then),? )?(?:third|fourth) one,?(?= (?!tucked|behind|back|hid|up"
    r"|down|in|out|there|is|to|from|for)[a-z]+(?: [a-z]+)?[,:] .*\d[-/][23].*\b(?:1[3-9]|[2-7]\d)"
    r"\b)"
)
#: "Clamps.. no".
_CLAMPS = lazy_pattern(
    r"(?i)(?P<clamps>\bclamps?) ?\.{2,} ?(?P<no>no|none|nope|nah)(?=\s*(?:$|[,.;]))"
)


def asides_of_orders(text: str, typed: bool = True) -> str:
    """The text without them, each character in its place; where it was not `typed`, each word too.

    >>> asides_of_orders("scratch the 14-3 thats next room")
    'scratch the 14-3                '
    """
    for form in _BLANKED:
        text = form.sub(lambda found: found["kept"] + " " * len(found["gone"]), text)
    if right := _RIGHT.match(text):
        place = re.search("(?i)was|had", right["said"])
        told = (" " * place.start() + "its").ljust(len(right["said"])) if place else right["said"]
        return right["lead"] + told + text[right.start("n") :]
    return _orders_in_short(text) if typed else text


def _orders_in_short(text: str) -> str:
    """The text with orders said short as what they mean, each character in its place."""
    text = _PAIR.sub(lambda found: f"{found['order']} those 2 ", text)
    text = _THOSE_PASS.sub(_of_them, text)
    text = _NEXT_BOX.sub(lambda found: "next box:".rjust(len(found[0])), text)
    text = _CLAMPS.sub(lambda found: f"{found['clamps']} no".ljust(len(found[0])), text)
    text = _GOES_ELSEWHERE.sub(
        lambda found: f"{found['lead']}remove {found['which']}".ljust(len(found[0])), text
    )
    for form in (_WAS_RIGHT, _FINAL):
        text = form.sub(lambda found: f"{found['lead']}its {found['n']}".ljust(len(found[0])), text)
    return text


def _of_them(found: re.Match[str]) -> str:
    """ "2 of them" for "those two"."""
    digit = {"two": "2", "three": "3", "four": "4"}.get(found["n"].lower(), found["n"])
    forms = (f"{digit} of them", f"{digit} of em")
    return next(form for form in forms if len(form) <= len(found[0])).ljust(len(found[0]))
