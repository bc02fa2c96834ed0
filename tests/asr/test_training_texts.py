"""What the training voices say is drawn the same each time, and never what a test says."""

from __future__ import annotations

from pathlib import Path

import pytest
from prepare import HELD_OUT, Caster, statements_of
from pronounce import Pronunciation, accented
from texts import GLOSS_FILES, QUESTIONS, alike, near, plain, texts, wordnet_examples

#: A line as WordNet writes it: a gloss behind a bar, its examples in quotation marks.
GLOSS = '0001 03 n 01 box 0 000 | a case; "she left the box open"; "the PDP-11 hummed"; "a box"\n'


@pytest.fixture
def wordnet(tmp_path: Path) -> Path:
    for name in GLOSS_FILES:
        (tmp_path / name).write_text(GLOSS, encoding="latin-1")
    return tmp_path


@pytest.fixture
def lexicons(tmp_path: Path) -> Path:
    words = '{"box": "bˈɑks", "she": "ʃi", "wire": {"DEFAULT": "wˈIəɹ"}, "G": "ʤˈi"}'
    for name in ("us_gold", "us_silver", "gb_gold", "gb_silver"):
        (tmp_path / f"{name}.json").write_text(words)
    return tmp_path


def test_examples_are_taken_from_glosses_where_they_are_words(wordnet: Path) -> None:
    assert set(wordnet_examples(wordnet)) == {"she left the box open", "a box"}


def test_words_that_sound_like_a_short_one_are_found_by_one_phoneme() -> None:
    """Phonemes as the lexicons write them; stress tells no words apart."""
    sounds = {"five": "fˈIv", "hive": "hˈIv", "fence": "fˈɛns", "four": "fˈɔɹ", "for": "fɔɹ"}
    words = ["hive", "fence", "for", "five", "unknown"]
    assert near(words, sounds.get) == ["hive"]
    assert alike(words, sounds.get) == {"for"}


def test_a_word_that_a_test_says_is_not_said_alone(wordnet: Path) -> None:
    assert "she" in set(texts(400, 3, wordnet, frozenset(), (), str.lower))
    assert "she" not in set(texts(400, 3, wordnet, frozenset({"she"}), (), str.lower))


def test_a_word_that_an_accent_makes_an_answer_is_said_without_it(lexicons: Path) -> None:
    """A German "w" is a "v": with this lexicon "was" would be "six"."""
    for file in lexicons.glob("*.json"):
        file.write_text('{"six": "vˈIz", "was": "wˈIz"}')
    signs = {sign: place for place, sign in enumerate("vwˈIz.?!,")}
    caster = Caster(["af_sky"], lexicons, signs, 5)
    jobs = [job for _ in range(300) if (job := caster.job("was")) is not None]
    assert signs["w"] in {job.tokens[0] for job in jobs if job.engine == "kokoro"}
    assert signs["v"] not in {job.tokens[0] for job in jobs if job.engine == "kokoro"}


def test_texts_are_the_same_for_the_same_seed(wordnet: Path) -> None:
    one, again, other = (
        list(texts(200, seed, wordnet, frozenset(), QUESTIONS, str.lower)) for seed in (3, 3, 4)
    )
    assert one == again
    assert one != other
    assert {"she left the box open", "a box"} & set(one)


def test_what_a_test_says_is_not_trained_on(wordnet: Path, tmp_path: Path) -> None:
    without = list(texts(400, 3, wordnet, frozenset(), QUESTIONS, str.lower))
    long = [said for said in without if len(said.split()) > 2]
    listing = tmp_path / "held.txt"
    listing.write_text("\n".join(long))
    held = statements_of(listing)
    kept = [said for said in texts(400, 3, wordnet, held | {"she left the box open"}, (), str.lower)
            if "box" in plain(said)]  # fmt: skip
    assert kept
    drawn = {said for said in without if said in held}
    again = set(texts(400, 3, wordnet, held, QUESTIONS, str.lower))
    trade = {said for said in drawn if "box" in said or "fourteen" in said}
    assert trade
    assert not trade & again


def test_words_are_said_as_the_lexicon_has_them(lexicons: Path) -> None:
    said = Pronunciation(lexicons, british=False)
    assert said.sentence(["the", "boxes", "wire", "g"]) is None  # "boxes" is no word and an "s"
    assert said.sentence(["she", "wires", "g"]) == "ʃi wˈIəɹz ʤˈi."
    assert said.sentence(["widget"]) is None
    assert accented("wˈIəɹ", "german") == "vˈIəʁ"
    assert accented("wˈIəɹ", "american") == "wˈIəɹ"


def test_no_held_out_speaker_is_mixed_into_another(lexicons: Path) -> None:
    voices = [*HELD_OUT, "af_sky", "bm_fable", "im_nicola"]
    caster = Caster(voices, lexicons, {sign: place for place, sign in enumerate("bˈɑksʃi. ")}, 5)
    jobs = [job for _ in range(300) if (job := caster.job("she box")) is not None]
    spoken = [job for job in jobs if job.engine == "kokoro"]
    assert spoken
    for job in spoken:
        assert not {*job.voice, *job.manner} & {*HELD_OUT}
        assert sum(job.voice.values()) == pytest.approx(1, abs=0.01)
    held = caster.job("she box", HELD_OUT[0])
    assert held is not None
    assert held.held
    assert set(held.voice) == set(held.manner) == {HELD_OUT[0]}
