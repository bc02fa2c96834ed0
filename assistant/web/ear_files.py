"""The files of the page's ear: its network, and how the trade speaks. They are taken in when
somebody first wants to talk to the page, not before."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping
from typing import get_args

from boxaloud.assistant.asr.engines.ctc import weights_file
from boxaloud.assistant.dialogue.question_slots import QuestionSlot

_WHEN = (2020, 1, 1, 0, 0, 0)
"""Every file's date, so that the same files are the same archive."""


def ear_files() -> Mapping[str, bytes]:
    """Every file by its name; none where this installation has no learnt ear.

    Raises AsrError where the weights are broken.
    """
    weights = weights_file()
    if weights is None:
        return {}
    from boxaloud.assistant.asr.engines.ctc.letters_file import letters_file

    return {"letters.bin": letters_file(weights), "ear_models.zip": language_archive()}


def language_archive() -> bytes:
    """The language models, each packed: they are read out of the archive as they are needed."""
    from boxaloud.assistant.asr.lm.language_model import own_models

    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for path in own_models().search_files(get_args(QuestionSlot)):
            item, raw = zipfile.ZipInfo(path.name, _WHEN), path.read_bytes()
            archive.writestr(item, raw, zipfile.ZIP_DEFLATED, 9)
    return out.getvalue()
