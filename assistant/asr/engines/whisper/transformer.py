"""The network itself, as its arrays say: sound into what was heard, and pieces from that."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeAlias

import numpy as np
from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float32]
#: Keys and values of every layer, of sound or of pieces.
KeyValueCache: TypeAlias = list[tuple[Array, Array]]

LAYER_NORM_EPSILON = np.float32(1e-5)
#: Pieces of an English-only model. Others need to be told the language, and are not taken.
ENGLISH_ONLY_VOCABULARY = 51864
#: Of so many pieces the arrays are widened at once.
PIECES_AT_ONCE = 8192


class Transformer:
    """A model's arrays ready to be worked. Raises EarsError where it is no English-only one."""

    def __init__(self, arrays: Mapping[str, NDArray[Any]]) -> None:
        try:
            self._embeddings = arrays["decoder/embeddings/weight"]
            self._heads = int(arrays["decoder/num_heads"])
        except KeyError as error:
            raise AsrError(say("whisper.not_english")) from error
        if len(self._embeddings) != ENGLISH_ONLY_VOCABULARY or self._embeddings.dtype == np.int8:
            raise AsrError(say("whisper.not_english"))
        self.layers = sum(
            name.startswith("decoder/") and name.endswith("ffn/linear_0/bias") for name in arrays
        )
        self._arrays: dict[str, Array] = {
            name: _prepare_weight(name, array)
            for name, array in arrays.items()
            if array.ndim and name != "decoder/embeddings/weight"
        }

    def of_pieces(self, numbers: NDArray[np.int64]) -> Array:
        """The arrays of pieces, for telling which comes next: width by pieces."""
        return np.ascontiguousarray(self._embeddings[numbers].astype(np.float32).T)

    def scores(self, states: Array) -> Array:
        """Scores of all pieces to come next, ways by pieces. Made by parts, for memory's sake."""
        parts = range(0, len(self._embeddings), PIECES_AT_ONCE)
        rows = (self._embeddings[at : at + PIECES_AT_ONCE].astype(np.float32) for at in parts)
        return np.concatenate([states @ part.T for part in rows], axis=1)

    def heard(self, spectrum: Array) -> KeyValueCache:
        """What is in a sound, for `step` to listen to. `spectrum`: frames by bands."""
        state = self._conv1d_gelu(self._conv1d_gelu(spectrum, "conv1", 1), "conv2", 2)
        state = state + self._arrays["encoder/position_encodings/encodings"][: len(state)]
        for layer in range(self.layers):
            state = self._encoder_layer(state, f"encoder/layer_{layer}")
        state = self._layer_norm(state, "encoder/layer_norm")
        memory = []
        for layer in range(self.layers):
            both = self._linear(state, f"decoder/layer_{layer}/attention/linear_1")
            keys, values = (self._split_heads(part[None])[0] for part in np.split(both, 2, axis=1))
            memory.append((np.ascontiguousarray(keys.transpose(0, 2, 1)), values))
        return memory

    def step(
        self,
        pieces: NDArray[np.int64],
        place: int,
        said: KeyValueCache | None,
        heard: KeyValueCache,
    ) -> tuple[Array, KeyValueCache]:
        """Go on by the next pieces of several ways.

        Args:
            pieces: ways by pieces.
            place: how many pieces came before.
            said: what earlier steps gave, one row a way.
            heard: what is in the sound.

        Returns:
            The state after the last piece of each way, ways by width, and `said` with these.
        """
        ways, length = pieces.shape
        state = self._embeddings[pieces].astype(np.float32)
        state += self._arrays["decoder/position_encodings/encodings"][place : place + length]
        memory = []
        for layer in range(self.layers):
            name = f"decoder/layer_{layer}"
            own = self._linear(
                self._layer_norm(state, f"{name}/self_attention/layer_norm"),
                f"{name}/self_attention/linear_0",
            )
            asking, keys, values = (self._split_heads(part) for part in np.split(own, 3, axis=2))
            if said is not None:
                keys = np.concatenate([said[layer][0], keys], axis=2)
                values = np.concatenate([said[layer][1], values], axis=2)
            memory.append((keys, values))
            seen = scaled_dot_product_attention(
                asking, keys.transpose(0, 1, 3, 2), values, ahead=length > 1
            )
            state = state + self._linear(_merge_heads(seen), f"{name}/self_attention/linear_1")
            asking = self._linear(
                self._layer_norm(state, f"{name}/attention/layer_norm"),
                f"{name}/attention/linear_0",
            )
            rows = self._split_heads(asking.reshape(1, ways * length, -1))[0]
            seen = scaled_dot_product_attention(rows, *heard[layer])
            seen = _merge_heads(seen[None]).reshape(ways, length, -1)
            state = state + self._linear(seen, f"{name}/attention/linear_2")
            state = self._feed_forward(state, f"{name}/ffn")
        return self._layer_norm(state[:, -1], "decoder/layer_norm"), memory

    def _conv1d_gelu(self, state: Array, name: str, step: int) -> Array:
        """Each frame with its two neighbours, every `step`-th."""
        padded = np.pad(state, ((1, 1), (0, 0)))
        threes = np.lib.stride_tricks.sliding_window_view(padded, 3, axis=0)[::step]
        rows = threes.transpose(0, 2, 1).reshape(len(threes), -1)
        name = f"encoder/{name}"
        return gelu(rows @ self._arrays[f"{name}/weight"] + self._arrays[f"{name}/bias"])

    def _encoder_layer(self, state: Array, name: str) -> Array:
        own = self._linear(
            self._layer_norm(state, f"{name}/self_attention/layer_norm"),
            f"{name}/self_attention/linear_0",
        )
        asking, keys, values = (
            self._split_heads(part[None])[0] for part in np.split(own, 3, axis=1)
        )
        seen = _merge_heads(
            scaled_dot_product_attention(asking, keys.transpose(0, 2, 1), values)[None]
        )[0]
        return self._feed_forward(
            state + self._linear(seen, f"{name}/self_attention/linear_1"), f"{name}/ffn"
        )

    def _feed_forward(self, state: Array, name: str) -> Array:
        wide = gelu(self._linear(self._layer_norm(state, f"{name}/layer_norm"), f"{name}/linear_0"))
        return state + self._linear(wide, f"{name}/linear_1")

    def _linear(self, state: Array, name: str) -> Array:
        product: Array = state @ self._arrays[f"{name}/weight"] + self._arrays[f"{name}/bias"]
        return product

    def _layer_norm(self, state: Array, name: str) -> Array:
        centred = state - state.mean(-1, keepdims=True)
        spread = np.sqrt((centred * centred).mean(-1, keepdims=True) + LAYER_NORM_EPSILON)
        evened: Array = centred / spread * self._arrays[f"{name}/gamma"]
        return evened + self._arrays[f"{name}/beta"]

    def _split_heads(self, state: Array) -> Array:
        """Ways by heads by places by width of a head."""
        ways, places, width = state.shape
        return state.reshape(ways, places, self._heads, width // self._heads).transpose(0, 2, 1, 3)


def _prepare_weight(name: str, array: NDArray[Any]) -> Array:
    """An array as it is multiplied with: the other way round, and threes of frames in a row."""
    wide = array.astype(np.float32)
    if not name.endswith("/weight"):
        return wide
    if wide.ndim == 3:
        return np.ascontiguousarray(wide.transpose(2, 1, 0).reshape(-1, len(wide)))
    return np.ascontiguousarray(wide.T)


def scaled_dot_product_attention(
    asking: Array, keys: Array, values: Array, ahead: bool = False
) -> Array:
    """The values, as much of each as its key answers what asks; none from ahead of it."""
    share = (asking @ keys) * np.float32(asking.shape[-1] ** -0.5)
    if ahead:
        share = share + np.triu(np.full(share.shape[-2:], -1e9, np.float32), 1)
    share -= share.max(-1, keepdims=True)
    np.exp(share, out=share)
    share /= share.sum(-1, keepdims=True)
    seen: Array = np.matmul(share, values, dtype=np.float32)
    return seen


def _merge_heads(state: Array) -> Array:
    """The heads side by side again."""
    ways, _, places, _ = state.shape
    return state.transpose(0, 2, 1, 3).reshape(ways, places, -1)


def gelu(state: Array) -> Array:
    """The gaussian error linear unit, in its tanh form, which is within 0.001 of it."""
    inner = np.float32(0.7978845608) * (state + np.float32(0.044715) * state * state * state)
    bent: Array = np.float32(0.5) * state * (1 + np.tanh(inner))
    return bent


def log_softmax(scores: Array) -> Array:
    """Logarithms of likelihoods from scores, each row by itself."""
    scores = scores - scores.max(-1, keepdims=True)
    logarithms: Array = scores - np.log(np.exp(scores).sum(-1, keepdims=True))
    return logarithms
