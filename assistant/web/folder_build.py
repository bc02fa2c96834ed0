"""`boxaloud web build`: the static folder of the page that stands alone, for any web host.

Every file is named in the service worker with its SHA-256; what is large lies compressed, so that
the first visit is small whatever the host does. The ear's files are taken in later, by whoever
wants to talk. Nothing in the folder refers to another host.
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
from typing import NamedTuple

from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web.ear_files import ear_files
from boxaloud.assistant.web.engine_archive import engine_archive
from boxaloud.assistant.web.page_files import kind_of, page_files
from boxaloud.assistant.web.runtime_package import runtime_files, wanted
from boxaloud.assistant.web.web_messages import say

POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
    "img-src 'self' data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; "
    "base-uri 'none'; form-action 'none'"
)
SERVED_ONLY = ("pair.html", "served_engine.js", "served_ear.js")
COMPRESSED = (".wasm", ".zip", ".mjs", ".json", ".bin")
"""Endings of files that lie compressed in the folder, and are unpacked as they are taken in."""
PREPARE_SECONDS = 300
MODEL_CARD = files("boxaloud.assistant.asr.engines.ctc") / "data" / "MODEL_CARD.md"
"""Whence the ear's network comes, and under which licences."""
_ADDRESS = re.compile(rb"https?://[^`'\"\s)\\]+")


class Sizes(NamedTuple):
    """Bytes that a phone takes in: at its first visit, and for the ear."""

    first: int
    ear: int


def build(target: Path, cache: Path | None = None) -> Sizes:
    """Write the folder; gives how much of it a phone takes in.

    Raises Problem where npm is missing, or `target` holds something that this did not make.
    """
    if target.exists() and (not target.is_dir() or (any(target.iterdir()) and not _ours(target))):
        raise Problem(say("build.not_ours", folder=target))
    runtime = _runtime(runtime_files(cache))
    held = {**_pages(), **runtime, "engine.zip": _prepared(runtime)}
    held["licences.txt"] = _licences()
    ear = ear_files()
    packed = {name: _packed(name, raw) for name, raw in {**held, **ear}.items()}
    later = {name: len(packed[name]) for name in ear}
    worker = _service_worker({**held, **ear}, later)
    packed["service_worker.js"] = worker
    target.mkdir(parents=True, exist_ok=True)
    for each in target.iterdir():
        each.unlink()
    for name, lies in packed.items():
        (target / (f"{name}.gz" if name.endswith(COMPRESSED) else name)).write_bytes(lies)
    whole = sum(map(len, packed.values()))
    return Sizes(whole - sum(later.values()), sum(later.values()))


def _packed(name: str, raw: bytes) -> bytes:
    return gzip.compress(raw, 9, mtime=0) if name.endswith(COMPRESSED) else raw


def _no_addresses(found: Mapping[str, bytes]) -> dict[str, bytes]:
    """Files, every address of another host taken out of the scripts."""
    return {
        name: _ADDRESS.sub(b"./", raw) if name.endswith(".mjs") else raw
        for name, raw in found.items()
    }


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
    """The runtime. Its archive is without what no page needs, and unpacked inside: packed as a
    whole it is smaller, and each module is there at once."""
    held = _no_addresses(found)
    return {name: _stored(raw) if name.endswith(".zip") else raw for name, raw in held.items()}


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


def _service_worker(held: Mapping[str, bytes], later: Mapping[str, int]) -> bytes:
    """The service worker with every file named: its digest, its kind, whether it is compressed,
    and of what is taken in later how many bytes it is on its way."""
    known = {
        name: {
            "digest": hashlib.sha256(raw).hexdigest(),
            "kind": kind_of(name),
            "packed": name.endswith(COMPRESSED),
            "later": later.get(name, 0),
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
    engine = wanted()
    told = say(
        "build.licences", package=engine.package, version=engine.version, licence=engine.licence
    )
    return told.encode() + MODEL_CARD.read_bytes()
