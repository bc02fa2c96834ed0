"""Hypothesis without a deadline: a slow machine is no failure, and timing has no place here."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("no deadline", deadline=None)
settings.load_profile("no deadline")
