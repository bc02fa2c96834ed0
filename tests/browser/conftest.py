"""A real browser, and the page in both ways of running it; skipped where either is missing."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

pytest.importorskip("playwright", reason="playwright, which drives the browser, is not installed")
pytest.importorskip("aiohttp", reason="the part that serves the page is not installed")

from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web.folder_build import build
from boxaloud.assistant.web.runtime_package import runtime_files
from driving import FLAGS, SIZES, Hand, Size, StaticHost, chromium, laptop
from platformdirs import user_cache_path
from playwright.sync_api import sync_playwright

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Playwright

AXE = "axe-core@4.14.1"


# The driver runs a loop in this thread while it is there, under which no other test can run one
# of its own: it lasts for a module, not for the session.


@pytest.fixture(scope="module")
def driver() -> Iterator[Playwright]:
    if not chromium():
        pytest.skip("no Chromium is installed")
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="module")
def browser(driver: Playwright) -> Iterator[Browser]:
    made = driver.chromium.launch(executable_path=chromium(), args=FLAGS)
    yield made
    made.close()


@pytest.fixture(scope="session")
def pocket_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    if not (shutil.which("npm") and shutil.which("node")):
        pytest.skip("npm and Node.js, which bring the runtime and prepare the engine, are missing")
    folder = tmp_path_factory.mktemp("pocket") / "site"
    try:
        runtime_files()
    except Problem as problem:
        pytest.skip(f"the runtime of the page cannot be had here: {problem}")
    build(folder)
    return folder


@pytest.fixture(scope="module", params=["served", "pocket"])
def way(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the page over the engine of a laptop, and of the page that stands alone."""
    if request.param == "pocket":
        host = StaticHost(request.getfixturevalue("pocket_folder"))
        yield host.url
        host.off()
        return
    with laptop(tmp_path_factory.mktemp("laptop")) as url:
        yield url


@pytest.fixture(scope="module", params=SIZES, ids=lambda size: size.name)
def page_at(request: pytest.FixtureRequest, browser: Browser, way: str) -> Iterator[Hand]:
    """A page of one size in one way of running, opened once."""
    size: Size = request.param
    context = browser.new_context(**size.options)  # type: ignore[arg-type]
    context.grant_permissions(["clipboard-read", "clipboard-write"], origin=way.split("?")[0])
    hand = Hand(context.new_page(), size.touch)
    hand.open(way)
    yield hand
    context.close()


@pytest.fixture
def hand(page_at: Hand, request: pytest.FixtureRequest) -> Hand:
    """The page in a new job of its own, everything but the first part closed."""
    page_at.page.evaluate(
        "for (const part of document.querySelectorAll('.parts > details'))"
        " part.open = part.id === 'part-contents'"
    )
    name = request.node.name.replace("[", " ").replace("]", "")[:70]
    page_at.new_job(name)
    return page_at


@pytest.fixture(scope="session")
def axe() -> str:
    """The script that looks for what keeps people out, brought by npm once."""
    folder = user_cache_path("boxaloud") / "web"
    archive = folder / f"{AXE.replace('@', '-')}.tgz"
    if not archive.is_file():
        if not shutil.which("npm"):
            pytest.skip("npm, which brings the accessibility checks, is missing")
        folder.mkdir(parents=True, exist_ok=True)
        done = subprocess.run(["npm", "pack", "--silent", AXE], cwd=folder, capture_output=True)
        if done.returncode:
            pytest.skip("npm could not bring the accessibility checks")
    import tarfile

    with tarfile.open(archive) as held:
        script = held.extractfile("package/axe.min.js")
        assert script is not None
        return script.read().decode()
