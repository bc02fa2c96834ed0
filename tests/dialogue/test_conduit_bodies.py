"""Conduit bodies by talk, 314.16(C), and what a raceway holds, Chapter 9 Table 1.

Shares of 53, 31 and 40 percent: the published table of conduit fill (sfasoft, "All tubing and
conduits"); EMT areas the same; THHN, XHHW and THW areas: buildmyowncabin, "NEC 2008 Chapter 9
Table 5". Areas of rigid from memory, but six 10 AWG THHN in 1/2 inch: ECMag Part X.
"""

from __future__ import annotations

import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.box_dialogue import Talk


def told(*said: str) -> Reply:
    """The reply to the last of some utterances."""
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


@pytest.mark.parametrize(
    ("said", "verdict", "have", "limit"),
    [
        # 0.4 x 0.533 / 0.0133 is 16.03
        (("LB with six number 12 THHN passing through, no splices, three quarter EMT",),
         "fits", "6", "16"),
        # ECMag Part X: 0.4 x 0.314 / 0.0211 is 5.95, rounded up by Note 7
        (("type C conduit body, half inch rigid, six 10 THHN straight through",), "fits", "6", "6"),
        (("type C conduit body, half inch rigid, seven 10 THHN straight through",),
         "over", "7", "6"),
        # 0.4 x 0.304 / 0.0133 is 9.14
        (("LL, half inch EMT, ten 12 THHN passing through",), "over", "10", "9"),
        (("LL, half inch EMT, ten 12 THHN passing through", "undo"), "incomplete", None, None),
        # a ground in the raceway is a conductor of it
        (("LR, half inch EMT, THHN, no splices, nine 12s and a green 12",), "over", "10", "9"),
        # mixed: 3 x 0.0211 + 4 x 0.0133 against 0.4 x 0.533
        (("LB 3/4 inch EMT, three 10s and four 12s THHN, no splices",),
         "fits", "0.1165", "0.2132"),
        # 0.4 x 0.304 / 0.0181 is 6.7
        (("T conduit body, six 12 XHHW passing through, half inch EMT",), "fits", "6", "6"),
    ],
)  # fmt: skip
def test_what_passes_through_goes_by_the_raceway(
    said: tuple[str, ...], verdict: str, have: str | None, limit: str | None
) -> None:
    found = told(*said)
    assert found.verdict == verdict
    body = ReplyDocument.of(found).to_json()["conduit_body"]
    lines = body["lines"] if body else []
    assert [(line["have"], line["limit"]) for line in lines] == ([(have, limit)] if have else [])
    assert all("Chapter 9 Table 1" in line["section"] for line in lines)
    assert found.asks in (None, "contents")


@pytest.mark.parametrize(
    ("said", "asks"),
    [
        (("LB with six number 12",), "body_splices"),
        (("LB with six number 12", "no splices"), "body_raceway"),
        (("LB with six number 12", "no splices", "EMT"), "body_size"),
        (("LB with six number 12", "no splices", "half inch EMT"), "body_insulation"),
        (("LB with six number 12", "no splices", "half inch EMT", "THHN"), None),
        (("LB with six number 12", "spliced"), "body_ends"),
        (("LB with six number 12", "spliced", "no"), "box"),
        (("LB with six number 12 passing through", "skip"), "body_size"),
    ],
)
def test_what_is_missing_is_asked(said: tuple[str, ...], asks: str | None) -> None:
    assert told(*said).asks == asks
    assert (told(*said).verdict == "fits") == (asks is None)


SPLICED = "LB marked 8.8 cubic inches, hot, neutral and ground all number 12, each spliced"


@pytest.mark.parametrize(
    ("answer", "total", "verdict"),
    [
        # 314.16(B)(1), (5): 4 x 2.25 and one allowance of 2.25 for the grounds
        ("yes", "11.25", "over"),
        ("no", "6.75", "fits"),
        ("skip", "11.25", "over"),
        ("from both sides", "11.25", "over"),
    ],
)
def test_spliced_wires_may_come_in_from_both_sides(answer: str, total: str, verdict: str) -> None:
    open_ = told(SPLICED)
    assert (open_.asks, open_.verdict) == ("body_ends", "incomplete")
    found = told(SPLICED, answer)
    assert (ReplyDocument.of(found).to_json()["total_in3"], found.verdict) == (total, verdict)


def test_an_answer_that_changes_nothing_is_not_waited_for() -> None:
    """Over from one side is over from both: 5 x 2.25 is more than 8."""
    found = told("LB marked 8 cubic inches, five number 12, each spliced")
    assert found.verdict == "over"


@pytest.mark.parametrize(
    ("said", "section"),
    [
        (("LB with two number 12, each spliced", "no", "not marked"), "314.16(C)(2)"),
        (("short radius conduit body with two number 12, each spliced",), "314.16(C)(3)"),
    ],
)
def test_splices_that_are_not_permitted(said: tuple[str, ...], section: str) -> None:
    """EC&M, What's Wrong Here; Mike Holt forum 101048."""
    found = told(*said)
    assert found.verdict == "over"
    assert section in found.said


@pytest.mark.parametrize(
    ("said", "number"),
    [
        ("how many 12 THHN in half inch EMT", "9"),
        ("how many 12s of THHN can I put in 1/2 inch EMT", "9"),
        ("what's the max number of 14 gauge thhn in half inch emt", "12"),
        ("how many number 10 thwn in half inch emt", "5"),
        ("how many #8 THHN will fit in a half inch EMT", "3"),
        ("how many 6 THHN in one half inch emt", "2"),
        ("how many 10 THHN in half inch rigid", "6"),
        ("can I put ten 12 thhn in 1/2 emt", "9"),
        ("will nine number 12 THHN fit in half inch EMT", "9"),
        ("how many 12 thhn in half inch conduit", "EMT"),
        ("how many 12s in half inch EMT", "XHHW"),
        # in whatever order, with other words of the trade
        ("how many twelves, THHN, will half inch EMT carry?", "9"),
        ("I've got some three-quarter thinwall. Tens in THHN. What's the limit?", "10"),
        ("number eight THHN, one inch EMT: max?", "9"),
        ("half inch EMT holds how many number 14 THHN", "12"),
        ("what's a half inch rigid good for in 10s THHN", "6"),
        ("3/4 EMT with number 8 THHN, how many max", "6"),
        ("Half-inch EMT. How many THHN twelves can I get through it?", "9"),
        ("are nine 12 THHN ok for half inch EMT", "9"),
        ("would ten number 12 THHN be too many for a half inch EMT", "9"),
        ("half inch EMT, tens, XHHW, the most?", "5"),
    ],
)
def test_what_a_raceway_holds(said: str, number: str) -> None:
    """Annex C Table C.1, from memory, and the published areas above."""
    conversation = Conversation()
    before = conversation.talk.state
    found = conversation.hear(said)
    assert number in found.said.replace(".", " ").replace(",", " ").split()
    assert "Chapter 9 Table 1" in found.said
    assert found.acts[0].act == "answer"
    assert conversation.talk.state == before


def test_what_is_not_held_is_said() -> None:
    assert "held" in told("how many 12 thhn in half inch schedule 80 pvc").said
    assert "held" in told("how many 12 thhn in five inch emt").said


@pytest.mark.parametrize(
    "said",
    [
        "how many 12 thhn in 1 inch pvc sch 80",
        "how many 12 thhn in 1 inch pvc, schedule 80",
        "one inch schedule 80 pvc, number 12 thhn, how many",
        "how many 12 THHN in 3/4 flex",
        "3/4 liquidtight, six 10 thhn, ok?",
        "LB with six number 12 THHN passing through, no splices, 3/4 schedule 80 pvc",
    ],
)
def test_of_a_raceway_that_is_not_held_no_number_is_said(said: str) -> None:
    """Table 4 has areas of its own for each kind: those of schedule 40 would be too large."""
    reply = told(said)
    assert "held" in reply.said
    assert "at most" not in reply.said


@pytest.mark.parametrize(
    "said",
    [
        "how many 12 thhn in half inch emt or 3/4 emt",
        "half inch EMT comes into a 4 square with four 12 THHN, how many more twelves fit",
        "two number 12 THHN out of a half inch emt into a 18 cubic inch box, no clamps, ok?",
        "how many 12s and 10s in half inch emt",
        "straight pull with a 2 inch EMT and 4/0 THHN, how long",
    ],
)
def test_what_asks_of_more_than_one_raceway_is_not_answered_by_one(said: str) -> None:
    assert "Chapter 9 Table 1" not in told(said).said


@pytest.mark.parametrize(
    "said",
    ["We'll be done by noon", "a fan of 35 lb", "I'll be back", "the C wire", "t and c apply"],
)
def test_letters_that_name_no_body(said: str) -> None:
    conversation = Conversation()
    conversation.hear(said)
    assert "conduit body" not in conversation.talk.state.tags


def test_the_journal_folded_gives_the_same_body() -> None:
    conversation = Conversation()
    for words in (SPLICED, "yes", "half inch rigid"):
        conversation.hear(words)
    talk = conversation.talk
    assert Talk.fold(talk.journal, talk.state.edition).state == talk.state


STANDS = "LB with six number 12 THHN passing through, no splices, three quarter EMT"


@pytest.mark.parametrize(
    ("asked", "tells"),
    [
        # 0.4 x 0.304 / 0.0133 is 9.14; rigid 0.4 x 0.549 / 0.0133 is 16.5
        ("what if it were half inch", "9 at most"),
        ("would half inch EMT do", "9 at most"),
        ("would it fit in half inch EMT?", "9 at most"),
        ("if it was half inch emt", "9 at most"),
        ("is half inch EMT enough", "9 at most"),
        ("could I use half inch", "9 at most"),
        ("what if the raceway is rigid", "16 at most"),
        ("should I splice them?", ""),
        ("is it half inch EMT?", "9 at most"),
    ],
)
def test_a_question_or_a_supposition_changes_no_body(asked: str, tells: str) -> None:
    conversation = Conversation()
    conversation.hear(STANDS)
    before = conversation.talk.state.body
    found = conversation.hear(asked)
    assert conversation.talk.state.body == before
    assert tells in found.said
    assert found.verdict == "fits"


def test_a_question_that_describes_an_empty_body_is_worked_out() -> None:
    found = told("will six number 12 THHN passing through fit in an LB, three quarter EMT?")
    assert found.verdict in ("fits", "incomplete")
    assert "16 at most" in found.said or found.asks is not None


def test_what_was_supposed_may_be_done() -> None:
    """0.4 x 0.304 / 0.0133 is 9.14."""
    found = told(STANDS, "what if it were half inch", "do it")
    assert "9 at most" in found.said


@pytest.mark.parametrize(
    ("said", "tells"),
    [
        # 0.4 x 0.304 / 0.0133 is 9.14; rigid and PVC from memory
        (("How many 12s can I have in a half inch LB?",), "9 of EMT"),
        # 0.4 x 0.285 / 0.0097 is 11.75: Note 7 rounds up from 0.8
        (("Half inch PVC LB.", "How many can I have?"), "11 of number 14"),
        (("Half inch PVC LB.", "How many can I have?", "14s."), "11 of THHN"),
        # 314.16(C)(2): EC&M, What's Wrong Here; (C)(3) its paragraph's number from memory
        (("Half-inch T body, EMT.", "Five 12s come in and I want to splice them. Does it need a"
          " mark?"), "314.16(C)(2)"),
        (("three quarter LB on EMT", "can I splice in it?"), "314.16(C)(2)"),
        (("Capped elbow, three-quarter.", "Can I splice 12s in it?"), "314.16(C)(3)"),
        # 314.28(A)(2): 6 x 2, an L with 4 AWG and larger
        (("two inch LB with three 3/0", "EMT, THHN"), "at least 12 inches"),
    ],
)  # fmt: skip
def test_what_is_asked_of_a_body_at_hand(said: tuple[str, ...], tells: str) -> None:
    found = told(*said)
    assert tells in found.said
    assert found.verdict == "incomplete"


@pytest.mark.parametrize(
    ("said", "have", "limit"),
    [
        # 4 x 0.0366 + 0.0211 against 0.4 x 0.864
        (("I've got a one-inch LB with four eights and a ten.", "EMT, THHN", "no splices"),
         "0.1675", "0.3456"),
        # 0.4 x 0.533 / 0.0133 is 16.03
        (("T in three-quarter EMT.", "Twelve twelves going through.", "THHN"), "12", "16"),
    ],
)  # fmt: skip
def test_a_body_told_in_turns(said: tuple[str, ...], have: str, limit: str) -> None:
    found = told(*said)
    assert (found.verdict, found.left_over) == ("fits", ())
    (line,) = ReplyDocument.of(found).to_json()["conduit_body"]["lines"]
    assert (line["have"], line["limit"]) == (have, limit)
