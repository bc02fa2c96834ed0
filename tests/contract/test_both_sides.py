"""What is accepted is what the schema says: the model and an independent validator of JSON Schema
judge the same data, as it is and after it was damaged at random.
"""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from boxaloud.assistant.contract.batch_documents import BatchRow
from boxaloud.assistant.contract.document_schemas import DOCUMENTS, schema
from boxaloud.assistant.contract.refusal import BadDocument, accepted
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

LINE = {"item": "conductors", "what": "two 14 AWG conductors", "awg": 14, "count": 2,
        "allowances": "2", "each_in3": "2.00", "subtotal_in3": "4.00",
        "section": "314.16(B)(1)", "each_ml": None, "subtotal_ml": None}  # fmt: skip
# 314.16(B)(1) and Table 314.16(B): two 14 AWG conductors take 2.00 each
ALONE = {"edition": "2023", "counted_under": "314.16, 2023", "provisional": None, "unit": "in3",
         "worksheet": [LINE],
         "capacity_lines": [{"what": "marked box", "in3": "18.0", "section": "314.16(A)"}],
         "total_in3": "4.00", "capacity_in3": "18.0", "margin_in3": "14.00",
         "least_total_in3": "4.00", "greatest_total_in3": "6.00",
         "total_ml": None, "capacity_ml": None, "margin_ml": None}  # fmt: skip
SHEET = ALONE | {"verdict": "fits", "spaces": [ALONE | {"space": 1}]}
BOX = {"edition": "2023", "clamps": "none", "grounds_known": False, "nonmetallic": None,
       "connectors_known": False, "hangs": "60",
       "tags": ["fan"],
       "parts": [{"is": "marked", "volume": "18"},
                 {"is": "table_box", "row": "square-4-1.5", "gangs": 1},
                 {"is": "unmarked", "label": "cover"},
                 {"is": "marked", "volume": "18.00", "cm3": "295"},
                 {"is": "measured", "width": "12", "height": "12", "depth": "6"},
                 {"is": "clamp_assembly", "volume": "1.5", "count": 2},
                 {"is": "barrier", "volume": "1.5"}],
       "contents": [{"is": "cable", "awg": 14, "conductors": 2, "ground": None, "path": "loop"},
                    {"is": "conductors", "awg": 12, "count": 3},
                    {"is": "fixture_wires", "awg": 18, "count": 2, "canopy": True},
                    {"is": "grounds", "awg": 12, "count": 1, "isolated": True},
                    {"is": "bonding_jumper", "awg": 12, "enters": True},
                    {"is": "yoke", "name": "switch", "awg": None, "gangs": 2,
                     "depth": "4.1"},
                    {"is": "support_fitting", "kind": "luminaire stud"},
                    {"is": "terminal_block", "awg": 12, "count": 1},
                    {"is": "uncounted", "kind": "locknut", "count": 2},
                    {"is": "uncounted", "kind": "wire connector", "awg": 12}]}  # fmt: skip
RESULT = {"line": 2, "name": "hall", "edition": None, "counted_under": None, "verdict": None,
          "total_in3": None, "capacity_in3": None, "margin_in3": "-2.00", "least_total_in3": "4.00",
          "greatest_total_in3": None, "open": ["clamps"], "cautions": [],
          "not_used": ["gromnet"], "problem": "bad", "total_ml": None, "capacity_ml": "250.0",
          "margin_ml": "-2.00", "told": "", "least_width_in": "23.5", "least_height_in": None,
          "least_depth_in": None}  # fmt: skip
ENTRY: dict[str, Any] = {"name": "hall", "contents": ["two cables"], "said": ["two cables"],
         "not_used": [], **SHEET, "assumed": [], "open": [], "cautions": ["…"],
         "pictures": [{"says": "before", "kind": "jpeg", "wide": 1600, "high": 1200}],
         "advice": [{"change": "bigger_box", "what": "use another", "margin_in3": "-0.25",
                     "enough": False, "section": "314.16(A)", "material": None,
                     "quantity": 1}],
         "conduit_body": {"told": "…", "shape": "LB", "raceway": "emt", "size_in": "0.75",
                          "insulation": None, "governs": True, "lines": [], "remedy": ""},
         "pull_box": {"told": "…", "width_in": "20", "height_in": "7.5", "depth_in": None,
                      "too_small": False, "large_enough": True,
                      "box": [{"dimension": "width", "have_in": "24", "least_in": "20",
                               "holds": True, "section": "314.28(A)(2)"}],
                      "lines": [{"what": "left", "inches": "20", "working": "6 x 3 + 2",
                                 "section": "314.28(A)(2)", "disputed": False}]}}  # fmt: skip
PROJECT = {"site": "Heron Street", "address": "", "permit": "B-12", "contractor": "",
           "prepared_by": "", "licence": "", "date": "2026-11-26"}  # fmt: skip
REPORT = {"job": "Heron Street", "begun": "", "written": "", "project": PROJECT,
          "editions": ["2023"],
          "counts": {"fits": 1, "over": 0, "incomplete": 0}, "cautions": [],
          "materials": [{"material": "ring", "quantity": 2, "boxes": ["hall"]}],
          "boxes": [ENTRY]}  # fmt: skip
REPLY = {"heard": "two 14-2 cables", "confidence": 0.75, "understood": [], "left_over": [],
         "reply": "Two.", "acts": [{"act": "echo", "says": "Two."}], "spoken": "Two.",
         "asks": "box", **SHEET, "pull_box": None, "conduit_body": None, "written": None,
         "assumed": [], "cautions": []}  # fmt: skip

GOOD: dict[str, list[dict[str, Any]]] = {
    "worksheet": [SHEET],
    "box": [BOX, {}],
    "row": [
        {"name": "hall", "volume": 18, "cables": "2 x 14-2", "devices": ["switch", "receptacle"],
         "clamps": " INside", "material": "Plastic", "edition": 2020, "box": ""},
        {"box": "square 4 x 1-1/2", "gangs": "1", "cables": 14, "volume": None, "says": []},
        {"says": "two 14-2 cables"},
        {"described": BOX, "note": None},
    ],
    "result": [RESULT],
    "report": [REPORT],
    "reply": [REPLY],
}  # fmt: skip
BAD: dict[str, list[dict[str, Any]]] = {
    "worksheet": [SHEET | {"total_in3": 4}, SHEET | {"verdict": "safe"}, {}],
    "box": [
        {"parts": 3},
        {"clamps": "Inside"},
        {"contents": [{"is": "wire"}]},
        {"contents": [{"is": "cable", "awg": "14", "conductors": 2, "ground": None}]},
        {"contents": [{"is": "cable", "awg": True, "conductors": 2, "ground": None}]},
        {"contents": [{"is": "conductors", "awg": 14, "count": 0}]},
        {"parts": [{"is": "marked", "volume": 18.5}]},
        {"parts": [{"is": "marked", "volume": "1e3"}]},
        {"parts": [{"is": "marked", "volume": "-3"}]},
        {"grounds_known": 1},
    ],
    "row": [
        {},
        {"name": "hall"},
        {"says": "two cables", "volume": "18"},
        {"volume": "18", "box": "square 4 x 1-1/2"},
        {"cables": True},
        {"cables": [14]},
        {"cables": "14-2", "clamps": "maybe"},
        {"cables": "14-2", "cable": "14-2"},
        {"described": {"clamps": 3}},
    ],
    "result": [RESULT | {"total_in3": "4"}, RESULT | {"line": 0}, RESULT | {"open": ["box "]}],
    "report": [
        REPORT | {"counts": {}},
        REPORT | {"boxes": [SHEET]},
        REPORT | {"boxes": [ENTRY | {"pull_box": {"width_in": "20"}}]},
    ],
    "reply": [REPLY | {"confidence": 1.5}, REPLY | {"asks": "why"}, SHEET],
}
NAMES = sorted(DOCUMENTS)


def by_model(name: str, data: Any) -> bool:
    """The model's judgement of data that was read as the program reads it: without floats."""
    try:
        accepted(DOCUMENTS[name], json.loads(json.dumps(data), parse_float=Decimal))
    except BadDocument as refusal:
        if not re.fullmatch(r"[^\n]+\.", str(refusal)):
            raise AssertionError(f"no sentence: {refusal}") from refusal
        return False
    return True


def by_schema(name: str) -> Callable[[Any], bool]:
    validator = Draft202012Validator(schema(name))
    return lambda data: bool(validator.is_valid(data))


@pytest.mark.parametrize("name", NAMES)
def test_every_schema_is_one_and_names_itself(name: str) -> None:
    Draft202012Validator.check_schema(schema(name))
    assert schema(name)["$id"] == f"urn:boxaloud:{name}"
    keywords = json.dumps(schema(name))
    assert '"ge":' not in keywords, "a bound that no validator knows"


@pytest.mark.parametrize("name", NAMES)
def test_good_data_is_good_on_both_sides(name: str) -> None:
    valid = by_schema(name)
    for data in GOOD[name]:
        assert valid(data), data
        assert by_model(name, data), data


@pytest.mark.parametrize("name", NAMES)
def test_bad_data_is_bad_on_both_sides(name: str) -> None:
    valid = by_schema(name)
    for data in BAD[name]:
        assert not valid(data), data
        assert not by_model(name, data), data


SCALARS = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-3, 12000),
    st.sampled_from([14.0, 2.5, -1.0, 1e30, "18", "18.0", "-2.00", "18.", "inside", "box", ""]),
    st.text(max_size=3).filter(lambda text: not text.endswith("\n")),
    # a pattern's "$" matches before a last "\n" in Python's expressions, not in those of JSON
    st.builds(list),
    st.builds(dict),
    st.builds(lambda: ["14-2"]),
)


def places(data: Any, here: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inner = data.items() if isinstance(data, dict) else enumerate(data)
    found = []
    for key, value in inner:
        found.append((*here, key))
        if isinstance(value, dict | list):
            found += places(value, (*here, key))
    return found


@st.composite
def damaged(draw: st.DrawFn, name: str) -> Any:
    data = copy.deepcopy(draw(st.sampled_from(GOOD[name])))
    for _ in range(draw(st.integers(1, 2))):
        if not (known := places(data)):
            break
        *way, last = draw(st.sampled_from(known))
        inside: Any = data
        for step in way:
            inside = inside[step]
        match draw(st.sampled_from(("change", "change", "drop", "add"))):
            case "change":
                inside[last] = draw(SCALARS)
            case "drop":
                del inside[last]
            case "add" if isinstance(inside, dict):
                keys = ("name", "says", "volume", "is", "count", "label", "tags", "other")
                inside[draw(st.sampled_from(keys))] = draw(SCALARS)
            case _:
                inside.append(draw(SCALARS))
    return data


@pytest.mark.parametrize("name", NAMES)
def test_damaged_data_is_judged_alike_by_model_and_schema(name: str) -> None:
    valid = by_schema(name)

    @settings(deadline=None)
    @given(damaged(name))
    def alike(data: Any) -> None:
        assert by_model(name, data) == valid(data)

    alike()


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ({"cable": "14-2"}, "no column 'cable': the columns are name, .*cables"),
        ({"cables": True}, "cables must be text or a number, not true"),
        ({"cables": "14-2", "clamps": "maybe"}, "clamps is one of unknown, .*, not 'maybe'"),
        ({"described": {"tag": []}}, "has no tag: it has edition, parts"),
        ({"described": {"parts": [{"is": "wall"}]}}, "one of marked, .*barrier.$"),
        ({"described": {"contents": [{"is": "marked"}]}}, "one of cable, .*uncounted.$"),
        ({"described": {"contents": [{"is": "yoke"}]}}, "A yoke is described by name, awg"),
        ({"described": {"parts": [{"is": "marked", "volume": 18}]}}, "a decimal in text.*not 18"),
        ({"described": {"contents": [{"is": "grounds", "awg": 14, "count": 0}]}}, "at least 1"),
        ({"described": {"nonmetallic": "yes"}}, "nonmetallic is true or false, not 'yes'"),
    ],
)
def test_a_refusal_names_the_field_and_what_can_stand_there(row: dict[str, Any], why: str) -> None:
    with pytest.raises(BadDocument, match=why):
        accepted(BatchRow, row)
