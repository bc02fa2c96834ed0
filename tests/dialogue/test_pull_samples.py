"""Three hundred pull boxes said in words come to what the plain implementation makes of them."""

from __future__ import annotations

import re
from fractions import Fraction
from random import Random

import plain_enclosures as plainly
import pytest
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.dialogue import Conversation
from pull_sampler import Sample, Sampler

COUNT = 300
SEED = 31428
_SAMPLER = Sampler(SEED)
SAMPLES = [_SAMPLER.sample() for _ in range(COUNT)]


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda sample: sample.say[:60])
def test_a_pull_box_said_in_words(sample: Sample) -> None:
    conversation = Conversation()
    reply = conversation.hear(sample.say)
    for _ in range(4):
        if reply.asks is None:
            break
        found = ReplyDocument.of(reply).to_json()["pull_box"]
        assert found is not None, sample.say
        assert (found["width_in"], found["height_in"], found["depth_in"]) == (None,) * 3, sample.say
        assert reply.asks in sample.answers, (sample.say, reply.said)
        reply = conversation.hear(sample.answers[reply.asks])
    found = ReplyDocument.of(reply).to_json()["pull_box"]
    least, apart = plainly.pull_box(sample.box)
    ours = {axis: found[f"{axis}_in"] for axis in ("width", "height", "depth")}
    told = {axis: Fraction(inches) for axis, inches in ours.items() if inches is not None}
    assert told == least, (sample.say, reply.said)
    lines = [Fraction(line["inches"]) for line in found["lines"] if line["sets"] is None]
    assert sorted(lines) == apart, (sample.say, reply.said)
    assert reply.left_over == ()


NUMBER = re.compile(
    r"(?:\d[\d/.½-]*(?: 1/[24])?|\b(?:two|three|four|five|six|half|quarter|inch)\b)"
)
MISHEARD = ("blorp", "tree", "to", "for")
_DICE = Random(SEED)


@pytest.mark.parametrize("sample", SAMPLES[::2], ids=lambda sample: sample.say[:60])
def test_a_number_that_is_lost_holds_every_dimension(sample: Sample) -> None:
    """A count or a size that nobody could read may have been the one that counts."""
    conductor = sample.answers.get("pull_conductor")  # lost, it is asked for
    end = sample.say.rfind(f", {conductor}") if conductor else -1
    end = sample.say.find(", largest") if ", largest" in sample.say else end
    spot = _DICE.choice([*NUMBER.finditer(sample.say[: end if end > 0 else None])])
    for word in MISHEARD:
        said = f"{sample.say[: spot.start()]}{word}{sample.say[spot.end() :]}"
        conversation = Conversation()
        reply = conversation.hear(said)
        for _ in range(4):
            if reply.asks not in sample.answers:
                break
            reply = conversation.hear(sample.answers[reply.asks])
        found = ReplyDocument.of(reply).to_json()["pull_box"] or {}
        told = [found.get(f"{axis}_in") for axis in ("width", "height", "depth")]
        assert told == [None] * 3, (said, reply.said)
