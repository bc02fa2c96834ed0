"""Which ear hears on this computer: chosen here and nowhere else, and told in one sentence."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal, TypeAlias

from boxaloud.assistant.asr.asr_messages import say
from boxaloud.assistant.asr.asr_types import Recogniser

Kind: TypeAlias = Literal["vosk", "both", "ctc", "whisper", "pocketsphinx"]


@dataclass(frozen=True, slots=True)
class EarChoice:
    """The ear to hear with. `weights` are the learnt ear's, `folder` another model's."""

    kind: Kind
    weights: Path | None = None
    folder: Path | None = None

    @property
    def sentence(self) -> str:
        """What is said of it at the start."""
        return say(f"in_use.{self.kind}")

    @property
    def preparing(self) -> str:
        """What is said before it is made, where its language models must be made first; else
        empty."""
        if self.kind == "vosk":
            return ""
        from boxaloud.assistant.asr.lm.language_model import own_models

        return "" if own_models().ready else say("in_use.preparing")


def choice() -> EarChoice:
    """The ear of this computer.

    A model that a person added comes first. Else it is the learnt ear, with the hearing network
    as its second opinion where that is installed; the network alone, or the embedded ear, where
    there are no weights.
    """
    from boxaloud.assistant.asr.engines.ctc import weights_file
    from boxaloud.assistant.asr.engines.vosk.model_registry import VoskModelRegistry
    from boxaloud.assistant.asr.engines.whisper import model_folder

    added = VoskModelRegistry().in_use()
    if added is not None:
        return EarChoice("vosk", folder=added)
    weights, folder = weights_file(), model_folder()
    if weights is not None:
        return EarChoice("both" if folder else "ctc", weights, folder)
    return EarChoice("whisper", folder=folder) if folder else EarChoice("pocketsphinx")


def default_recogniser() -> Recogniser:
    """The ear that was chosen, ready to hear.

    Raises:
        AsrError: its engine, its weights or the model that was added is missing or broken.
    """
    return made(choice())


def made(chosen: EarChoice) -> Recogniser:
    """An ear, ready to hear. Raises AsrError where what it needs is missing or broken."""
    if chosen.kind == "vosk" and chosen.folder is not None:
        from boxaloud.assistant.asr.engines.vosk.vosk_recogniser import VoskRecogniser

        return VoskRecogniser(chosen.folder)
    if chosen.kind == "whisper" and chosen.folder is not None:
        from boxaloud.assistant.asr.engines.whisper.whisper_recogniser import WhisperRecogniser

        return WhisperRecogniser(chosen.folder)
    if chosen.weights is not None:
        return _learnt(chosen.weights, chosen.folder)
    from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
        PocketsphinxRecogniser,
    )

    return PocketsphinxRecogniser()


def _learnt(weights: Path, folder: Path | None) -> Recogniser:
    """The learnt ear, with the network of a folder beside it."""
    from boxaloud.assistant.asr.engines.ctc.ctc_encoder import learnt_ear

    first = learnt_ear(weights)
    if folder is None:
        return first
    from boxaloud.assistant.asr.audio.denoiser import default_denoiser
    from boxaloud.assistant.asr.audio.speech_enhancement import SpeechEnhancer
    from boxaloud.assistant.asr.engines.whisper.whisper_recogniser import WhisperRecogniser
    from boxaloud.assistant.asr.second_opinion import SecondOpinion

    cleaner = SpeechEnhancer(default_denoiser)
    return SecondOpinion(first, WhisperRecogniser(folder, cleaner=cleaner), cleaner)
