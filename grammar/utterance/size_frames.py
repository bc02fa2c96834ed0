"""The frames in which somebody says of what size cables and wires are: who is meant, what they
are, and what they were taken for. Tried in their order; small letters, straight apostrophes."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

_GAUGE = r"(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)"
BARE_SIZE = rf"(?:number |no\. |# ?)?{_GAUGE}"
_COUNT = r"(?:a couple|\d|1\d|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_FEW = r"(?:[2-9]|two|three|four|five|six|seven|eight|nine)"
_MANY = rf"(?:{_FEW}|1\d|20|[a-z]+teen|ten|eleven|twelve|twenty)"
_IN_CABLE = r"(?:[234]|two|three|four)"
_EACH = r"(?:them|'em|em|those|these)"


def _size(name: str) -> str:
    """A cable or a bare size, under names of its own."""
    pair = (
        rf"(?P<{name}_awg>{_GAUGE})[-/ ](?P<{name}_in>{_IN_CABLE})"
        rf"(?P<{name}_two>[-/ ](?:2|two))?"
    )
    bare = rf"(?:number |no\. |# ?)?(?P<{name}_bare>{_GAUGE})(?:[- ](?:gauge|wire|awg))?"
    wires = rf"(?P<{name}_wires>two|three|four)(?:[- ]wire|s\b)"
    many = r"(?P<many>'?s\b)?" if name == "was" else r"(?:'?s\b)?"
    kind = r"(?: (?:nm|cables?|thhn|stranded|solid|stuff))?"
    return rf"(?:(?:{pair}|{wires}|{bare}){many}{kind}(?![\w-]))"


_WAS = _size("was")
_NOW = _size("now")
_ADVERB = r"(?:really|actually|plain|just|only|all|both|each|in fact|some|old|regular|now)"
_JUST = r"(?:really |actually |just )*(?:an? )?"
_IS = (
    r"(?:(?:'s|'re| is| are| was| were| would be| should(?:'ve)? (?:be|been)| ought to be"
    r"| (?:has|have) (?:got )?to be| got to be| went in as| came in as)"
    r"(?: (?:supposed|meant) to be)?"
    r"| turn(?:s|ed)? out(?: to be)?| prove[sd]? to be| end(?:s|ed)? up(?: being)?)"
    rf"(?: {_ADVERB})*(?: an?| the| that| some)?(?: {_ADVERB})* "
)
_THOSE = (
    rf"(?:{_EACH}|(?:of )?(?:the|my|those|these) (?:(?P<of>{_FEW})\b ?)?"
    rf"(?:{_WAS}|cables?|wires|conductors|runs|ones|mcs?)?)"
)
_SOME = (
    r"(?:(?P<but>(?:all|every one|everything) (?:but|except) one)(?: of)?"
    rf"|(?P<every>all (?P<all_of>{_FEW}) of|all(?: of)?|both(?: of)?"
    r"|(?:each|every)(?: (?:single )?one)? of|(?:the )?(?:pair|lot|bunch|both) of)"
    r"|(?P<vague>most|some|several|a few|a bunch)(?: of)?"
    rf"|(?P<half>half(?: of)?)|(?P<count>{_COUNT})(?: out)? of)"
)
_BEHIND = (
    rf"(?P<every>(?:the )?both(?: of {_EACH})?|(?:the )?(?:pair|lot) of {_EACH}"
    rf"|(?:each|every)(?: (?:single|last))?(?: one)?(?: of {_EACH})?"
    rf"|the whole (?:bunch|lot|batch|set)|all (?:of {_EACH}|(?P<of>{_MANY})(?: of {_EACH})?))"
)
_NTH = r"(?:last|first|second|third|fourth|odd|bottom|top|left|right|far)"
_PLACED = rf"(?:(?:the|that) {_NTH} (?:one|cable|of)(?: out)?)"
_ONE = r"(?P<one>(?:the|that|this|my)"
_TOLD = r"(?: i (?:told you about|gave you|said|had|mentioned))?"
_SORRY = r"(?: (?:check that|scratch that|sorry|no|wait|hold on|hang on|correction),?)*"
_GOT_RED = r"(?: it's got an? red(?: (?:one|wire))?(?: in (?:it|there))?,?)?"
_COLOR_SEEN = (
    r"(?:there's|there is|has|it's got|it has|i see|got|with|and) (?:no|an?) red"
    r"(?: (?:wire|one|conductor))?(?: (?:in|on) (?:it|there|that))?,?"
)
_FRAMES = (
    # "two out of the five are 14-3s", "the pair of them are 12-3", "half of those cables are 14-3"
    rf"\b{_SOME} {_THOSE} ?(?<! ){_IS}{_NOW}",
    # "two of them I had wrong, they're 14-3"
    rf"\b{_SOME} {_THOSE} ?(?<! ) (?:i|we|he) (?:had|got|called|read|told you)(?: (?:them|those))?"
    rf" wrong[,.;]? (?:they're|they are|those are|it's|that's) {_JUST}{_NOW}",
    # "every last one is 14-2"
    rf"\b(?P<every>(?:each|every)(?: (?:single|last))? one|all (?P<of>{_FEW})|both|the whole lot)"
    rf"{_IS}{_NOW}",
    # "every one of them's got a red, so that's 10-3 times three"
    rf"\b{_SOME} {_THOSE}(?:'s| has|'ve| have)?(?: got)? (?:an? |the )?(?:extra |hot )?red"
    r"(?: wire| one| in (?:it|them|there|each))*,? (?:so |which makes |that makes |making )+"
    rf"(?:(?:it|that|they|those|them)(?:'s|'re| is| are)? )?(?:an? )?{_NOW}(?: times {_COUNT})?",
    # "those eight are number ten", "they're both plain 14-2"
    rf"\b(?P<every>(?P<bare>those|these|they)|(?:those|these|the) (?P<of>{_FEW})){_IS}{_NOW}",
    # "that's 14-3. Both of 'em", "14-2, all three"
    r"(?:\b(?:that's|it's|they're|make (?:it|that|them)|those are|these are|call (?:it|them)"
    r"|would be|(?:this|that|the) (?:cable|wire|stuff)(?:'s| is)) (?:an? )?"
    r"|(?:^|(?<=[.,;!-] )|(?<=[.,;!-]  )|(?<=^so )|(?<=^well )|(?<=^no )))"
    rf"{_NOW}[.,;!]? (?:and )?{_BEHIND}(?=\s*(?:[.,;!]|$))",
    # "it's number eight on all nine"
    rf"\b(?:it's|that's|they're|it is) {_NOW} (?:on|for|in) (?P<every>(?:all|each|every|both)"
    rf"(?:(?: (?:single|last))? one)?(?: of {_EACH})?(?: (?P<of>{_MANY}))?(?: of {_EACH})?)"
    r"(?=\s*(?:[.,;!]|$))",
    # "one of the two I've changed for a 12-3"
    rf"\b{_SOME} {_THOSE} ?(?<! ) (?:i've|i|we've|we|he|they) (?:have |had )?(?:changed|swapped"
    rf"|switched|traded|replaced)(?: out)? (?:for|to|with|into) (?:an? )?{_NOW}",
    # "the three from the pipe are fourteens"
    rf"\b(?P<every>(?P<loose>the (?P<of>{_MANY}) (?:from|out of|in) the (?:emt|pipe|conduit)))"
    rf"{_IS}{_NOW}",
    # "call that 12-3 a 12-2", "put the 14-2 down as a 14-3"
    rf"\b(?:call|mark|put|make|count|figure|book|read) {_ONE}) "
    rf"{_WAS} (?:down )?(?:as |for |to )?(?:an? )?{_NOW}(?: instead| as well| too)?",
    # "what I called a 14-3 is a 14-2"
    r"\b(?P<one>(?:what|the one|that one)(?: that)? (?:i|we|he|she|they)"
    r" (?:called|said was|had as|gave(?: you)? as|put down as|read as|took for|told you was))"
    rf" (?:an? |the )?{_WAS}{_IS}{_NOW}",
    # "he ran one of those as a 14-3"
    r"\b(?:i|we|he|she|they|somebody|someone|the [a-z]+)"
    r" (?:ran|pulled|wired|did|roughed|put in|brought)"
    rf"(?: in)? (?P<count>{_COUNT}) of {_THOSE} ?(?<! )(?: in)? (?:as|in|with) (?:an? )?{_NOW}",
    # "everything in twelve is fourteen"
    rf"\b(?P<every>(?P<throughout>everything)) in {_WAS}{_IS}{_NOW}",
    # "everything in here is fourteen"
    rf"\b(?P<every>(?P<throughout>everything)) in (?:here|there|it|this (?:box|one)){_IS}{_NOW}",
    # "it says twelve on every one of those"
    r"\b(?:it|that|they|print|jacket|label|stamp)(?: all)? (?:say|read)s? (?:number )?"
    rf"{_NOW} on (?P<every>(?:(?:all|each|every|both)(?: (?:single )?one)?(?: of)?"
    rf"|all (?P<of>{_FEW}) of)) {_EACH}",
    # "the fourteen is a twelve-two like the rest"; "the 12-2, check that, it's a three-wire"
    rf"\b{_ONE}(?: (?:odd|last|other) (?:one|cable),? (?:the|that))?) {_WAS}"
    rf"(?:,? (?:cable|one))?{_TOLD}(?:{_IS}|,{_SORRY}{_GOT_RED}"
    rf" (?:so |and |so it's |it's |it is |that's |that is |is )+{_JUST}){_NOW}",
    # "that 12-3 I told you about, the kid says there's no red in it, so it's a 12-2"
    rf"\b{_ONE}) {_WAS}{_TOLD},? (?:[a-z']+ ){{0,4}}?{_COLOR_SEEN}"
    rf" so (?:it's |that's |it is |that is |it was )?{_JUST}{_NOW}",
    # "the cable that lands on the switch is a 12-2"
    rf"\b(?P<one>(?P<placed>the (?:cable|run|line|feed|one)"
    r" (?P<lands>(?:that |which )?(?:lands|landed|ends|terminates|ties|feeds|goes)? ?(?:on|to)? ?"
    rf"the [a-z]+(?: (?:screws|terminals))?))){_IS}{_NOW}",
    # "the twelve's no twelve. It's 14-2"
    rf"\b{_ONE}) {_WAS}(?<!s)(?:'s| is| isn't)(?: not| no| never)?(?: an?)? {_size('old')}[.,;!]?"
    rf" (?:it's|it is|that's|but) (?:an? )?{_NOW}",
    # "the last one of the three is a 12-2"
    rf"\b(?P<one>(?P<placed>{_PLACED})(?: (?:of )?(?:the|those) (?P<of>{_FEW}))?){_IS}{_NOW}",
    # "the feed is a 12-2, the other two are 14 like I said"
    rf"\b(?P<one>(?P<placed>the (?:feed|home ?run|hot|power|supply|switch leg))){_IS}{_NOW}"
    r"(?=[.,;!]? (?:and |but )?(?:the )?(?:other|rest)\b[^.;?!]*"
    r" (?:like|as|the way) (?:i|we) (?:said|told|had|gave))",
    # "just the fridge line is 12-2, the other three are 14-2"
    r"\b(?:just|only) the (?:[a-z]+ )?(?:line|cable|run|feed|one|leg|circuit|home ?run)"
    rf"(?: [a-z]+){{0,3}}? ?(?<! ){_IS}{_WAS}[,.;]? (?:and |but )?"
    rf"(?P<rest>(?:the )?(?:(?:other|rest)(?: (?P<count>{_FEW}))?|others|rest)(?: of {_EACH})?)"
    rf"{_IS}{_NOW}",
)
PATTERNS = tuple(lazy_pattern(frame) for frame in _FRAMES)
GROUND_TOO = lazy_pattern(
    r"\A,? (?:and )?(?:the )?(?:ground|green|bare)s?(?: one)?,? (?:too|as well|also|included)\b"
)
