"""The JSON Schemas of the documents, as the models say."""

from __future__ import annotations

from functools import cache
from typing import Any

from boxaloud.assistant.contract.batch_documents import BatchRow, RowResult
from boxaloud.assistant.contract.box_document import BoxDocument
from boxaloud.assistant.contract.document import Document
from boxaloud.assistant.contract.reply_document import ReplyDocument
from boxaloud.assistant.contract.report_document import ReportDocument
from boxaloud.assistant.contract.worksheet_document import WorksheetDocument
from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

DOCUMENTS: dict[str, type[Document]] = {
    "reply": ReplyDocument,
    "worksheet": WorksheetDocument,
    "box": BoxDocument,
    "row": BatchRow,
    "result": RowResult,
    "report": ReportDocument,
}
"""What is read and written, by the name of its schema."""


class _Plain(GenerateJsonSchema):
    """Without the titles that only repeat a field's name, and without keywords of others."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        return False

    def tagged_union_schema(self, schema: Any) -> JsonSchemaValue:
        return {"anyOf": super().tagged_union_schema(schema)["oneOf"]}


@cache
def schema(name: str) -> dict[str, Any]:
    """The schema of this name. Raises KeyError for a name that is none of DOCUMENTS."""
    model: type[BaseModel] = DOCUMENTS[name]
    head = {"$schema": _Plain.schema_dialect, "$id": f"urn:boxaloud:{name}"}
    return head | model.model_json_schema(schema_generator=_Plain)
