"""Contents that differ in nothing but their count: they are one item of the box."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.rules.contents import Content


def alike(one: Content, other: Content) -> bool:
    """True for two contents that differ in nothing but their count."""
    return type(one) is type(other) and replace(one, count=other.count) == other
