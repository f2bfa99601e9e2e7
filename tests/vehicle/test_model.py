"""What a vehicle file says and what follows from it."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

import pytest
from pydantic import ValidationError

from walkaround.vehicle.model import Vehicle, has_abs, has_air_brakes, vehicle_class


def vehicle(**changes: Any) -> Vehicle:
    table = {
        "id": "trailer_7",
        "kind": "semitrailer",
        "made": date(2011, 4, 1),
        "width_mm": 2591,
        "length_mm": 13716,
        "electrical": {"volts": 12, "connector": "seven"},
    }
    return Vehicle.model_validate(table | changes)


@pytest.mark.parametrize(
    ("kind", "width_mm", "expected"),
    [
        # 49 CFR 393.11 Table 1 classes; 80 in is 2032 mm.
        ("truck", 2031.9, "A"),
        ("truck", 2032, "B"),
        ("bus", 2031.9, "A"),
        ("bus", 2032, "B"),
        ("truck tractor", 2000, "C"),
        ("truck tractor", 2600, "C"),
        ("semitrailer", 2031.9, "F"),
        ("semitrailer", 2032, "D"),
        ("full trailer", 2031.9, "F"),
        ("full trailer", 2032, "D"),
        ("converter dolly", 2600, "E"),
        ("pole trailer", 2600, "G"),
    ],
)
def test_the_class_follows_from_kind_and_width(kind: str, width_mm: float, expected: str) -> None:
    assert vehicle_class(vehicle(kind=kind, width_mm=width_mm)) == expected


@pytest.mark.parametrize(
    ("kind", "made", "expected"),
    [
        # 49 CFR 393.55(c): truck tractors from 1997-03-01, others from 1998-03-01.
        ("truck tractor", date(1997, 2, 28), False),
        ("truck tractor", date(1997, 3, 1), True),
        ("semitrailer", date(1998, 2, 28), False),
        ("semitrailer", date(1998, 3, 1), True),
        ("truck", date(1998, 3, 1), True),
    ],
)
def test_abs_follows_from_the_date_of_make(kind: str, made: date, expected: bool) -> None:
    assert has_abs(vehicle(kind=kind, made=made, brakes={"system": "air"})) is expected


def test_the_file_may_say_otherwise_about_abs() -> None:
    assert not has_abs(vehicle(brakes={"system": "air", "abs": False}))
    assert has_abs(vehicle(made=date(1990, 1, 1), brakes={"system": "air", "abs": True}))


@pytest.mark.parametrize("system", ["electric", "surge", "none"])
def test_a_vehicle_without_air_brakes_needs_no_abs(system: str) -> None:
    plain = vehicle(brakes={"system": system})
    assert not has_abs(plain)
    assert not has_air_brakes(plain)


def test_air_over_hydraulic_needs_abs_but_has_no_air_chambers() -> None:
    mixed = vehicle(brakes={"system": "air_over_hydraulic"})
    assert has_abs(mixed)
    assert not has_air_brakes(mixed)


def test_a_vehicle_without_a_name_is_called_by_its_id() -> None:
    assert vehicle().name == "Trailer 7"
    assert vehicle(name="The long one").name == "The long one"


def test_a_vehicle_survives_being_written_as_json_and_read_back() -> None:
    one = vehicle(
        brakes={"system": "air", "axles": [{"actuator": "clamp", "type": "30"}]},
        electrical={
            "volts": 12,
            "connector": "seven",
            "bulbs": {"tail": "1157", "abs": "led"},
            "lamps": [{"id": "licence_plate", "circuit": "marker"}],
        },
        damage=["Left mud flap torn."],
    )
    assert Vehicle.model_validate(json.loads(one.model_dump_json())) == one


def test_a_vehicle_never_changes() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        vehicle().width_mm = 1.0


@pytest.mark.parametrize(
    "changes",
    [
        {"width_mm": -1},
        {"width_mm": 0},
        {"width_mm": "2591"},
        {"width_mm": True},
        {"width_mm": float("nan")},
        {"width_mm": 10**400},
        {"made": 2011},
        {"made": "spring 2011"},
        {"kind": "caravan"},
        {"id": "Trailer 7"},
        {"colour": "red"},
        {"brakes": {"axles": [{"spring": 1}]}},
        {"electrical": {"volts": 6, "connector": "seven"}},
        {"electrical": {"volts": 12, "connector": "seven", "bulbs": {"tail": 1157}}},
        {"electrical": {"volts": 12, "connector": "seven", "lamps": [{"circuit": "tail"}]}},
        {"rules": "au"},
        {"boat": "yes"},
        {"damage": "dented"},
    ],
)
def test_what_is_not_the_shape_of_a_vehicle_is_refused(changes: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        vehicle(**changes)


def test_a_quoted_date_of_make_is_read() -> None:
    assert vehicle(made="2011-04-01").made == date(2011, 4, 1)


def test_a_vehicle_that_says_no_more_than_it_must_follows_the_us_rules_undamaged() -> None:
    plain = vehicle()
    assert (plain.rules, plain.damage, plain.cab_width_mm) == ("us", (), None)
    assert not any((plain.boat, plain.towed_singly, plain.living_or_office))
