"""The grammar compiled ahead: it says what the phrases say, and no cache can harm or stop it."""

from __future__ import annotations

import ast
import os
import random
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from boxaloud.grammar import grammar_data, package_files
from boxaloud.grammar.compilation import compiled
from boxaloud.grammar.patterns import patterns
from boxaloud.grammar.phrases import compiled_cache, compiled_form, phrase_files, statement_parser
from boxaloud.grammar.phrases.best_cover import engine, engine_of
from boxaloud.grammar.phrases.preparation import prepared
from spoken_cases import cases

ROOT = Path(__file__).parents[2]
REMEMBERING = (
    engine, package_files.digest, package_files.fingerprint, compiled_cache.kept,
    patterns.patterns, patterns.sieve, phrase_files.phrases, phrase_files.rules, grammar_data.table,
)  # fmt: skip


def forget() -> None:
    """As in a new process."""
    for remembering in REMEMBERING:
        remembering.cache_clear()


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """An empty cache of the user, and nothing shipped."""
    monkeypatch.setattr(compiled_cache, "SHIPPED", "not-shipped.grammar")
    monkeypatch.setattr(compiled_cache, "users_folder", lambda: str(tmp_path / "cache" / "grammar"))
    forget()
    yield tmp_path / "cache" / "grammar"
    monkeypatch.undo()
    forget()


def understood(words: str) -> list[str]:
    found = statement_parser.understand(words)
    return [statement.kind for statement in found.statements]


def files_of(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def changed(name: str, old: str, new: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """One file of the package as if it had been edited."""
    content = package_files.content

    def edited(path: str) -> bytes:
        whole = content(path)
        if path != name:
            return whole
        assert old.encode() in whole
        return whole.replace(old.encode(), new.encode(), 1)

    monkeypatch.setattr(package_files, "content", edited)


def test_a_kept_grammar_covers_the_corpus_as_a_fresh_one_does(cache: Path) -> None:
    fresh_form = compiled_form.read(compiled(), package_files.fingerprint())
    assert fresh_form is not None
    fresh = engine_of(fresh_form)
    engine()
    forget()
    assert compiled_cache.kept() is not None, files_of(cache)
    kept = engine()
    assert kept.phrases == fresh.phrases
    assert list(kept.automaton.positions) == list(fresh.automaton.positions)
    for case in cases():
        heard = prepared(case.say)
        own = [fresh.symbols.of(text) for text in heard.tokens.texts]
        matched = [fresh.symbols.members[symbol] for symbol in own]
        assert [kept.symbols.members[symbol] for symbol in heard.symbols] == matched
        spans = kept.cover(heard.symbols, case.asked)
        assert spans == fresh.cover(own, case.asked)
        for first, end, phrase in spans:
            capture = kept.capture(phrase, tuple(heard.symbols[first:end]))
            assert capture == fresh.capture(phrase, tuple(own[first:end]))


def test_the_second_process_finds_the_grammar_compiled_and_reads_no_phrase_file(
    tmp_path: Path,
) -> None:
    code = (
        "import sys; from boxaloud.grammar import understand\n"
        "print([s.kind for s in understand('two 14-2 cables and a switch').statements])\n"
        "grammar = 'boxaloud.grammar.'\n"
        "made = {'tomllib', grammar + 'phrases.phrase_files', grammar + 'compilation'}\n"
        "print(sorted(made & set(sys.modules)))"
    )
    first, second = (_in_new_process(code, str(tmp_path / "home")) for _ in range(2))
    assert first[0] == second[0] == "['cable', 'device']"
    assert "boxaloud.grammar.compilation" in first[1]
    assert second[1] == "[]"


def _in_new_process(code: str, home: str) -> list[str]:
    place = {
        "HOME": home,
        "XDG_CACHE_HOME": os.path.join(home, "cache"),
        "PYTHONPATH": str(ROOT / ".package"),
    }
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, **place}, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stderr == ""
    return done.stdout.splitlines()


def test_a_home_that_cannot_be_written_stops_nothing_and_says_nothing(tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.write_text("a file where the folder should be")
    code = (
        "from boxaloud.grammar import understand; print(len(understand('two switches').statements))"
    )
    assert _in_new_process(code, str(home)) == ["1"]


def test_a_folder_that_cannot_be_made_is_passed_over(cache: Path) -> None:
    cache.parent.write_text("a file where the folder should be")
    assert understood("two 14-2 cables") == ["cable"]
    assert cache.parent.read_text() == "a file where the folder should be"


def test_a_user_without_a_folder_has_no_cache(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(compiled_cache, "users_folder", lambda: "")
    assert understood("two 14-2 cables") == ["cable"]
    forget()
    assert compiled_cache.kept() is None


def _flipped(raw: bytes, place: int) -> bytes:
    return raw[:place] + bytes([raw[place] ^ 1]) + raw[place + 1 :]


@pytest.mark.parametrize(
    "damage",
    [
        lambda raw: b"",
        lambda raw: b"\n\n",
        lambda raw: raw[:10],
        lambda raw: raw[:-1],
        lambda raw: raw + b"\0",
        lambda raw: raw[: len(raw) // 2] + bytes(len(raw) - len(raw) // 2),
        lambda raw: random.Random(7).randbytes(len(raw)),
        *(lambda raw, at=tenth: _flipped(raw, at * (len(raw) - 1) // 10) for tenth in range(11)),
    ],
)
def test_a_damaged_cache_is_passed_over_and_made_again(cache: Path, damage: object) -> None:
    engine()
    (kept,) = cache.iterdir()
    whole = kept.read_bytes()
    kept.write_bytes(damage(whole))  # type: ignore[operator]
    forget()
    assert compiled_cache.kept() is None
    assert understood("two 14-2 cables and a switch") == ["cable", "device"]
    assert kept.read_bytes() == whole


def test_a_folder_in_the_place_of_the_file_is_passed_over(cache: Path) -> None:
    (cache / f"{package_files.fingerprint()}.grammar").mkdir(parents=True)
    assert understood("two 14-2 cables") == ["cable"]
    assert [path.suffix for path in cache.iterdir()] == [".grammar"], "a draft was left"


def test_changed_data_is_compiled_anew(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert understood("twelvety zorks and a blip") == []
    changed("data/control.toml", 'say = [', 'say = ["twelvety zorks", ', monkeypatch)  # fmt: skip
    forget()
    assert compiled_cache.kept() is None
    assert understood("twelvety zorks and a blip") != []
    assert len(files_of(cache)) == 2


@pytest.mark.parametrize("module", package_files.COMPILING)
def test_changed_compiling_code_is_another_state(
    module: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    engine()
    changed(f"{module}.py", "from __future__", "# edited\nfrom __future__", monkeypatch)
    forget()
    assert compiled_cache.kept() is None


def test_every_module_that_compiling_needs_is_in_the_fingerprint() -> None:
    """But those that only read data, say what a statement is, hold or sift what was found."""
    needed = {
        name
        for module in package_files.COMPILING
        for node in ast.walk(ast.parse((ROOT / "grammar" / f"{module}.py").read_text()))
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("boxaloud.grammar")
        for name in _modules(node)
    }
    others = {
        "clauses/clause_splitter",
        "grammar_data",
        "package_files",
        "patterns/pattern_index",
        "patterns/sifted_forms",
        "phrases/automaton",
        "phrases/compiled_cache",
        "phrases/statements",
        "quick_dataclass",
    }
    assert needed - set(package_files.COMPILING) == others


def _modules(node: ast.ImportFrom) -> list[str]:
    """The modules below `grammar` that an import names, as paths without their ending."""
    place = str(node.module).removeprefix("boxaloud.grammar").removeprefix(".").replace(".", "/")
    if (ROOT / "grammar" / f"{place}.py").exists():
        return [place]
    return [f"{place}/{name.name}".strip("/") for name in node.names]


def test_data_edited_while_it_is_compiled_is_not_kept(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package_files.fingerprint()
    changed("data/control.toml", "say = [", 'say = ["twelvety zorks", ', monkeypatch)
    assert understood("two 14-2 cables") == ["cable"]
    assert not cache.exists()


def test_a_write_that_breaks_off_leaves_nothing(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_from: str, _to: str) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    assert understood("two 14-2 cables") == ["cable"]
    assert files_of(cache) == []


def test_a_shipped_grammar_is_taken_and_the_cache_not_touched(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    raw, content = compiled(), package_files.content
    monkeypatch.setattr(
        package_files,
        "content",
        lambda name: raw if name == compiled_cache.SHIPPED else content(name),
    )
    forget()
    assert compiled_cache.kept() is not None
    assert understood("two 14-2 cables") == ["cable"]
    assert not cache.exists()


def test_a_shipped_grammar_stands_without_its_data_files(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    state = [package_files.digest(), package_files.fingerprint()]
    held = {compiled_cache.SHIPPED: compiled(), package_files.STATE: " ".join(state).encode()}

    def left(name: str) -> bytes:
        if name not in held:
            raise OSError(2, name)
        return held[name]

    monkeypatch.setattr(package_files, "content", left)
    forget()
    assert [package_files.digest(), package_files.fingerprint()] == state
    assert understood("two 14-2 cables") == ["cable"]


def test_only_the_latest_are_kept_and_drafts_of_the_dead_are_removed(cache: Path) -> None:
    cache.mkdir(parents=True)
    for age in range(5):
        old = cache / f"{age}.grammar"
        old.touch()
        os.utime(old, (1000 - age, 1000 - age))
    (cache / "dead.draft").touch()
    os.utime(cache / "dead.draft", (1000, 1000))
    (cache / "living.draft").touch()
    engine()
    mine = f"{package_files.fingerprint()}.grammar"
    assert set(files_of(cache)) == {mine, "0.grammar", "1.grammar", "living.draft"}


def test_the_tables_of_a_kept_grammar_are_those_of_the_files() -> None:
    engine()
    forget()
    assert compiled_cache.kept() is not None
    for name in package_files.NAMES:
        assert grammar_data.table(name) == tomllib.loads(package_files.text(name))
        assert repr(grammar_data.table(name)) == repr(tomllib.loads(package_files.text(name)))
