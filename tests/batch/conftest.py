"""The schemas, so that what is written is held against what is published."""

from __future__ import annotations

import pytest
from boxaloud.assistant.cli.commands.schema_command import NAMES, schema
from jsonschema import Draft202012Validator
from referencing import Registry, Resource


@pytest.fixture(scope="session")
def validators() -> dict[str, Draft202012Validator]:
    registry = Registry().with_resources(
        [(f"urn:boxaloud:{name}", Resource.from_contents(schema(name))) for name in NAMES]
    )
    for name in NAMES:
        Draft202012Validator.check_schema(schema(name))
    return {name: Draft202012Validator(schema(name), registry=registry) for name in NAMES}
