"""Which brake chambers the stroke tables list."""

from __future__ import annotations

from typing import Any

import pytest

from walkaround.chambers import Chamber, chamber_fault, chambers_of
from walkaround.vehicle import Axle

ROWS = [
    {"actuator_kind": "clamp", "type": "20", "stroke_class": "standard"},
    {"actuator_kind": "clamp", "type": "6", "stroke_class": "standard"},
    {"actuator_kind": "clamp", "type": "20", "stroke_class": "long"},
    {"actuator_kind": "bolt", "type": "A", "stroke_class": "n/a"},
]
CHAMBERS = chambers_of(ROWS)


def fault(**axle: Any) -> tuple[str, str, str] | None:
    return chamber_fault(Axle.model_validate(axle), CHAMBERS)


def test_chambers_are_told_apart_by_actuator_type_and_stroke() -> None:
    assert Chamber("clamp", "20", True) in CHAMBERS
    assert Chamber("bolt", "A", False) in CHAMBERS
    assert len(CHAMBERS) == 4


@pytest.mark.parametrize(
    "axle",
    [
        {"actuator": "clamp", "type": "20"},
        {"actuator": "clamp", "type": "20", "long_stroke": True},
        {"actuator": "clamp"},
        {"actuator": "wedge", "type": "W"},
        {"actuator": "other", "type": "7"},
        {},
    ],
)
def test_listed_chambers_and_those_that_no_table_goes_by_are_right(axle: dict[str, Any]) -> None:
    assert fault(**axle) is None


def test_a_type_of_another_actuator_is_not_listed() -> None:
    assert fault(actuator="bolt", type="20") == (
        "type",
        "is 20, which no stroke table lists for a bolt chamber",
        'use one of: A, or set actuator = "other" and rated_stroke_in',
    )


def test_a_long_stroke_that_no_table_has_is_told() -> None:
    assert fault(actuator="clamp", type="6", long_stroke=True) == (
        "long_stroke",
        "is true, but no table lists a long-stroke clamp chamber 6",
        "set it to false or correct type",
    )
