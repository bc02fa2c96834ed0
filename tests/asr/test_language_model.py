"""The ear's language: made from the grammar, kept by the grammar's digest, made again at need."""

from __future__ import annotations

import os
import socket
import threading
from pathlib import Path

import pytest
from boxaloud import grammar
from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
    PocketsphinxRecogniser,
)
from boxaloud.assistant.asr.hypotheses.nbest import WordSegment, masked, readings, sureness
from boxaloud.assistant.asr.lm import shipped_models
from boxaloud.assistant.asr.lm.language_model import Domain, LanguageModels, trade_domain
from boxaloud.assistant.asr.lm.lm_cache import KEPT, ModelCache
from boxaloud.assistant.asr.lm.pronunciations import OUT_OF_DOMAIN_PREFIX
from recordings import FOLDER, text_of

DEMO = FOLDER / "demo" / "1_two_fourteen_two_cables_and_one_switch__rms.wav"
TALK = ("two fourteen two cables and one switch", "one switch", "two cables", "fourteen two")
WORDS = frozenset(["two", "fourteen", "cables", "and", "one", "switch"])


def small_speech(digest: str = "first") -> Domain:
    """A grammar of four sentences, whose models are made in no time."""
    return Domain(lambda n, seed, expect: [TALK[k % 4] for k in range(n)], WORDS, digest)


def test_every_word_of_the_grammar_can_be_pronounced(ear: PocketsphinxRecogniser) -> None:
    assert ear.language.missing == ()
    assert ear.language.speech.words == grammar.vocabulary()


@pytest.mark.parametrize(
    ("plural", "phones"),
    [("hickeys", "HH IH K IY Z"), ("locknuts", "L AA K N AH T S"), ("bushings", "B UH SH IH NG Z")],
)
def test_a_plural_is_said_by_its_singular(plural: str, phones: str, tmp_path: Path) -> None:
    speech = Domain(lambda n, seed, expect: [plural] * n, frozenset({plural}), "plurals")
    ear = PocketsphinxRecogniser(speech, tmp_path)
    assert f"{plural} {phones}" in ear.language.dictionary_file.read_text().splitlines()


def test_a_word_nobody_can_pronounce_is_told_and_the_rest_is_heard(tmp_path: Path) -> None:
    words = WORDS | {"zzyzxly"}
    ear = PocketsphinxRecogniser(Domain(small_speech().sample, words, "odd"), tmp_path)
    assert ear.language.missing == ("zzyzxly",)
    assert text_of(ear.hear(read_wav(DEMO))[0]) == TALK[0]


def test_models_are_made_once_and_found_again(tmp_path: Path) -> None:
    """In a cache of its own: in the one of the whole run another test may have made them."""
    first = PocketsphinxRecogniser(cache=tmp_path)
    again = PocketsphinxRecogniser(cache=tmp_path)
    assert first.build_seconds > 0
    assert again.build_seconds == 0
    assert text_of(again.hear(read_wav(DEMO))[0]) == text_of(first.hear(read_wav(DEMO))[0])


def test_a_changed_grammar_gets_new_models_and_old_ones_are_left_behind(tmp_path: Path) -> None:
    for number in range(KEPT + 3):
        assert PocketsphinxRecogniser(small_speech(f"state{number}"), tmp_path).build_seconds > 0
    folders = {path.name.partition("-")[0] for path in tmp_path.iterdir()}
    assert len(folders) == KEPT + 1
    assert f"state{KEPT + 2}" in folders


def test_the_grammar_s_digest_names_the_cache() -> None:
    assert trade_domain().digest == grammar.digest()


def test_damaged_models_are_made_again(tmp_path: Path) -> None:
    PocketsphinxRecogniser(small_speech(), tmp_path)
    for path in tmp_path.rglob("*.*"):
        path.write_bytes(b"\0 not a model")
    ear = PocketsphinxRecogniser(small_speech(), tmp_path)
    assert text_of(ear.hear(read_wav(DEMO))[0]) == TALK[0]


def test_without_a_place_to_keep_them_models_are_made_in_a_passing_one(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("a file where the cache folder should be")
    ear = PocketsphinxRecogniser(small_speech(), blocked / "ears")
    assert text_of(ear.hear(read_wav(DEMO))[0]) == TALK[0]
    passing = ear.language.dictionary_file.parent
    assert passing.is_dir()
    del ear
    assert not passing.exists()


def test_a_file_appears_whole_or_not_at_all(tmp_path: Path) -> None:
    def broken() -> str:
        raise KeyboardInterrupt

    cache = ModelCache(tmp_path)
    with pytest.raises(KeyboardInterrupt):
        cache.file("state/words", broken)
    assert not (tmp_path / "state" / "words").exists()
    assert cache.file("state/words", lambda: "whole").read_text() == "whole"
    assert cache.file("state/words", broken).read_text() == "whole"
    assert os.listdir(tmp_path / "state") == ["words"]


def test_two_makers_at_once_leave_one_whole_file(tmp_path: Path) -> None:
    text = "line\n" * 50_000
    found: list[str] = []

    def make() -> None:
        found.append(ModelCache(tmp_path).file("state/words", lambda: text).read_text())

    makers = [threading.Thread(target=make) for _ in range(6)]
    for maker in makers:
        maker.start()
    for maker in makers:
        maker.join()
    assert found == [text] * 6
    assert os.listdir(tmp_path / "state") == ["words"]


def test_the_language_is_the_same_each_time(tmp_path: Path) -> None:
    files = [
        PocketsphinxRecogniser(small_speech(), tmp_path / name).language for name in ("a", "b")
    ]
    one, two = (language.model_file(None).read_bytes() for language in files)
    assert one == two
    assert isinstance(files[0], LanguageModels)


def test_hearing_never_touches_the_network(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise AssertionError("the network was used")

    monkeypatch.setattr(socket.socket, "connect", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
    assert PocketsphinxRecogniser(small_speech(), tmp_path).hear(read_wav(DEMO))


def test_runs_of_other_words_become_one_mark() -> None:
    words = ["well", "buddy", "two", "fourteen", "lunch", "today", "cables"]
    assert masked(words, WORDS) == ("[unk]", "two", "fourteen", "[unk]", "cables")
    assert masked([], WORDS) == ()


def test_sureness_falls_with_doubt_and_with_other_words() -> None:
    def heard(*words: tuple[str, int, float]) -> float:
        return sureness([WordSegment(*word) for word in words], WORDS)

    assert heard(("two", 10, 1.0), ("cables", 30, 1.0)) == 1.0
    assert heard(("two", 10, 0.5), ("cables", 30, 0.5)) == 0.5
    assert heard(("two", 10, 1.0), ("~lunch", 30, 1.0)) == -0.5
    assert heard() == -1.0


def test_a_word_is_as_sure_as_the_readings_that_agree_on_it() -> None:
    likely, other = ("four", "grounds"), ("five", "grounds")
    found = readings(likely, [(likely, 0.0), (other, 0.0), (likely, -100.0)])
    assert [[tuple(word) for word in reading] for reading in found] == [
        [("four", 0.5), ("grounds", 1.0)],
        [("five", 0.5), ("grounds", 1.0)],
    ]


def test_the_engine_s_own_choice_comes_first_even_where_no_hypothesis_has_it() -> None:
    (first, *_) = readings(("one",), [(("two",), -3.0), (("three",), -4.0)])
    assert first[0].text == "one"
    ((alone,),) = readings(("one",), [])
    assert alone == ("one", 1.0)


def test_the_same_models_are_found_wherever_the_engine_s_own_is_installed(tmp_path: Path) -> None:
    here, there = tmp_path / "here", tmp_path / "there"
    for folder in (here, there):
        folder.mkdir()
        (folder / "cmudict-en-us.dict").write_text("two T UW\n")
    first, second = (
        LanguageModels(small_speech(), folder, ModelCache(tmp_path / "cache"))
        for folder in (here, there)
    )
    assert first._state() == second._state()
    (there / "cmudict-en-us.dict").write_text("two T UW\ntoo T UW\n")
    assert first._state() != second._state()


def test_models_that_came_with_the_package_are_not_made_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ear = PocketsphinxRecogniser(small_speech(), tmp_path / "first")
    packed = ear.language.packed(["box"])
    monkeypatch.setattr(shipped_models, "_shipped", lambda: shipped_models.unpacked(packed))
    monkeypatch.setattr(LanguageModels, "_write_model", None)
    monkeypatch.setattr(LanguageModels, "_write_dictionary", None)
    again = PocketsphinxRecogniser(small_speech(), tmp_path / "second")
    assert text_of(again.hear(read_wav(DEMO))[0]) == TALK[0]


def test_models_of_an_older_grammar_are_left_in_the_package(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    packed = PocketsphinxRecogniser(small_speech(), tmp_path / "first").language.packed([])
    monkeypatch.setattr(shipped_models, "_shipped", lambda: shipped_models.unpacked(packed))
    other = PocketsphinxRecogniser(small_speech("second"), tmp_path / "second")
    assert shipped_models.text(other.language._state(), "open.lm") is None


def test_words_of_other_talk_are_in_no_order(ear: PocketsphinxRecogniser) -> None:
    """Their sentences are drawn by chance, so that a pair of them tells of nothing."""
    pairs = [
        line
        for line in ear.language.model_file(None).read_text().splitlines()
        if line.count(OUT_OF_DOMAIN_PREFIX) > 1
    ]
    assert pairs == []
