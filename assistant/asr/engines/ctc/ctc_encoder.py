"""The network at work: a spectrum in, how likely each letter is in every place out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

import numpy as np
from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say
from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.speech_enhancement import values
from boxaloud.assistant.asr.audio.speech_spans import Span
from boxaloud.assistant.asr.engines.ctc.alphabet import PEAK
from boxaloud.assistant.asr.engines.ctc.ctc_recogniser import CtcRecogniser, samples_heard
from boxaloud.assistant.asr.engines.ctc.ctc_weights import CtcWeights, read_weights
from boxaloud.assistant.asr.engines.ctc.prefix_beam_search import Letters
from boxaloud.assistant.asr.engines.whisper.blas_threads import single_blas_thread
from boxaloud.assistant.asr.engines.whisper.transformer import (
    gelu,
    log_softmax,
    scaled_dot_product_attention,
)
from boxaloud.assistant.asr.frontend.log_mel import RATE, spectrum
from boxaloud.assistant.asr.lm.language_model import own_models
from boxaloud.assistant.asr.lm.question_scorers import SpokenLanguage
from numpy.typing import NDArray

if TYPE_CHECKING:
    from onnxruntime import InferenceSession

Array = NDArray[np.float32]
LAYER_NORM_EPSILON = np.float32(1e-5)
#: The slowest of the waves by which a place is told has this many places to a radian.
LONGEST_WAVE = 10_000
#: Quieter than this (of 1) a sound is not made louder: it is nothing.
LEAST_PEAK = 1e-4


class LetterEncoder(Protocol):
    """What hears letters in a spectrum."""

    name: str

    def letters(self, spectrum: Array) -> Array:
        """The logarithm of how likely each letter is, places by letters, the blank first.

        `spectrum`: frames by bands, an even number of frames; a place is two of them, 20 ms.
        """
        ...


class NumpyEncoder:
    """The network in numpy, as `ctc_weights` describes it."""

    def __init__(self, weights: CtcWeights) -> None:
        self._weights = weights
        self._arrays = weights.arrays
        self.name = weights.name

    def letters(self, spectrum: Array) -> Array:
        """The logarithm of how likely each letter is, places by letters, the blank first."""
        state = gelu(self._linear(_threes(spectrum, 1), "conv1"))
        state = gelu(self._linear(_threes(state, 2), "conv2"))
        state = state + sinusoids(len(state), self._weights.width)
        for layer in range(self._weights.layers):
            state = self._layer(state, f"layers.{layer}")
        return log_softmax(self._linear(self._norm(state, "norm"), "head"))

    def _layer(self, state: Array, name: str) -> Array:
        asked, keys, values = np.split(
            self._linear(self._norm(state, f"{name}.norm1"), f"{name}.qkv"), 3, axis=1
        )
        seen = scaled_dot_product_attention(
            self._heads(asked), self._heads(keys).transpose(0, 2, 1), self._heads(values)
        )
        side_by_side = seen.transpose(1, 0, 2).reshape(len(state), -1)
        state = state + self._linear(side_by_side, f"{name}.out")
        wide = gelu(self._linear(self._norm(state, f"{name}.norm2"), f"{name}.up"))
        return state + self._linear(wide, f"{name}.down")

    def _heads(self, state: Array) -> Array:
        """Heads by places by the width of a head."""
        return state.reshape(len(state), self._weights.heads, -1).transpose(1, 0, 2)

    def _linear(self, state: Array, name: str) -> Array:
        product: Array = state @ self._arrays[f"{name}.w"] + self._arrays[f"{name}.b"]
        return product

    def _norm(self, state: Array, name: str) -> Array:
        centred = state - state.mean(-1, keepdims=True)
        spread = np.sqrt((centred * centred).mean(-1, keepdims=True) + LAYER_NORM_EPSILON)
        evened: Array = centred / spread * self._arrays[f"{name}.g"]
        return evened + self._arrays[f"{name}.b"]


class OnnxEncoder:
    """The network by onnxruntime, on one core. Raises AsrError where the file is none of ours."""

    def __init__(self, path: Path) -> None:
        import onnxruntime

        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = options.inter_op_num_threads = 1
        options.log_severity_level = 3
        try:
            self._session: InferenceSession = onnxruntime.InferenceSession(
                str(path), options, providers=["CPUExecutionProvider"]
            )
        except Exception as error:  # it has an exception of its own for each way to fail
            raise AsrError(say("ctc.no_model", path=path)) from error
        self.name = path.stem

    def letters(self, spectrum: Array) -> Array:
        """The logarithm of how likely each letter is, places by letters, the blank first."""
        found: Any = self._session.run(["letters"], {"mel": spectrum[None]})
        letters: Array = found[0][0]
        return letters


class SpanNetwork:
    """What hears letters in a stretch of a sound, by its spectrum."""

    def __init__(self, of_spectrum: LetterEncoder) -> None:
        self._encoder = of_spectrum
        self.name = of_spectrum.name

    def letters(self, sound: Sound, span: Span) -> Letters:
        """How likely each letter is in each place of a span of a sound and around it."""
        start, end = samples_heard(span)
        whole = values(sound.samples)
        part = np.pad(whole[max(0, start) : end], (max(0, -start), max(0, end - len(whole))))
        loud = max(LEAST_PEAK, float(np.abs(part).max(initial=0.0)))
        part = part * np.float32(PEAK / loud)
        with single_blas_thread():
            letters: Letters = self._encoder.letters(spectrum(part, len(part) / RATE)).tolist()
        return letters


def learnt_ear(weights: Path, language: SpokenLanguage | None = None) -> CtcRecogniser:
    """The ear with the network of a file of weights. `language` is the trade's unless told another.

    Raises:
        AsrError: the weights are missing, broken or of another kind.
    """
    return CtcRecogniser(SpanNetwork(encoder(weights)), language or own_models())


def encoder(path: Path) -> LetterEncoder:
    """The network of a file of weights: by onnxruntime where that and its file are there.

    Raises:
        AsrError: the file is missing, broken or of another kind.
    """
    other = path.with_suffix(".onnx")
    if path.suffix == ".onnx" or (other.is_file() and _has_onnxruntime()):
        return OnnxEncoder(other)
    return NumpyEncoder(read_weights(path))


def _has_onnxruntime() -> bool:
    try:
        import onnxruntime  # noqa: F401
    except ImportError:
        return False
    return True


def sinusoids(places: int, width: int) -> Array:
    """What tells the network where each place is: sines, then cosines, of ever longer waves."""
    half = width // 2
    rates = np.exp(-np.arange(half) * (np.log(LONGEST_WAVE) / (half - 1)))
    turns = np.arange(places)[:, None] * rates
    return np.concatenate([np.sin(turns), np.cos(turns)], axis=1).astype(np.float32)


def _threes(state: Array, step: int) -> Array:
    """Each row with its two neighbours, the one before first; every `step`-th."""
    padded = np.pad(state, ((1, 1), (0, 0)))
    return np.concatenate([padded[:-2], padded[1:-1], padded[2:]], axis=1)[::step]
