"""What somebody made of it: "I counted the receptacle as three wires, I come out at 22.5", "the
answer key says 7". It is a count to be checked, and none of what is in the box nor its volume."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern


def without_own_sums(text: str) -> str:
    """The text with the counts that somebody made blanked, each character in its place.

    >>> without_own_sums("two 14-2s, I get 18 cubic inches")
    'two 14-2s,                      '
    """
    low = text.casefold()
    if not any(word in low for word in _SUMMED):
        return text
    if _TALLY.search(text) is not None:
        text = _TALLIED.sub(lambda found: found["noun"] + " " * len(found["worth"]), text)
    return _SUM.sub(lambda found: " " * len(found[0]), text)


#: "Two 12-2s = 4 wires, grounds 1, receptacle 2": behind such a sum each figure is what a thing
#: counts, and not how many there are of it.
_TALLY = lazy_pattern(r"(?i) ?(?:=|equals) ?\d+ (?:wires|conductors|allowances)\b[,;]")
_TALLIED = lazy_pattern(
    r"(?i)(?P<noun>\b(?:grounds?|receptacles?|switch(?:es)?|dimmers?|gfcis?|devices?|yokes?|clamps?"
    r"|stud|hickey))(?P<worth> ?(?:=|:|counts?|for|as)? ?\d+\b(?: because there"
    r" (?:are|is|were) (?:two|three|both|\d) of them\b)?)(?=\s*(?:[,.;)]|$|because\b|inside\b))"
)


#: One of these stands in whatever is blanked.
_SUMMED = (
    "count",
    "figured",
    "treated",
    "reckoned",
    "come ",
    "comes ",
    "came ",
    "end up",
    "ended up",
    "get ",
    "make ",
    "total",
    "answer",
    "key",
    "sheet",
    "online",
    "book",
    "app ",
    "calculator",
    "takes",
    "holds",
    "fits",
    "good for",
    "=",
)
_DIGITS = r"\d+(?:\.\d+)?(?![\d/\-])"
_WORD = (
    r"(?:zero|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|[a-z]+teen|twenty"
    r"|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred)"
)
_FIGURE = (
    rf"(?:{_DIGITS}|{_WORD}(?:(?:[- ]| and | point )(?:a )?(?:{_WORD}|half|quarter"
    r"|three quarters))*)"
)
_UNIT = (
    r"(?: (?:cubic inch(?:es)?|cubic|cubes|cu\.? ?in\.?|in3|in³|ml|millilit(?:er|re)s|wires?"
    r"|conductors?|allowances?|points?))?"
)
_END = r"(?=\s*(?:[,.;:!?)]|$|-{1,2} |and\b|so\b|but\b|because\b|is that\b))"
#: "I get three" may be how many there are; a volume or a count of points is more, or has a unit.
_LONELY = (
    r"(?! (?:\d|10|11|12|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
    + _END
    + ")"
)
_WHO = (
    r"(?:(?:i|we|he|she|they)\b|(?:(?:my|the|our|an?) )?(?:inspector|foreman|boss|teacher"
    r"|instructor|buddy|helper|guy|asker|poster|author)\b)"
)
#: "Should I make it 25", "what if we get 20": supposed or asked, and no sum that was made.
_NOT_SUPPOSED = "".join(
    rf"(?<!\b{word} )"
    for word in ("should", "would", "could", "can", "shall", "may", "must", "if", "do", "did")
)
_SOURCE = (
    r"(?:(?:the|an?|my|some|this|their|his|her) )?(?:(?:answer|official|published|exam|quiz|book)"
    r" ?){0,2}(?:key|answer sheet|answers?|solution|guy online|(?:somebody|someone) online|forum"
    r"|calculator|app|test|exam|quiz|book)(?: online| in the back)?"
)
_SHEET = (
    r"(?:(?:the|an?|its|their) )?(?:data ?sheet|spec sheet|cut sheet|flyer|brochure|catalog"
    r"|package|carton|maker|manufacturer|salesman)"
)
_TEACHER = (
    r"(?:(?:the|my|an?|our) )?(?:inspector|teacher|instructor|boss|foreman|journeyman|helper"
    r"|guy|buddy|somebody|someone|he|she|they|i)"
)
_SUM = lazy_pattern(
    rf"(?i)\b{_WHO}(?:['’](?:ve|d|m)| have| had| am)?(?: only| just| also)?"
    r" (?:counted|counts?|counting|figured|treated|treats|reckoned) (?:the|that|my|each|every|this"
    rf"|those|these|it) [^,.;:?!]{{0,40}}?\b(?:as|for|at|like) {_FIGURE}{_UNIT}{_END}"
    rf"|\b{_NOT_SUPPOSED}(?:so |and |then |which )*{_WHO}"
    r" (?:(?:come|comes|came|end|ends|ended) (?:out|up)"
    rf" (?:at|to|with)"
    rf"|(?:get|make (?:it|that)){_LONELY}) {_FIGURE}{_UNIT}{_END}"
    rf"|\bmy (?:own )?(?:sum|total|count|answer|math|tally)(?:['’]s| is| was| comes to| came to"
    rf"| says)? {_FIGURE}{_UNIT}{_END}"
    rf"|\b{_SOURCE} (?:says?|said|claims?|gives?|gave|has it (?:at|as)|shows?|told me|tells me"
    rf"|puts? it at|is|was) {_FIGURE}{_UNIT}{_END}"
    rf"|\b(?:so |and |then )*{_WHO} (?:says?|said) {_FIGURE} (?:points?|allowances?){_END}"
    rf"|\b{_SHEET} (?:claims?|says?|swears?|promises)(?: that)? (?:it|the box|this box|that box)"
    r"(?:['’]s| is|['’]ll| will| can)? (?:takes?|holds?|fits?|good for)\b[^,.;:?!]+"
    rf"|\b{_TEACHER} (?:told (?:me|us)|says?|said|claims?|swears?|thinks?|thought|figured)"
    r"(?: that)? (?:an?|each|every|the) [a-z -]{3,25}? (?:only |just |always )?counts?"
    rf" (?:only |just )?(?:once|twice|(?:as |for )?{_FIGURE}{_UNIT}){_END}"
    rf"| ?= ?{_DIGITS} (?:wires|conductors|allowances)\b"
    rf"|(?<!x )(?<!\.)\b{_DIGITS} ?(?:x|×|\*|times) ?{_DIGITS} ?(?:=|equals) ?{_DIGITS}"
)
