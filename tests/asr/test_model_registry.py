"""Which folders are taken for Vosk models, and the list of them. No library and no model needed.

The files a model is made of are from memory of the library's documentation and from the one
model at hand (the Korean one of PyPI).
"""

from __future__ import annotations

from pathlib import Path

import pytest
from boxaloud.assistant.asr import AsrError
from boxaloud.assistant.asr.engines.vosk.model_registry import VoskModelRegistry, check_model

WHOLE = ("am/final.mdl", "conf/mfcc.conf", "graph/HCLr.fst", "graph/Gr.fst")
FIXED = ("am/final.mdl", "conf/mfcc.conf", "graph/HCLG.fst")
OLDER = ("final.mdl", "mfcc.conf", "HCLr.fst", "Gr.fst")


def made(folder: Path, names: tuple[str, ...]) -> Path:
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"0" * 600_000)
    return folder


@pytest.mark.parametrize(
    ("names", "takes_phrases"), [(WHOLE, True), (FIXED, False), (OLDER, True)],
    ids=["a small one", "a large one, whose graph is fixed", "the older layout"],
)  # fmt: skip
def test_whole_models_are_taken(
    tmp_path: Path, names: tuple[str, ...], takes_phrases: bool
) -> None:
    model = check_model(made(tmp_path / "some-model", names))
    assert model.takes_phrases is takes_phrases
    assert model.name == "some-model"
    assert model.megabytes == round(len(names) * 0.6)


def test_a_folder_in_a_folder_as_archives_unpack_is_looked_into(tmp_path: Path) -> None:
    made(tmp_path / "unpacked" / "the-model", WHOLE)
    assert check_model(tmp_path / "unpacked").folder == tmp_path / "unpacked" / "the-model"


@pytest.mark.parametrize("lost", WHOLE)
def test_what_lacks_a_part_is_refused_with_the_part_named(tmp_path: Path, lost: str) -> None:
    folder = made(tmp_path / "m", tuple(name for name in WHOLE if name != lost))
    made(folder, ("README", "extra"))
    with pytest.raises(AsrError, match="is no Vosk model") as refusal:
        check_model(folder)
    named = lost if lost in WHOLE[:2] else "graph/HCLG.fst"
    assert named in str(refusal.value)


def test_what_is_no_folder_is_refused_with_what_to_do(tmp_path: Path) -> None:
    archive = tmp_path / "model.zip"
    archive.write_bytes(b"PK")
    with pytest.raises(AsrError, match="unpack it first"):
        check_model(archive)
    with pytest.raises(AsrError, match="There is no folder"):
        check_model(tmp_path / "nowhere")
    (tmp_path / "file").write_text("")
    with pytest.raises(AsrError, match="is not a folder"):
        check_model(tmp_path / "file")


def test_the_last_one_added_is_in_use_and_one_that_is_gone_is_passed_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("BOXALOUD_VOSK_MODEL", raising=False)
    models = VoskModelRegistry(tmp_path / "settings" / "ears.json")
    assert models.in_use() is None
    first, second = made(tmp_path / "a", WHOLE), made(tmp_path / "b", WHOLE)
    models.add(first)
    models.add(second)
    models.add(second)
    assert models.folders() == (second, first)
    assert models.in_use() == second
    second.rename(tmp_path / "moved")
    assert models.in_use() == first
    models.remove("b")
    assert models.folders() == (first,)
    with pytest.raises(AsrError, match="No model called"):
        models.remove("b")


def test_the_variable_comes_before_the_list(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    models = VoskModelRegistry(tmp_path / "ears.json")
    models.add(made(tmp_path / "a", WHOLE))
    monkeypatch.setenv("BOXALOUD_VOSK_MODEL", str(tmp_path / "told"))
    assert models.in_use() == tmp_path / "told"


def test_a_broken_list_is_said_to_be_so(tmp_path: Path) -> None:
    path = tmp_path / "ears.json"
    path.write_text("{not json")
    with pytest.raises(AsrError, match="remove it and add the models again"):
        VoskModelRegistry(path).folders()
    with pytest.raises(AsrError, match="remove it"):
        VoskModelRegistry(path).add(made(tmp_path / "a", WHOLE))
