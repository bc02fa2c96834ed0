"""`boxaloud web build`: the static folder of the page that stands alone, for any web host.

Every file is named in the service worker with its SHA-256; what is large lies compressed, so that
the first visit is small whatever the host does. Nothing in it refers to another host.
"""

from __future__ import annotations

import gzip
import hashlib
import io
import json
import re
import shutil
import subprocess
import tempfile
import zipfile
from collections.abc import Mapping
from importlib.resources import as_file, files
from pathlib import Path

from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web.engine_archive import engine_archive
from boxaloud.assistant.web.page_files import kind_of, page_files
from boxaloud.assistant.web.runtime_package import runtime_files, wanted
from boxaloud.assistant.web.web_messages import say

POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
    "img-src 'self' data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; "
    "base-uri 'none'; form-action 'none'"
)
SERVED_ONLY = ("pair.html", "served_engine.js", "served_ear.js", "capture_worklet.js")
COMPRESSED = (".wasm", ".zip", ".mjs", ".json")
"""Endings of files that lie compressed in the folder, and are unpacked as they are taken in."""
PREPARE_SECONDS = 300
_ADDRESS = re.compile(rb"https?://[^`'\"\s)\\]+")


def build(target: Path, cache: Path | None = None) -> int:
    """Write the folder; gives the bytes of a first visit.

    Raises Problem where npm is missing, or `target` holds something that this did not make.
    """
    if target.exists() and (not target.is_dir() or (any(target.iterdir()) and not _ours(target))):
        raise Problem(say("build.not_ours", folder=target))
    runtime = _runtime(runtime_files(cache))
    held = {**_pages(), **runtime, "engine.zip": _prepared(runtime)}
    held["licences.txt"] = _licences()
    held["service_worker.js"] = _service_worker(held)
    target.mkdir(parents=True, exist_ok=True)
    for each in target.iterdir():
        each.unlink()
    size = 0
    for name, raw in held.items():
        lies = gzip.compress(raw, 9, mtime=0) if name.endswith(COMPRESSED) else raw
        (target / (f"{name}.gz" if name.endswith(COMPRESSED) else name)).write_bytes(lies)
        size += len(lies)
    return size


def _ours(folder: Path) -> bool:
    """Whether a folder is one that was built before, and holds nothing else."""
    return (folder / "service_worker.js").is_file() and all(
        each.is_file() for each in folder.iterdir()
    )


def _pages() -> dict[str, bytes]:
    """The page's own files, made for an engine of its own."""
    held = {name: raw for name, raw in page_files().items() if name not in SERVED_ONLY}
    policy = f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'.encode()
    page = held["index.html"].replace(
        b'<meta name="engine" content="served">', b'<meta name="engine" content="pocket">'
    )
    early = b'<script type="module" async src="pocket_engine.js"></script>'
    held["index.html"] = page.replace(
        b'<meta charset="utf-8">', b'<meta charset="utf-8">\n' + policy + b"\n" + early
    )
    return held


def _runtime(found: Mapping[str, bytes]) -> dict[str, bytes]:
    """The runtime, every address of another host taken out of its scripts. Its archive is without
    what no page needs, and unpacked inside: packed as a whole it is smaller, and each module is
    there at once."""
    held = dict(found)
    for name, raw in found.items():
        if name.endswith(".mjs"):
            held[name] = _ADDRESS.sub(b"./", raw)
        elif name.endswith(".zip"):
            held[name] = _stored(raw)
    return held


def _stored(raw: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(raw)) as source, zipfile.ZipFile(out, "w") as target:
        for item in source.infolist():
            if item.filename.startswith(wanted().left_out):
                continue
            target.writestr(zipfile.ZipInfo(item.filename, item.date_time), source.read(item))
    return out.getvalue()


def _prepared(runtime: Mapping[str, bytes]) -> bytes:
    """The engine's archive, compiled by the runtime itself."""
    node = shutil.which("node")
    if node is None:
        raise Problem(say("build.no_npm"))
    script = files("boxaloud.assistant.web") / "data" / "prepare" / "prepare.mjs"
    with tempfile.TemporaryDirectory() as place, as_file(script) as prepare:
        folder = Path(place)
        for name, raw in runtime.items():
            (folder / name).write_bytes(raw)
        (folder / "in.zip").write_bytes(engine_archive())
        command = [node, str(prepare), place, f"{place}/in.zip", f"{place}/out.zip"]
        try:
            done = subprocess.run(
                command, capture_output=True, text=True, timeout=PREPARE_SECONDS, cwd=place
            )
        except subprocess.TimeoutExpired:
            raise Problem(say("build.not_prepared", why="it took too long")) from None
        if done.returncode:
            why = (done.stderr.strip().splitlines() or ["node ended"])[-1][:300]
            raise Problem(say("build.not_prepared", why=why))
        return (folder / "out.zip").read_bytes()


def _service_worker(held: Mapping[str, bytes]) -> bytes:
    """The service worker with every file named: its digest, its kind, whether it is compressed."""
    known = {
        name: {
            "digest": hashlib.sha256(raw).hexdigest(),
            "kind": kind_of(name),
            "packed": name.endswith(COMPRESSED),
        }
        for name, raw in sorted(held.items())
        if name != "service_worker.js"
    }
    listed = json.dumps(known, separators=(",", ":"))
    version = hashlib.sha256((listed + POLICY).encode()).hexdigest()[:16]
    template = held["service_worker.js"].decode()
    made = template.replace('"@FILES@"', listed).replace("@VERSION@", version)
    return made.replace("@POLICY@", POLICY + "; frame-ancestors 'none'").encode()


def _licences() -> bytes:
    package = wanted()
    return say(
        "build.licences", package=package.package, version=package.version, licence=package.licence
    ).encode()
