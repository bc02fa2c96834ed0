"""The script that CI runs names what is there.

Past defect this prevents: folders of tests were given other names, and the script went on naming
the old ones.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import tomllib
from pathlib import Path
from runpy import run_path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]


def test_every_test_that_the_script_names_is_there() -> None:
    named = set(re.findall(r"\btests/[\w/.]+", (ROOT / ".ci" / "run").read_text("utf-8")))
    assert named
    assert [path for path in named if not (ROOT / path).exists()] == []


def test_types_are_looked_for_where_pytest_looks() -> None:
    tool = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]
    looked = [path.removeprefix("$MYPY_CONFIG_FILE_DIR/") for path in tool["mypy"]["mypy_path"]]
    assert sorted(looked) == sorted(tool["pytest"]["ini_options"]["pythonpath"])


PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
EXTRAS = PROJECT["optional-dependencies"]
DEVELOPING = ("audit", "bench", "dev", "fuzz", "pages")
WANTED = {*PROJECT["dependencies"], *(wanted for extra in EXTRAS.values() for wanted in extra)}


@pytest.mark.parametrize("wanted", sorted(WANTED))
def test_ci_installs_a_named_version_of_all_that_is_asked_for(wanted: str) -> None:
    lines = (ROOT / ".ci" / "requirements.txt").read_text("utf-8").splitlines()
    named = dict(line.split("==") for line in lines if line and not line.startswith("#"))
    versions = {canonicalize_name(name): version for name, version in named.items()}
    asked = Requirement(wanted)
    assert canonicalize_name(asked.name) in versions, "renew .ci/requirements.txt"
    assert versions[canonicalize_name(asked.name)] in asked.specifier


def test_the_notice_names_the_licence_of_all_that_users_install() -> None:
    notice = (ROOT / ".ci" / "NOTICE.md").read_text("utf-8")
    told = {row[1]: row[2] for row in re.finditer(r"^\| (\S+) \| \S+ \| (.+) \|$", notice, re.M)}
    extras = [wanted for name in EXTRAS if name not in DEVELOPING for wanted in EXTRAS[name]]
    names = {canonicalize_name(Requirement(each).name) for each in PROJECT["dependencies"] + extras}
    assert sorted(names - set(told)) == [], "make .ci/NOTICE.md anew"
    assert not any("not named" in licence for licence in told.values())


def test_what_was_not_audited_is_not_said_to_be_sound() -> None:
    """Past defect: where the list of weaknesses lacks every package, none is found."""
    audit = run_path(str(ROOT / ".ci" / "audit.py"))
    found = [
        {"name": "one", "version": "1.0", "vulns": []},
        {"name": "two", "version": "2.0", "vulns": [{"id": "X-1", "fix_versions": ["2.1"]}]},
        {"name": "three", "skip_reason": "not known there"},
    ]
    assert audit["findings"](found) == (["two 2.0: X-1, mended in 2.1"], ["three"])


@pytest.mark.parametrize(
    ("answer", "status"),
    [
        ('{"dependencies": [{"name": "one", "version": "1", "vulns": []}]}', 0),
        ('{"dependencies": [{"name": "one", "skip_reason": "not there"}]}', 3),
        ('{"dependencies": [{"name": "a", "version": "1", "vulns": [{"id": "X", '
         '"fix_versions": []}]}, {"name": "one", "skip_reason": "not there"}]}', 1),
        ("no network", 3),
    ],
)  # fmt: skip
def test_the_audit_ends_as_it_found(
    answer: str, status: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    audit = run_path(str(ROOT / ".ci" / "audit.py"))
    done = subprocess.CompletedProcess([], 1, stdout=answer)
    monkeypatch.setattr(subprocess, "run", lambda *_, **__: done)
    assert audit["main"]() == status


def tools(folder: Path, **programs: str) -> tuple[int, list[str], str]:
    """What installs the tools of the tests, on a machine that has these programs alone: its
    status, the packages that it asked for, and what it said."""
    asked = folder / "asked"
    asked.touch()
    for name in ("bash", "dirname", "cat"):
        (folder / name).symlink_to(str(shutil.which(name)))
    for name, body in programs.items():
        script = folder / name.replace("_", "-")
        script.write_text(f'#!/bin/bash\nasked="{asked}"\n{body}\n')
        script.chmod(0o755)
    done = subprocess.run(
        ["bash", str(ROOT / ".ci" / "tools")],
        capture_output=True, text=True, env={"PATH": str(folder)}, timeout=120,
    )  # fmt: skip
    return done.returncode, asked.read_text().split(), done.stdout


ASKED = 'for word in "$@"; do echo "$word" >> "$asked"; done'


def test_a_bare_machine_is_given_node_and_the_browser(tmp_path: Path) -> None:
    status, asked, _ = tools(tmp_path, apt_get=ASKED, dpkg="exit 1", id="echo 0")
    assert status == 0
    assert {"chromium", "nodejs", "npm"} <= set(asked)


def test_a_node_of_another_origin_is_left(tmp_path: Path) -> None:
    status, asked, said = tools(tmp_path, apt_get=ASKED, dpkg="exit 1", id="echo 0", npm="exit 0")
    assert status == 0
    assert {"nodejs", "npm"} & set(asked) == set()
    assert said == ""


def test_where_nothing_can_be_installed_it_is_said_and_nothing_fails(tmp_path: Path) -> None:
    machines: list[dict[str, str]] = [
        {},
        {"apt_get": "exit 0", "id": "echo 1000"},
        {"apt_get": "exit 100", "id": "echo 0"},
        {"apt_get": "exit 100", "id": "echo 0", "npm": "exit 1"},
    ]
    for number, machine in enumerate(machines):
        place = tmp_path / str(number)
        place.mkdir()
        status, _, said = tools(place, dpkg="exit 1", **machine)
        assert status == 0
        assert "chromium" in said
        assert "skipped" in said
