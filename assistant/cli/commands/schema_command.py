"""`boxaloud schema`: the JSON Schemas of what is read and written, as the models say."""

from __future__ import annotations

import json

from boxaloud.assistant.cli.exit_codes import FITS
from boxaloud.assistant.cli.output import put
from boxaloud.assistant.text.problem import Problem


def run(name: str) -> int:
    """Print one schema, or all of them as one object by name. Raises Problem for no such name."""
    from boxaloud.assistant.contract.document_schemas import DOCUMENTS, schema

    if name and name not in DOCUMENTS:
        raise Problem(f"There is no schema {name!r}: say one of {', '.join(DOCUMENTS)}.")
    found = schema(name) if name else {each: schema(each) for each in DOCUMENTS}
    put(json.dumps(found, ensure_ascii=False, indent=2))
    return FITS
