"""What a choice changes, what follows from it, and what stays."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.made_up_vehicles import BLACKOUT_TRAILER, REFERENCE, SEMITRAILER, SHIPPED, TODAY

from walkaround.vehicle.model import Axle, LampWiring, Vehicle
from walkaround.vehicle_editor.checks import vehicle_problems
from walkaround.vehicle_editor.edit import (
    MIXED,
    fields_asked,
    in_month,
    in_year,
    options,
    problems_beside,
    stepped_size,
    value_of,
    values_of,
    with_field,
)
from walkaround.vehicle_editor.fields import (
    FEET,
    FIELDS,
    KILOGRAMS,
    METRES,
    POUNDS,
    ConnectorField,
    Field,
    MonthField,
    OptionsField,
    SentencesField,
    SizeField,
    TextField,
    TicksField,
    Unit,
    VolumesField,
)
from walkaround.vehicle_editor.new_vehicle import copy_of

EVERY = [field for fields in FIELDS.values() for field in fields]


def field_of(key: str) -> Field:
    return next(field for field in EVERY if field.key == key)


def keys_asked(vehicle: Vehicle) -> set[str]:
    return {field.key for fields in fields_asked(vehicle, REFERENCE).values() for field in fields}


def choices(field: Field, vehicle: Vehicle) -> st.SearchStrategy[Any]:
    """What the form can choose for a field; where two others leave nothing, it stays as it is."""
    match field:
        case OptionsField() | ConnectorField():
            offered = [o.value for o in options(field, vehicle, REFERENCE)]
            return st.sampled_from(offered or [value_of(vehicle, field.key)])
        case SizeField():
            steps = [(unit, n) for unit in field.units for _, _, n in unit.steps]
            now = value_of(vehicle, field.key) or field.usual[0]
            nudges = [stepped_size(now, unit, sign * n) for unit, n in steps for sign in (1, -1)]
            return st.sampled_from([*field.usual, *nudges])
        case MonthField():
            day = value_of(vehicle, field.key)
            return st.sampled_from([in_year(day, 10, TODAY), in_month(day, 2)])
        case TicksField():
            return st.booleans()
        case VolumesField():
            return st.lists(st.sampled_from(field.usual), max_size=3).map(tuple)
        case SentencesField():
            return st.lists(st.text(min_size=1, max_size=20), max_size=2).map(tuple)
        case TextField():
            return st.text(max_size=field.most)
    raise AssertionError(field)


@pytest.mark.parametrize("vehicle", SHIPPED.values(), ids=SHIPPED)
def test_every_field_names_a_key_of_vehicle_files(vehicle: Vehicle) -> None:
    for field in EVERY:
        assert isinstance(values_of(vehicle, field.key), tuple)


@given(st.data())
def test_whatever_is_chosen_gives_a_vehicle_that_a_file_can_hold(data: st.DataObject) -> None:
    vehicle = data.draw(st.sampled_from([*SHIPPED.values()]))
    for _ in range(data.draw(st.integers(1, 6))):
        fields = [field for those in fields_asked(vehicle, REFERENCE).values() for field in those]
        field = data.draw(st.sampled_from(fields))
        axles = len(vehicle.brakes.axles)
        some = st.integers(0, axles - 1) if isinstance(field, TicksField) else st.none()
        value = data.draw(choices(field, vehicle))
        vehicle = with_field(vehicle, field.key, value, REFERENCE, data.draw(some))
    assert Vehicle.model_validate(vehicle.model_dump()) == vehicle


@given(st.data())
def test_a_choice_of_a_narrowed_field_is_not_wrong_itself(data: st.DataObject) -> None:
    vehicle = data.draw(st.sampled_from([*SHIPPED.values()]))
    narrowed = [f for f in EVERY if isinstance(f, ConnectorField) or getattr(f, "narrowed", False)]
    field = data.draw(st.sampled_from(narrowed))
    for option in options(field, vehicle, REFERENCE):
        after = with_field(vehicle, field.key, option.value, REFERENCE)
        assert not problems_beside(field, vehicle_problems(after, "", REFERENCE))


def test_keys_without_a_field_stay_as_they_were() -> None:
    wiring = (LampWiring(id="tail_left", circuit="tail", cluster="rear_centre"),)
    electrical = SEMITRAILER.electrical.model_copy(
        update={"bulbs": {"stop": "1157"}, "lamps": wiring}
    )
    vehicle = SEMITRAILER.model_copy(update={"electrical": electrical})
    for key, value in (("name", "x"), ("electrical.led", True), ("brakes.axles", 3)):
        vehicle = with_field(vehicle, key, value, REFERENCE)
    assert vehicle.electrical.bulbs == {"stop": "1157"}
    assert vehicle.electrical.lamps == wiring


def test_the_voltage_and_the_lamps_follow_the_connector() -> None:
    vehicle = with_field(SEMITRAILER, "electrical.connector", "mil_12_us_tactical", REFERENCE)
    assert vehicle.electrical.volts == 24
    assert vehicle.electrical.stop_turn == "combined"
    back = with_field(vehicle, "electrical.connector", "sae_j560", REFERENCE)
    assert (back.electrical.volts, back.electrical.stop_turn) == (12, "separate")


def test_blackout_lamps_go_with_a_connector_that_has_no_contacts_for_them() -> None:
    assert BLACKOUT_TRAILER.electrical.blackout
    vehicle = with_field(BLACKOUT_TRAILER, "electrical.connector", "sae_j560", REFERENCE)
    assert not vehicle.electrical.blackout
    assert "electrical.blackout" not in keys_asked(vehicle)


def test_the_lamps_of_a_power_unit_do_not_follow_its_rear_socket() -> None:
    truck = with_field(BLACKOUT_TRAILER, "kind", "truck", REFERENCE)
    after = with_field(truck, "electrical.connector", "iso_12098", REFERENCE)
    assert after.electrical.stop_turn == truck.electrical.stop_turn == "combined"
    assert after.electrical.blackout


def test_the_voltage_is_asked_only_where_the_connector_leaves_it_open() -> None:
    assert "electrical.volts" not in keys_asked(SEMITRAILER)
    open_ = with_field(BLACKOUT_TRAILER, "electrical.connector", "nato_12_stanag4007", REFERENCE)
    assert "electrical.volts" in keys_asked(open_)


def test_what_one_kind_is_asked_is_forgotten_when_it_becomes_another() -> None:
    boat = with_field(SHIPPED["pontoon_trailer_9"], "boat", True, REFERENCE)
    truck = with_field(boat, "kind", "truck", REFERENCE)
    assert not truck.boat
    assert not vehicle_problems(truck, "", REFERENCE) or "boat" not in str(
        vehicle_problems(truck, "", REFERENCE)
    )


def test_more_axles_are_like_the_last_one_and_fewer_are_the_first_ones() -> None:
    front, rear = SEMITRAILER.brakes.axles[0].model_copy(update={"spring": False}), Axle(lift=True)
    brakes = SEMITRAILER.brakes.model_copy(update={"axles": (front, rear)})
    vehicle = SEMITRAILER.model_copy(update={"brakes": brakes})
    assert with_field(vehicle, "brakes.axles", 3, REFERENCE).brakes.axles == (front, rear, rear)
    assert with_field(vehicle, "brakes.axles", 1, REFERENCE).brakes.axles == (front,)
    assert with_field(vehicle, "brakes.axles", 0, REFERENCE).brakes.axles == ()


def test_a_choice_is_for_all_axles_or_for_one() -> None:
    key = "brakes.axles.*.slack"
    one = with_field(SEMITRAILER, key, "manual", REFERENCE, axle=1)
    assert values_of(one, key) == ("automatic", "manual")
    assert value_of(one, key) is MIXED
    assert value_of(with_field(one, key, "manual", REFERENCE), key) == "manual"


@pytest.mark.parametrize(("key", "value"), [("type", "20"), ("long_stroke", False)])
def test_the_stroke_marked_on_a_chamber_goes_with_the_chamber(key: str, value: object) -> None:
    assert SEMITRAILER.brakes.axles[1].rated_stroke_in == 3.0
    after = with_field(SEMITRAILER, f"brakes.axles.*.{key}", value, REFERENCE, axle=1)
    assert [axle.rated_stroke_in for axle in after.brakes.axles] == [3.0, None]
    same = with_field(SEMITRAILER, "brakes.axles.*.type", "30", REFERENCE)
    assert same == SEMITRAILER


def test_chambers_are_asked_of_air_brakes_with_axles_only() -> None:
    assert "brakes.axles.*.type" in keys_asked(SEMITRAILER)
    for key, value in (("brakes.system", "electric"), ("brakes.axles", 0)):
        assert "brakes.axles.*.type" not in keys_asked(
            with_field(SEMITRAILER, key, value, REFERENCE)
        )


def test_only_chambers_of_the_stroke_tables_are_offered() -> None:
    """49 CFR 393.47(e) lists bolt chambers by letters A to G, from memory."""
    bolts = with_field(SEMITRAILER, "brakes.axles.*.actuator", "bolt", REFERENCE)
    field = field_of("brakes.axles.*.type")
    assert [o.value for o in options(field, bolts, REFERENCE)] == [*"ABCDEFG", ""]
    found = problems_beside(field, vehicle_problems(bolts, "", REFERENCE))
    assert [problem.key for problem in found] == ["brakes.axles 1.type", "brakes.axles 2.type"]


# The international foot and pound are exactly 0.3048 m and 0.45359237 kg (agreement of 1959).
@pytest.mark.parametrize(
    ("value", "unit", "grains", "after"),
    [
        (2591.0, FEET, 0, 2591.0),  # 102 in
        (2591.0, FEET, 1, 2616.0),  # 103 in = 2616.2 mm
        (13716.0, FEET, 96, 16154.0),  # 45 ft + 8 ft = 53 ft = 16154.4 mm
        (13716.0, FEET, -60, 12192.0),  # 40 ft
        (2591.0, METRES, 1, 2600.0),
        (2591.0, METRES, -10, 2490.0),
        (4536.0, POUNDS, 1, 4581.0),  # 10,100 lb = 4581.3 kg
        (30000.0, KILOGRAMS, 100, 31000.0),
        (20.0, METRES, -100, 10.0),
        (100.0, POUNDS, -1000, 45.0),
    ],
)
def test_sizes_step_by_whole_grains_and_stay_above_nothing(
    value: float, unit: Unit, grains: int, after: float
) -> None:
    assert stepped_size(value, unit, grains) == after


@given(st.sampled_from([METRES, FEET, KILOGRAMS, POUNDS]), st.integers(1, 900), st.data())
def test_a_step_back_undoes_a_step(unit: Unit, grains: int, data: st.DataObject) -> None:
    start = float(round(data.draw(st.integers(100, 1000)) * unit.grain))
    assert stepped_size(stepped_size(start, unit, grains), unit, -grains) == start


def test_years_and_months_change_alone_and_stay_possible() -> None:
    assert in_year(date(2014, 5, 12), 1, TODAY) == date(2015, 5, 12)
    assert in_year(date(2012, 2, 29), 1, TODAY) == date(2013, 2, 28)
    assert in_year(date(2020, 5, 1), 10, TODAY).year == TODAY.year
    assert in_year(date(1905, 5, 1), -10, TODAY).year == 1900
    assert in_month(date(2014, 5, 31), 2) == date(2014, 2, 28)


def test_copies_of_all_shipped_vehicles_are_in_order() -> None:
    names = [vehicle.name for vehicle in SHIPPED.values()]

    def wrong(vehicles: Iterable[Vehicle]) -> list[str]:
        return [
            str(p) for v in vehicles for p in vehicle_problems(copy_of(v, names), "", REFERENCE)
        ]

    assert not wrong(SHIPPED.values())
