"""Questions of a conduit body at hand: may it hold splices, and how many conductors does it take.

"Can I splice in it", "does it need a mark" go by 314.16(C)(2) and (3), "how many can I have" and a
size alone, "14s", by Chapter 9 Table 1.
"""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.lazy_patterns import lazy_pattern

_IN_IT = (
    r"(?: (?:in(?:side)?|into|through)(?: of)? (?:it|this|that|there|here|one|this one|the body))?"
)
_WIRES = r"(?:the |my |these |those |some )?(?:#?\d{1,2}s?|\w+s|them|it|wires?|conductors?)"
_SPLICES = lazy_pattern(
    rf"(?:so |and |then |ok |okay |now |but )*(?:(?:can|may|could|should) (?:i|we|you)"
    rf"|am i allowed to|is it (?:ok|okay|fine|allowed) (?:to|if i)|do i get to)"
    rf" (?:make (?:a |some )?splices?|splice(?: {_WIRES})?|put (?:a |some )?splices?){_IN_IT}"
)
_MARK = lazy_pattern(
    r"(?:so |and |then |ok |okay |now |but )*(?:(?:does|must|will|would)"
    r" (?:it|this|that|the body|the fitting)"
    r"(?: (?:have|need) to)?|do i need)(?: (?:be|need|have|a))*"
    r" (?:mark(?:ed|ing)?|stamp(?:ed)?|volume|cubic inches?)"
    r"(?: (?:with )?(?:a )?(?:volume|on it))?"
    r"(?: (?:for|to) (?:that|it|this|splic\w+|do that))?(?: (?:in )?it)?"
)
_HOW_MANY = lazy_pattern(
    r"(?:so |and |then |ok |okay |now |but )*how many(?: (?:wires|conductors|of them|total))?"
    r" (?:can|may|could|do|will|would|does)(?: (?:i|we|you|it|this|that))?"
    rf"(?: (?:have|put|get|fit|run|pull|use|hold|take|stuff|go))?{_IN_IT}"
)
_SIZE_ALONE = lazy_pattern(
    r"(?:of |for |the |and |just |with )*(?:#|number |no\. ?)?"
    r"(?P<n>14|12|10|8|6|fourteen|twelve|ten|eight|six)(?:'?s| ?awg| gauge)(?: thhn)?(?: wires?)?"
)


def asked(heard: str, text: str, open_question: str | None) -> tuple[Act, int] | None:
    """What is asked at the end of an utterance, and where the question begins; None where nothing
    of the sort is."""
    start = _last_sentence(text)
    said = text[start:].strip(" .!?")
    span = (start, len(heard))
    if _SPLICES.fullmatch(said) or _MARK.fullmatch(said):
        return acts.AskMeaning(term="splice_in_body", words=heard[start:].strip(), span=span), start
    if not start and _HOW_MANY.fullmatch(said):
        return acts.AskFill(words=heard[start:].strip(), span=span), start
    sized = _SIZE_ALONE.fullmatch(said) if not start and open_question == "contents" else None
    if sized is None:
        return None
    worth = lengths.value(sized["n"])
    awg = None if worth is None else int(worth)
    return acts.AskFill(awg=awg, words=heard.strip(), span=span), start


def _last_sentence(text: str) -> int:
    """Where the last sentence begins."""
    body = text.rstrip(" .!?")
    cut = max((body.rfind(sign) for sign in ".!?;"), default=-1)
    gap = len(text[cut + 1 :]) - len(text[cut + 1 :].lstrip())
    return cut + 1 + gap if cut >= 0 else 0
