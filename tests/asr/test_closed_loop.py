"""Whole boxes by sound, from the electrician's mouth to the verdict; closed_loop.py has more."""

from __future__ import annotations

import shutil

import pytest
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
    PocketsphinxRecogniser,
)

if shutil.which("flite") is None or shutil.which("text2wave") is None:
    pytest.skip("the voices (flite, festival) are not installed", allow_module_level=True)

from closed_loop import one_box


#: One each of kal16, rms and slt. The "yes" of awb, a Scottish voice, is heard as "us".
@pytest.mark.parametrize("seed", [0, 2, 3])
def test_a_whole_box_is_talked_through(seed: int, ear: PocketsphinxRecogniser) -> None:
    found = one_box(ear, seed, None, [])
    assert found.right, found.log
    assert found.turns <= 2.5 * found.least, found.log
