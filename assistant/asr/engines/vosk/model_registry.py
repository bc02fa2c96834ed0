"""Which Vosk models there are: folders that a person unpacked, checked, and kept in a list.

Nothing here loads a model or the library, and nothing is fetched.
"""

from __future__ import annotations

import json
import os
from dataclasses import dataclass
from pathlib import Path

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say
from boxaloud.assistant.text.atomic_file import write_whole

#: Names a model's folder, before any that was added.
VOSK_MODEL_VARIABLE = "BOXALOUD_VOSK_MODEL"
#: The model to get, where it is, and how large its archive is. From memory.
RECOMMENDED_MODEL = "vosk-model-small-en-us-0.15"
RECOMMENDED_MODEL_SOURCE = "the models page of the Vosk project (alphacephei.com/vosk/models)"
RECOMMENDED_MODEL_SIZE = "about 40 MB"

_ARCHIVES = frozenset({".zip", ".tgz", ".gz", ".tar", ".7z"})
#: What a model is made of, in the layout of today and in the older one.
_ACOUSTIC_MODEL = ("am/final.mdl", "final.mdl")
_FEATURE_CONFIG = ("conf/mfcc.conf", "mfcc.conf")
_STATIC_GRAPH = ("graph/HCLG.fst", "HCLG.fst")
_DYNAMIC_GRAPH = (("graph/HCLr.fst", "HCLr.fst"), ("graph/Gr.fst", "Gr.fst"))


@dataclass(frozen=True, slots=True)
class ModelInfo:
    """A folder that holds a whole model. `takes_phrases`: it can be told what may be said."""

    folder: Path
    takes_phrases: bool
    megabytes: int

    @property
    def name(self) -> str:
        """What it is called: its folder's name."""
        return self.folder.name


def check_model(folder: Path) -> ModelInfo:
    """The model in a folder, or in the only folder in it, as some archives unpack.

    Raises:
        EarsError: it is no folder, an archive, or no whole model.
    """
    folder = folder.expanduser().absolute()
    if not os.path.exists(folder):
        raise AsrError(say("models.missing", folder=folder))
    if not os.path.isdir(folder):
        key = "archive" if folder.suffix.lower() in _ARCHIVES else "not_a_folder"
        raise AsrError(say(f"models.{key}", folder=folder))
    inside = [path for path in folder.iterdir() if not path.name.startswith(".")]
    if len(inside) == 1 and inside[0].is_dir():
        return check_model(inside[0])
    open_graph = all(_has(folder, names) for names in _DYNAMIC_GRAPH)
    lacks = [
        names[0]
        for names, there in (
            (_ACOUSTIC_MODEL, _has(folder, _ACOUSTIC_MODEL)),
            (_FEATURE_CONFIG, _has(folder, _FEATURE_CONFIG)),
            (_STATIC_GRAPH, open_graph or _has(folder, _STATIC_GRAPH)),
        )
        if not there
    ]
    if lacks:
        raise AsrError(say("models.no_model", folder=folder, lacks=" and ".join(lacks)))
    size = sum(path.stat().st_size for path in folder.rglob("*") if path.is_file())
    return ModelInfo(folder, open_graph, round(size / 1e6))


def _has(folder: Path, names: tuple[str, ...]) -> bool:
    return any((folder / name).is_file() for name in names)


class VoskModelRegistry:
    """The list of models that were added, the one in use first. Kept in the user's settings."""

    def __init__(self, path: Path | None = None) -> None:
        self.path = path or registry_path()

    def folders(self) -> tuple[Path, ...]:
        """The folders in the list, whether or not they are still there. Raises EarsError."""
        try:
            found = json.loads(self.path.read_text(encoding="utf-8"))
            return tuple(Path(folder) for folder in found["vosk"])
        except FileNotFoundError:
            return ()
        except OSError as error:
            raise self._trouble("read", error) from error
        except (ValueError, KeyError, TypeError) as error:
            raise AsrError(say("models.broken_registry", path=self.path)) from error

    def add(self, folder: Path) -> ModelInfo:
        """Put a model first. Raises EarsError where it is none, or the list cannot be written."""
        model = check_model(folder)
        others = [other for other in self.folders() if other != model.folder]
        self._write([model.folder, *others])
        return model

    def remove(self, name: str) -> Path:
        """Take a model off the list, by its name or folder; the folder itself stays."""
        folders = self.folders()
        for folder in folders:
            if name in (folder.name, str(folder)):
                self._write([other for other in folders if other != folder])
                return folder
        raise AsrError(say("models.unknown", name=name))

    def in_use(self) -> Path | None:
        """The folder to hear with: the variable's, else the first that is still there."""
        told = os.environ.get(VOSK_MODEL_VARIABLE)
        if told:
            return Path(told)
        return next((folder for folder in self.folders() if folder.is_dir()), None)

    def _write(self, folders: list[Path]) -> None:
        text = json.dumps({"vosk": [str(folder) for folder in folders]}, indent=1)
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            write_whole(self.path, text + "\n")
        except OSError as error:
            raise self._trouble("written", error) from error

    def _trouble(self, done: str, error: OSError) -> AsrError:
        why = (error.strerror or "the disk refused").lower()
        return AsrError(say("models.registry", path=self.path, done=done, why=why))


def registry_path() -> Path:
    """The list's file, in the user's settings folder or where BOXALOUD_CONFIG points."""
    told = os.environ.get("BOXALOUD_CONFIG")
    if told:
        return Path(told).expanduser() / "ears.json"
    from platformdirs import user_config_path

    return user_config_path("boxaloud") / "ears.json"
