"""A row and the box it describes are the same, and both are as their schemas say."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

from batch_cases import CASES, GOOD
from boxaloud.assistant.contract.batch_documents import BatchRow, RowResult
from boxaloud.assistant.contract.box_document import BoxDocument
from boxaloud.assistant.contract.refusal import accepted
from boxaloud.assistant.reports.batch import box_of_row, work
from boxaloud.assistant.reports.batch.batch_row import Row
from boxaloud.rules import work_out
from boxaloud.rules.contents import Box, Cable, Grounds, Marked, Unmarked, Yoke
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

BOXES = st.builds(
    Box,
    parts=st.just((Marked(Decimal("18.0")), Unmarked("plaster ring"))),
    contents=st.tuples(
        st.builds(Cable, st.sampled_from([14, 12]), st.integers(1, 3), st.sampled_from([None, 14])),
        st.builds(Yoke, st.text(min_size=1), st.sampled_from([None, 14, 12])),
        st.builds(Grounds, st.just(14), st.integers(1, 3), isolated=st.booleans()),
    ),
    clamps=st.sampled_from(["unknown", "none", "outside", "inside", "moulded"]),
    nonmetallic=st.sampled_from([None, True, False]),
    edition=st.sampled_from(["2014", "2023"]),
    tags=st.frozensets(st.sampled_from(["fan", "luminaire"])),
)


@given(BOXES)
def test_a_described_box_survives_the_way_out_and_back(box: Box) -> None:
    assert accepted(BoxDocument, json.loads(json.dumps(BoxDocument.of(box).to_json()))).value == box


def test_every_kind_of_thing_fits_the_schema_of_a_box(
    validators: dict[str, Draft202012Validator],
) -> None:
    fields = {
        "box": "square 4 x 1-1/2", "parts": "plaster ring 3.5; unmarked cover; barrier metal",
        "cables": "2 x 14-2; 12-3 no ground; 14-2 through", "conductors": "3 x 12",
        "fixture_wires": "2 x 18", "grounds": "1 x 12 isolated", "jumpers": "1 x 12 enters",
        "devices": "switch on 14", "fittings": "luminaire stud", "terminal_blocks": "1 x 12",
        "not_counted": "3 x wire connector", "material": "metal",
    }  # fmt: skip
    box = box_of_row(accepted(BatchRow, fields))
    data = json.loads(json.dumps(BoxDocument.of(box).to_json()))
    assert {thing["is"] for thing in data["contents"]} == {
        "cable", "conductors", "fixture_wires", "grounds", "bonding_jumper", "yoke",
        "support_fitting", "terminal_block", "uncounted",
    }  # fmt: skip
    validators["box"].validate(data)
    assert accepted(BoxDocument, data).value == box
    assert not validators["box"].is_valid(data | {"clamps": "maybe"})
    assert not validators["box"].is_valid(data | {"contents": [{"is": "cable", "awg": "14"}]})


def as_json(result: RowResult) -> dict[str, Any]:
    """A result as who reads the file has it."""
    found = json.loads(json.dumps(result.to_json()))
    assert isinstance(found, dict)
    return found


def test_rows_and_results_fit_their_schemas(validators: dict[str, Draft202012Validator]) -> None:
    for case in CASES:
        validators["row"].validate(case["row"])
        (result,) = work([Row(1, case["row"])])
        validators["result"].validate(as_json(result))
    (bad,) = work([Row(1, {"volume": "x"})])
    validators["result"].validate(as_json(bad))
    assert not validators["result"].is_valid(as_json(bad) | {"total_in3": 4})


def test_columns_and_a_described_box_come_to_the_same() -> None:
    box = box_of_row(accepted(BatchRow, GOOD))
    described, columns = work([Row(1, {"described": BoxDocument.of(box).to_json()}), Row(1, GOOD)])
    assert described.model_copy(update={"name": "good"}) == columns
    assert described.total_in3 == str(work_out(box).total)
