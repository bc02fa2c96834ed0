"""What holds of every talk, whatever is said: undo, folding, JSON, order, controls.

The words come from the grammar's own examples and from the scripted electrician; nothing here
expects a number but that it is the same by two ways.
"""

from __future__ import annotations

import json
import random
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Entry, act_json
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.lexer.heard_words import Word
from electrician.mind import random_mind
from electrician.noise import Recogniser
from electrician.talking import Electrician
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

ENTERING = [
    "two 14-2 cables with ground",
    "one 12-2 without ground",
    "six number twelve wires and a green",
    "a three-way switch",
    "two receptacles on the twelves",
    "a luminaire stud",
    "three wire nuts",
    "two 18 gauge fixture wires",
    "clamps inside",
    "no clamps",
    "18 cubic inch box",
    "four square deep",
    "four inch octagon",
    "use 2017",
    "make that three",
    "no, twelve",
    "take off one",
    "take off the switch",
    "the switch goes on the twelves",
    "same again",
    "no devices",
    "skip",
    "inside",
    "fourteen",
    "brief",
    "forty-two 14-2 cables",
    "yes",
    "no",
    "scratch that",
    "straight pull with a two inch conduit",
]
ASKING = [
    "i don't know",
    "what is a yoke",
    "does a dimmer count twice",
    "should i take out the switch",
    "would it fit with the clamps outside",
    "would a 20.3 box be enough",
    "did i say two or three 14-2s",
    "is it ok to work on this live",
    "thanks",
    "hold on a second",
    "the inspector is coming on friday",
    "my truck is a 2014 F150",
    "what have i got",
    "read it back",
    "what's the total",
    "what's the margin",
    "how big is the box",
    "why",
    "why do the clamps count",
    "why do you ask",
    "what if the clamps were outside",
    "what if i use a four square",
    "what if i add two 12-2 cables",
    "how many more 14-2s",
    "will a 12-3 still fit",
    "smallest box",
    "what should i do",
    "what changes under 2017",
    "which edition",
    "repeat",
    "slower",
    "help",
]
HEARD = ["two", "fourteen", "two", "cables", "switch", "undo", "inside", "eighteen", "no", "cubic",
         "inch", "box", "clamps", "yes", "take", "off", "the", "one", "know", "make", "that",
         "skip", "three", "twelve", "widget"]  # fmt: skip

said = st.sampled_from(ENTERING)
talks = st.lists(said, min_size=1, max_size=8)
by_ear = st.lists(
    st.builds(Word, st.sampled_from(HEARD), st.sampled_from([0.2, 0.5, 0.7, 0.97])),
    min_size=1,
    max_size=8,
)
#: The same talks in every run, so that a run can be repeated.
quick = settings(
    max_examples=60,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)


def told(words: Sequence[str | list[Word]]) -> Conversation:
    conversation = Conversation()
    for each in words:
        conversation.hear(each)
    return conversation


@quick
@given(talks, st.lists(st.one_of(said, by_ear), min_size=1, max_size=3))
def test_undo_gives_back_the_very_state(before: list[str], after: list[str | list[Word]]) -> None:
    conversation = told(before)
    for words in after:
        state = conversation.talk.state
        conversation.hear(words)
        changed = conversation.talk.state != state
        if not changed or "undo" in str(words) or "scratch" in str(words):
            continue
        if state.mistaken or conversation.talk.state.mistaken:
            continue  # "no": what is taken back then is what was said to be wrong
        conversation.hear("undo")
        assert conversation.talk.state == state
        conversation.hear("redo")


@quick
@given(st.lists(st.one_of(said, by_ear), min_size=1, max_size=8), st.integers(1, 8))
def test_redo_gives_back_what_undo_took(words: list[str | list[Word]], steps: int) -> None:
    conversation = told(words)
    assume(not conversation.talk.state.mistaken)  # then undo takes back what was wrong
    state = conversation.talk.state
    before = len(conversation.talk._history.past)
    for _ in range(steps):
        conversation.hear("undo")
    for _ in range(min(steps, before)):
        conversation.hear("redo")
    assert conversation.talk.state == state


@quick
@given(st.lists(st.one_of(said, by_ear), min_size=1, max_size=8))
def test_the_journal_folded_is_the_state(words: list[str | list[Word]]) -> None:
    conversation = told(words)
    assume(len(conversation.boxes.names) == 1)  # what opens a box is of the job, not of a journal
    journal = [
        Entry.from_json(json.loads(json.dumps(e.to_json()))) for e in conversation.talk.journal
    ]
    assert journal == conversation.talk.journal
    folded = Talk.fold(journal, "2023")
    assert folded.state == conversation.talk.state
    last, again = conversation.talk.last, folded.last
    assert last is not None
    assert again is not None
    assert again.said == last.said
    assert ReplyDocument.of(again) == ReplyDocument.of(last)


ACTS = [
    made
    for made in vars(acts).values()
    if isinstance(made, type) and issubclass(made, acts.Act) and made is not acts.Act
]
st.register_type_strategy(Decimal, st.decimals(allow_nan=False))
#: What a question names of a box stands for any act within an act.
st.register_type_strategy(
    acts.Act, st.one_of(st.from_type(acts.SetSize), st.from_type(acts.SetClamps))
)


@pytest.mark.parametrize("made", [made for made in ACTS if made is not acts.Suppose])
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_an_act_comes_back_from_json_exactly(made: type[acts.Act], data: st.DataObject) -> None:
    act = data.draw(st.from_type(made))
    back = act_json.decoded(json.loads(json.dumps(act_json.encoded(act))))
    assert back == act
    assert repr(back) == repr(act), "and in its types"
    inner = acts.Suppose(acts=(act,), asks_fit=True, words="would it fit with that")
    assert act_json.decoded(json.loads(json.dumps(act_json.encoded(inner)))) == inner


def facts(seed: int) -> list[str]:
    """One sentence a fact of a random box, said typed."""
    dice = random.Random(seed)
    electrician = Electrician(random_mind(dice), dice)
    parts = [part for chunk in electrician.agenda.todo for part in chunk]
    parts += electrician.agenda.later
    return [part.said(electrician.talker, True) for part in parts if part.kind != "edition"]


@pytest.mark.parametrize("seed", range(40))
def test_the_order_of_statements_does_not_matter(seed: int) -> None:
    said = facts(seed)
    results = set()
    for order in range(4):
        words = said[:]
        random.Random(order).shuffle(words)
        reply = None
        conversation = Conversation()
        for sentence in words:
            reply = conversation.hear(sentence)
        assert reply is not None
        results.add((ReplyDocument.of(reply).total_in3, reply.verdict, reply.asks))
    assert len(results) == 1, (said, results)


def boxed(state: State) -> State:
    """A state without what is only remembered of the talk: what "do it" and "put it back" mean."""
    return replace(state, form="normal", proposed=(), recalled=())


@quick
@given(talks, st.sampled_from(ASKING))
def test_a_question_changes_nothing_in_the_box(words: list[str], question: str) -> None:
    conversation = told(words)
    before, asks = boxed(conversation.talk.state), conversation.asks
    reply = conversation.hear(question)
    assert boxed(conversation.talk.state) == before
    assert reply.asks == asks
    assert reply.said


@quick
@given(st.lists(st.one_of(said, by_ear), min_size=1, max_size=10))
def test_every_reply_can_be_read_aloud(words: list[str | list[Word]]) -> None:
    conversation = Conversation()
    for each in words:
        reply = conversation.hear(each)
        assert reply.said.strip(), each
        assert not any(sign in reply.spoken for sign in "“”³{}"), reply.spoken
        assert "safe" not in reply.said.lower()
        assert "legal" not in reply.said.lower()


@quick
@given(st.lists(st.one_of(said, by_ear), min_size=1, max_size=10))
def test_no_box_fits_on_a_doubt(words: list[str | list[Word]]) -> None:
    """What is open never makes a box fit; over it may be, whatever the doubt turns out to be."""
    conversation = Conversation()
    for each in words:
        reply = conversation.hear(each)
        state = conversation.talk.state
        if state.pending or state.unread:
            assert reply.verdict != "fits"
        if reply.verdict == "fits":
            assert reply.sheet.capacity is not None
            assert Decimal(reply.high) <= reply.sheet.capacity
        if reply.verdict == "over":
            assert reply.sheet.capacity is not None
            assert Decimal(reply.low) > reply.sheet.capacity


def test_a_box_hundreds_of_cubic_inches_over_is_still_answered() -> None:
    """Found here: no ring is made that large, and the advice to add one was refused."""
    conversation = told(["18 cubic inch box, no clamps", "forty-two 14-2 cables", "yes"])
    reply = conversation.hear("same again")
    assert reply.verdict == "over"


@pytest.mark.parametrize("seed", range(12))
def test_a_noisy_talk_folds_to_the_same_box(seed: int) -> None:
    dice = random.Random(seed)
    electrician, ear = Electrician(random_mind(dice), dice), Recogniser(0.15, dice)
    conversation, reply = Conversation(), None
    while (words := electrician.say(reply)) is not None:
        reply = conversation.hear(ear.hear(words))
    for name in conversation.boxes.names:
        talk = conversation.boxes.talk(name)
        began = conversation.boxes.began_under(name)
        assert Talk.fold(talk.journal, began, name).state == talk.state
