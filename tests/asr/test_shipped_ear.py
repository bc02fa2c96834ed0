"""The weights that are shipped hear the recordings as their names say.

The recordings' voices are flite's; of those the ear was trained on kal16, awb and rms, and on none
of these sentences. Voices that it never heard are measured by `bench_ears.py`.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.engines.ctc import OWN_WEIGHTS
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import learnt_ear
from boxaloud.assistant.asr.engines.ctc.ctc_recogniser import CtcRecogniser
from boxaloud.assistant.asr.hypotheses.rescoring import choose
from boxaloud.assistant.asr.lm.language_model import own_models
from boxaloud.assistant.dialogue import Conversation
from recordings import ABOUT_BOXES, OTHER_TALK, otherwise


@pytest.fixture(scope="module")
def learnt(cache: Path) -> CtcRecogniser:
    return learnt_ear(OWN_WEIGHTS, own_models(cache=cache))


@pytest.mark.parametrize("path", ABOUT_BOXES, ids=lambda path: path.stem)
def test_a_recording_means_what_its_name_says(path: Path, learnt: CtcRecogniser) -> None:
    assert otherwise(learnt, path) == []


@pytest.mark.parametrize("path", OTHER_TALK, ids=lambda path: path.stem)
def test_other_talk_enters_nothing(path: Path, learnt: CtcRecogniser) -> None:
    talk = Conversation()
    talk.hear("two 14-2s and a switch, 18 cubic inches")
    before = talk.talk.state
    for hearing in learnt.hear(read_wav(path), talk.asks):
        if words := choose(hearing, talk.asks):
            talk.hear(words)
    now = talk.talk.state
    assert (now.items, now.box, now.clamps) == (before.items, before.box, before.clamps)
