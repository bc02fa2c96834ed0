"""The language that an English ear expects, as n-gram models built from the grammar.

One open model of everything that can be said, and for each open question a narrow one, in which
answers to it are likely, and commands and corrections still possible. Each also knows how people
talk about other things, so that such talk is recognised for what it is.
"""

from __future__ import annotations

import hashlib
import io
import random
import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path
from typing import Any

from boxaloud.assistant.asr.hypotheses.isolated_words import requires_confirmation
from boxaloud.assistant.asr.lm import shipped_models
from boxaloud.assistant.asr.lm.lm_cache import ModelCache
from boxaloud.assistant.asr.lm.pronunciations import (
    OUT_OF_DOMAIN_PREFIX,
    SELECTION_PARAMETERS,
    PronunciationDictionary,
    dictionary,
    other_words,
)
from boxaloud.grammar.lexer.heard_words import Word

#: Raised by hand whenever the way of building changes, so that older caches are left behind.
BUILD_VERSION = 5
SENTENCES = 20_000
#: Other talk, as a share of the sentences; to a question people mostly answer. Measured by
#: tests/asr/measure_rejection.py.
OUT_OF_DOMAIN_SHARE = 0.5
OUT_OF_DOMAIN_SHARE_OF_ANSWERS = 0.05
OUT_OF_DOMAIN_LENGTH = (2, 10)
SEED = 1
#: Figures of a model, which are written shorter.
_FIGURES = re.compile(r"-?\d+\.\d{4}")


@dataclass(frozen=True, slots=True)
class Domain:
    """What can be said: sentences of it, all its words, and a name for its exact state."""

    sample: Callable[[int, int, str | None], Iterable[str]]
    words: frozenset[str]
    digest: str


def trade_domain() -> Domain:
    """How the trade speaks, from the grammar."""
    from boxaloud import grammar

    return Domain(grammar.sample, grammar.vocabulary(), grammar.digest())


def own_models(speech: Domain | None = None, cache: Path | None = None) -> LanguageModels:
    """The models beside the engine's own, which is installed; the trade's unless told another.

    `cache`: where they are kept; the user's cache folder unless told another.
    """
    from pocketsphinx import get_model_path

    return LanguageModels(
        speech or trade_domain(), Path(get_model_path()) / "en-us", ModelCache(cache)
    )


class LanguageModels:
    """The dictionary and the language models of a speech, made when first needed and cached."""

    def __init__(self, speech: Domain, model: Path, cache: ModelCache) -> None:
        self.speech = speech
        self._model = model
        self._cache = cache
        self._words: PronunciationDictionary | None = None
        self._narrows: dict[str, bool] = {}

    @property
    def known(self) -> frozenset[str]:
        """The words of the trade."""
        return self.speech.words

    @property
    def others(self) -> tuple[str, ...]:
        """Common words of other talk, as they stand in the models."""
        return other_words(self.dictionary_file.read_text("utf-8"))

    @property
    def dictionary_file(self) -> Path:
        """Pronunciations of the trade's words and of common others."""
        return self._file("words.dict", self._write_dictionary)

    def model_file(self, expect: str | None) -> Path:
        """The n-gram model for an open question, or the open one."""
        return self._file(f"{expect or 'open'}.lm", lambda: self._write_model(expect))

    def answers_file(self, expect: str) -> Path:
        """The model of an open question's answers of one word, as far as they can be asked back."""
        return self._file(f"{expect}.answers.lm", lambda: self._write_answers(expect))

    @property
    def ready(self) -> bool:
        """Whether the open model need not be made, which takes some seconds."""
        name = "open.lm"
        kept = self._cache.folder / self._state() / name
        return kept.is_file() or shipped_models.text(self._state(), name) is not None

    def packed(self, questions: Iterable[str]) -> bytes:
        """All the files, for those of the questions that have answers of their own: to be shipped
        in the package, so that no user's first utterance waits for them."""
        narrow = [name for name in sorted(questions) if self.narrows(name)]
        found = [*self.search_files(narrow), *map(self.answers_file, narrow)]
        return shipped_models.packed(
            self._state(), {path.name: path.read_text("utf-8") for path in found}
        )

    def search_files(self, questions: Iterable[str]) -> list[Path]:
        """The files that a search of our own needs: see `given_models.GivenModels`."""
        narrow = [self.model_file(name) for name in sorted(questions) if self.narrows(name)]
        return [self.dictionary_file, self.model_file(None), *narrow]

    def _file(self, name: str, make: Callable[[], str]) -> Path:
        """A file of the cache, from the package where that has it, else made."""

        def text() -> str:
            return shipped_models.text(self._state(), name) or make()

        return self._cache.file(f"{self._state()}/{name}", text)

    def narrows(self, expect: str | None) -> str | None:
        """`expect` where the grammar has answers of its own for it, else None."""
        if expect is None or not re.fullmatch(r"[a-z_]+", expect):
            return None
        if expect not in self._narrows:
            some, free = (list(self.speech.sample(40, SEED, about)) for about in (expect, None))
            self._narrows[expect] = some != free
        return expect if self._narrows[expect] else None

    def forget(self) -> None:
        """Remove the dictionary and the open model, which proved unusable, to be made again."""
        self._cache.forget(f"{self._state()}/words.dict")
        self._cache.forget(f"{self._state()}/open.lm")

    @property
    def missing(self) -> tuple[str, ...]:
        """Words of the speech that have no pronunciation and so cannot be heard."""
        return self._dictionary().missing

    def _dictionary(self) -> PronunciationDictionary:
        if self._words is None:
            counts = Counter(dict.fromkeys(self.speech.words, 1))
            for sentence in self.speech.sample(SENTENCES, SEED, None):
                counts.update(sentence.split())
            self._words = dictionary(counts, self._model)
        return self._words

    def _state(self) -> str:
        """A name for all that the files are made from; no path is in it."""
        ours = files("boxaloud.assistant.asr").joinpath("data/pronunciations.dict").read_bytes()
        made_by = repr(
            (
                BUILD_VERSION,
                SENTENCES,
                OUT_OF_DOMAIN_SHARE,
                OUT_OF_DOMAIN_SHARE_OF_ANSWERS,
                OUT_OF_DOMAIN_LENGTH,
                SEED,
                SELECTION_PARAMETERS,
                _sizes(self._model),
            )
        ).encode()
        state = hashlib.sha256(ours + made_by).hexdigest()[:8]
        return f"{self.speech.digest}-{state}"

    def _write_dictionary(self) -> str:
        return "\n".join(self._dictionary().lines) + "\n"

    def _write_model(self, expect: str | None) -> str:
        said = list(self.speech.sample(SENTENCES, SEED, expect))
        share = OUT_OF_DOMAIN_SHARE if expect is None else OUT_OF_DOMAIN_SHARE_OF_ANSWERS
        said += _out_of_domain_sentences(self._dictionary().other, int(len(said) * share))
        return _model(said, self.speech.words)

    def _write_answers(self, expect: str) -> str:
        said = list(self.speech.sample(SENTENCES, SEED, expect))
        one = {sentence for sentence in said if " " not in sentence}
        answers = one  # to a confirmation "yes" and "no" are the likeliest, and must be rivals
        if expect != "confirm":
            answers = {word for word in one if requires_confirmation((Word(word),), expect)}
        return _model([sentence for sentence in said if sentence in answers] or said)


def _model(said: list[str], words: Iterable[str] = ()) -> str:
    """An n-gram model of sentences, in which each of `words` is possible, as text."""
    from pocketsphinx.lm import ArpaBoLM

    model = ArpaBoLM(text="\n".join(said), add_start=True)
    for word in words:
        model.grams_1[word] = model.grams_1[word] or 1
    model.grams_2 = _without_chance(model.grams_2)
    for before, grams in model.grams_3.items():
        model.grams_3[before] = _without_chance(grams, before)
    model.compute()
    arpa = io.StringIO()
    model.write(arpa)
    return _FIGURES.sub(lambda figure: f"{float(figure[0]):.2f}", arpa.getvalue())


def _without_chance(grams: dict[str, Any], before: str = "") -> defaultdict[str, Any]:
    """N-grams without those in which words of other talk follow each other: their sentences are
    in no order, so that such a sequence tells of nothing but chance."""
    others = before.startswith(OUT_OF_DOMAIN_PREFIX)
    kept: defaultdict[str, Any] = defaultdict(lambda: defaultdict(int))
    for first, following in grams.items():
        other = others or first.startswith(OUT_OF_DOMAIN_PREFIX)
        for second, count in following.items():
            if not (
                (other and second.startswith(OUT_OF_DOMAIN_PREFIX))
                or (others and first.startswith(OUT_OF_DOMAIN_PREFIX))
            ):
                kept[first][second] = count
    return kept


def _sizes(model: Path) -> tuple[int, ...]:
    """What tells one version of the bundled model from another, without reading it."""
    used = (model / "cmudict-en-us.dict", model / "en-us.lm.bin")
    return tuple(path.stat().st_size if path.is_file() else 0 for path in used)


def _out_of_domain_sentences(words: tuple[str, ...], sentences: int) -> list[str]:
    """Sentences of common words in no order, the commonest first of all."""
    chance = random.Random(SEED)
    weights = [1 / (rank + 10) for rank in range(len(words))]
    return [
        " ".join(chance.choices(words, weights, k=chance.randint(*OUT_OF_DOMAIN_LENGTH)))
        for _ in range(sentences if words else 0)
    ]
