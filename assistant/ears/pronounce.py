"""The words an English ear must know: those of the trade, and common ones that are not."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from assistant.ears.errors import EarsError

#: Common English words that are listened for so that other talk is not forced into the trade's.
OTHER_WORDS = 3000


@dataclass(frozen=True, slots=True)
class Dictionary:
    """Pronunciation lines in the CMU form, and the words that are none of the trade's.

    `missing` holds the trade's words that nobody has written a pronunciation for; they cannot be
    heard.
    """

    lines: tuple[str, ...]
    other: tuple[str, ...]
    missing: tuple[str, ...]


def dictionary(words: Iterable[str], model: Path) -> Dictionary:
    """Cut the bundled dictionary to the trade's `words` and to common words unlike them.

    Args:
        words: every word that the grammar can say.
        model: the bundled model's folder, which holds a dictionary and a general language model.

    Raises:
        EarsError: the bundled model is not there.
    """
    wanted = frozenset(words)
    spoken = _spoken(model)
    spoken.update(_ours())
    known = {word: spoken[word] for word in wanted if word in spoken}
    other = _other(wanted, known, spoken, model)
    lines = [f"{word} {way}" for word, way in _numbered({**known, **{w: spoken[w] for w in other}})]
    return Dictionary(tuple(lines), other, tuple(sorted(wanted - known.keys())))


def _ours() -> dict[str, list[str]]:
    text = files("assistant.ears").joinpath("data/pronunciations.dict").read_text("utf-8")
    return _table(text.splitlines())


def _spoken(model: Path) -> dict[str, list[str]]:
    try:
        return _table((model / "cmudict-en-us.dict").read_text("utf-8").splitlines())
    except OSError as error:
        raise EarsError(
            "The speech model that comes with pocketsphinx is missing; reinstall it with "
            "'pip install --force-reinstall pocketsphinx'."
        ) from error


def _table(lines: Iterable[str]) -> dict[str, list[str]]:
    table: dict[str, list[str]] = {}
    for line in lines:
        entry, _, phones = line.strip().partition(" ")
        if phones:
            table.setdefault(entry.partition("(")[0], []).append(phones)
    return table


def _numbered(table: dict[str, list[str]]) -> Iterable[tuple[str, str]]:
    for word in sorted(table):
        for place, phones in enumerate(table[word], 1):
            yield (word if place == 1 else f"{word}({place})"), phones


def _other(
    wanted: frozenset[str],
    known: dict[str, list[str]],
    spoken: dict[str, list[str]],
    model: Path,
) -> tuple[str, ...]:
    """The commonest English words that neither are nor sound like a word of the trade."""
    from pocketsphinx import NGramModel  # type: ignore[import-untyped]

    general = NGramModel.readfile(str(model / "en-us.lm.bin"))
    ours = {way for ways in known.values() for way in ways}
    candidates = (
        word
        for word, ways in spoken.items()
        if word not in wanted and " " in ways[0] and ours.isdisjoint(ways)
    )
    ranked = sorted(candidates, key=lambda word: (-general.prob([word]), word))
    return tuple(ranked[:OTHER_WORDS])
