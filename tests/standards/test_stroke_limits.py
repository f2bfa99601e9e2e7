"""The shipped stroke table against 49 CFR 393.47(e) and (f), typed apart from it.

The wording was read: the stroke "must not be greater than" the table's value; actuators that are
not listed have 80 percent of the rated stroke marked on them. The cells are from memory, typed
here a second time without the shipped file: an error of memory shows in neither.
"""

from __future__ import annotations

import csv
from fractions import Fraction

import pint
import pytest

from walkaround.base.errors import InputError
from walkaround.base.units import length_limit_text
from walkaround.brakes.strokes import stroke_verdict
from walkaround.disk.locations import shipped
from walkaround.library.stroke_lookup import stroke_limit_in

# Type: inches, and the millimetres printed beside them.
CLAMP_STANDARD = {
    "6": ("1 1/4", 31.8),
    "9": ("1 3/8", 34.9),
    "12": ("1 3/8", 34.9),
    "16": ("1 3/4", 44.5),
    "20": ("1 3/4", 44.5),
    "24": ("1 3/4", 44.5),
    "30": ("2", 50.8),
    "36": ("2 1/4", 57.2),
}
CLAMP_LONG = {
    "12": ("1 3/4", 44.5),
    "16": ("2", 50.8),
    "20": ("2", 50.8),
    "24": ("2", 50.8),
    "30": ("2 1/2", 63.5),
}
CLAMP_LONG_RATED_3_IN = {"20": ("2 1/2", 63.5), "24": ("2 1/2", 63.5)}
BOLT = {
    "A": ("1 3/8", 34.9),
    "B": ("1 3/4", 44.5),
    "C": ("1 3/4", 44.5),
    "D": ("1 1/4", 31.8),
    "E": ("1 3/8", 34.9),
    "F": ("2 1/4", 57.2),
    "G": ("2", 50.8),
}
ROTO = {
    "9": ("1 1/2", 38.1),
    "12": ("1 1/2", 38.1),
    "16": ("2", 50.8),
    "20": ("2", 50.8),
    "24": ("2", 50.8),
    "30": ("2 1/4", 57.2),
    "36": ("2 3/4", 69.9),
    "50": ("3", 76.2),
}
DD3 = {"30": ("2 1/4", 57.2)}

Row = tuple[str, str, bool, float | None, str, float]
TABLES: list[tuple[str, bool, float | None, dict[str, tuple[str, float]]]] = [
    ("clamp", False, None, CLAMP_STANDARD),
    ("clamp", True, None, CLAMP_LONG),
    ("clamp", True, 3.0, CLAMP_LONG_RATED_3_IN),
    ("bolt", False, None, BOLT),
    ("roto", False, None, ROTO),
    ("dd3", False, None, DD3),
]
ROWS: list[Row] = [
    (actuator, type_, long_stroke, rated_in, *limit)
    for actuator, long_stroke, rated_in, table in TABLES
    for type_, limit in table.items()
]


def inches(printed: str) -> Fraction:
    """The number that "1 3/4" is."""
    return sum((Fraction(part) for part in printed.split()), Fraction(0))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: "-".join(map(str, row[:4])))
def test_a_listed_chamber_has_the_limit_of_its_row(row: Row) -> None:
    actuator, type_, long_stroke, rated_in, printed_in, printed_mm = row
    limit_in = stroke_limit_in(actuator, type_, long_stroke, rated_in)
    assert limit_in == inches(printed_in)
    assert length_limit_text(limit_in, "in") == f"{printed_in} in"
    assert length_limit_text(limit_in, "mm") == f"{printed_mm} mm"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: "-".join(map(str, row[:4])))
def test_a_stroke_as_printed_passes_and_the_next_mark_of_the_rule_does_not(row: Row) -> None:
    """In either unit; millimetres are made inches by pint, which knows nothing of this app."""
    *_, printed_in, printed_mm = row
    limit_in = float(inches(printed_in))
    mm = pint.UnitRegistry().millimeter
    assert stroke_verdict(limit_in, limit_in) == "within"
    assert stroke_verdict(limit_in + 1 / 16, limit_in) == "over"
    assert stroke_verdict((printed_mm * mm).m_as("inch"), limit_in) == "within"
    for whole_mm in range(100):
        verdict = "within" if whole_mm <= printed_mm else "over"
        assert stroke_verdict((whole_mm * mm).m_as("inch"), limit_in) == verdict


def test_the_shipped_table_has_these_rows_and_no_other() -> None:
    path = shipped() / "pushrod_stroke_limits.csv"
    lines = path.read_text(encoding="utf-8").splitlines()
    rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    found = [
        (
            row["actuator_kind"],
            row["type"],
            row["stroke_class"] == "long",
            float(row["rated_stroke_in_required"]) if row["rated_stroke_in_required"] else None,
            row["limit_in"],
            float(row["limit_mm"]),
        )
        for row in rows
        if row["actuator_kind"] not in ("wedge", "other")
    ]
    assert sorted(found, key=str) == sorted(ROWS, key=str)
    assert len(rows) == len(ROWS) + 2
    assert {row["provenance"] for row in rows} == {"memory", "read"}


# 49 CFR 393.47(f), from memory: 1.6 mm (1/16 in) of movement of a scribe mark on the lining.
@pytest.mark.parametrize("type_", ["", "9", "any"])
def test_a_wedge_brake_may_move_its_lining_a_sixteenth(type_: str) -> None:
    assert stroke_limit_in("wedge", type_) == Fraction(1, 16)
    assert length_limit_text(1 / 16, "mm") == "1.6 mm"


# 49 CFR 393.47(e)(2), read.
@pytest.mark.parametrize(
    ("actuator", "type_", "long_stroke", "rated_in", "limit_in"),
    [
        ("other", "", False, 3.0, 2.4),
        ("other", "X", True, 2.5, 2.0),
        ("clamp", "18", False, 2.25, 1.8),
        ("clamp", "36", True, 3.5, 2.8),
        ("dd3", "24", False, 2.5, 2.0),
    ],
)
def test_an_actuator_that_is_not_listed_has_80_percent_of_its_rated_stroke(
    actuator: str, type_: str, long_stroke: bool, rated_in: float, limit_in: float
) -> None:
    assert stroke_limit_in(actuator, type_, long_stroke, rated_in) == limit_in


def test_without_a_rated_stroke_nothing_is_known_of_it() -> None:
    with pytest.raises(InputError):
        stroke_limit_in("clamp", "36", long_stroke=True)
