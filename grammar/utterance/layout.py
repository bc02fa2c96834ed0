"""The layout of an utterance: what its characters are before any word is read."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.numbers import word_classes
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance.passing_remarks import without_remarks

#: Words that look for a word.
_SEEKING = lazy_pattern(
    r"(?i)\b(?:what'?s it called|what is it called|what do you call (?:it|them|that)"
    r"|whatchamacallits?(?=,? (?:the|a|an|that|those|uh|um|er)\b)|how (?:do )?(?:i|you) say"
    r"|what'?s the word)\b,?"
)
#: "There's a what-do-you-call-it in there": behind an article they stand for a thing.
_NAMELESS = lazy_pattern(
    r"(?i)(?<=\b)(?P<before>(?:an?|the|some|this|that|another|one|little|old) )"
    r"(?P<name>what'?s?[- ](?:is[- ])?(?:it|they)(?:[- ]called)?"
    r"|what[- ](?:do|d')[- ]?(?:you|ya)[- ](?:call|ma ?call|may ?call)[- ]?(?:it|them|that))\b"
    r"(?!,? (?:the|a|an|uh|um|er)\b)"
)
_COMPOUND = lazy_pattern(r"(?i)(?<![\w'-])[a-z]+(?:-[a-z]+)+(?![\w'-])")
_DOTS = lazy_pattern(r"(?<=\s)\.{2,}(?=\s)")


_DOUBLE = lazy_pattern(r"(?<=\S) {2}(?=\S)")


def single_spaced(text: str) -> str:
    """Two spaces between words mean no more than one; more of them part the columns of a list."""
    return _DOUBLE.sub(" ", text) if "  " in text else text


_ASIDES = frozenset({"um", "uh", "er", "please"})


def trimmed(words: Sequence[Word]) -> Sequence[Word]:
    """Words of an ear without the hesitations and the "please" at either end."""
    first, last = 0, len(words)
    while first < last and words[first].text.lower() in _ASIDES:
        first += 1
    while last > first and words[last - 1].text.lower() in _ASIDES:
        last -= 1
    return words[first:last] if last > first else words


def plain_layout(text: str) -> str:
    """A pasted list in plain lines, each character in its place: tabs and leaders are no words."""
    text = without_remarks(text)
    if (number := _QUESTION_NUMBER.match(text)) is not None:
        text = " " * number.end() + text[number.end() :]
    if text.endswith(".") and not text.endswith(".."):
        text = text[:-1] + " "  # "go with 22.5.": the full stop is no part of the number
    if "\t" in text:
        text = text.replace("\t", "\n")
    folded = text.casefold()  # few utterances hold a piece that each of these needs
    if "please" in folded:
        text = _ASKED_NICELY.sub(lambda found: " " * (len(found[0]) - 1) + "?", text)
    if "'em" in folded or "’em" in folded:
        text = _THEM.sub(" em", text)
    text = _plain_numbers(text, folded)
    if "clamp" in folded:
        text = _CLAMPS_SHORT.sub(_clamps_short, text)
    if "teen" in folded:
        text = _YEAR.sub(lambda found: found[1] + " " * len(found[2]), text)
    if " cu" in folded.replace(" cubic", ""):
        text = _COPPER.sub(lambda found: found[1] + " " * (len(found[0]) - len(found[1])), text)
    if ":" in folded or "sq" in folded:
        text = _CLOCK.sub(lambda found: " " * len(found[0]), text)
    if "what" in folded or "how" in folded or "-" in folded:
        text = _strange_names(text)
    if _DIGIT.search(folded):
        text = _without_numbers_of_rooms(text, folded)
    return _DOTS.sub(lambda found: " " * len(found.group()), text) if ".." in text else text


#: "1. What is …", "Q12) A box …": the number of a question on a sheet.
_QUESTION_NUMBER = lazy_pattern(
    r"\s*(?:(?:(?i:question|problem|q|no\.?|#) ?)\d{1,3}[.):]?|\d{1,2}[.)])\s+"
    r"(?=(?:What|How|Which|A|An|The|According|If|In|List|Find|Determine|Under|Is|Are|Does|Do|May|Can"
    r"|Calculate|Compute|Size|Per|By|Using|Two|Three|Four|Where|When|True|Maximum|Minimum)\b)"
)
_DIGIT = lazy_pattern(r"\d")
#: "6 no. 12 conductors": a number sign, where a size follows it and a word stands before it.
_NUMBER_SIGN = lazy_pattern(
    r"(?i)(?<=[\w),;] )no\. (?=(?:18|16|14|12|10|8|6|fourteen|twelve|ten|eight|six)\b"
    r"(?! ?(?:cu|in\b|inch|ci\b|gang|[/-]\d)))"
)
#: "THWN-2": the kind of insulation, and no number.
_WET_RATED = lazy_pattern(r"(?i)\b(thhn|thwn|xhhw|thw|rhw)(-2|/th[hw]n(?:-2)?)(?![\d/])")
_DIGIT_BEHIND_LETTER = lazy_pattern(r"[a-z]\d")


def _plain_numbers(text: str, folded: str) -> str:
    """ "No. 12" is a size, and "THWN-2" holds no number."""
    if "no. " in folded:
        text = _NUMBER_SIGN.sub("   #", text)
    if "hw" in folded or "hh" in folded:
        text = _WET_RATED.sub(lambda found: found[1] + " " * len(found[2]), text)
    return text


def _without_numbers_of_rooms(text: str, folded: str) -> str:
    if _DIGIT_BEHIND_LETTER.search(folded):
        text = _NUMBERED_ROOM.sub(lambda found: found[1] + " " * len(found[2]), text)
    if "#" in folded and ":" in folded:
        text = _NUMBERED_HEAD.sub(lambda found: found[1] + " " * len(found[2]), text)
    if any(word in folded for word in _LABELS):
        text = _LABEL.sub(lambda found: found[1] + " " * (len(found[0]) - len(found[1])), text)
    return text


def _strange_names(text: str) -> str:
    """What stands for a name that nobody knows is one word, what looks for one is none."""
    text = _NAMELESS.sub(lambda found: found["before"] + _one_word(found["name"]), text)
    text = _SEEKING.sub(lambda found: " " * len(found[0]), text)
    return _COMPOUND.sub(_strange_compound, text)


def _one_word(name: str) -> str:
    """Words as one that nobody knows, each character in its place."""
    return "".join(letter if letter.isalpha() else "x" for letter in name)


def _strange_compound(found: re.Match[str]) -> str:
    """ "Do-dad": what ends with a word that nobody knows is one strange word, and no "do"."""
    parts = found[0].lower().split("-")
    strange = parts[-1] not in known_words() and len(parts[-1]) > 2
    if any(map(word_classes, parts)) or not (strange or (parts[0] == "do" and parts[1] != "it")):
        return found[0]
    return _one_word(found[0])


def _clamps_short(found: re.Match[str]) -> str:
    return found[1] + ("0" if found[2].lower() == "n" else " ")


#: "…, please?": what is asked is asked, however nicely.
_ASKED_NICELY = lazy_pattern(r"(?i),?\s*\bplease\s*\?")
_THEM = lazy_pattern(r"(?i)(?<=\s)['’]em\b")
#: "clamps n", "clamps: y": no and yes, as notes are written.
_CLAMPS_SHORT = lazy_pattern(r"(?i)(\bclamps?\s*[:=-]?\s*)([ny])(?=\s*(?:$|[,.;/]))")
#: "House is nineteen-oh-something": a year, and no number of the box.
_YEAR = lazy_pattern(
    r"(?i)(\b(?:house|built|circa|dates?|vintage|place|building|home|wired|wiring|year)\b"
    r"[^.,;!?\n]{0,16}?\b(?:is |in |of |from |was |back |to |about |around |like )*)"
    r"((?:eighteen|nineteen)[- ](?:oh|ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen"
    r"|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred(?=[- ](?:something|ish|odd)))"
    r"(?:[- ](?:something|ish|odd|one|two|three|four|five|six|seven|eight|nine))*)\b"
)
#: A room's or a drawing's number at the head of a line is no count of what follows.
_LABELS = (
    "rm", "room", "office", "suite", "apt", "unit", "floor", "flr", "sheet", "rev", "circuit",
    "ckt", "corridor", "area", "zone", "bldg",
)  # fmt: skip
_LABEL = lazy_pattern(
    r"(?im)((?:^ *|[,;.:]\s*)(?:(?:at|in|for|ok|so) )?(?:[a-z]+ )?(?:class)?(?:"
    + "|".join(_LABELS)
    + r")) ?#? ?\d{1,4}[a-z]?\b(?![-/]\d)(?! *(?:$|,? please))"
)
#: "bed2", "bath1": the number belongs to the room.
_NUMBERED_ROOM = lazy_pattern(
    r"(?i)(?<![\w-])((?:m?bed|bdrm|m?br|m?bath|kit|kitchen|gar|garage|hall|lr|dr|den|attic"
    r"|office|porch"
    r"|closet|unit|apt|rm|room))(\d{1,2})(?![\w./-])"
)
#: "Kitchen outlet #3: …": the number of what the box is called by.
_NUMBERED_HEAD = lazy_pattern(r"(?im)^(\s*(?:[a-z]+, )?[a-z][a-z ]{1,28})(# ?\d{1,3})(?=\s*:)")
#: "#12 CU THHN": copper, where "12 cu in" is a volume.
_COPPER = lazy_pattern(r"(?i)((?:#|\bno\.? |\bnumber )\s?\d{1,2}(?: awg)?)\s+cu\b(?!\.?\s*in)")
#: A time of day, a surface: no numbers of a box. But "14:02" is how dictation writes "fourteen
#: two", and "2:14" "two fourteen": those are left for the lexer, which has them asked about.
_CLOCK = lazy_pattern(
    r"(?i)\b(?!(?:14|12|10|0?[86]):0[2-4]\b|\d:1[024]\b)\d{1,2}:[0-5]\d\b"
    r"|(?<![\w,])\d[\d,]*+ (?:square|sq) (?:feet|foot|ft)\b"
    r"|\b(?:a|per) square foot\b"
)
