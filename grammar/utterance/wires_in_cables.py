"""A wire named by what it does, of a cable that is told beside it: "the hot comes in on a 12-2".

Each insulated conductor of a cable is counted with the cable, 314.16(B)(1).
"""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_ROLE = r"(?:hots?|neutrals?|whites?|blacks?|reds?|travell?ers?|feeds?|grounds?)"
_FILL = r"(?:(?:the|that|this|my|its|same|just|right|only|over|up|down|here|there|back|both) )*"
_MOVES = (
    r"(?:(?:is|are|was|were|comes?|coming|came|arrives?|runs?|running|brought|carried|fed|feeding"
    r"|enters?|entering|goes|going) )"
)
#: Between the wire and the cable that it is in: "… and neutral come in on …", "… from the panel
#: is …", "… in that …".
_INTO_CABLE = lazy_pattern(
    rf"(?i)(?:['’]s)?(?:(?: and|,| or) (?:the )?{_ROLE})* "
    rf"(?:from (?:the )?[a-z]+ )?{_MOVES}*{_FILL}"
    rf"(?:(?:in|into|out|through|up|down|over|here) )*(?:(?:on|in|by|via|is|with|through|over"
    rf"|from|inside) ){_FILL}"
)
#: Behind a cable, what is done with one of its wires: "… with the neutral capped", "…, the white
#: is the hot".
_DONE_WITH_IT = lazy_pattern(
    r"(?i)(?:['’]s| is| are| was| gets| got|)(?: (?:just|only|all|both|re|the|a|my|being|not|now))*"
    r" ?(?:capped|taped|marked|reidentified|re-?identified|unused|used|spare|abandoned|cut off"
    r"|hot|switch leg|switched|dead|folded back|tucked|coiled|nutted|remarked|colou?red"
    rf"|{_ROLE})\b"
    r"|(?i:(?:n['’]t| not) (?:used|connected|needed|hooked up|landed))"
)
_DEFINITE = lazy_pattern(r"(?i)(?:\b(?:the|its|with)|^|[,.;:]|\bwith the)\s*$")
#: "… the white is the" hot: what one of its wires is used as.
_USED_AS = lazy_pattern(
    r"(?i)\b(?:white|black|red|blue|one|wire)(?:['’]s| is| was| being| as| for| used| marked)+"
    r"(?: (?:the|a|my))? ?$"
)


def wires_in_cables(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without wires that are in a cable told beside them, and counted with it."""
    return [act for place, act in enumerate(made) if not _in_a_cable(made, place, heard)]


def _in_a_cable(made: Sequence[Act], place: int, heard: str) -> bool:
    wire = made[place]
    if not isinstance(wire, acts.AddConductors) or wire.count is not None or wire.awg is not None:
        return False
    if wire.role is None or wire.path is not None:
        return False
    cable = _next_cable(made, place)
    if cable is not None and _INTO_CABLE.fullmatch(heard, wire.span[1], cable.span[0]):
        return True
    behind = any(isinstance(act, acts.AddCable) for act in made[:place])
    if behind and _USED_AS.search(heard, 0, wire.span[0]) is not None:
        return True
    return (
        behind
        and _DEFINITE.search(heard, 0, wire.span[0]) is not None
        and _DONE_WITH_IT.match(heard, wire.span[1]) is not None
    )


def _next_cable(made: Sequence[Act], place: int) -> acts.AddCable | None:
    """The cable behind a wire, with nothing but wires named by their role between."""
    for act in made[place + 1 :]:
        if isinstance(act, acts.AddCable):
            return act
        if not isinstance(act, acts.AddConductors) or act.count is not None:
            return None
    return None
