"""Rows whose totals are published, with their sources."""

from __future__ import annotations

import tomllib
from pathlib import Path

CASES = tomllib.loads(Path(__file__).with_name("published.toml").read_text(encoding="utf-8"))[
    "case"
]

GOOD = {"name": "good", "volume": "18", "cables": "3 x 14-2", "devices": "receptacle",
        "clamps": "none"}  # fmt: skip
