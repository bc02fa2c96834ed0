"""What a clause does: it tells, asks or supposes."""

from __future__ import annotations

import re
from functools import lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Clause, Mood
from boxaloud.grammar.clauses.most_wanted import asks_for_most
from boxaloud.grammar.clauses.orders import orders_so_many
from boxaloud.grammar.clauses.relative_clauses import tells_on
from boxaloud.grammar.clauses.suppositions import BOX_ASKED, SUPPOSED_ANYWHERE, compares, supposes
from boxaloud.grammar.clauses.tag_questions import asks_of_a_rule
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

_TABLE = grammar_data.table("clauses")
_MOOD = _TABLE["mood"]
_LEAD = frozenset(_MOOD["lead"])
_WH = frozenset(_MOOD["wh"])
_AUXILIARY = frozenset(_MOOD["auxiliary"])
_SUBJECT = frozenset(_MOOD["subject"])
_MODAL = frozenset(_MOOD["modal"])
_FIT = frozenset(_MOOD["fit"])
_SPEAKERS = frozenset(_TABLE["cutting"]["speakers"])
_SAY = frozenset(_TABLE["cutting"]["say"])
#: What begins or ends a box, or steps back: a clause of its own, which always tells.
EVENTS = frozenset(
    {
        "next_box",
        "open_box",
        "copy_box",
        "name_box",
        "list_boxes",
        "new_job",
        "delete_box",
        "done",
        "undo",
        "redo",
        "start_over",
    }
)
_CONDITIONAL = lazy_pattern(
    r"^(?:(?:" + "|".join(sorted(_LEAD)) + r") )*"
    r"(?:" + "|".join(sorted(map(re.escape, _MOOD["conditional"]), key=len, reverse=True)) + r")\b"
    rf"|^(?:[^<]|<(?:yes|no)[^>]*>)*\b(?:{SUPPOSED_ANYWHERE})\b"
)
TELLING_IF = lazy_pattern("|".join(map(re.escape, _MOOD["telling_if"])))
_REQUEST = lazy_pattern(
    r"^(?:(?:"
    + "|".join(sorted(_LEAD))
    + r") )*(?:"
    + "|".join(_MOOD["request"])
    + r") (?:please |just |we |you |also |then |maybe )*"
    r"(?:" + "|".join(_MOOD["verbs_of_request"]) + r")\b"
)
#: "I forget if it's the deep one": nothing is told.
UNSURE = lazy_pattern(
    r"\b(?:forget|forgot|not sure|not certain|do not know|can not tell|could not tell"
    r"|could not tell you|can not tell you|can not say|could not say|did not see|did not look"
    r"|did not check|did not notice|have not looked|have not checked|dunno|no idea"
    r"|do not remember|can not remember|do not recall|not looked|at) (?:if|whether|which|what"
    r"|how)\b|^[^<]*(?:idk|<dont_know[^>]*>) (?:if|whether)\b(?=.*<clamps)"
    r"|\b(?:(?:need|want|like|love|have|trying) to (?:know|see|find out|figure out|hear|ask)"
    r"|wonder|wondering|curious|asking(?: you)?|find out|figure out)(?: about)?"
    r" (?:how|what|which)\b"
)
_OF_RULES = frozenset(
    ("counted", "count", "counts", "supposed", "allowed", "required", "needed", "considered")
)
#: "So now the clamp counts as a 12?", "that's exactly 18, right?"
_TAG = lazy_pattern(
    r"\b(?:counts?|counted|means?|right|correct|perfect|huh|isn't it|is it|yeah|total|still"
    r"|exactly|so now)\b"
)


#: "Is a stud the same as a hickey", "both of those have to stay?".
_OF_WHAT_IS = lazy_pattern(
    r"(?:^| )(?:is|are) .*\b(?:the same (?:thing )?as|different (?:from|than|to))\b"
    r"|(?:^| )(?:is|are|does|do) <device[^>]*>(?: count| cost| take| use)?(?: for| up)?"
    r"(?: any| really| much)* (?:more|less|bigger|smaller|worse|larger)\b"
    r"|^(?:(?:and|so|but) )*(?:both|all) (?:of )?(?:the|those|these|them)\b.* have to\b"
)


_FITTING = (
    r"(?:still |also |now |all |even )*(?:fits?|enters?|goes in|go in|works?|pass(?:es)?|holds?"
    r"|(?:is|are) (?:still |also )*(?:good|ok|okay|fine|legal|enough|full|over|under|allowed|too"
    r" (?:full|much|many)))"
)
#: "It fits with another switch?", "with one more 14-2 it fits?": asked without an auxiliary.
_ASKS_OF_FIT = lazy_pattern(
    rf"^(?:(?:and|so|but|then|now|ok|okay|well) )*(?:(?:it|this|that|the box|everything|all) )?"
    rf"{_FITTING}\b.*<"
    r"|^(?:(?:and|so|but|or|also) )*with <(?!n|box|clamps|place)"
    r"|^(?:(?:and|so|but) )*(?:it is |is )?possible (?:to (?:add|put|have|bring) )?<"
    r"|^(?!.*<(?:n|box|clamps|place))(?:(?:and|so|but|with|for) )*<.*?"
    rf" (?:(?:it|this|that|the box|everything|all) )?{_FITTING}(?: in (?:it|there)| too| still)*$"
)


#: "For how many does a stud count", "at what size".
_BEFORE_WH = lazy_pattern(
    r"(?:(?:and|so|but|ok|okay|well|then|now) )*(?:for|as|at|by|in|of|to|with) (?:how|what|which)"
    r" (?:many|much|size|volume|<size|<conductors).*\b(?:do|does|did|is|are|can|may|must|should)\b"
)
#: "Can one 14-2 go into a 3.9 cubic inch pancake": it asks whether it fits.
_GOES_IN = lazy_pattern(
    r"\b(?:can|could|will|would|may|does|do)\b.*<.*\b(?:go|goes|put|get|be put|stuff|squeeze)"
    r" (?:in |into |inside )?<box_(?:volume|size)[^>]*>(?: (?:of )?<box_[^>]*>)*"
    r"(?: (?:box )?with .*)?$"
    r"|^(?:(?:so|and|ok|okay|well|hey|now) )*(?:can|could|will|would|may|does|do)"
    r" (?:(?:the|this|that|my|a|an) )?<box_(?:volume|size)[^>]*>"
    r"(?: (?:box|one|of <box_[^>]*>|<box_[^>]*>))*"
    r" (?:take|handle|carry|accept|have room for|hold|fit) (?:(?:a|an|the) )?<(?:cable|device|cond)"
)
_FITS_WITH = lazy_pattern(
    r"^(?:(?:and|so|but|then|now|ok|okay|well) )*(?:(?:it|this|that|the box|everything) )"
    rf"{_FITTING}(?: still)? with (?!.*<(?:n|box|clamps|place))<|^(?:and |so )*enters <"
    r"|^(?:(?:and|so|but|with) )*<(?!.*<(?:n|box|clamps|place))[^<]*?(?:<[^<]*?)?"
    rf" (?:it|this|that) {_FITTING}$"
)


#: "And a device?", "see how the six is five whole inches?", "smallest octagon?".
_ASKED_SHORTLY = lazy_pattern(
    r"(?:and|or|but) (?:for )?<(?:device|clamps|fitting|grounds|jumper|terminal_block)[^>]*>$"
    r"|(?:(?:and|so|but|you|oh|much better) )*(?:see|notice|remember) (?:how|why|what|that)\b"
    r"|(?:(?:and|so|the|ok|okay|well) )*(?:smallest|minimum|min) <box_(?:kind|size)[^>]*>"
    r"(?: (?:box|size|for|it|this|that|all|fits|works|will|would|work|fit|i|we|can|could|use))*$"
)


#: "And two more on top of that?": supposed, without an auxiliary.
_MORE_ASKED = lazy_pattern(
    r"(?:(?:and|or|then|so|but|plus|even|maybe|ok|okay) )*(?:another|<n:\d+> more|one more)\b"
)


def find_mood(clause: Clause) -> None:
    """Set what the clause does: tell, ask or suppose."""
    clause.mood, clause.fit, clause.modal = _read(clause.line, clause.closes)
    asked = clause.mood == "declarative" and clause.closes == "?"
    if asked and (_MORE_ASKED.match(clause.line) or BOX_ASKED.fullmatch(clause.line)):
        clause.mood, clause.modal = "conditional", True
    asks = _ASKS_OF_FIT if clause.closes == "?" else _FITS_WITH
    if clause.mood == "declarative" and asks.search(clause.line) and is_further(clause):
        clause.mood, clause.fit = "interrogative", True
    if clause.mood == "declarative" and (
        asks_for_most(clause.line, clause.closes) or asks_of_a_rule(clause.line)
    ):
        clause.mood = "interrogative"
    if clause.mood == "interrogative" and any(_passes(found) for found in clause.found):
        clause.fit = True


def _passes(found: Statement) -> bool:
    """ "Is it going to pass": by itself the word skips a question."""
    return found.kind == "skip" and found.words.lower() in ("pass", "passes")


_FURTHER = lazy_pattern(r"(?i)\b(?:another|other|more|extra)\b")


def is_further(clause: Clause) -> bool:
    """ "It fits with another switch", as an ear gives a question: of one that is not there yet."""
    return any(_FURTHER.search(found.words) for found in clause.found)


@lru_cache(maxsize=1024)
def _read(line: str, closes: str) -> tuple[Mood, bool, bool]:
    """What a line does, and whether it asks of the fit and by a modal verb. Remembered: things
    are tags in it, so that most lines are said again, of other things."""
    words = line.split(" ")
    first = _reported(words)
    while first < len(words) - 1 and words[first] in _LEAD:
        first += 1
    head_word = "" if words[first][0] == "<" else words[first]
    if any(word[0] == "<" and word[1:].partition(":")[0] in EVENTS for word in words):
        return "declarative", False, False
    if UNSURE.search(line) or _BEFORE_WH.match(line):
        return "interrogative", False, False
    mood: Mood = "declarative"
    fit = modal = False
    if _CONDITIONAL.search(line) or supposes(line):
        mood, modal = "conditional", True
    elif " if " in line and TELLING_IF.search(line):
        mood, fit = "interrogative", True
    elif "check " in line and TELLING_IF.search(line):
        return mood, fit, modal
    elif _asks_by_its_head(line, words, first, closes):
        if _is_request(line, words[first:]) or orders_so_many(words[first:], closes):
            return mood, fit, modal
        mood, modal = "interrogative", head_word in _MODAL
    if mood == "declarative" and (
        (closes == "?" and (_TAG.search(line) or _ASKED_SHORTLY.match(line)))
        or _OF_WHAT_IS.search(line)
        or compares(line)
    ):
        mood = "interrogative"
    if mood == "interrogative":
        fit = fit or (
            head_word not in ("what", "why", "which", "who", "when", "where")
            and (_about_fit(words, first) or _GOES_IN.search(line) is not None)
        )
    if mood != "declarative" and " if " in line:
        modal = True
    return mood, fit, modal


def _asks_by_its_head(line: str, words: list[str], first: int, closes: str) -> bool:
    """Whether a line asks by the word that it begins with; "which sits on a round box" tells."""
    if words[first] in _WH:
        return closes == "?" or not tells_on(line)
    return words[first] in _AUXILIARY and _asks(words, first, closes)


def _is_request(line: str, words: list[str]) -> bool:
    """ "Could you make it a 20": an order put as a question; "could we make it a 20" asks whether
    that would do."""
    asks = words[0] in ("can", "could", "would", "will") and words[1] != "we"
    return asks and _REQUEST.search(line) is not None


def _reported(words: list[str]) -> int:
    """Where what somebody else asks begins: "he says does it fit"."""
    for place in range(min(4, len(words) - 1)):
        if words[place] in _SAY and place and words[place - 1] in _SPEAKERS:
            return place + 1
    return 0


def _about_fit(words: list[str], first: int) -> bool:
    """ "Is it too full", and not "is the dimmer counted too"."""
    last = len(words) - 1
    return any(
        word in _FIT and not (word == "too" and first + 1 + place == last)
        for place, word in enumerate(words[first + 1 :])
    )


_DEFINITE = lazy_pattern(r"<(?:device|terminal_block|fitting|clamps|grounds|jumper)[^>]*:d>$")
TWO_MORE = 2
"""Words behind an auxiliary: what is asked of, and what is asked of it."""


def _asks(words: list[str], first: int, closes: str) -> bool:
    """Whether an auxiliary at the head asks: "is it over", not "is 18 cubic inches"."""
    head = words[first]
    follows = words[first + 1] if first + 1 < len(words) else ""
    if not follows:
        return closes == "?" or head in ("does", "do")
    if head == "do" and follows in ("it", "that", "this", "not"):
        return False
    if head in _MODAL and follows in ("be", "have"):
        return False
    if head == "can" and follows == "not":
        return False
    if head == "any":
        return closes == "?" or follows in (
            "ideas",
            "chance",
            "other",
            "way",
            "left",
            "room",
            "over",
            "of",
            "boxes",
            "problem",
            "issues",
            "issue",
            "violation",
            "violations",
        )
    if follows == "not":
        return first + 2 < len(words) and words[first + 2] in _SUBJECT
    if head in ("is", "are") and closes != "?" and not _about_fit(words, first):
        rest = [w for w in words[first + 1 :] if w not in ("the", "a", "an")]
        if (
            rest
            and rest[0].startswith(("<n:", "<cable:", "<box_size", "<conductors:"))
            and not any(w in ("counted", "count", "counts", "supposed", "allowed") for w in words)
        ):
            return False  # "is two cable 14-2", with its subject left out
    if head in ("is", "are", "was", "were", "am"):
        subject = follows in _SUBJECT and follows not in ("a", "an", "all")
        named = _DEFINITE.match(follows) is not None and len(words) > first + TWO_MORE
        if subject or named:  # "is it over", "is that block thing new"
            return True
        return _about_fit(words, first) or closes == "?" or any(word in _OF_RULES for word in words)
    if head in ("would", "should", "could", "can", "may", "might", "shall", "does", "did", "do"):
        return True
    return follows in _SUBJECT or follows[0] == "<" or _about_fit(words, first) or closes == "?"
