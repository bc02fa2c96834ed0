"""The network itself, as its arrays say: sound into what was heard, and pieces from that."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeAlias

import numpy as np
from boxaloud.assistant.ears.errors import EarsError
from boxaloud.assistant.ears.wording import say
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float32]
#: Keys and values of every layer, of sound or of pieces.
Memory: TypeAlias = list[tuple[Array, Array]]

TINY = np.float32(1e-5)
#: Pieces of an English-only model. Others need to be told the language, and are not taken.
ENGLISH_ONLY = 51864


class Network:
    """A model's arrays ready to be worked. Raises EarsError where it is no English-only one."""

    def __init__(self, arrays: Mapping[str, NDArray[Any]]) -> None:
        try:
            self._pieces = arrays["decoder/embeddings/weight"]
            self._heads = int(arrays["decoder/num_heads"])
        except KeyError as error:
            raise EarsError(say("whisper.not_english")) from error
        if len(self._pieces) != ENGLISH_ONLY or self._pieces.dtype == np.int8:
            raise EarsError(say("whisper.not_english"))
        self.layers = sum(
            name.startswith("decoder/") and name.endswith("ffn/linear_0/bias") for name in arrays
        )
        self._arrays: dict[str, Array] = {
            name: _ready(name, array)
            for name, array in arrays.items()
            if array.ndim and name != "decoder/embeddings/weight"
        }

    def of_pieces(self, numbers: NDArray[np.int64]) -> Array:
        """The arrays of pieces, for telling which comes next: width by pieces."""
        return np.ascontiguousarray(self._pieces[numbers].astype(np.float32).T)

    def heard(self, spectrum: Array) -> Memory:
        """What is in a sound, for `step` to listen to. `spectrum`: frames by bands."""
        state = self._narrowed(self._narrowed(spectrum, "conv1", 1), "conv2", 2)
        state = state + self._arrays["encoder/position_encodings/encodings"][: len(state)]
        for layer in range(self.layers):
            state = self._listened(state, f"encoder/layer_{layer}")
        state = self._evened(state, "encoder/layer_norm")
        memory = []
        for layer in range(self.layers):
            both = self._linear(state, f"decoder/layer_{layer}/attention/linear_1")
            keys, values = (self._by_heads(part[None])[0] for part in np.split(both, 2, axis=1))
            memory.append((np.ascontiguousarray(keys.transpose(0, 2, 1)), values))
        return memory

    def step(
        self, pieces: NDArray[np.int64], place: int, said: Memory | None, heard: Memory
    ) -> tuple[Array, Memory]:
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
        state = self._pieces[pieces].astype(np.float32)
        state += self._arrays["decoder/position_encodings/encodings"][place : place + length]
        memory = []
        for layer in range(self.layers):
            name = f"decoder/layer_{layer}"
            own = self._linear(
                self._evened(state, f"{name}/self_attention/layer_norm"),
                f"{name}/self_attention/linear_0",
            )
            asking, keys, values = (self._by_heads(part) for part in np.split(own, 3, axis=2))
            if said is not None:
                keys = np.concatenate([said[layer][0], keys], axis=2)
                values = np.concatenate([said[layer][1], values], axis=2)
            memory.append((keys, values))
            seen = _attended(asking, keys.transpose(0, 1, 3, 2), values, ahead=length > 1)
            state = state + self._linear(_joined(seen), f"{name}/self_attention/linear_1")
            asking = self._linear(
                self._evened(state, f"{name}/attention/layer_norm"), f"{name}/attention/linear_0"
            )
            rows = self._by_heads(asking.reshape(1, ways * length, -1))[0]
            seen = _attended(rows, *heard[layer])
            seen = _joined(seen[None]).reshape(ways, length, -1)
            state = state + self._linear(seen, f"{name}/attention/linear_2")
            state = self._thought(state, f"{name}/ffn")
        return self._evened(state[:, -1], "decoder/layer_norm"), memory

    def _narrowed(self, state: Array, name: str, step: int) -> Array:
        """Each frame with its two neighbours, every `step`-th."""
        padded = np.pad(state, ((1, 1), (0, 0)))
        threes = np.lib.stride_tricks.sliding_window_view(padded, 3, axis=0)[::step]
        rows = threes.transpose(0, 2, 1).reshape(len(threes), -1)
        name = f"encoder/{name}"
        return _bent(rows @ self._arrays[f"{name}/weight"] + self._arrays[f"{name}/bias"])

    def _listened(self, state: Array, name: str) -> Array:
        own = self._linear(
            self._evened(state, f"{name}/self_attention/layer_norm"),
            f"{name}/self_attention/linear_0",
        )
        asking, keys, values = (self._by_heads(part[None])[0] for part in np.split(own, 3, axis=1))
        seen = _joined(_attended(asking, keys.transpose(0, 2, 1), values)[None])[0]
        return self._thought(
            state + self._linear(seen, f"{name}/self_attention/linear_1"), f"{name}/ffn"
        )

    def _thought(self, state: Array, name: str) -> Array:
        wide = _bent(self._linear(self._evened(state, f"{name}/layer_norm"), f"{name}/linear_0"))
        return state + self._linear(wide, f"{name}/linear_1")

    def _linear(self, state: Array, name: str) -> Array:
        product: Array = state @ self._arrays[f"{name}/weight"] + self._arrays[f"{name}/bias"]
        return product

    def _evened(self, state: Array, name: str) -> Array:
        centred = state - state.mean(-1, keepdims=True)
        spread = np.sqrt((centred * centred).mean(-1, keepdims=True) + TINY)
        evened: Array = centred / spread * self._arrays[f"{name}/gamma"]
        return evened + self._arrays[f"{name}/beta"]

    def _by_heads(self, state: Array) -> Array:
        """Ways by heads by places by width of a head."""
        ways, places, width = state.shape
        return state.reshape(ways, places, self._heads, width // self._heads).transpose(0, 2, 1, 3)


def _ready(name: str, array: NDArray[Any]) -> Array:
    """An array as it is multiplied with: the other way round, and threes of frames in a row."""
    wide = array.astype(np.float32)
    if not name.endswith("/weight"):
        return wide
    if wide.ndim == 3:
        return np.ascontiguousarray(wide.transpose(2, 1, 0).reshape(-1, len(wide)))
    return np.ascontiguousarray(wide.T)


def _attended(asking: Array, keys: Array, values: Array, ahead: bool = False) -> Array:
    """The values, as much of each as its key answers what asks; none from ahead of it."""
    share = (asking @ keys) * np.float32(asking.shape[-1] ** -0.5)
    if ahead:
        share = share + np.triu(np.full(share.shape[-2:], -1e9, np.float32), 1)
    share -= share.max(-1, keepdims=True)
    np.exp(share, out=share)
    share /= share.sum(-1, keepdims=True)
    seen: Array = np.matmul(share, values, dtype=np.float32)
    return seen


def _joined(state: Array) -> Array:
    """The heads side by side again."""
    ways, _, places, _ = state.shape
    return state.transpose(0, 2, 1, 3).reshape(ways, places, -1)


def _bent(state: Array) -> Array:
    """The gaussian error linear unit, in its tanh form, which is within 0.001 of it."""
    inner = np.float32(0.7978845608) * (state + np.float32(0.044715) * state * state * state)
    bent: Array = np.float32(0.5) * state * (1 + np.tanh(inner))
    return bent
