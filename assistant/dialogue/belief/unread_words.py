"""Weighty words that nothing could be made of: no verdict stands over them unsettled.

They are said at once and asked about before a verdict is given, typed as well as heard. Saying
on what they were about settles them, and so does "skip". Right beside an act that an ear gave
they may have changed its meaning ("know clamps" for "no clamps"), so that act is asked back.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.belief import belief_table, checked_figures, slot_values
from boxaloud.assistant.dialogue.belief.same_matter import goes_on, has_number, same_matter
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.table_volume import is_its_volume
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts, recognise
from boxaloud.grammar.acts import Act, Doubt, Unread
from boxaloud.grammar.clauses.act_fields import BOX, THINGS
from boxaloud.grammar.lexer import numbers

FILLING = frozenset(made.__name__ for made in BOX.values())
CONTENTS = frozenset(made.__name__ for made in THINGS.values())
CHANGING = frozenset(
    {"Restate", "RestateList", "RestateNumber", "Recount", "ShareYoke", "Replace", "Remove",
     "More", "Land", "Resize", "Reclassify", "Unground", "Widen", "Route", "PutBack"}
)  # fmt: skip
OF_BOX = frozenset({"SetVolume", "SetSize", "NameBoxKind", "AddPart", "AddBarrier"})
ANSWERS = {
    "box": OF_BOX, "box_depth": OF_BOX, "clamps": frozenset({"SetClamps"}),
    "grounds": frozenset({"Deny"}), "canopy": frozenset({"SetCanopy"}),
}  # fmt: skip
"""What answers a question whose first answer was not understood, besides contents."""
SAID_AGAIN = FILLING | {"SetCanopy"}
SAYING = CONTENTS | CHANGING | SAID_AGAIN | {"Deny"}
_NUMBER = re.compile(r"\d")
_ENTERING = re.compile(
    r"(?i)\b(?:same|another|more|extra|whips?|pipes?|conduits?|raceways?|hots?|neutrals?|wires?"
    r"|conductors?|travell?ers?|feed(?:s|er|ing)?|loops?|taps?)\b"
)
_THING = re.compile(r"(?i)\b(?:a|some|an|one|more) (?:more )?(?:devices?|wires?|cables?)$")


def beside(heard: str, told: Sequence[Act], unread: Sequence[Unread]) -> tuple[Act, ...]:
    """The acts, with a doubt on each that unread words stand right beside."""
    return tuple(_beside(heard, act, unread) for act in told)


def _beside(heard: str, act: Act, unread: Sequence[Unread]) -> Act:
    if belief_table.kind(act) not in belief_table.table().holdable:
        return act
    if not any(_touch(heard, act.span, run.span) for run in unread):
        return act
    return replace(act, doubts=(*act.doubts, Doubt(slot_values.first_value(act), "beside")))


def _touch(heard: str, span: tuple[int, int], place: tuple[int, int]) -> bool:
    """True where nothing but a space lies between an act and unread words."""
    first, second = sorted((span, place))
    return not heard[first[1] : second[0]].strip()


def unheard(heard: str) -> Unread:
    """Speech behind what was heard, of which the ear could make nothing: it weighs."""
    return Unread(say("unheard"), (max(0, len(heard) - 1), len(heard)), True)


def explained(turn: Turn, unread: tuple[Unread, ...]) -> tuple[Unread, ...]:
    """What is left unread once the box is known: not the number that the Table gives for it, as in
    "12.5 device box 3x2x2 1/2", and no figures of its own working."""
    if (unread or turn.unplaced) and checked_figures.checked(turn, unread):
        turn.unplaced.clear()
        unread = tuple(run for run in unread if not run.weighty)
    if not unread or (_is_whole(turn, unread) and turn.state is not turn.began):
        return ()
    left = tuple(run for run in unread if not _is_its_volume(turn, run))
    turn.gaps = bool(left)
    return left


def _is_whole(turn: Turn, unread: Sequence[Unread]) -> bool:
    """Whether a whole utterance is what was not understood: where the box changed by it, by what
    was said before, it was."""
    return len(unread) == 1 and unread[0].words == turn.heard.strip()


def _is_its_volume(turn: Turn, run: Unread) -> bool:
    worth = numbers.value((run.words,))
    return worth is not None and is_its_volume(turn, worth)


def before_questions(turn: Turn, asked: Sequence[Act]) -> None:
    """Mark them before questions of the same breath are answered: no figure is given past them.
    What is only supposed settles nothing."""
    if asked and not turn.supposed:
        keep(turn, explained(turn, turn.unread))


def keep(turn: Turn, unread: Sequence[Unread]) -> None:
    """Mark what this utterance left unread, or settle what an earlier one did."""
    words = [run.words for run in _runs(unread)] + turn.unplaced
    if turn.state.items:
        words += turn.ahead_of_things
    if words and not turn.stepped:
        kept = tuple(dict.fromkeys((*turn.state.unread, *words)))
        kinds = frozenset(
            belief_table.kind(act) for act in turn.done if not isinstance(act, acts.No)
        )
        kinds = kinds or _answered_with(turn, words)
        turn.state = altered(turn.state, unread=kept, unread_with=turn.state.unread_with | kinds)
    elif turn.state.unread and _settled(turn):
        turn.state = altered(turn.state, unread=(), unread_with=frozenset())


def _runs(unread: Sequence[Unread]) -> list[Unread]:
    """Weighty runs, those that stand side by side as one."""
    made: list[Unread] = []
    for run in unread:
        if not run.weighty:
            continue
        if made and run.span[0] - made[-1].span[1] <= 1:
            before = made.pop()
            words = f"{before.words} {run.words}"
            run = Unread(words, (before.span[0], run.span[1]), True)
        made.append(run)
    return made


def _answered_with(turn: Turn, words: Sequence[str]) -> frozenset[str]:
    """What would say again an utterance of which nothing was understood: another answer to the
    question that it was said to. Clamps have no number, so that words with one are none of them;
    and "a device", of which nobody knows what it is, is neither clamps nor box; nor is what more
    comes in: "the whip takes the same"."""
    if any(_THING.search(one) or _ENTERING.search(one) for one in words):
        return frozenset()
    clamps: frozenset[str] = frozenset() if _NUMBER.search(" ".join(words)) else ANSWERS["clamps"]
    if turn.first_asked == "clamps":
        return clamps
    return ANSWERS.get(turn.first_asked or "", OF_BOX | clamps)


def says_again(act: Act) -> bool:
    """Whether an act is of those that say what is in the box, or what is not."""
    return belief_table.kind(act) in SAYING


def corrects(act: Act) -> bool:
    """Whether an act is of those that change what is in the box."""
    return belief_table.kind(act) in CHANGING


def _settled(turn: Turn) -> bool:
    """True where what was not read has been said again, as far as one can know.

    Contents and corrections say it again, and more of what stood with it, where they may be the
    same: three of something are not explained by "and a switch". A denial says nothing again,
    unless it is the answer that was asked for or names the very words.
    """
    if not turn.trail:
        return False
    kinds = {belief_table.kind(act) for act in turn.done}
    unread = turn.state.unread
    if kinds & turn.state.unread_with & SAID_AGAIN and not has_number(unread):
        return True
    if turn.first_asked == "box" and "SetVolume" in kinds and all(map(_is_size, unread)):
        return True
    said_again = CONTENTS | CHANGING | turn.state.unread_with & SAID_AGAIN
    if kinds & said_again and _explains(turn, unread):
        return True
    return any(_answers_again(turn, act) for act in turn.done if isinstance(act, acts.Deny))


def _is_size(words: str) -> bool:
    """Whether words are the size of a box that the Table has not, and nothing besides: what is
    marked on it is its volume."""
    read = recognise(words)
    sizes = all(isinstance(act, acts.SetSize | acts.SetVolume) and act.family for act in read.acts)
    return bool(read.acts) and sizes and not any(run.weighty for run in read.unread)


def _explains(turn: Turn, unread: Sequence[str]) -> bool:
    """True for what may be what was not understood: it answers the question about it, or shares
    something with it. Of what an ear did not catch nobody can tell."""
    if set(unread) == {say("unheard")}:
        return True
    asked = turn.first_asked == "unread" and not goes_on(turn.heard)
    return (asked and not _changes_else(turn, unread)) or same_matter(unread, turn.heard)


def _changes_else(turn: Turn, unread: Sequence[str]) -> bool:
    """Whether something that is there is only taken out, and so many of something had been said:
    "and three", "one of the 14-2s is gone"."""
    kinds = {belief_table.kind(act) for act in turn.done}
    return has_number(unread) and kinds == {"Remove"}


def _answers_again(turn: Turn, act: acts.Deny) -> bool:
    """True for a denial of grounds where they were asked for, or of a word that was not read."""
    if act.target.kind == "grounds" and "Deny" in turn.state.unread_with:
        return True
    unread = set(" ".join(turn.state.unread).lower().split())
    return bool(unread & set(act.words.lower().split()) - {"no", "the", "a", "not", "any"})
