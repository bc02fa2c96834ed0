"""The network that is trained: the encoder of Whisper tiny.en, and a CTC head on letters."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import numpy as np
import torch
import torch.nn.functional as F
from torch import Tensor, nn

#: CTC's blank first, then what may be written.
LETTERS = "_abcdefghijklmnopqrstuvwxyz' "
WIDTH, HEADS, LAYERS, BANDS = 384, 6, 4, 80
EPSILON = 1e-5
LONGEST_PLACES = 800
#: The layer behind which a second head helps the lower layers to learn.
MIDDLE = 1
SECOND_HEAD = "middle_head."


def codes(text: str) -> list[int]:
    """The classes of a text's letters."""
    return [LETTERS.index(letter) for letter in text]


def sinusoids(places: int, width: int) -> Tensor:
    """Whisper's marks of place: (places, width), sines and then cosines."""
    step = np.log(10_000) / (width // 2 - 1)
    pace = torch.exp(-step * torch.arange(width // 2))
    turns = torch.arange(places)[:, None] * pace[None]
    return torch.cat([turns.sin(), turns.cos()], 1)


def neighbours(frames: Tensor, stride: int) -> Tensor:
    """Each frame with the one before and the one after: (batch, places, 3 * numbers)."""
    padded = F.pad(frames, (0, 0, 1, 1))
    return torch.cat([padded[:, :-2], padded[:, 1:-1], padded[:, 2:]], 2)[:, ::stride]


def gelu(values: Tensor) -> Tensor:
    """The Gaussian error linear unit by its tanh form, as the product works it out."""
    return F.gelu(values, approximate="tanh")


class Layer(nn.Module):
    """A transformer layer, its normalisations first."""

    def __init__(self, dropout: float) -> None:
        super().__init__()
        self.norm1, self.norm2 = (nn.LayerNorm(WIDTH, eps=EPSILON) for _ in range(2))
        self.qkv, self.out = nn.Linear(WIDTH, 3 * WIDTH), nn.Linear(WIDTH, WIDTH)
        self.up, self.down = nn.Linear(WIDTH, 4 * WIDTH), nn.Linear(4 * WIDTH, WIDTH)
        self.dropout = nn.Dropout(dropout)

    def forward(self, x: Tensor, mask: Tensor) -> Tensor:
        """`mask` is (batch, 1, 1, places): True where there is sound."""
        batch, places, _ = x.shape
        split = self.qkv(self.norm1(x)).view(batch, places, 3, HEADS, WIDTH // HEADS)
        queries, keys, values = split.permute(2, 0, 3, 1, 4)
        seen = F.scaled_dot_product_attention(queries, keys, values, attn_mask=mask)
        x = x + self.dropout(self.out(seen.transpose(1, 2).reshape(batch, places, WIDTH)))
        return x + self.dropout(self.down(gelu(self.up(self.norm2(x)))))


class Ear(nn.Module):
    """Log-mel frames to letters."""

    def __init__(self, dropout: float = 0.0) -> None:
        super().__init__()
        self.conv1, self.conv2 = nn.Linear(3 * BANDS, WIDTH), nn.Linear(3 * WIDTH, WIDTH)
        self.layers = nn.ModuleList(Layer(dropout) for _ in range(LAYERS))
        self.norm, self.head = nn.LayerNorm(WIDTH, eps=EPSILON), nn.Linear(WIDTH, len(LETTERS))
        self.middle_head = nn.Linear(WIDTH, len(LETTERS))
        self.register_buffer("places", sinusoids(LONGEST_PLACES, WIDTH), persistent=False)
        self.places: Tensor

    def forward(self, frames: Tensor, mask: Tensor) -> tuple[Tensor, Tensor]:
        """Scores of the letters, (batch, places, letters), and those of the middle head.

        `frames` is (batch, frames, bands), `mask` (batch, places): two frames a place.
        """
        own = mask.repeat_interleave(2, 1)[..., None]
        x = gelu(self.conv1(neighbours(frames, 1))) * own
        x = gelu(self.conv2(neighbours(x, 2)))
        x = x + self.places[: x.shape[1]]
        middle = x
        for number, layer in enumerate(self.layers):
            x = layer(x, mask[:, None, None])
            middle = x if number == MIDDLE else middle
        return self.head(self.norm(x)), self.middle_head(F.layer_norm(middle, (WIDTH,)))


def start_from_whisper(ear: Ear, arrays: Mapping[str, np.ndarray]) -> None:
    """Take the encoder's weights, by the names of CTranslate2's file without `encoder/`."""
    state: dict[str, Tensor] = {}

    def take(name: str, source: str) -> None:
        state[f"{name}.weight"] = _weight(arrays, source)
        state[f"{name}.bias"] = _real(arrays[f"{source}/bias"])

    for name in ("conv1", "conv2"):
        weight = _real(arrays[f"{name}/weight"])
        state[f"{name}.weight"] = weight.permute(0, 2, 1).reshape(WIDTH, -1)
        state[f"{name}.bias"] = _real(arrays[f"{name}/bias"])
    for number in range(LAYERS):
        ours, theirs = f"layers.{number}", f"layer_{number}"
        take(f"{ours}.qkv", f"{theirs}/self_attention/linear_0")
        take(f"{ours}.out", f"{theirs}/self_attention/linear_1")
        take(f"{ours}.up", f"{theirs}/ffn/linear_0")
        take(f"{ours}.down", f"{theirs}/ffn/linear_1")
        for norm, source in (("norm1", "self_attention"), ("norm2", "ffn")):
            _take_norm(state, arrays, f"{ours}.{norm}", f"{theirs}/{source}/layer_norm")
    _take_norm(state, arrays, "norm", "layer_norm")
    missing, unexpected = ear.load_state_dict(state, strict=False)
    assert not unexpected, unexpected
    assert all("head" in name for name in missing), missing


def stored_state(path: Path) -> dict[str, Tensor]:
    """Weights by their names here: of what a run wrote, or of a file of the product, which holds no
    second head."""
    if path.suffix != ".npz":
        return dict(torch.load(path, map_location="cpu"))
    with np.load(path) as stored:
        arrays = {name: _real(stored[name]) for name in stored.files if name != "meta"}
    state = {}
    for name, array in arrays.items():
        part, _, kind = name.rpartition(".")
        if kind == "q":
            state[f"{part}.weight"] = array * arrays[f"{part}.s"][:, None]
        elif kind != "s":
            state[f"{part}.{'weight' if kind == 'g' else 'bias'}"] = array
    return state


def has_second_head(state: Mapping[str, Tensor]) -> bool:
    """Whether the second head's weights are among these."""
    return any(name.startswith(SECOND_HEAD) for name in state)


def start_from(ear: Ear, state: Mapping[str, Tensor]) -> None:
    """Take stored weights; only the second head may be missing."""
    missing, unexpected = ear.load_state_dict(dict(state), strict=False)
    assert not unexpected, unexpected
    assert all(name.startswith(SECOND_HEAD) for name in missing), missing


def _take_norm(
    state: dict[str, Tensor], arrays: Mapping[str, np.ndarray], name: str, source: str
) -> None:
    state[f"{name}.weight"] = _real(arrays[f"{source}/gamma"])
    state[f"{name}.bias"] = _real(arrays[f"{source}/beta"])


def _weight(arrays: Mapping[str, np.ndarray], source: str) -> Tensor:
    """A weight, whether it is stored plain or as bytes with a scale for each row."""
    weight = _real(arrays[f"{source}/weight"])
    scale = arrays.get(f"{source}/weight_scale")
    return weight if scale is None else weight / _real(scale).reshape(-1, 1)


def _real(array: np.ndarray) -> Tensor:
    return torch.from_numpy(np.array(array)).float()
