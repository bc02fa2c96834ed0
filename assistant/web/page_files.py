"""The files of the page as they lie in the package, and what kind of file each is."""

from __future__ import annotations

from collections.abc import Mapping
from importlib.resources import files

KINDS = {
    "css": "text/css; charset=utf-8",
    "html": "text/html; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "mjs": "text/javascript; charset=utf-8",
    "json": "application/json",
    "svg": "image/svg+xml",
    "txt": "text/plain; charset=utf-8",
    "wasm": "application/wasm",
    "webmanifest": "application/manifest+json",
    "zip": "application/zip",
}
"""The media type of each ending."""

POCKET_ONLY = (
    "ear_worker.js", "letter_network.js", "matrix_kernel.js", "memory_copy.js", "pocket_ear.js",
    "pocket_store.js", "pocket_worker.js", "service_worker.js", "speech_bands.js", "wasm_writer.js",
)  # fmt: skip
"""What only a page that stands alone needs."""


def page_files() -> Mapping[str, bytes]:
    """Every file of the page by its name."""
    folder = files("boxaloud.assistant.web") / "data" / "page"
    return {each.name: each.read_bytes() for each in folder.iterdir() if each.is_file()}


def kind_of(name: str) -> str:
    """The media type of a file by its name."""
    return KINDS.get(name.rsplit(".", 1)[-1], "application/octet-stream")
