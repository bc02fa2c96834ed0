"""The script that CI runs names what is there.

Past defect this prevents: folders of tests were given other names, and the script went on naming
the old ones.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

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
DEVELOPING = ("bench", "pages", "dev")
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
