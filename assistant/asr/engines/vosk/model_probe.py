"""Trying a model before it is accepted, in a process of its own: a broken one may end it.

Run as `python -m boxaloud.assistant.asr.engines.vosk.model_probe FOLDER`; it prints how many of the
trade's words the model knows, of how many.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say
from boxaloud.assistant.asr.engines.vosk.vosk_library import Model, library

#: A model that knows less than this share of the trade's words is of another language.
MIN_VOCABULARY_COVERAGE = 0.8
#: A large model takes long to load.
LOAD_TIMEOUT_SECONDS = 180


def probe_model(folder: Path) -> tuple[int, int]:
    """How many of the trade's words a model knows, and of how many. Loads it.

    Raises:
        EarsError: the library is missing, the model does not load, or it is of another language.
    """
    library()
    command = [
        sys.executable,
        "-P",
        "-m",
        "boxaloud.assistant.asr.engines.vosk.model_probe",
        str(folder),
    ]
    try:
        done = subprocess.run(command, capture_output=True, text=True, timeout=LOAD_TIMEOUT_SECONDS)
        known, every = json.loads(done.stdout)
    except (subprocess.TimeoutExpired, ValueError) as error:
        raise AsrError(say("vosk.unusable", folder=folder)) from error
    if known < MIN_VOCABULARY_COVERAGE * every:
        raise AsrError(say("models.other_language", folder=folder, known=known, all=every))
    return known, every


def main(folder: Path) -> None:
    """Load the model and count."""
    from boxaloud.grammar import vocabulary

    model = Model(folder)
    words = vocabulary()
    sys.stdout.write(json.dumps([sum(map(model.knows, words)), len(words)]) + "\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
