"""The box of a job that is called by what it is or what it holds: "back to the plug box", "now the
two gang again", "the octagon again, …"."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.box_names import near
from boxaloud.grammar import acts, recognise
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Yoke

_LEAD = (
    r"\W*(?:(?:ok|okay|alright|all right|so|and|well|um|uh|er|oh|hi|hey|hello|now|then|right"
    r"|let's|lets|let me|we|i|i'm|we're|gonna|please)\b,?\s+)*"
)
_BACK = (
    r"(?:(?:go|going|get|getting|head|heading|jump|jumping|come|coming|move|moving)\s+)?"
    r"(?:back|over)\s+(?:to|on|onto|in|at|with)|return(?:ing)?\s+to"
)
_KIND = (
    r"(?:the|that|my|our)\s+(?:(?:box|one)\s+with\s+(?:the|a|an)\s+)?"
    r"(?P<kind>[a-z0-9][\w.'-]*(?:\s+(?!again\b|once\b|box\b|one\b)[\w.'-]+){0,3}?)"
)
_AGAIN = r"(?:,?\s+(?:again|once more|now|please|then))"
_ENDS = r"\s*(?:[.,:;!\n…]+\s*|$)"
#: "Back to the plug box, …", "back to the two gang": it is gone back to.
_GONE_BACK = lazy_pattern(
    rf"(?i){_LEAD}(?P<lead>{_BACK})\s+{_KIND}(?:\s+(?:box|one))?{_AGAIN}*{_ENDS}"
)
#: "Now the two gang again", "the plug box again, …": it was spoken of before.
_SPOKEN_OF = lazy_pattern(
    rf"(?i){_LEAD}(?:(?:on\s+)?to\s+|on\s+|in\s+)?{_KIND}(?:\s+(?:box|one))?,?\s+"
    rf"(?:again|once\s+more)(?:,?\s+(?:now|please|then))*{_ENDS}"
)
#: "Now the plug box": nothing else is said.
_ONLY = lazy_pattern(
    rf"(?i){_LEAD}(?<=now )(?:for |to |on to )?{_KIND}\s+(?:box|one)"
    r"(?:,?\s+(?:please|then))*[.!\s]*$"
)


def called_by_contents(
    heard: str, names: Sequence[str], talk_of: Callable[[str], Talk]
) -> tuple[str, int] | None:
    """The only box that is or holds what is said, and where what is said of it begins.

    Where none or several are, what it was called, so that it is asked. None where no box is called
    so, or where there is only one.
    """
    if len(names) < 2:
        return None
    said = _GONE_BACK.match(heard) or _SPOKEN_OF.match(heard) or _ONLY.match(heard)
    if said is None or near(said["kind"].lower(), names):
        return None
    read = recognise(f"the {said['kind']}")
    kind = read.acts[0] if len(read.acts) == 1 and not read.weighty else None
    if not isinstance(kind, (acts.AddDevice, acts.NameBoxKind, acts.SetSize, acts.SetVolume)):
        return None
    fitting = [name for name in names if _is_called(talk_of(name), kind)]
    name = fitting[0] if len(fitting) == 1 else " ".join(said["kind"].lower().split())
    return name, said.end()


def _is_called(talk: Talk, kind: Act) -> bool:
    """Whether a box holds that device, or was said to be of that kind or that volume."""
    if isinstance(kind, acts.AddDevice):
        return any(
            isinstance(item.content, Yoke) and kind.name in item.content.name.split(" and ")
            for item in talk.state.items
        )
    if isinstance(kind, acts.SetVolume):
        return talk.assessment.sheet.capacity == kind.volume
    return any(_same_kind(told, kind) for entry in talk.journal for told in entry.acts)


def _same_kind(told: Act, kind: Act) -> bool:
    if not isinstance(told, (acts.NameBoxKind, acts.SetSize, acts.SetVolume)):
        return False
    return all(
        getattr(told, part, None) == wanted
        for part in ("gangs", "family", "width")
        if (wanted := getattr(kind, part, None)) is not None
    )
