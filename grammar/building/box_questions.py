"""Questions for the box that is needed, and for the volume of one that is named."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.clauses.act_fields import act_of
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

_BOX_FOR = lazy_pattern(
    r"\b(?:what|which|how big a|how big of a|smallest|size)\b.*\bbox(?:es)?\b.*"
    r"\b(?:for|with|need|use|fit|hold|holds|take|takes|carry|accepts?|if|required|needed|necessary)\b"
    r"|\bwhat (?:do|does|would|will|should|size do) (?:i|we|you|it) (?:need|use|want|get|take)"
    r" (?:for|with|to (?:hold|fit|take))\b.*<(?:cable|conductors)"
)
_NAMED = lazy_pattern(r"<box_kind[^>]*>")
_NEEDED = lazy_pattern(
    r"\b(?:volume|cubic inch(?:es)?|cubic|cubes|cu in|capacity)\b"
    r".*\b(?:for|needs?|needed|required?|takes?)\b"
    r"|\bhow many (?:conductor |volume )?allowances?\b.*"
    r"\b(?:needed|required|counted|due|box|containing|with|in)\b.*<"
    r"|\bhow (?:small|little|big|large) (?:a |of a )?box\b.*\bfor\b"
    r"|\b(?:least|minimum|min|smallest|lowest|required|necessary)\b.*"
    r"\b(?:volume|cubic inch(?:es)?|cubic|cubes|box)\b.*<"
)
#: Of a box that is there, and what may still come into it.
_STILL = lazy_pattern(r"\b(?:more|another|add|still|left|spare|extra|additional|if|one)\b")


def volume_needed(line: str) -> bool:
    """Whether a clause asks for the volume that the things in it need."""
    return _NEEDED.search(line) is not None and _STILL.search(line) is None


_SIZE_WANTED = lazy_pattern(
    r"\b(?:what size|which size|how (?:big|deep|large)|what is the (?:smallest|least)|smallest)"
    r"(?: of)?"
    r"(?: an?)? <box_(?:kind|size):"
    r"|\b(?:which|what) <box_(?:kind|size):[^>]*> (?:(?:is|are) (?:required|needed|necessary)"
    r"|(?:do|does|should|must|will|would|can) (?:i|we|you|it|that|this) (?:need|take|use|require))"
)


def box_wanted(line: str, kinds: Sequence[str], things: Sequence[Statement]) -> str | None:
    """The kind of box that a clause asks for, empty where any will do; None where it asks for none.

    "What size octagon do I need" asks for the size of an octagon; in "what box do I need for two
    14-2s" the rest is what the box is for.
    """
    if _SIZE_WANTED.search(line):
        boxes = (found for found in things if found.kind in ("box_kind", "box_size"))
        if family := next((str(found.get("family") or "") for found in boxes), ""):
            return family
    sized = any(kind in ("box_volume", "box_size") for kind in kinds)
    if "smallest_box" in kinds or (not sized and _BOX_FOR.search(_NAMED.sub("box", line))):
        return ""
    return None


_VOLUME = r"(?:volume|capacity|cubic inch(?:es)?|cubic|cu in|cubes)"
_VOLUME_OF = lazy_pattern(
    rf"\b{_VOLUME}\b[^<]*<box_(?:size|kind)|<box_(?:size|kind)[^<]*\b{_VOLUME}\b"
    r"|\bhow (?:big|large|much)\b[^<]*<box_(?:size|kind)[^<]*$"
)
#: Of what goes in it, or of what is left in it.
_OF_CONTENTS = lazy_pattern(
    r"\b(?:need|needs|needed|left|over|margin|spare|room|if|with|fit|fits|more|full|deep|wide)\b"
)


def volume_asked(
    line: str, things: Sequence[Statement], words: str, span: tuple[int, int]
) -> acts.Ask | None:
    """ "What's the volume of a 4 by 2-1/8 square": of the one box that a clause names."""
    boxes = [found for found in things if found.kind in ("box_size", "box_kind")]
    if len(boxes) != 1 or len(things) != 1:
        return None
    if not _VOLUME_OF.search(line) or _OF_CONTENTS.search(line):
        return None
    box = act_of(boxes[0])
    given = (box,) if box is not None else ()
    return acts.Ask(about="capacity", given=given, words=words, span=span)


_OUTCOME = lazy_pattern(
    r"\b(?:would|could|will|can|should|might|room|space|left|fit|fits|pass|over|ok|okay)\b"
)


def asks_of_the_outcome(asked: str) -> bool:
    """Whether what stands before an "if" asks how it would be then, and not for a box for it."""
    return bool(_OUTCOME.search(asked)) and not _BOX_FOR.search(f"{asked} if")
