"""How the pieces of a list of named conductors are said: expressions over text in lower case."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

COUNT = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|1\d|2[0-4]|[1-9])"
"""A number of conductors, as people say it."""
COUNTS = {
    word: value
    for value, word in enumerate(
        ("one", "two", "three", "four", "five", "six",
         "seven", "eight", "nine", "ten", "eleven", "twelve"), start=1,
    )
} | {str(value): value for value in range(1, 25)} | {"a pair": 2, "a couple": 2}  # fmt: skip
"""What each is worth."""
SIZES = {"fourteen": 14, "twelve": 12, "ten": 10, "eight": 8, "six": 6}

_SIZE_WORD = r"(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)"
_GAP = r"[\s,;:.…–-]*"
#: What may stand behind a name, a size or a total of a list: anything else makes it a name of
#: something else ("a white switch", "twelve inches").
_EDGE = (
    r"(?=\s*(?:$|[.,;:?!…)–\n/-](?!\d)|(?:and|plus|with|then|in|out|each|apiece|all|so|to|from"
    r"|for|going"
    r"|more|coming|goe?s?|comes?|ends?|ending|lands?|landing|enters?|leaves?|runs?|spliced|both|pulled|at|that'?s|that|makes|number|through|straight|right|too"
    r"|also|the|a|an|its|one|two|three|black|red|blue|white|brown|orange|yellow|gr[ae]y|green"
    r"|blk|blu|wht|brn|org|orn|yel|gry|neutral|hot|switch leg|travell?er|ground|phase|per|total|fit"
    r"|[abc]|(?:of (?:number |no\.? ?|# ?)?)?" + _SIZE_WORD + r"(?:'?e?s)?|\#)\b"
    r"(?![-/]?\d)|\#|[1-9] (?:black|red|blue|white|green|neutral|hot|travell?er|ground)s?\b))"
)
COLOUR = (
    r"(?:black|red|blue|white|brown|orange|yellow|gr[ae]y|purple|pink"
    r"|blk|blu|wht|brn|org|orn|yel|gry)"
)
"""What an insulated conductor is called by its color, also as a thumb types it."""
_ROLE = r"(?:neutral|neut|switched hot|hot|switch leg|switch loop|travell?er|line|load)"
NAME = lazy_pattern(
    rf"(?:(?:one more|a further|(?P<n>{COUNT})|a(?! phase)|an|its|the"
    rf"|another)\s+)?(?:(?P<named>(?:{COLOUR}(?: phase| neutral| hot| travell?er)?"
    r"|[abc] phase|phase [abc]|l[123]))|(?P<role>" + _ROLE + rf")(?: {COLOUR})?"
    r"|(?<!\bno )(?<!\bany )(?P<ground>greens?|gre?ns?|ground))"
    rf"(?P<s>s)?(?: (?:wires?|conductors?|ones|splice))?\b{_EDGE}"
)
#: Letters are phases only together, or before a neutral.
PHASES = lazy_pattern(
    r"(?P<all>a(?:,? and |, ?| )b(?:(?:,? and |, ?| )c)?|b(?:,? and |, ?| )c"
    r"|[bc](?=,? (?:and )?(?:a )?(?:neutral|switch leg)))\b"
)
OWN_SIZE = lazy_pattern(
    rf"(?:,? (?:number |no\.? ?|# ?)?| ?#)(?P<size>{_SIZE_WORD})(?:'?e?s)?(?: too| also)?\b{_EDGE}"
)
JOIN = lazy_pattern(r"(?:\s*(?:[,;…–&+/-]|\.\.+))*\s*(?:(?:and|plus|then|with|&)\s+)*")
STOP = lazy_pattern(r"\s*[.;\n]\s*")
WAY = lazy_pattern(
    r"\s*,?\s*(?:(?P<twice>each way|both ways|in and out|in, out|in both directions|each direction)"
    r"|(?:(?:coming|going|come|comes|go|goes|heading) )?(?:in|out))\b"
    rf"(?=\s*(?:$|[.,;:!?…-]|#|(?:and|in|all|each|so|number|{_SIZE_WORD}(?:'?e?s)?)\b))"
)
PIPE = lazy_pattern(r"\s*,?\s*in (?:the |a |one )?(?:pipe|conduit|emt|raceway|flex)\b")
#: "The first run: …"; "the pipe is the ground" names no conductor.
HEADING = lazy_pattern(
    r"(?:the |my |from |in )?(?:(?:first|second|third|other|next|last|one) )?"
    r"(?:home ?run|run|pipe|conduit|feed|circuit)(?: (?:number )?(?:one|1|(?:two|three|four|[2-4])"
    r"(?=\s*[,:-]|'s| is| has| brings| carries| with)))?(?:'s| is| has| brings| carries| with)?"
    r"(?: got)?\s*[,:-]?\s+(?!(?:the|our|my|your|its) (?:[a-z]+ )?ground\b"
    rf"(?![\s,]+(?:and )?(?:(?:an?|the|one) )?(?:{COLOUR}|hot|neutral)\b))"
)
SEVERAL = lazy_pattern(
    rf"(?P<n>{COUNT}) (?:home ?runs|runs|pipes|conduits|feeds|circuits)(?: in this box| in here"
    rf"| here"
    r"| coming in| come in| in)?\s*[,:-]?\s*(?:with |carrying )?(?P<each>(?:in )?each"
    r"(?: one)?(?: of (?:them|those))?(?:'s| is| has| with| brings| carries)?(?: got)?)?\s*[,:]?\s*"
)
EACH = lazy_pattern(r"\s*,?\s*(?:in )?(?:each(?: one| pipe| run)?|apiece|per pipe|per run)\b")
_OF_EACH = (
    r"(?:(?:(?:of |in )?(?:each|every)(?: (?:single )?colou?r| one| kind)?|apiece"
    r"|(?:per|a) colou?r|ea)\b\.?)"
    r"(?! (?:way|direction|side|end|pipe|run|conduit|gang|box|cable)s?\b)"
)
_EACH_COUNT = rf"(?P<n>{COUNT}|an? (?:pair|couple))"
_NAMED = rf"(?:{COLOUR}|{_ROLE})s?"
#: "Two of each color: black, red and white", "two twelves each of black and red".
EACH_AHEAD = lazy_pattern(
    rf"{_EACH_COUNT} (?:(?:number |#)?(?P<size>{_SIZE_WORD})(?:'?e?s)?(?: gauge| awg)?"
    rf"(?: wires?| conductors?)? )?{_OF_EACH}(?: of)?\s*[:,–-]*\s*(?=(?:the |an? )?{_NAMED}\b)"
)
#: "Black, red and white, two of each".
EACH_BEHIND = lazy_pattern(rf"{_GAP}(?:and )?{_EACH_COUNT} {_OF_EACH}")
#: "… and the greens are the grounds", of as many as each color has.
GREENS = lazy_pattern(
    r"(?:the )?greens?(?: (?:wires?|ones?))? (?:(?:is|are|being|as|for) )?(?:the )?"
    r"(?:egcs?|grounds?)\b"
)
#: A further color behind a list that was read as none of its names: "red, tan and blue wire nuts".
#: "Two blacks and whites": whether of both together or of each, nobody can tell.
UNSHARED = lazy_pattern(
    rf"\s*(?:and|&|/)\s*(?:{COLOUR}|hot|neutral)s\b(?=\s*(?:[,.;:!?]|$|and\b|all\b|in\b|number\b|#))"
)
CUT_SHORT = lazy_pattern(rf"[\s,]*(?:and |or )?{COLOUR}\b")
SAME = lazy_pattern(r"(?:the )?same(?: thing| again| colou?rs)?\b\s*[,:]?\s*")
#: What conductors do, behind them: "two white 12 AWG wires are spliced".
_DONE = r"(?<=s)(?=\s*(?:are|were|enter|entering|end|ending|terminate|land|landing|which|inside)\b)"
SIZE = lazy_pattern(
    rf"{_GAP}(?P<marked>(?:(?:all|they're|they are|these are|those are|every one|everything|both"
    rf"|of|them|em|also"
    rf"|are|is|in|it's) )*(?:number |no\.? ?|# ?)?)(?P<size>{_SIZE_WORD})(?P<s>'?e?s)?"
    r"(?: (?:gauge|awg|wires?|conductors?|thhn|thwn|copper|stranded|solid|cu|throughout"
    r"|too|also|as well))*\b"
    r"(?!\s*(?:\"|inch))"
    rf"(?:{_EDGE}|{_DONE})"
)
TOTAL = lazy_pattern(
    rf"{_GAP}(?P<lead>(?:(?:so|and|now|that's|thats|that is|that makes|makes|which makes"
    rf"|which is|it's"
    rf"|what|what's that|total|comes to)\b,? ?)*)(?P<n>{COUNT})(?P<tail>,? (?:total|altogether"
    rf"|in all"
    r"|in total|of them|of those|wires|conductors))?(?:(?P<more> more)? (?:number "
    r"|#)?(?P<size>" + _SIZE_WORD +
    r")(?P<s>'?e?s))?(?=\s*(?:$|[.,;:?!…)–\n-](?!\d)|(?:and|plus|with|then|so)\b))"
)  # fmt: skip
COMES_ON_TOP = lazy_pattern(r"\b(?:plus|also|add|another|then|more)\s+$")
COUNTED = lazy_pattern(rf"(?<!number )(?<!#)\b{COUNT} +(?:number +|no\.? *|# *)?$")
#: "Two dimmers on number twelve, with two blacks, two whites": what a device lands on is the size
#: of the wires that are named right behind it, unless they have one of their own.
LENT = lazy_pattern(
    rf"\bon (?:number |no\.? ?|# ?)?(?P<size>{_SIZE_WORD})(?:'?e?s)?[,;:]? (?:with |and )?$"
)
#: "Number 12: black red blue white".
SIZE_FIRST = lazy_pattern(
    rf"(?:all )?(?:(?:number |no\.? ?|# ?)(?P<size>{_SIZE_WORD})'?s?"
    rf"|(?P<several>{_SIZE_WORD})'?e?s)"
    r"(?: wire)?\s*[,:-]?\s+"
)
#: "A dimmer on number twelve, …", "eight wires number twelve, …": the size of something else.
OF_ANOTHER = lazy_pattern(
    r"(?<=\bon )|(?<=wires )|(?<=conductors )|(?<=\ba )(?=(?:number |#)?\w+ wire\b)"
)
#: "A black and white end on the receptacle": one article for both of them.
ONE_OF_EACH = lazy_pattern(r"(?:an?|one(?: more)?|another|a further)\s")
ONE_MORE = lazy_pattern(r"(?:another|one more|a further)\s")
DETERMINED = lazy_pattern(rf"(?:{COUNT}|an?|its|the|another)\s|greens?\b")
