"""The demonstration job: a made-up house, talked through in plain English like any other."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from typing import Any

from boxaloud.assistant.storage import repository
from boxaloud.assistant.storage.session import Session
from boxaloud.assistant.storage.storage_messages import how_many, say


def told() -> dict[str, Any]:
    """The house: its name, edition, and boxes with what is said of each."""
    path = files("boxaloud.assistant.storage") / "data" / "demo.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


def build(name: str = "") -> Session:
    """Talk the whole house through into a new job. The session is left open."""
    house = told()
    session = Session.start(repository.unused_name(name or house["name"]), house["edition"])
    for box in house["box"]:
        session.hear(f"next box {box['name']}")
        for words in box["says"]:
            session.hear(words)
    return session


def summary(session: Session) -> str:
    """What was built, in a sentence."""
    boxes = how_many(len(session.conversation.boxes.names), "box")
    return say("job.demo", job=session.name, boxes=boxes)
