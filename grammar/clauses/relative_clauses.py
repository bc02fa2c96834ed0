""" "…, which measures three by two": what tells on of a thing that was named, and asks nothing."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

#: Behind "which" a verb that tells of the thing before it, or somebody who did something with it.
#: "Which takes more", "which one", "which is bigger" ask, also where an ear gives no mark.
_TELLS_ON = lazy_pattern(
    r"(?:(?:and|but) )?which (?:(?:just|also|only|really|still|always|by the way) )*"
    r"(?:measur(?:es|ed)|sits|sat|surpris(?:es|ed)|st(?:ands|ood)|com(?:es)|came|go(?:es)|went"
    r"|l(?:ands|anded|ies|ay)|ends|ended|feeds|fed|runs|ran|serves|served|reads|says|said|hangs"
    r"|pleases|worries|bothers|annoys|puzzles|amazes|helps|hides|hid|belongs|surrounds|carries"
    r"|gives|gave|explains"
    r"|(?:i|we|they|he|she|nobody|no one|somebody|someone)"
    r" (?!(?:can|could|should|would|may|must)\b)"
    r"[a-z]+)\b(?!.*\b(?:more|most|less|least|fewer|bigger|biggest|smaller|smallest|larger|largest"
    r"|deeper|better|best|first|where|when|or)\b)"
)


def tells_on(line: str) -> bool:
    """Whether a clause tells on of what was named: "which sits on a round box".

    >>> tells_on("which measures <box_size:>"), tells_on("which takes more")
    (True, False)
    """
    return line.startswith(("which", "and which", "but which")) and (
        _TELLS_ON.match(line) is not None
    )
