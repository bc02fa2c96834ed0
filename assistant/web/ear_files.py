"""The files of the page's ear: its network, what works it, and how the trade speaks. They are taken
in when somebody first wants to talk to the page, not before."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping
from pathlib import Path
from typing import get_args

from boxaloud.assistant.asr.engines.ctc import weights_file
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.web.runtime_package import ear_runtime_files

_WHEN = (2020, 1, 1, 0, 0, 0)
"""Every file's date, so that the same files are the same archive."""


def ear_files(cache: Path | None = None) -> Mapping[str, bytes]:
    """Every file by its name; none where this installation has no learnt ear.

    Raises Problem where npm is missing or fails, or the weights are broken.
    """
    weights = weights_file()
    if weights is None:
        return {}
    from boxaloud.assistant.asr.engines.ctc.onnx_export import exported

    return {
        **ear_runtime_files(cache),
        "letters.onnx": exported(weights, of_sound=True),
        "ear_models.zip": language_archive(),
    }


def language_archive() -> bytes:
    """The language models, nothing packed, since the whole file is."""
    from boxaloud.assistant.asr.lm.language_model import own_models

    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for path in own_models().search_files(get_args(QuestionSlot)):
            archive.writestr(zipfile.ZipInfo(path.name, _WHEN), path.read_bytes())
    return out.getvalue()
