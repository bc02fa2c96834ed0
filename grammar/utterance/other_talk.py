"""Talk that is not about the box: small talk, remarks about other things."""

from __future__ import annotations

import re
from functools import lru_cache

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS

_SOCIAL = grammar_data.table("social")
#: Acts of which nothing may be left standing where a clause is about something else.
TELLS = (
    *THINGS.values(),
    acts.SetClamps,
    acts.SetVolume,
    acts.SetSize,
    acts.NameBoxKind,
    acts.AddPart,
    acts.AddBarrier,
    acts.AddClampAssembly,
    acts.Hang,
    acts.InSpace,
    acts.ShareSpaces,
    acts.Number,
    acts.Size,
    acts.Place,
    acts.NoneOfThem,
    acts.Deny,
    acts.Land,
    acts.More,
    acts.Recount,
    acts.Remove,
    acts.Restate,
    acts.RestateNumber,
    acts.Replace,
    acts.SetEdition,
    acts.NothingElse,
    acts.Undo,
    acts.OpenBox,
    acts.NameBox,
    acts.DeleteBox,
    acts.Reclassify,
    acts.Resize,
    acts.PutBack,
    acts.Widen,
    acts.Route,
    acts.Unground,
    acts.SetCanopy,
)


def is_weak(act: Act) -> bool:
    """An act that a remark about anything could hold: nothing counted, sized or marked."""
    match act:
        case (
            acts.Number()
            | acts.Size()
            | acts.Place()
            | acts.NoneOfThem()
            | acts.OtherTalk()
            | acts.AskUnknown()
        ):
            return True
        case acts.AddUncounted() | acts.AddBarrier() | acts.AddJumper() | acts.Hang():
            return True
        case acts.AddDevice() | acts.AddGrounds() | acts.AddConductors() | acts.AddFitting():
            return (
                act.count is None and act.awg is None
                if not isinstance(act, acts.AddFitting)
                else act.count is None
            )
        case acts.AddCable():
            return act.count is None and act.awg is None
        case acts.Resize() | acts.Recount() | acts.Remove():
            return act.target.kind == "anything"
        case acts.SetSize():
            return act.depth is None and (
                bool(act.doubts) or (act.material is None and "box" not in act.words.lower())
            )
        case acts.SetEdition():
            return "code" not in act.words.lower() and "edition" not in act.words.lower()
        case _:
            return False


def about_other_things(made: list[Act], parts: list[Clause]) -> bool:
    """Whether an utterance holds nothing firm of a box, and words that no description has."""
    if not made or not all(map(is_weak, made)) or not any(isinstance(act, TELLS) for act in made):
        return False
    if (
        all(isinstance(act, (acts.Number, acts.Size, acts.Place, acts.NoneOfThem)) for act in made)
        and len(parts) == 1
    ):
        least = 3
    else:
        least = 2
    return len(strange_words(parts)) >= least


def strange_words(parts: list[Clause]) -> set[str]:
    """The words of no thing that no description has; a room of the building may stand in one."""
    return {
        element.tag
        for clause in parts
        for element in clause.elements
        if element.found is None
        and element.tag.isalpha()
        and len(element.tag) > 2
        and element.tag not in known_words()
        and element.tag not in ROOMS
        and element.tag not in ROOM_WORDS
    }


def small_talk(heard: str) -> Act | None:
    """ "Thanks", "hold on": an utterance of nothing else."""
    text = " ".join(re.findall(r"[a-z']+|\d[\w./-]*", heard.lower().replace("’", "'")))
    if not text or len(text) > 80:
        return None
    for what, pattern in _social_patterns():
        if pattern.fullmatch(text):
            return acts.Social(what=what, words=heard.strip(), span=(0, len(heard)))
    return None


@lru_cache(maxsize=1)
def _social_patterns() -> tuple[tuple[acts.SocialKind, re.Pattern[str]], ...]:
    return tuple((row["what"], re.compile(row["say"])) for row in _SOCIAL["social"])


_PUT_TO_YES = frozenset({"confirm", "clamps", "grounds", "canopy", "connectors"})


def dismay_answers(social: Act, expect: str | None) -> bool:
    """ "Oh no" in answer to a question of yes or no, where elsewhere it is dismay alone."""
    dismay = isinstance(social, acts.Social) and social.what == "dismay"
    return dismay and expect in _PUT_TO_YES and re.search(r"(?i)\bno\b", social.words) is not None
