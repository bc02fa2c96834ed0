"""English words to the phonemes that the neural synthesiser was trained on.

The lexicons are those of the package `misaki` (Apache-2.0): American and British, a careful and a
generated one each. A sentence with a word that neither holds is not spoken.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path

#: Words of grammar as they are said between others.
WEAK = {"a": "ɐ", "an": "ɐn", "the": "ðə", "of": "əv", "and": "ænd", "to": "tə"}
#: Words of the trade that stand in no lexicon.
TRADE = {
    "assemblies": "əsˈɛmbliz", "canopies": "kˈænəpiz", "gangable": "ɡˈæŋəbᵊl",
    "readback": "ɹˈidbˌæk", "what'd": "wˈʌɾəd", "figured": "fˈɪɡjəɹd",
    "gfci": "ʤˌiˌɛfsˌiˈI", "gfi": "ʤˌiˌɛfˈI", "emt": "ˌiˌɛmtˈi", "nec": "ˌɛnˌisˈi",
    "nm": "ˌɛnˈɛm", "mc": "ˌɛmsˈi", "thhn": "tˌiˌAʧˌAʧˈɛn",
}  # fmt: skip
HISSES = "szʃʒʧʤ"
VOICELESS = "ptkfθ"


class Pronunciation:
    """Sentences to phonemes, in the American or the British way."""

    def __init__(self, lexicons: Path, british: bool) -> None:
        way = "gb" if british else "us"
        self._words: dict[str, str] = {}
        for name in (f"{way}_silver", f"{way}_gold"):
            for word, sounds in json.loads((lexicons / f"{name}.json").read_text()).items():
                plain = sounds if isinstance(sounds, str) else sounds.get("DEFAULT")
                if plain:
                    self._words[word] = plain
        self._words |= TRADE

    @cache  # noqa: B019 - two objects live as long as the script
    def word(self, word: str) -> str | None:
        """The phonemes of a word in small letters; None where it is not known."""
        if len(word) == 1 and word != "a":
            return self._words.get(word.upper())
        return self._words.get(word) or self._words.get(word.capitalize()) or self._inflected(word)

    def _inflected(self, word: str) -> str | None:
        stem = re.sub(r"('s|s')$|s$", "", word)
        base = self._words.get(stem) if stem != word else None
        if base is None:
            return None
        if base[-1] in HISSES:
            return base + "ᵻz"
        return base + ("s" if base[-1] in VOICELESS else "z")

    def sentence(self, words: list[str], end: str = ".") -> str | None:
        """The phonemes of a sentence with the mark at its end; None where a word is not known."""
        found: list[str] = []
        for place, word in enumerate(words):
            weak = WEAK.get(word) if place + 1 < len(words) else None
            sounds = weak or self.word(word)
            if sounds is None:
                return None
            found.append(sounds)
        return " ".join(found) + end


#: Accents that start from the British way.
BRITISH = ("british", "indian", "german", "scottish", "french", "dutch")
#: Accents by exchange of phonemes, roughly: what a speaker's first language does to English.
ACCENTS: dict[str, tuple[tuple[str, str], ...]] = {
    "indian": (
        ("ð", "d"), ("θ", "t"), ("w", "ʋ"), ("v", "ʋ"), ("O", "oː"), ("A", "eː"), ("t", "ʈ"),
        ("d", "ɖ"), ("ɹ", "ɾ"), ("æ", "ɛ"), ("ᵊ", "ə"),
    ),
    "spanish": (
        ("ð", "d"), ("θ", "t"), ("z", "s"), ("v", "β"), ("ɪ", "i"), ("ʌ", "a"), ("ə", "a"),
        ("ᵊ", "e"), ("æ", "a"), ("ʊ", "u"), ("ɹ", "ɾ"), ("ɑ", "a"), ("ɔ", "o"), ("O", "o"),
        ("ʤ", "ʧ"), ("h", "x"), ("W", "aʊ"), (" s", " es"),
    ),
    "german": (
        ("ð", "z"), ("θ", "s"), ("w", "v"), ("ɹ", "ʁ"), ("æ", "ɛ"), ("ʌ", "a"), ("O", "oː"),
        ("A", "eː"), ("ʤ", "ʧ"), ("d ", "t "), ("z ", "s "), ("b ", "p "), ("ɡ ", "k "),
    ),
    "french": (
        ("ð", "z"), ("θ", "s"), ("h", ""), ("ɹ", "ʁ"), ("ɪ", "i"), ("ʌ", "œ"), ("ʊ", "u"),
        ("O", "o"), ("Q", "o"), ("A", "e"), ("ʧ", "ʃ"), ("ʤ", "ʒ"), ("ᵊ", "ə"), ("ɜ", "œ"),
    ),
    "italian": (
        ("ð", "d"), ("θ", "t"), ("h", ""), ("ɹ", "r"), ("ɪ", "i"), ("ʌ", "a"), ("ʊ", "u"),
        ("O", "o"), ("A", "ɛi"), ("æ", "ɛ"), ("ᵊ", "e"), ("ə", "e"),
    ),
    "slavic": (
        ("ð", "z"), ("θ", "s"), ("w", "v"), ("ɹ", "r"), ("ɪ", "i"), ("ʌ", "a"), ("ʊ", "u"),
        ("O", "o"), ("A", "ej"), ("æ", "ɛ"), ("h", "x"), ("d ", "t "), ("z ", "s "),
    ),
    "dutch": (
        ("ð", "d"), ("θ", "t"), ("v", "f"), ("w", "ʋ"), ("æ", "ɛ"), ("ʌ", "œ"), ("ɡ", "x"),
        ("O", "oː"), ("Q", "oː"), ("A", "eː"), ("d ", "t "), ("z ", "s "),
    ),
    "chinese": (
        ("ð", "d"), ("θ", "s"), ("v", "w"), ("ɪ", "i"), ("z", "s"), ("ᵊl", "o"), ("d ", " "),
        ("t ", " "), ("k ", " "),
    ),
    "scottish": (
        ("O", "o"), ("A", "e"), ("ɹ", "ɾ"), ("ʊ", "ʉ"), ("W", "ʌu"), ("ɑ", "ɔ"),
    ),
}  # fmt: skip


def accented(sounds: str, accent: str) -> str:
    """Phonemes as a speaker of an accent in `ACCENTS` says them; unchanged for another name."""
    for one, other in ACCENTS.get(accent, ()):
        sounds = sounds.replace(one, other)
    return sounds
