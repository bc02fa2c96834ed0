"""An sdist holds all that a checkout holds, so that the README's commands work in it.

Past defect this prevents: of the tests only `test_*.py` at the top were in it, no recordings and
none of the settings.
"""

from __future__ import annotations

import subprocess
import sys
import tarfile
from pathlib import Path

import pytest

pytest.importorskip("setuptools", "77")

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("sdist")
    subprocess.run(
        [sys.executable, "setup.py", "-q",
         "egg_info", "-e", str(folder), "sdist", "-d", str(folder)],
        cwd=ROOT, check=True, capture_output=True, timeout=300,
    )  # fmt: skip
    (archive,) = folder.glob("*.tar.gz")
    with tarfile.open(archive) as held:
        held.extractall(folder, filter="data")
    (made,) = (each for each in folder.glob("boxaloud-*") if each.is_dir())
    return made


def test_it_holds_what_is_tracked(unpacked: Path) -> None:
    if not (ROOT / ".git").exists():
        pytest.skip("this is no checkout")
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    tracked = [name for name in listed.stdout.split("\0") if name and (ROOT / name).exists()]
    assert len(tracked) > 400
    assert [name for name in tracked if not (unpacked / name).exists()] == []


def test_it_holds_no_caches(unpacked: Path) -> None:
    names = {path.name for path in unpacked.rglob("*")}
    assert not names & {"__pycache__", ".venv", ".git", ".hypothesis", "build", "dist"}


def test_its_package_is_the_rooms_beside_it(unpacked: Path) -> None:
    for room in ("assistant", "grammar", "rules"):
        link = unpacked / ".package" / "boxaloud" / room
        assert link.is_symlink()
        assert link.resolve() == (unpacked / room).resolve()


def test_a_box_can_be_checked_in_it(unpacked: Path) -> None:
    code = (
        "import sys; sys.path.insert(0, '.package')\n"
        "from boxaloud import Conversation\n"
        "for size in (14, 13):\n"
        "    said = f'two 14-2s, a switch, {size} cubic inches, no clamps'\n"
        "    print(Conversation().hear(said).verdict)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=unpacked, capture_output=True, text=True, timeout=120
    )
    # 314.16(B)(1), (4) and (5): four conductors, two for the device, one for the grounds, 7 x 2.00
    assert done.stdout.split() == ["fits", "over"], done.stderr
