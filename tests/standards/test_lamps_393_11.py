"""Lamps per class against 49 CFR 393.11 Table 1, typed apart from the rule data.

lamps_393_11.csv holds one vehicle a line with the counts that the table gives it; the two demo
vehicles are listed lamp by lamp. What was read and what is from memory stands in the CSV's head.
"""

from __future__ import annotations

import csv
from collections import Counter
from datetime import date
from pathlib import Path

import pytest

from walkaround.lamps import holds_for, lamps_for, reflectors_for
from walkaround.loading import Library, load_library
from walkaround.locations import shipped
from walkaround.vehicle import Vehicle, vehicle_class

TABLE = Path(__file__).with_name("lamps_393_11.csv")


def rows() -> list[dict[str, str]]:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library(shipped(), today=date(2025, 11, 1))


def bare_vehicle(kind: str, width_mm: float, length_mm: float) -> Vehicle:
    """A vehicle with nothing but size, light enough to need no tape, too old for ABS."""
    return Vehicle.model_validate(
        {
            "id": "x",
            "kind": kind,
            "made": date(1990, 1, 1),
            "width_mm": width_mm,
            "length_mm": length_mm,
            "gvwr_kg": 3000,
            "electrical": {"volts": 12, "connector": "sae_j560"},
        }
    )


@pytest.mark.parametrize(
    "row", rows(), ids=lambda row: f"{row['kind']}-{row['width_mm']}-{row['length_mm']}"
)
def test_each_vehicle_has_the_lamps_that_table_1_gives_its_class(
    row: dict[str, str], library: Library
) -> None:
    vehicle = bare_vehicle(row["kind"], float(row["width_mm"]), float(row["length_mm"]))
    lamps = lamps_for(vehicle, library.checklists) + reflectors_for(vehicle, library.checklists)
    expected = {item: int(row[item]) for item in list(row)[4:] if int(row[item])}
    assert vehicle_class(vehicle) == row["class"]
    assert Counter(lamp.rule for lamp in lamps) == expected


def test_a_projecting_load_shows_tail_and_clearance_lamps(library: Library) -> None:
    # 49 CFR 393.11 Table 1, class H: tail lamps and front clearance lamps read in the Texas DPS
    # chart; rear clearance lamps from memory.
    vehicle = bare_vehicle("semitrailer", 2500, 9000)
    rules = [rule for checklist in library.checklists for rule in checklist.lamps]
    asked = {rule.id for rule in rules if rule.classes and holds_for(rule, vehicle, "H")}
    assert asked == {"tail", "clearance_front", "clearance_rear"}


# 49 CFR 393.11 Table 1, class D over 30 ft; 571.121 S5.2.3.3 for the ABS lamp.
SEMITRAILER_LAMPS = {
    "tail_left": "red",
    "tail_right": "red",
    "stop_left": "red",
    "stop_right": "red",
    "turn_rear_left": "amber or red",
    "turn_rear_right": "amber or red",
    "clearance_front_left": "amber",
    "clearance_front_right": "amber",
    "clearance_rear_left": "red",
    "clearance_rear_right": "red",
    "identification_rear_left": "red",
    "identification_rear_centre": "red",
    "identification_rear_right": "red",
    "side_marker_front_left": "amber",
    "side_marker_front_right": "amber",
    "side_marker_middle_left": "amber",
    "side_marker_middle_right": "amber",
    "side_marker_rear_left": "red",
    "side_marker_rear_right": "red",
    "licence_plate": "white",
    "abs": "yellow",
}
# 49 CFR 393.11 Table 1, class D under 30 ft, made before the ABS rule; blackout lamps from memory.
PUMP_TRAILER_LAMPS = {
    "tail_left": "red",
    "tail_right": "red",
    "stop_left": "red",
    "stop_right": "red",
    "turn_rear_left": "amber or red",
    "turn_rear_right": "amber or red",
    "clearance_front_left": "amber",
    "clearance_front_right": "amber",
    "clearance_rear_left": "red",
    "clearance_rear_right": "red",
    "identification_rear_left": "red",
    "identification_rear_centre": "red",
    "identification_rear_right": "red",
    "side_marker_front_left": "amber",
    "side_marker_front_right": "amber",
    "side_marker_rear_left": "red",
    "side_marker_rear_right": "red",
    "licence_plate": "white",
    "blackout_marker_left": "red",
    "blackout_marker_right": "red",
    "blackout_stop_left": "white or red",
    "blackout_stop_right": "white or red",
}


@pytest.mark.parametrize(
    ("vehicle_id", "expected"),
    [("sandbag_semitrailer_7", SEMITRAILER_LAMPS), ("pump_trailer_3", PUMP_TRAILER_LAMPS)],
)
def test_each_demo_vehicle_has_its_full_list_of_lamps_and_colours(
    vehicle_id: str, expected: dict[str, str], library: Library
) -> None:
    [vehicle] = [vehicle for vehicle in library.vehicles if vehicle.id == vehicle_id]
    lamps = lamps_for(vehicle, library.checklists)
    assert [(lamp.id, lamp.colour) for lamp in lamps] == list(expected.items())


def test_no_tail_or_stop_lamp_may_be_amber(library: Library) -> None:
    # 49 CFR 393.11(c), from memory.
    rules = [rule for checklist in library.checklists for rule in checklist.lamps]
    assert {rule.colour for rule in rules if rule.kind in ("tail", "stop")} == {("red",)}


@pytest.mark.parametrize(
    ("width_mm", "gvwr_kg", "made", "taped"),
    [
        # 49 CFR 393.11(b): 80 in or more and over 4536 kg, made on or after 1993-12-01 (read).
        (2032, 4537, date(1993, 12, 1), True),
        (2031, 4537, date(1993, 12, 1), False),
        (2032, 4536, date(1993, 12, 1), False),
        # 49 CFR 393.13: older trailers too, in force since 2001-06-01 (read).
        (2032, 4537, date(1993, 11, 30), True),
    ],
)
def test_wide_heavy_trailers_carry_reflective_tape(
    width_mm: float, gvwr_kg: float, made: date, taped: bool, library: Library
) -> None:
    vehicle = bare_vehicle("semitrailer", width_mm, 9000).model_copy(
        update={"gvwr_kg": gvwr_kg, "made": made}
    )
    tape = [lamp for lamp in reflectors_for(vehicle, library.checklists) if lamp.kind == "tape"]
    assert bool(tape) is taped


@pytest.mark.parametrize(
    ("kind", "made", "lamps"),
    [
        # 49 CFR 393.55(c) and 571.121 S5.2.3.3 (read).
        ("semitrailer", date(1998, 2, 28), []),
        ("semitrailer", date(1998, 3, 1), ["abs"]),
        ("converter dolly", date(1998, 2, 28), []),
        ("converter dolly", date(1998, 3, 1), ["abs_dolly"]),
    ],
)
def test_air_braked_trailers_have_an_abs_lamp_from_march_1998_on(
    kind: str, made: date, lamps: list[str], library: Library
) -> None:
    plain = bare_vehicle(kind, 2500, 9000).model_dump()
    vehicle = Vehicle.model_validate({**plain, "made": made, "brakes": {"system": "air"}})
    found = lamps_for(vehicle, library.checklists)
    assert [lamp.id for lamp in found if lamp.kind == "abs"] == lamps


def test_identification_lamps_stand_6_to_12_inches_apart(library: Library) -> None:
    # 49 CFR 393.11 Table 1: lamp centres 152 to 305 mm apart (from memory).
    lamps = lamps_for(bare_vehicle("bus", 2500, 11000), library.checklists)
    for end in ("front", "rear"):
        left, centre, right = (lamp.y_mm for lamp in lamps if lamp.rule == f"identification_{end}")
        assert 152 <= centre - left <= 305
        assert 152 <= right - centre <= 305
