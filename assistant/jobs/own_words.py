"""A person's own words hold for all their jobs: they are not the job's, see assistant.aliases."""

from __future__ import annotations

from assistant.aliases import read, write

__all__ = ["read", "write"]
