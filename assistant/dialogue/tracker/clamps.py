"""Where the clamps are: 314.16(B)(2)."""

from __future__ import annotations

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.nlg.sentences import say, sentence
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import SetClamps
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Clamps


def clamps(turn: Turn, act: SetClamps) -> None:
    """Where the cables are clamped, 314.16(B)(2)."""
    if act.where == "present" and (contrary := _contrary(turn, act)):
        _set_again(turn, contrary, act)
    elif act.where == "present":
        state = altered(turn.state, clamps_mentioned=True, last="clamps")
        if state.clamps == "none" and not _remarked(turn, act):
            # there are some after all: where is yet to be said
            state = altered(state, clamps="unknown")
        turn.enter(state, say("echo.clamps_somewhere"), act.words)
    else:
        set_clamps(turn, act.where)


_REMARK = lazy_pattern(
    r"(?i)\s*(?:is|are|look|looks|feel|feels|seem|seems) (?:all |still |just |pretty |nice and )*"
    r"(?:fine|good|ok|okay|tight|snug|great|alright|all right|clean|new|old|rusty|loose)\b"
)


def _remarked(turn: Turn, act: SetClamps) -> bool:
    """ "The clamps are fine": how they are, and not that there are any."""
    start, end = act.span
    return turn.heard[start:end] == act.words and _REMARK.match(turn.heard, end) is not None


_TOLD = lazy_pattern(
    r"(?i)\b(?:there(?:['’]s| is| are| was| were)|has|have|got|found|are|is|see|saw|forgot|missed"
    r"|wrong about)\b[^,.;?]*$"
)
_DENIED = lazy_pattern(r"(?i)\b(?:no|not|never|without|zero|any|if|whether)\b|n['’]t\b")
_INSIDE = lazy_pattern(r"(?i)\b(?:inside|internal)\b")
_WRONG = lazy_pattern(r"(?i)\bwrong about\b")
_CLAUSE = lazy_pattern(r"[,.;?]")


def _contrary(turn: Turn, act: SetClamps) -> Clamps | None:
    """Where the clamps are when what was said of them before is not so: "wait, there are clamps";
    None where nothing contradicts it."""
    old, (start, end) = turn.state.clamps, act.span
    if (
        old not in (turn.began.clamps, "unknown")
        or turn.heard[start:end] != act.words
        or turn.supposed
    ):
        return None
    said = _CLAUSE.split(turn.heard[:end])[-1]
    wrong = old != "unknown" and _WRONG.search(said) is not None
    if wrong or (turn.began.clamps == "none" and _TOLD.search(said) and not _DENIED.search(said)):
        return "inside" if _INSIDE.search(said) and not wrong else "unknown"
    return None


def _set_again(turn: Turn, where: Clamps, act: SetClamps) -> None:
    """Enter what is so instead; where nobody said what, it is asked anew."""
    if where == "inside":
        set_clamps(turn, where)
        return
    settled = turn.state.assumed - {"clamps"}
    state = altered(turn.state, clamps=where, clamps_mentioned=True, last="clamps", assumed=settled)
    turn.enter(state, say("echo.clamps_somewhere"), act.words)


def set_clamps(turn: Turn, where: str) -> None:
    """Enter the place of the clamps: inside, outside, none or moulded."""
    place: dict[str, Clamps] = {
        "inside": "inside",
        "outside": "outside",
        "none": "none",
        "moulded": "moulded",
    }
    old = turn.state.clamps
    state = altered(
        turn.state,
        clamps=place[where],
        last="clamps",
        assumed=turn.state.assumed - {"clamps"},
        put_off=turn.state.put_off - {"clamps"},
    )
    new = say(f"clamps.{where}")
    uncounted = {"none", "outside"}  # the one only says more of the other
    if old not in ("unknown", place[where]) and not {old, place[where]} <= uncounted:
        echo = say("echo.changed_item", old=say(f"clamps.{old}"), new=new)
    else:
        echo = sentence(new)
    turn.enter(state, echo, new)
