"""What a vehicle file says, what follows from it, and what is wrong with it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from walkaround.vehicle import (
    VIN_VALUES,
    Vehicle,
    has_abs,
    has_air_brakes,
    vehicle_class,
    vehicle_problems,
    vin_problem,
)
from walkaround.wiring import Connector

TODAY = date(2025, 11, 1)


def connector(id_: str, volts: int, *functions: str) -> Connector:
    pins = [
        {"pin": str(place), "fn": fn, "function": fn, "p": "r"}
        for place, fn in enumerate(functions, start=1)
    ]
    return Connector.model_validate(
        {
            "id": id_,
            "standard": "test",
            "title": "test",
            "nominal_volts": volts,
            "pin_count": len(pins),
            "source": "test",
            "provenance": "test",
            "pins": pins,
        }
    )


CONNECTORS: Mapping[str, Connector] = {
    "seven": connector("seven", 12, "GND", "TAIL", "L", "R", "STOP"),
    "plain": connector("plain", 12, "GND", "PERM"),
    "twelve": connector("twelve", 24, "GND", "TAIL", "LSTOP", "RSTOP"),
}


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


def problems(**changes: Any) -> list[tuple[str, str]]:
    found = vehicle_problems(vehicle(**changes), "v.toml", CONNECTORS, TODAY)
    assert all(problem.where == "v.toml" for problem in found)
    return [(problem.key, f"{problem.what}; {problem.mend}") for problem in found]


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
    one = vehicle(brakes={"system": "air", "axles": [{"actuator": "clamp", "type": "30"}]})
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
    ],
)
def test_what_is_not_the_shape_of_a_vehicle_is_refused(changes: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        vehicle(**changes)


def test_a_quoted_date_of_make_is_read() -> None:
    assert vehicle(made="2011-04-01").made == date(2011, 4, 1)


def test_a_sound_vehicle_has_no_problems() -> None:
    assert problems(vin="1M8GDM9AXKP042788", gvwr_kg=30000) == []


def test_a_12_volt_vehicle_cannot_have_a_24_volt_connector() -> None:
    electrical = {"volts": 12, "connector": "twelve", "stop_turn": "combined"}
    assert problems(electrical=electrical) == [
        (
            "electrical.volts",
            "is 12, but twelve is a 24 V connector; correct volts or name the connector as wired",
        )
    ]


def test_an_unknown_connector_is_named_with_the_nearest_known_one() -> None:
    assert problems(electrical={"volts": 12, "connector": "sevn"}) == [
        ("electrical.connector", "no connector is called sevn; perhaps seven is meant")
    ]


def test_combined_contacts_cannot_feed_separate_stop_and_turn_lamps() -> None:
    [(key, sentence)] = problems(electrical={"volts": 24, "connector": "twelve"})
    assert key == "electrical.stop_turn"
    assert 'set stop_turn = "combined"' in sentence


def test_a_connector_without_lamp_contacts_is_not_the_one_to_name() -> None:
    [(key, sentence)] = problems(electrical={"volts": 12, "connector": "plain"})
    assert key == "electrical.connector"
    assert "feeds no lamps" in sentence


def test_blackout_lamps_need_blackout_contacts_except_on_a_power_unit() -> None:
    electrical = {"volts": 12, "connector": "seven", "blackout": True}
    assert problems(electrical=electrical) == [
        (
            "electrical.blackout",
            "is true, but seven has no blackout contacts; "
            "set it to false or name the connector as wired",
        )
    ]
    assert problems(electrical=electrical, kind="truck") == []


def test_a_date_of_make_to_come_is_a_problem_but_today_is_not() -> None:
    assert problems(made=TODAY) == []
    assert problems(made=date(2025, 11, 2)) == [
        ("made", "is 2025-11-02, a day to come; correct the date of make")
    ]


@pytest.mark.parametrize(
    ("key", "value"),
    [("width_mm", 2.6), ("width_mm", 25910), ("length_mm", 13.7), ("gvwr_kg", 1e9)],
)
def test_a_slip_of_the_unit_is_a_problem(key: str, value: float) -> None:
    [(found, sentence)] = problems(**{key: value})
    assert found == key
    assert "not the size of a road vehicle" in sentence


def test_all_problems_of_a_vehicle_are_told_at_once() -> None:
    found = problems(
        width_mm=2,
        made=date(2100, 1, 1),
        vin="SHORT",
        electrical={"volts": 12, "connector": "nothing_like_it"},
    )
    assert {key for key, _ in found} == {"width_mm", "made", "vin", "electrical.connector"}


def test_a_vin_of_another_length_says_who_may_leave_it_out() -> None:
    assert vin_problem("12345") == (
        "the VIN has 5 characters, 17 expected; older and military units may leave vin out"
    )
    assert vin_problem("") is not None


@pytest.mark.parametrize("character", ["I", "O", "Q", "-", " ", "²", "Ä"])
def test_a_character_that_no_vin_uses_is_named_with_its_place(character: str) -> None:
    problem = vin_problem(f"1M8G{character}M9AXKP042788")
    assert problem is not None
    assert f"character 5 of the VIN is {character!r}" in problem


def test_a_vin_may_be_typed_in_small_letters() -> None:
    assert vin_problem("1m8gdm9axkp042788") is None


# The weights of 49 CFR 565.15(c) are none of them a multiple of 11, a prime: one character misread
# as one of another value always shows.
@given(
    place=st.integers(0, 16).filter(lambda place: place != 8),
    read=st.sampled_from(sorted(VIN_VALUES)),
)
def test_one_misread_character_of_another_value_always_shows(place: int, read: str) -> None:
    vin = "1M8GDM9AXKP042788"
    misread = vin[:place] + read + vin[place + 1 :]
    same_value = VIN_VALUES[vin[place]] == VIN_VALUES[read]
    assert (vin_problem(misread) is None) is same_value


@given(st.text())
def test_any_text_is_judged_as_a_vin_in_one_line(text: str) -> None:
    problem = vin_problem(text)
    assert problem is None or (problem and "\n" not in problem)
