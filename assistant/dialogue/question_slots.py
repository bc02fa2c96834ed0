"""What a question may be about."""

from __future__ import annotations

from typing import Literal, TypeAlias

from boxaloud.rules.worksheet import Slot

PullSlot: TypeAlias = Literal[
    "pull_size", "pull_kind", "pull_rows", "pull_returns", "pull_wall", "pull_walls",
    "pull_cover", "pull_conductor", "pull_insulation", "pull_inside",
]  # fmt: skip
"""What may be open of a pull box."""

BodySlot: TypeAlias = Literal[
    "body_raceway",
    "body_size",
    "body_insulation",
    "body_ends",
    "body_splices",
    "body_shape",
    "body_inside",
]
"""What may be open of a conduit body."""

QuestionSlot: TypeAlias = Literal[
    Slot,
    PullSlot,
    BodySlot,
    "box_depth",
    "gangs",
    "canopy",
    "named",
    "confirm",
    "mistaken",
    "unread",
    "space",
    "share",
    "ring_depth",
    "edition",
]
"""A slot of the worksheet, or what the talk itself leaves open."""
