"""The learnt ear: a small network that writes letters, held to the trade's words by a search.

The network is the encoder of Whisper tiny.en with one more layer, trained by us to write what is
said letter by letter (connectionist temporal classification, CTC). It is worked with numpy alone,
or by onnxruntime where that and its own file are installed. Its weights are in the package.
"""

from __future__ import annotations

import os
from pathlib import Path

#: Names another file of weights than the package's own.
CTC_WEIGHTS_VARIABLE = "BOXALOUD_CTC_WEIGHTS"
OWN_WEIGHTS = Path(__file__).parent / "data" / "letters.npz"


def weights_file() -> Path | None:
    """The file of weights to hear with; None where none was named and the package has none."""
    told = os.environ.get(CTC_WEIGHTS_VARIABLE)
    if told:
        return Path(told).expanduser()
    return OWN_WEIGHTS if OWN_WEIGHTS.is_file() else None
