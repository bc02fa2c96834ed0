"""What the search does with a network's likings, with networks made up for the purpose."""

from __future__ import annotations

import json
import struct
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr import AsrError
from boxaloud.assistant.asr.engines.whisper.beam_search import (
    CONTINUATION_MARGIN,
    Hypothesis,
    _rank,
)
from boxaloud.assistant.asr.engines.whisper.bpe_tokeniser import BpeTokeniser
from boxaloud.assistant.asr.engines.whisper.prefix_tree import PrefixTree
from boxaloud.assistant.asr.engines.whisper.transformer import Transformer
from boxaloud.assistant.asr.engines.whisper.transformer_weights import read_weights


def written(path: Path, kind: str, arrays: dict[str, np.ndarray], version: int = 6) -> Path:
    """A file as the published description of CTranslate2's model format has it (from memory)."""
    types = {"float32": 0, "int8": 1, "int16": 2, "int32": 3, "float16": 4}

    def text(name: str) -> bytes:
        return struct.pack("<H", len(name) + 1) + name.encode() + b"\0"

    whole = struct.pack("<I", version) + text(kind) + struct.pack("<II", 3, len(arrays))
    for name, array in arrays.items():
        shape = struct.pack(f"<B{array.ndim}I", array.ndim, *array.shape)
        whole += text(name) + shape
        whole += struct.pack("<BI", types[str(array.dtype)], array.nbytes) + array.tobytes()
    path.write_bytes(whole + struct.pack("<I", 0))
    return path


def test_arrays_are_read_as_they_were_written(tmp_path: Path) -> None:
    arrays: dict[str, np.ndarray] = {
        "a/weight": np.arange(6, dtype=np.float16).reshape(2, 3),
        "a/number": np.array(6, dtype=np.int16),
        "b": np.array([1.5, -2.5], dtype=np.float32),
    }
    found = read_weights(written(tmp_path / "model.bin", "WhisperSpec", arrays))
    assert found.keys() == arrays.keys()
    for name, array in arrays.items():
        assert found[name].dtype == array.dtype
        assert np.array_equal(found[name], array)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (None, "missing or broken"),
        (b"", "missing or broken"),
        (b"PK\x03\x04 an archive, and no model at all", "not a Whisper model"),
        (struct.pack("<I", 6) + struct.pack("<H", 12) + b"WhisperSpec\0", "not a Whisper model"),
    ],
    ids=["no file", "an empty file", "another file", "cut off"],
)
def test_what_is_no_model_is_refused_in_a_sentence(
    tmp_path: Path, content: bytes | None, says: str
) -> None:
    path = tmp_path / "model.bin"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(AsrError, match=says):
        read_weights(path)


def test_a_model_of_another_kind_or_of_several_languages_is_refused(tmp_path: Path) -> None:
    with pytest.raises(AsrError, match="not a Whisper model"):
        read_weights(written(tmp_path / "other.bin", "TransformerSpec", {}))
    several = {
        "decoder/embeddings/weight": np.zeros((51865, 2), np.float16),
        "decoder/num_heads": np.array(1, np.int16),
    }
    with pytest.raises(AsrError, match="not an English-only one"):
        Transformer(read_weights(written(tmp_path / "several.bin", "WhisperSpec", several)))
    with pytest.raises(AsrError, match="not an English-only one"):
        Transformer({})


def table(path: Path) -> BpeTokeniser:
    """Letters, and a few pairs of them, in the form of the tokenizers library's file."""
    letters = ["Ġ", *"abcdefghijklmnopqrstuvwxyz.',"]
    pairs = ["Ġ t", "w o", "Ġt wo", "t h"]
    vocab = {piece: at for at, piece in enumerate([*letters, "Ġt", "wo", "Ġtwo", "th"])}
    marks = ["<|endoftext|>", "<|startofprev|>", "<|startoftranscript|>", "<|notimestamps|>"]
    added = [{"content": mark, "id": 100 + at} for at, mark in enumerate(marks)]
    content = {"model": {"vocab": vocab, "merges": pairs}, "added_tokens": added}
    path.write_text(json.dumps(content), encoding="utf-8")
    return BpeTokeniser(path)


def test_every_word_of_a_tree_is_reached_by_its_own_pieces(tmp_path: Path) -> None:
    pieces = table(tmp_path / "tokenizer.json")
    words = ["two", "twos", "the", "to"]
    tree = PrefixTree(words, ["then", "zoo"], pieces)
    for number, word in enumerate(words):
        node = 0
        for piece in pieces.of(word):
            places, nodes = tree.children[node]
            (at,) = [at for at, place in enumerate(places) if tree.pieces[place] == piece]
            node = int(nodes[at])
        assert tree.word[node] == number
    assert list(tree.pieces[-2:]) == [pieces.stop, pieces.end]
    assert sorted(tree.pieces[:-2]) == list(tree.pieces[:-2])
    likely = np.log(np.array([0.1, 0.2, 0.3, 0.4]))
    assert tree.likeliest_below(likely)[0] == likely.max()


def test_a_table_that_is_broken_is_refused_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "tokenizer.json").write_text("{}")
    with pytest.raises(AsrError, match="missing or broken"):
        BpeTokeniser(tmp_path / "tokenizer.json")


def way(text: str, merit: float) -> Hypothesis:
    return Hypothesis(tuple(text.split()), merit, merit)


@pytest.mark.parametrize(
    ("ways", "best"),
    [
        ([("two threes", -3.0), ("two twos", -4.0)], "two threes"),
        ([("two twos", -3.0), ("two twos and a dimmer", -4.0)], "two twos and a dimmer"),
        ([("two twos", -3.0), ("two twos and a dimmer", -3.1 - CONTINUATION_MARGIN)], "two twos"),
        ([("two twos", -3.0), ("two twos two twos", -3.5)], "two twos"),
        ([("a switch and two twos", -3.0), ("a switch and two twos two twos", -3.5)],
         "a switch and two twos"),
        ([("two twos", -3.0), ("two", -3.5)], "two twos"),
        ([("two", -3.0), ("two twos", -4.0), ("two twos and a dimmer", -5.0)],
         "two twos and a dimmer"),
    ],
    ids=["the best is first", "one that goes on is taken", "not from too far behind",
         "nothing is said twice", "nor the end of it", "one that stops early is not", "on and on"],
)  # fmt: skip
def test_ways_are_ranked(ways: list[tuple[str, float]], best: str) -> None:
    ranked = _rank([way(*one) for one in ways])
    assert " ".join(ranked[0].words) == best
    assert len(ranked) == len(ways)
