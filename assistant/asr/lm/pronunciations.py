"""The words an English ear must know: those of the trade, and common ones that are not."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from boxaloud.assistant.asr.asr_errors import AsrError

#: Common English words that are listened for so that other talk is not forced into the trade's.
OUT_OF_DOMAIN_WORDS = 3000
#: Begins the entry of a common word, for many are words of the trade as well ("to", "you",
#: "out"): which of the two was meant, their neighbours tell.
OUT_OF_DOMAIN_PREFIX = "~"
#: The base of the bundled model's logarithms, and by how much (in them) a word may be rarer in the
#: trade than in general and still be the trade's own.
LOG_BASE = 1.0001
DOMAIN_LOG_MARGIN = -10_000
#: What the choice of words depends on, for caches of it.
SELECTION_PARAMETERS = (OUT_OF_DOMAIN_WORDS, OUT_OF_DOMAIN_PREFIX, DOMAIN_LOG_MARGIN)


@dataclass(frozen=True, slots=True)
class PronunciationDictionary:
    """Pronunciation lines in the CMU form, and the entries of words that are not the trade's.

    `missing` holds the trade's words that nobody has written a pronunciation for; they cannot be
    heard.
    """

    lines: tuple[str, ...]
    other: tuple[str, ...]
    missing: tuple[str, ...]


def dictionary(counts: Mapping[str, int], model: Path) -> PronunciationDictionary:
    """Cut the bundled dictionary to the trade's words and to the common ones of other talk.

    Args:
        counts: every word that the grammar can say, and how often it does.
        model: the bundled model's folder, which holds a dictionary and a general language model.

    Raises:
        EarsError: the bundled model is not there.
    """
    wanted = frozenset(counts)
    spoken = _bundled_pronunciations(model)
    spoken.update(_own_pronunciations())
    known = {
        word: ways
        for word in wanted
        if (ways := spoken.get(word) or _plural_pronunciations(word, spoken))
    }
    other = {
        OUT_OF_DOMAIN_PREFIX + word: spoken[word]
        for word in _select_out_of_domain(counts, spoken, model)
    }
    lines = [f"{word} {way}" for word, way in _numbered_variants({**known, **other})]
    return PronunciationDictionary(tuple(lines), tuple(other), tuple(sorted(wanted - known.keys())))


def _plural_pronunciations(word: str, spoken: dict[str, list[str]]) -> list[str]:
    """How a regular plural is said whose singular is known; no way where it is none."""
    one = word.removesuffix("s")
    return (
        []
        if one == word
        else [f"{way} {_plural_suffix_phones(way)}" for way in spoken.get(one, [])]
    )


def _plural_suffix_phones(way: str) -> str:
    last = way.rpartition(" ")[2]
    if last in ("S", "Z", "SH", "ZH", "CH", "JH"):
        return "IH Z"
    return "S" if last in ("P", "T", "K", "F", "TH") else "Z"


def _own_pronunciations() -> dict[str, list[str]]:
    text = files("boxaloud.assistant.asr").joinpath("data/pronunciations.dict").read_text("utf-8")
    return _parse_pronunciations(text.splitlines())


def _bundled_pronunciations(model: Path) -> dict[str, list[str]]:
    try:
        return _parse_pronunciations((model / "cmudict-en-us.dict").read_text("utf-8").splitlines())
    except OSError as error:
        raise AsrError(
            "The speech model that comes with pocketsphinx is missing; reinstall it with "
            "'pip install --force-reinstall pocketsphinx'."
        ) from error


def _parse_pronunciations(lines: Iterable[str]) -> dict[str, list[str]]:
    table: dict[str, list[str]] = {}
    for line in lines:
        entry, _, phones = line.strip().partition(" ")
        if phones:
            table.setdefault(entry.partition("(")[0], []).append(phones)
    return table


def _numbered_variants(table: dict[str, list[str]]) -> Iterable[tuple[str, str]]:
    for word in sorted(table):
        for place, phones in enumerate(table[word], 1):
            yield (word if place == 1 else f"{word}({place})"), phones


def _select_out_of_domain(
    counts: Mapping[str, int], spoken: dict[str, list[str]], model: Path
) -> tuple[str, ...]:
    """The commonest words of English that are not first of all words of the trade.

    A word is the trade's own where the trade says it more often than others do, and what sounds
    like such a word is left out too: nobody shall hear "for" where "four" was said.
    """
    from pocketsphinx import NGramModel

    general = NGramModel.readfile(str(model / "en-us.lm.bin"))
    usual = {word: general.prob([word]) for word in spoken}
    whole = sum(counts.values())
    own = {
        way
        for word, count in counts.items()
        for way in spoken.get(word, ())
        if math.log(count / whole, LOG_BASE) > usual[word] + DOMAIN_LOG_MARGIN
    }
    candidates = (word for word, ways in spoken.items() if own.isdisjoint(ways))
    ranked = sorted(candidates, key=lambda word: (-usual[word], word))
    return tuple(ranked[:OUT_OF_DOMAIN_WORDS])


def other_words(lines: str) -> tuple[str, ...]:
    """The words of other talk in a dictionary's lines, each once."""
    first = (line.partition(" ")[0] for line in lines.splitlines())
    return tuple(dict.fromkeys(one for one in first if one.startswith(OUT_OF_DOMAIN_PREFIX)))
