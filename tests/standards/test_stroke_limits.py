"""The shipped stroke table against 49 CFR 393.47(e) and (f), typed apart from it.

Typed from the section as amended by 86 FR 57076 (2021-10-14), cell by cell: the stroke "must not be
greater than" the table's value; actuators that are not listed have 80 percent of the rated stroke
marked on them.
"""

from __future__ import annotations

import csv
from datetime import date
from fractions import Fraction

import pint
import pytest

from walkaround.base.errors import InputError
from walkaround.base.units import length_limit_text
from walkaround.brakes.strokes import limit_of, stroke_verdict
from walkaround.disk.locations import shipped
from walkaround.library.standard_tables import standard_tables
from walkaround.library.stroke_lookup import stroke_limit_in
from walkaround.vehicle.model import Axle

# Type: inches, and the millimetres printed beside them.
CLAMP_STANDARD = {
    "6": ("1 1/4", 31.8),
    "9": ("1 3/8", 34.9),
    "12": ("1 3/8", 34.9),
    "16": ("1 3/4", 44.5),
    "20": ("1 3/4", 44.5),
    "24": ("1 3/4", 44.5),
    "30": ("2", 50.8),
    "36": ("2 1/2", 63.5),
}
# As amended by 77 FR 46638 (2012-08-06), before 86 FR 57076.
CLAMP_36_UNTIL_2021 = ("2 1/4", 57.2)
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


# Outside diameters, inches and the millimetres printed beside them; the same for standard and long
# stroke.
DIAMETERS = {
    "clamp": {
        "6": ("4 1/2", 114),
        "9": ("5 1/4", 133),
        "12": ("5 11/16", 145),
        "16": ("6 3/8", 162),
        "20": ("6 25/32", 172),
        "24": ("7 7/32", 184),
        "30": ("8 3/32", 206),
        "36": ("9", 229),
    },
    "dd3": {"30": ("8 1/8", 206)},
    "bolt": {
        "A": ("6 15/16", 176),
        "B": ("9 3/16", 234),
        "C": ("8 1/16", 205),
        "D": ("5 1/4", 133),
        "E": ("6 3/16", 157),
        "F": ("11", 279),
        "G": ("9 7/8", 251),
    },
    "roto": {
        "9": ("4 9/32", 109),
        "12": ("4 13/16", 122),
        "16": ("5 13/32", 138),
        "20": ("5 15/16", 151),
        "24": ("6 13/32", 163),
        "30": ("7 1/16", 180),
        "36": ("7 5/8", 194),
        "50": ("8 7/8", 226),
    },
}


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
    mm = pint.get_application_registry().millimeter
    assert stroke_verdict(limit_in, limit_in) == "within"
    assert stroke_verdict(limit_in + 1 / 16, limit_in) == "over"
    assert stroke_verdict((printed_mm * mm).m_as("inch"), limit_in) == "within"
    for whole_mm in range(100):
        verdict = "within" if whole_mm <= printed_mm else "over"
        assert stroke_verdict((whole_mm * mm).m_as("inch"), limit_in) == verdict


def test_the_shipped_table_has_these_rows_and_no_other() -> None:
    rows = shipped_rows()
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
    earlier: Row = ("clamp", "36", False, None, *CLAMP_36_UNTIL_2021)
    assert sorted(found, key=str) == sorted([*ROWS, earlier], key=str)
    assert len(rows) == len(ROWS) + 3
    assert {row["provenance"] for row in rows} == {"read"}


def shipped_rows() -> list[dict[str, str]]:
    path = shipped() / "pushrod_stroke_limits.csv"
    lines = path.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def test_every_number_of_a_row_says_the_same_as_the_one_beside_it() -> None:
    for row in shipped_rows():
        for name in ("limit_in", "outside_diameter_in"):
            assert bool(row[name]) == bool(row[f"{name}_decimal"])
            if row[name]:
                assert float(row[f"{name}_decimal"]) == round(float(inches(row[name])), 4)
        if row["limit_in"]:
            assert float(row["limit_mm"]) == pytest.approx(
                float(inches(row["limit_in"])) * 25.4, abs=0.06
            )


def test_a_type_has_the_outside_diameter_by_which_it_is_told() -> None:
    for row in shipped_rows():
        if row["actuator_kind"] in DIAMETERS:
            printed_in, printed_mm = DIAMETERS[row["actuator_kind"]][row["type"]]
            assert (row["outside_diameter_in"], row["outside_diameter_mm"]) == (
                printed_in,
                str(printed_mm),
            )


@pytest.mark.parametrize(
    ("day", "limit_in"),
    [(date(2021, 10, 13), 2.25), (date(2021, 10, 14), 2.5), (date(2026, 11, 26), 2.5)],
)
def test_type_36_goes_by_the_table_of_the_day(day: date, limit_in: float) -> None:
    # 86 FR 57076 made 2 1/4 in (57.2 mm) 2 1/2 in (63.5 mm).
    limit = limit_of(Axle(actuator="clamp", type="36"), standard_tables().strokes.on(day))
    assert limit is not None
    assert limit.limit_in == limit_in


# 49 CFR 393.47(f): 1.6 mm (1/16 in) of movement of a scribe mark on the lining.
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
