"""The ear of a computer: which one it is, and that it is told before the first words."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import get_args

import pytest
from boxaloud.assistant.asr import ear_choice
from boxaloud.assistant.asr.ear_choice import EarChoice, Kind, choice
from boxaloud.assistant.asr.engines import ctc, whisper
from boxaloud.assistant.asr.engines.vosk.model_registry import VoskModelRegistry
from boxaloud.assistant.asr.lm import language_model
from boxaloud.assistant.cli.commands import hear_command

SOMETHING = Path("something")


@pytest.mark.parametrize(
    ("added", "weights", "folder", "due"),
    [
        (SOMETHING, SOMETHING, SOMETHING, "vosk"),
        (None, SOMETHING, SOMETHING, "both"),
        (None, SOMETHING, None, "ctc"),
        (None, None, SOMETHING, "whisper"),
        (None, None, None, "pocketsphinx"),
    ],
)
def test_what_is_there_decides_which_ear_it_is(
    added: Path | None,
    weights: Path | None,
    folder: Path | None,
    due: str,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(VoskModelRegistry, "in_use", lambda self: added)
    monkeypatch.setattr(ctc, "weights_file", lambda: weights)
    monkeypatch.setattr(whisper, "model_folder", lambda: folder)
    assert choice().kind == due


def test_every_ear_is_told_in_a_sentence_of_its_own() -> None:
    told = {EarChoice(kind).sentence for kind in get_args(Kind)}
    assert len(told) == len(get_args(Kind))


@pytest.fixture
def at_start(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> Callable[[], str]:
    def told() -> str:
        monkeypatch.setattr(hear_command, "choice", lambda: EarChoice("pocketsphinx"))
        monkeypatch.setattr(hear_command, "made", lambda chosen: None)
        hear_command._ready()
        out, err = capsys.readouterr()
        assert out == ""  # what is heard and answered stands alone there
        return str(err)

    return told


def test_it_is_told_at_the_start_and_not_among_the_replies(at_start: Callable[[], str]) -> None:
    assert EarChoice("pocketsphinx").sentence in at_start()


def test_a_wait_is_told_where_models_are_to_be_made(
    at_start: Callable[[], str], monkeypatch: pytest.MonkeyPatch
) -> None:
    ready = [False]
    monkeypatch.setattr(language_model.LanguageModels, "ready", property(lambda self: ready[0]))
    assert "some seconds" in at_start()
    ready[0] = True
    assert "some seconds" not in at_start()


def test_models_are_ready_once_they_are_made(tmp_path: Path) -> None:
    speech = language_model.Domain(
        lambda n, seed, expect: ["two cables"] * n, frozenset(["two", "cables"]), "two"
    )
    models = language_model.own_models(speech, tmp_path)
    assert not models.ready
    models.model_file(None)
    assert language_model.own_models(speech, tmp_path).ready


def test_the_default_is_what_was_chosen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ear_choice, "choice", lambda: EarChoice("pocketsphinx"))
    assert type(ear_choice.default_recogniser()).__name__ == "PocketsphinxRecogniser"
