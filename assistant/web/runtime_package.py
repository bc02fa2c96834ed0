"""The runtime of the page on a phone, Python as WebAssembly: fetched by npm at build time, and
checked by its digest."""

from __future__ import annotations

import base64
import hashlib
import json
import shutil
import subprocess
import tarfile
import tempfile
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web.web_messages import say
from platformdirs import user_cache_path

FETCH_SECONDS = 300


@dataclass(frozen=True, slots=True)
class RuntimePackage:
    """Which package, which version of it, and what it must be byte for byte."""

    package: str
    version: str
    digest: str
    licence: str
    files: tuple[str, ...]
    left_out: tuple[str, ...]
    """Beginnings of the names of what is taken out of Python's own library."""

    @property
    def archive(self) -> str:
        """The name that npm gives the package's archive."""
        return f"{self.package}-{self.version}.tgz"


def wanted() -> RuntimePackage:
    """The package that is pinned."""
    path = files("boxaloud.assistant.web") / "data" / "runtime.toml"
    found = tomllib.loads(path.read_text("utf-8"))["engine"]
    listed = {name: tuple(found[name]) for name in ("files", "left_out")}
    return RuntimePackage(**{**found, **listed})


def runtime_files(cache: Path | None = None) -> Mapping[str, bytes]:
    """The files of Python's runtime by name, and the lock file that names no further package.

    Raises Problem where npm is missing or fails, or what it brought is not what is pinned.
    """
    *found, lock = brought(wanted(), ("pyodide-lock.json",), cache)
    # no package of the runtime is used, so that nothing is ever looked for on another host
    bare = json.dumps({**json.loads(lock[1]), "packages": {}}).encode()
    return {**dict(found), "runtime_lock.json": bare}


def brought(
    package: RuntimePackage, more: tuple[str, ...] = (), cache: Path | None = None
) -> list[tuple[str, bytes]]:
    """The files of a pinned package and `more` of it, each by its own name. Raises Problem as
    `runtime_files`."""
    folder = cache or user_cache_path("boxaloud") / "web"
    archive = folder / package.archive
    if not archive.is_file() or not _is_it(archive, package):
        _fetch(package, folder)
    with tarfile.open(archive) as held:
        return [(name.rpartition("/")[2], _member(held, name)) for name in (*package.files, *more)]


def _member(held: tarfile.TarFile, name: str) -> bytes:
    member = held.extractfile(f"package/{name}")
    if member is None:
        raise Problem(say("build.other_runtime", package=name))
    return member.read()


def _is_it(archive: Path, package: RuntimePackage) -> bool:
    kind, _, said = package.digest.partition("-")
    return hashlib.new(kind, archive.read_bytes()).digest() == base64.b64decode(said)


def _fetch(package: RuntimePackage, folder: Path) -> None:
    if shutil.which("npm") is None or shutil.which("node") is None:
        raise Problem(say("build.no_npm"))
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=folder) as draft:
        command = ["npm", "pack", "--silent", f"{package.package}@{package.version}"]
        try:
            done = subprocess.run(
                command, cwd=draft, capture_output=True, text=True, timeout=FETCH_SECONDS
            )
        except subprocess.TimeoutExpired:
            raise Problem(say("build.not_fetched", why="it took too long")) from None
        brought = Path(draft) / package.archive
        if done.returncode or not brought.is_file():
            why = (done.stderr.strip().splitlines() or ["npm brought nothing"])[-1]
            raise Problem(say("build.not_fetched", why=why))
        if not _is_it(brought, package):
            raise Problem(say("build.other_runtime", package=package.archive))
        brought.replace(folder / package.archive)
