"""The static folder: small, whole, the same each time, and without a word of another host."""

from __future__ import annotations

import gzip
import hashlib
import json
import re
import shutil
import subprocess
import sys
import tarfile
from io import BytesIO
from pathlib import Path

import pytest
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web import engine_archive, folder_build, runtime_package
from boxaloud.assistant.web.page_files import page_files

MOST_FIRST_VISIT = 8_000_000
"""Bytes of a first visit: what a phone takes over a slow network in some seconds."""
MOST_OF_THE_EAR = 14_000_000
"""Bytes that whoever wants to talk takes in once."""


def listed(folder: Path) -> dict[str, dict[str, str | int]]:
    """What the service worker knows of each file."""
    script = (folder / "service_worker.js").read_text("utf-8")
    found = re.search(r"const FILES = (\{.*\});", script)
    assert found
    known: dict[str, dict[str, str | int]] = json.loads(found[1])
    return known


def test_a_first_visit_is_small(pocket_folder: Path) -> None:
    sizes = {each.name.removesuffix(".gz"): each.stat().st_size for each in pocket_folder.iterdir()}
    later = {name: one["later"] for name, one in listed(pocket_folder).items() if one["later"]}
    assert {name: sizes[name] for name in later} == later
    ear = sum(sizes[name] for name in later)
    assert sum(sizes.values()) - ear < MOST_FIRST_VISIT
    assert 0 < ear < MOST_OF_THE_EAR


def unpacked(file: Path) -> bytes:
    return gzip.decompress(file.read_bytes()) if file.suffix == ".gz" else file.read_bytes()


def test_nothing_refers_to_another_host(pocket_folder: Path) -> None:
    """But for the names of XML, which are looked for nowhere."""
    names = {b"http://www.w3.org/2000/svg"}
    texts = (".html", ".css", ".js", ".mjs", ".webmanifest", ".svg", ".json")
    for file in pocket_folder.iterdir():
        if file.name.removesuffix(".gz").endswith(texts):
            found = set(re.findall(rb"(?:https?|wss?)://[\w.-]+[^\s'\"`<>)]*", unpacked(file)))
            found = {each for each in found if not each.startswith((b"ws://$", b"wss://$"))}
            assert found - names == set(), file.name
            assert not re.search(rb"""(?:src|href)=["']//""", unpacked(file)), file.name


def test_every_file_is_held_by_its_digest(pocket_folder: Path) -> None:
    script = (pocket_folder / "service_worker.js").read_text("utf-8")
    known = listed(pocket_folder)
    there = {each.name.removesuffix(".gz"): each for each in pocket_folder.iterdir()}
    assert set(there) == {*known, "service_worker.js"}
    for name, about in known.items():
        assert hashlib.sha256(unpacked(there[name])).hexdigest() == about["digest"], name
    assert "@" not in script.split("self.addEventListener", 1)[0]


def test_the_page_has_a_strict_policy_and_no_script_in_it(pocket_folder: Path) -> None:
    page = (pocket_folder / "index.html").read_text("utf-8")
    assert folder_build.POLICY in page
    assert "'unsafe-inline'" not in folder_build.POLICY
    assert "'unsafe-eval'" not in folder_build.POLICY
    assert re.findall(r"<script(?![^>]* src=)[^>]*>|<style| style=| on\w+=", page) == []
    assert '<meta name="engine" content="pocket">' in page


def test_the_archive_holds_what_is_reached_and_nothing_of_the_screens() -> None:
    import zipfile

    names = zipfile.ZipFile(BytesIO(engine_archive.engine_archive())).namelist()
    assert "boxaloud/assistant/web/pocket_entry.py" in names
    assert "boxaloud/assistant/storage/sqlite/migrations/0001_journal.sql" in names or any(
        name.endswith(".sql") for name in names
    )
    assert "boxaloud/assistant/asr/engines/ctc/prefix_beam_search.py" in names
    for apart in (
        "asr/microphone",
        "asr/engines/whisper",
        "asr/engines/vosk",
        "asr/engines/pocketsphinx",
        "asr/engines/ctc/ctc_encoder",
        "tts/",
        "cli/",
        "contract/",
        "tui/screens",
        "tui/widgets",
        "pdf_",
        "html_",
    ):
        assert [name for name in names if f"assistant/{apart}" in name or f"/{apart}" in name] == []
    assert engine_archive.engine_archive() == engine_archive.engine_archive()


def test_nothing_of_the_engine_needs_what_is_left_out_of_the_library() -> None:
    import ast
    import zipfile

    archive = zipfile.ZipFile(BytesIO(engine_archive.engine_archive()))
    needed = set()
    for name in (each for each in archive.namelist() if each.endswith(".py")):
        for node in ast.walk(ast.parse(archive.read(name))):
            if isinstance(node, ast.Import):
                needed |= {one.name for one in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module:
                needed |= {node.module}
    files = {f"{name.replace('.', '/')}{end}" for name in needed for end in (".py", "/")}
    out = runtime_package.wanted().left_out
    assert {each for each in files if each.startswith(out)} == set()
    assert "sqlite3/" in files


def test_the_engine_starts_without_the_libraries_that_a_phone_has_not() -> None:
    """Past defect: a presenter came to load a library of the terminal, and no phone started."""
    missing = (
        "rich", "textual", "numpy", "pydantic", "yaml", "jinja2", "PIL", "platformdirs",
        "pocketsphinx", "soxr",
    )  # fmt: skip
    code = (
        f"import sys\nsys.modules.update(dict.fromkeys({missing}))\n"
        "from boxaloud.assistant.web.pocket_entry import warm\nwarm()\n"
        "from boxaloud.assistant.web import pocket_ear"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_a_runtime_that_is_not_the_pinned_one_is_not_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = runtime_package.wanted()

    def pack(command: list[str], cwd: str, **_: object) -> subprocess.CompletedProcess[str]:
        with tarfile.open(Path(cwd) / package.archive, "w:gz"):
            pass
        return subprocess.CompletedProcess(command, 0, "", "")

    monkeypatch.setattr("shutil.which", lambda name: name)
    monkeypatch.setattr("subprocess.run", pack)
    with pytest.raises(Problem, match=package.package):
        runtime_package.runtime_files(tmp_path)
    assert not (tmp_path / package.archive).exists()


def test_without_npm_it_is_said_what_to_install(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("shutil.which", lambda name: None)
    with pytest.raises(Problem, match="npm"):
        runtime_package.runtime_files(tmp_path)


def test_a_folder_of_something_else_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("mine")
    with pytest.raises(Problem, match="not built here"):
        folder_build.build(tmp_path)
    assert (tmp_path / "letter.txt").read_text() == "mine"


@pytest.mark.skipif(not shutil.which("node"), reason="Node.js is missing")
@pytest.mark.parametrize("name", sorted(n for n in page_files() if n.endswith(".js")))
def test_every_script_of_the_page_can_be_read(name: str, tmp_path: Path) -> None:
    script = tmp_path / f"{name}.mjs"
    script.write_bytes(page_files()[name])
    done = subprocess.run(["node", "--check", str(script)], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_no_other_command_loads_anything_of_the_page() -> None:
    code = (
        "import sys\n"
        "from boxaloud.assistant.cli import main\n"
        "import boxaloud.assistant.cli.commands.chat_command\n"
        "import boxaloud.assistant.cli.commands.check_command\n"
        "print([name for name in sys.modules if 'assistant.web' in name])"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"


def test_every_sentence_of_the_page_is_said_and_every_one_said_is_there() -> None:
    scripts = {name: raw.decode() for name, raw in page_files().items() if name.endswith(".js")}
    words = scripts.pop("words.js")
    known = set(re.findall(r"^  (\w+):", words, re.MULTILINE)) - {"signs"}
    rest = "\n".join(scripts.values())
    assert {key for key in known if not re.search(rf'"{key}"', rest)} == set()
    said = set(re.findall(r'\bsay\("(\w+)"', rest))
    assert said - known == set()


def test_every_element_that_a_script_names_is_on_the_page() -> None:
    page = page_files()["index.html"].decode()
    named = {
        found
        for name, raw in page_files().items()
        if name.endswith(".js")
        for found in re.findall(r'\b(?:byId|tell)\("([\w-]+)"', raw.decode())
    }
    assert named
    assert {each for each in named if f'id="{each}"' not in page} == set()
