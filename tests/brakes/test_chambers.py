"""Whether a stroke table lists the chambers of a vehicle's file."""

from __future__ import annotations

from typing import Any

import pytest

from walkaround.brakes.chambers import chamber_fault, chamber_named
from walkaround.brakes.strokes import RatedShare, StrokeRow, StrokeTable
from walkaround.vehicle.model import Axle


def row(actuator: str, type_: str, long_stroke: bool = False) -> StrokeRow:
    return StrokeRow(actuator, type_, long_stroke, None, 2.0, "a table", "read")


ROWS = (row("clamp", "20"), row("clamp", "6"), row("clamp", "20", True), row("bolt", "A"))
TABLE = StrokeTable(ROWS, RatedShare(0.8, "a rule", "read"))


def fault(**axle: Any) -> tuple[str, str, str] | None:
    found = chamber_fault(Axle.model_validate(axle), TABLE)
    return found and (found[0], str(found[1]), str(found[2]))


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


@pytest.mark.parametrize("rated_in", [0.8, 64.0])
def test_millimetres_in_place_of_inches_are_told(rated_in: float) -> None:
    """Common practice, no source: no chamber has a rated stroke below 1 in or above 5 in."""
    assert fault(actuator="other", rated_stroke_in=rated_in) == (
        "rated_stroke_in",
        f"is {rated_in:g}, not the stroke of a brake chamber in inches",
        "write a value from 1 to 5",
    )
    assert fault(actuator="other", rated_stroke_in=2.5) is None


def test_a_long_stroke_that_no_table_has_is_told() -> None:
    assert fault(actuator="clamp", type="6", long_stroke=True) == (
        "long_stroke",
        "is true, but no table lists a long-stroke clamp chamber 6",
        "set it to false or correct type",
    )


@pytest.mark.parametrize(
    ("axle", "said"),
    [
        (Axle(actuator="clamp", type="30", long_stroke=True), "long-stroke clamp chamber type 30"),
        (Axle(actuator="dd3", type="30"), "three-diaphragm chamber type 30"),
        (Axle(actuator="wedge"), "wedge brake chamber"),
        (Axle(), "chamber that no table lists"),
    ],
)
def test_chambers_have_names(axle: Axle, said: str) -> None:
    assert str(chamber_named(axle)) == said
