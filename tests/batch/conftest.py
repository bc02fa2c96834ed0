"""The schemas, so that what is written is held against what is published."""

from __future__ import annotations

import pytest
from boxaloud.assistant.contract.document_schemas import DOCUMENTS, schema
from jsonschema import Draft202012Validator


@pytest.fixture(scope="session")
def validators() -> dict[str, Draft202012Validator]:
    for name in DOCUMENTS:
        Draft202012Validator.check_schema(schema(name))
    return {name: Draft202012Validator(schema(name)) for name in DOCUMENTS}
