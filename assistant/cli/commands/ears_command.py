"""`boxaloud ears …`: each a function that does it and gives the exit status."""

from __future__ import annotations

import importlib.util
import os
from pathlib import Path

from boxaloud.assistant.asr import AsrError
from boxaloud.assistant.asr.engines.vosk.model_probe import probe_model
from boxaloud.assistant.asr.engines.vosk.model_registry import (
    RECOMMENDED_MODEL,
    RECOMMENDED_MODEL_SIZE,
    RECOMMENDED_MODEL_SOURCE,
    VOSK_MODEL_VARIABLE,
    VoskModelRegistry,
    check_model,
)
from boxaloud.assistant.cli.cli_messages import say
from boxaloud.assistant.cli.output import put
from boxaloud.assistant.text.problem import Problem


def listed() -> int:
    """The ears that are here, the one in use, and where a better one comes from."""
    put(say("ears.embedded", state=say("ears.embedded_ready")))
    try:
        models = VoskModelRegistry()
        in_use, folders = models.in_use(), models.folders()
    except AsrError as trouble:
        raise Problem(str(trouble)) from None
    if os.environ.get(VOSK_MODEL_VARIABLE):
        put(say("ears.variable", variable=VOSK_MODEL_VARIABLE))
    if in_use is not None and in_use not in folders:
        folders = (in_use, *folders)
    put(_whisper(in_use is not None))
    for folder in folders:
        put(_line(folder, in_use))
    if not folders:
        put(say("ears.no_vosk"))
    put(
        say(
            "ears.get",
            name=RECOMMENDED_MODEL,
            size=RECOMMENDED_MODEL_SIZE,
            source=RECOMMENDED_MODEL_SOURCE,
        )
    )
    if not _library_is_there():
        put(say("ears.get_library"))
    return 0


def _whisper(vosk_in_use: bool) -> str:
    """The hearing network, and whether it hears."""
    from boxaloud.assistant.asr.engines.whisper import model_folder, model_name

    folder = model_folder()
    if folder is None:
        return say("ears.no_whisper")
    model = folder / "model.bin"
    if not model.is_file():
        state = say("ears.whisper_bad")
        return say("ears.whisper", name=model_name(folder), size="?", state=state)
    state = say("ears.whisper_other" if vosk_in_use else "ears.whisper_first")
    size = round(model.stat().st_size / 1e6)
    return say("ears.whisper", name=model_name(folder), size=size, state=state)


def _line(folder: Path, in_use: Path | None) -> str:
    """A model, and whether it hears. A folder that is no model any more is said to be so."""
    try:
        model = check_model(folder)
    except AsrError as trouble:
        state = say("ears.vosk_bad", why=str(trouble))
        return say("ears.vosk", name=folder.name, size="?", folder=folder, state=state)
    key = "vosk_first" if folder == in_use else "vosk_other"
    if not _library_is_there():
        key = "vosk_no_library"
    return say(
        "ears.vosk", name=model.name, size=model.megabytes, folder=folder, state=say(f"ears.{key}")
    )


def add(folder: Path) -> int:
    """Check a model, try it, and put it to use."""
    try:
        model = check_model(folder)
        known, every = probe_model(model.folder)
        VoskModelRegistry().add(model.folder)
    except AsrError as trouble:
        raise Problem(str(trouble)) from None
    put(say("ears.added", name=model.name, known=known, all=every))
    if not model.takes_phrases:
        put(say("ears.fixed", name=model.name))
    return 0


def remove(name: str) -> int:
    """Take a model off the list."""
    try:
        folder = VoskModelRegistry().remove(name)
    except AsrError as trouble:
        raise Problem(str(trouble)) from None
    put(say("ears.removed", name=folder.name, folder=folder))
    return 0


def _library_is_there() -> bool:
    return importlib.util.find_spec("vosk") is not None
