"""What a cable or wire is said to be, in as few words as it takes: "I had the 14-2 wrong, it's a
14-3" is "the 14-2 is a 14-3", and so is "that's no 14-2 at all, it's a plain old 14-3". Each way of
telling it leads to the frames of `size_frames`, which need only the shortest of them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from boxaloud.grammar.lazy_patterns import lazy_pattern

_GAUGE = r"(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)"
_CABLE = rf"(?:{_GAUGE}[-/ ](?:[234]|two|three|four)(?:[-/ ](?:2|two))?)"
_SIZE = rf"(?:(?:{_CABLE}|(?:number |no\. |# ?)?{_GAUGE})(?: gauge| wire| cable| thhn)?)"
_A = r"(?:an? |the |my |that |this |any )?"
_IT_IS = (
    r"(?:(?:it|that|this|that one|this one|he|one|thing)(?:'s| is| was| turned out(?: to be)?"
    r"| turns out(?: to be)?| should(?:'ve| have)? be(?:en)?)|make it|call it|it reads|it says)"
)
_THEY_ARE = (
    r"(?:(?:they|those|these|them)(?:'re| are| were| turned out(?: to be)?| turn out(?: to be)?"
    r"| should(?:'ve| have)? be(?:en)?)|make (?:them|those)|call (?:them|those))"
)
_WRONG = (
    r"(?:wrong|backwards|mixed up|mistaken|down wrong|mislabel\w+|misread|as wrong|confused"
    r"|off)"
)
_MARK = (
    r"(?:the )?(?:jackets?|print(?:ing)?|labels?|sheath(?:ing)?|markings?|writing|lettering|stamps?"
    r"|outside|insulation)"
)
_PART = r"[.,;:!–—-]*(?: (?:and|but|so|because|cause|since|no|nope|well|actually|really|see),?)*"
#: Said for the sound of it.
_FILLER = lazy_pattern(
    r"\b(?:nothing (?:but|more than)|no more than|none other than|plain(?: old| ol'?)?|just(?: an?"
    r" old)?|regular(?: old)?|good old|only|really|actually|in fact|all right|alright|at all"
    r"|after all|for real|sure enough|of all things|believe it or not|so there you (?:go|have it)"
    r"|(?:as )?it turns out|turns out (?=it|that|they|those|the)|come to find out|dummy me|silly me"
    r"|dumb me|like an? (?:dope|dummy|fool)|last(?= ones?\b)|straight(?=-| )|simple)\b,? ?"
)
_REWRITES: tuple[tuple[str, str], ...] = (
    # "fourteen gauge, fourteen two"
    (rf"\b({_GAUGE}) gauge,? (?:an? )?(?=\1[-/ ])", ""),
    # "those are twelve gauge, every one, so twelve twos"
    (rf"\b({_GAUGE})(?: gauge)?(?:,? (?:each|every) (?:single )?one)?,? so (?=\1[-/ ])", ""),
    # "out of the three, two are 12-2"; "one of those three's got a red"
    (
        r"\bout of the (?P<of>two|three|four|five|six|seven|eight),? (?P<n>one|two|three|four|five"
        r"|six|seven)(?='s | is | are | was | were )",
        r"\g<n> of the \g<of>",
    ),
    (r"\boutt?a\b", "out of"),
    (
        r"\b(?P<all>both|all (?:three|four|five|six))(?: the| of the)? (?:mcs?|cables|runs)"
        r"(?=(?:'re| are| were) )",
        r"\g<all> of the cables",
    ),
    # "I said twelve and I meant fourteen, all of it"
    (
        rf"\bi said (?P<was>{_GAUGE})(?:,? and| but|,) (?:i )?meant (?P<now>{_GAUGE})(?:'?s)?,?"
        r" (?:all of (?:it|them|'em)|on everything|everything|the whole (?:thing|lot|box))",
        r"everything in \g<was> is \g<now>",
    ),
    # "the jacket on every one of them reads twelve two"
    (
        rf"\b{_MARK} (?:on|of) (?P<who>[a-z0-9' -]+?) (?:all )?(?:reads?|says?|is|are)\b",
        r"\g<who> is",
    ),
    (r"\bthe both of\b", "both of"),
    # "I had the 14-2 wrong, it's a 14-3"
    (
        rf"\b(?:i|we) (?:had|got|have|read|called|told you|gave you|put|marked) (?:the |that |my )"
        rf"(?P<was>{_SIZE}) {_WRONG}{_PART} {_IT_IS} (?:an? )?(?P<now>{_SIZE})",
        r"the \g<was> is a \g<now>",
    ),
    (
        rf"\b(?:wrong|mistaken|off|my bad|sorry|mistake) (?:about|on|with) (?:the |that |my )"
        rf"(?P<was>{_SIZE}){_PART} {_IT_IS} (?:an? )?(?P<now>{_SIZE})",
        r"the \g<was> is a \g<now>",
    ),
    # "that's not a 14-2, it's a 14-3"; "the 14-2 isn't a 14-2, it's a 14-3"
    (
        rf"\b(?:(?:that|it|this|that one|one|the {_SIZE})(?:'s| is| was)? ?"
        rf"(?:not|no|never|isn't|ain't|wasn't|is no|is not)) {_A}(?P<was>{_SIZE}){_PART}"
        rf"(?: {_IT_IS})? (?:an? )?(?P<now>{_SIZE})",
        r"the \g<was> is a \g<now>",
    ),
    # "the 14-2's not a two, it's another 14-3"; "that third cable isn't a 14-2, it's a 14-3"
    (
        rf"\bthe (?P<was>{_SIZE})(?:'s| is| was)? ?(?:not|isn't|ain't|wasn't|is no) an? (?:two"
        rf"|three|2|3){_PART} {_IT_IS} (?:an? |another )?(?P<now>{_CABLE})",
        r"the \g<was> is a \g<now>",
    ),
    (
        r"\b(?P<who>(?:the|that) (?:last|first|second|third|fourth|fifth) (?:one|cable|run))"
        rf"(?:'s| is| was)? ?(?:not|isn't|ain't|wasn't|is no|never) {_A}{_SIZE}{_PART} {_IT_IS}"
        rf" (?:an? |another )?(?P<now>{_CABLE})",
        r"\g<who> is a \g<now>",
    ),
    # "those aren't 14-2s, they're 12-2s"
    (
        r"\b(?:those|they|these|them)(?:'re| are)? ?(?:not|aren't|ain't|weren't|never)"
        rf" (?:the |any )?(?P<was>{_SIZE})'?s?{_PART} {_THEY_ARE} (?P<now>{_SIZE})",
        r"all of the \g<was>s are \g<now>",
    ),
    # "it's a 14-3, not a 14-2"
    (
        rf"\b{_IT_IS} (?:an? )?(?P<now>{_CABLE}),? (?:and )?not (?:an? |the )?(?P<was>{_CABLE})"
        r"(?!'?s)",
        r"the \g<was> is a \g<now>",
    ),
    # "it's fourteen, not twelve, on everything"
    (
        rf"\b(?:{_IT_IS}|{_THEY_ARE}) (?P<now>{_GAUGE})'?s?,? (?:and )?not (?P<was>{_GAUGE})'?s?"
        r"(?![-/ ](?:[234]|two|three|four)\b),? (?:on|for|in|with) (?:everything|every one"
        r"|every wire|all of (?:it|them)|the whole (?:thing|lot|box)|both|all)",
        r"everything in \g<was> is \g<now>",
    ),
    # "pulled the twelves back out and repulled fourteens, same six"
    (
        rf"\b(?:(?:i|we|he|they) )?(?:pulled|took|yanked|ripped) (?:the |all the |those )"
        rf"(?P<was>{_GAUGE}s|{_SIZE}) (?:back )?out(?: of (?:there|it|the pipe|the conduit))?"
        r",? (?:and|then) (?:re-?pulled|pulled in|pulled|ran|put in|re-?ran) (?:in )?"
        rf"(?P<now>{_GAUGE})s(?: instead| in)?",
        r"all of the \g<was> are \g<now>",
    ),
    # "the second 14-3 is a 14-2"
    (
        rf"\b(?:the|that|my) (?:second|third|fourth|fifth|last|first|other)"
        rf" (?P<was>{_SIZE})(?: cable| one)?(?='s | is | was | turn)",
        r"one of the \g<was>s",
    ),
)  # fmt: skip
_PLAIN = tuple((lazy_pattern(said), plain) for said, plain in _REWRITES)
#: "One's a ten two but the other has a red in it, so that one's a ten three".
_ONE_AND_OTHER = lazy_pattern(
    rf"\bone(?: of (?:them|'em|those))?(?:'s| is) (?:an? )?(?P<one>{_CABLE})[.,;]?"
    r"(?: (?:and|but|while|with|yes|sure|like i said),?)* (?:the|that) other(?: one)?"
    r"(?:(?:'s| is|,)|(?: has|'s got| got) an? red(?: wire| one)?(?: in (?:it|there))?,? so"
    rf" (?:that one|it|that|the other)(?:'s| is))? (?:an? )?(?P<other>{_CABLE})(?!'?s)"
)


def plain_claims(words: str) -> Iterator[str]:
    """Words in small letters as they are told shortest; nothing where that makes no difference.

    >>> list(plain_claims("that's not a 14-2 at all, it's a plain old 14-3"))
    ['the 14-2 is a 14-3']
    """
    plain = re.sub(r"\s+", " ", _FILLER.sub("", words))
    for said, shorter in _PLAIN:
        plain = said.sub(shorter, plain)
    found = _ONE_AND_OTHER.search(plain)
    if found and found["one"] != found["other"]:
        before, behind = plain[: found.start()], plain[found.end() :]
        for was, now in ((found["one"], found["other"]), (found["other"], found["one"])):
            yield f"{before}one of the two {was}s is a {now}{behind}"
    elif plain != words:
        yield plain
