"""What is begun and withdrawn in one breath: where it begins, and where its withdrawal ends.

Expected: what an attentive listener takes back; English usage, own examples.
"""

from __future__ import annotations

import re

import pytest
from boxaloud.grammar.utterance.withdrawal_forms import withdrawal_expressions, withdrawing
from boxaloud.grammar.utterance.withdrawn_orders import withdrawn

CUT = (
    ("", "pull the stud out, ", "wait, no, don't", ", it holds the fan up"),
    ("two 12-2s. ", "Take the stud off, ", "no, don't", ""),
    ("", "pull the stud out ", "no don't", " it holds the fan up"),
    ("", "scratch the 14-3, ", "no, wait, don't scratch it", ", that feeds the den"),
    ("", "let's use a thirty, ", "stop, we're keeping", " the twenty"),
    ("", "put a dimmer there, ", "no, not worth it", ""),
    ("", "I was gonna drop the stud, ", "but I'm not", ", it stays"),
    ("", "I could file them off ", "but I won't", ""),
    ("", "lose one of the 12-2s, ", "or, no, keep it", ""),
    ("", "take the dimmer out, ", "no, the dimmer stays", ""),
    ("", "put a dimmer there, ", "on second thought the switch is fine, keep it", ""),
    ("", "throw a 14-2 in there, ", "or, nope, forget that", ", I'll go round"),
    ("", "wait, is there a stud? It's all smooth, ", "never mind me", ""),
    ("", "actually it's got clamps, ", "it doesn't, you had it right", ""),
    ("", "make it four, ", "no, you had it right", ""),
    ("", "we could swap the box for a thirty, ", "but no", ""),
    ("", "I almost pulled one more,", " no, ", "it's three"),
    ("", "I'd add a switch if I had one, ", "so don't", ""),
    ("", "make that five. ", "No, it's", " four, four's right"),
    ("", "change the switch to a", ", no, it's", " a switch"),
    ("", "make that five, ", "no, ", "four it is"),
    ("", "I'm gonna throw in a switch, ", "or no, I won't bother", ", there's no room"),
    ("", "I should pull a 12-2, ", "no, I can't", ", it feeds the porch"),
    ("", "I meant to add a dimmer ", "but thought better of it", ""),
    ("", "give me another 14-2, ", "uh, never mind", ", three's plenty"),
    ("", "put a GFCI there, ", "uh, leave it", ""),
    ("", "take that switch out of ", "the, um, ", "it stays in"),
    ("", "swap the switch for ", "a, uh, nah, ", "it's fine"),
    ("", "there's a dimmer in ", "the, no, ", "that's the other room"),
    ("", "that's four 14, ", "no, ", "it's three, like I said"),
    ("", "mark it with clamps, ", "wait, no, ", "no clamps, same as I told you"),
    ("", "the foreman says this is a thirty, ", "and he's wrong", ""),
    ("", "the print says five 12-2s, ", "but prints lie", ""),
    ("", "the foreman counted five of them, ", "he can't count", ""),
    ("", "the inspector figures a stud is four, ", "but what does he know", ""),
    ("", "the spec calls for a 14-3, ", "but I'm telling you what's in the wall", ""),
    ("", "the drawings show three switches, ", "but that's not what's here", ""),
    ("", "the label says twelve, ", "but don't go by it", ""),
    ("", "the architect drew two dimmers ", "but she crossed one off", ""),
    ("", "his wife asked for a dimmer ", "and I told her no", ""),
    ("", "my buddy claims it counts three, ", "which is nonsense", ", it's two"),
    ("", "the old man told me a stud counts two, ", "never mind him", ""),
    ("", "the kid says there are four, ", "he's counting the one in the attic", ", there's three"),
    ("", "his cousin swears there's five of them, ", "and he's never even had the cover off", ""),
    ("", "the foreman thinks I should lose a 12-3, ", "and he can keep thinking it", ""),
    ("", "the boss thinks it needs a dimmer, ", "let him think so", ""),
    ("", "drop the 12-3, ", "wait, no, we need that for the oven, leave it all alone", ""),
    ("", "take the 12-3 out, ", "ah, no, darn, it goes to the dryer, can't touch it", ""),
    ("", "lose a switch, ", "or don't", ""),
    ("", "I'd squeeze a receptacle in, ", "but it won't fit, so I'm not going to", ""),
    ("", "there's a stud, ", "oh, no, that's a nail, there isn't one", ""),
    ("", "seven wires, ", "no, ", "six, same as before"),
    ("", "change the box to", ", uh, no, it does say", " eighteen"),
)


@pytest.mark.parametrize("pieces", CUT, ids=lambda pieces: "".join(pieces))
def test_what_is_withdrawn_is_cut_out(pieces: tuple[str, str, str, str]) -> None:
    """What stands before, what is begun, what withdraws it, what is said behind."""
    heard = "".join(pieces)
    found = withdrawn(heard)
    assert found is not None
    assert not found.several
    assert pieces == (
        heard[: found.begun],
        heard[found.begun : found.withdrawn],
        heard[found.withdrawn : found.behind],
        heard[found.behind :],
    )


@pytest.mark.parametrize(
    "heard",
    [
        "two 14-2s, no wait, three",
        "take the dimmer out, wait, leave the twelve-twos",
        "take the dimmer out. No clamps, leave all the rest",
        "put a switch there, no, don't take the dimmer out",
        "put in a 14-2, no, don't forget the stud",
        "I was gonna add a switch but I'm not going to count it",
        "I was going to tell you there's another 12-2, but I'm not sure",
        "my helper says there's another 12-2. I was wrong",
        "the owner says there's another 12-2 and he's right",
        "let me count. No, four it is",
        "don't take the stud off",
        "swap the switch for a, uh, dimmer",
        "the print says five 12-2s, but there's four",
        "the owner wants a dimmer and I told her yes",
        "the boss says add a 14-3 but he moved the switch",
        "two 12-2s and a, uh, switch",
        "I wanted to keep the switch, but decided not to",
        "I decided to add a 14-3",
        "take the switch out, never mind the porch",
        "the plumber says there's another 12-2, and he's never wrong",
        "that's four 12-2s, no, it's five, I had it wrong",
        "I'd add a dimmer, but it's tight, so I put in a 14-3",
        "put a dimmer there, no, it's for the fan, leave the switch alone",
        "there's a stud, no, that's a nail, there's a hickey",
    ],
)
def test_nothing_is_withdrawn(heard: str) -> None:
    """A correction, another order, a doubt and one's own mistake withdraw nothing."""
    assert withdrawn(heard) is None


@pytest.mark.parametrize(
    "heard",
    [
        "add a 14-2 and take the dimmer off, no, don't",
        "take the dimmer off. Then there's a 14-2 from the hall coming in. No, don't",
        "add a 14-3, never mind, make it a 14-2",
        "I was going to pull the dimmer but changed my mind, take the switch",
    ],
)
def test_which_is_withdrawn_is_left_open(heard: str) -> None:
    """Of two orders, or behind what was told between, nobody can tell which is withdrawn."""
    found = withdrawn(heard)
    assert found is not None
    assert found.several


@pytest.mark.parametrize("form", [form for _, form in withdrawal_expressions()])
def test_every_form_is_tried(form: str) -> None:
    """No row of the data is dead: each withdraws in one of the examples, and its words call for
    it there."""
    texts = ["".join(pieces).lower() for pieces in CUT]
    held = [text for text in texts if re.search(form, text)]
    assert held
    assert all(form in [tried.pattern for _, tried in withdrawing(text)] for text in held)
