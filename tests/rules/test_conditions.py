"""When a rule holds for a vehicle, at, below and above each bound."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.rules.conditions import Span, When, true_facts
from walkaround.vehicle.model import Vehicle


def vehicle(**changes: Any) -> Vehicle:
    table = {
        "id": "x",
        "kind": "truck",
        "made": date(2011, 4, 1),
        "width_mm": 2400,
        "length_mm": 10000,
        "cab_width_mm": 1000,
        "gvwr_kg": 10000,
        "electrical": {"volts": 12, "connector": "x"},
    }
    return Vehicle.model_validate(table | changes)


@pytest.mark.parametrize(
    ("when", "expected"),
    [
        ({}, True),
        ({"classes": ["B"]}, True),
        ({"classes": ["A", "F"]}, False),
        ({"length_mm": {"over": 9999}}, True),
        ({"length_mm": {"over": 10000}}, False),
        ({"length_mm": {"from": 10000}}, True),
        ({"length_mm": {"from": 10001}}, False),
        ({"width_mm": {"under": 2401}}, True),
        ({"width_mm": {"under": 2400}}, False),
        ({"cab_width_mm": {"up_to": 1000}}, True),
        ({"cab_width_mm": {"up_to": 999}}, False),
        ({"gvwr_kg": {"over": 9999, "up_to": 10000}}, True),
        ({"gvwr_kg": {"over": 9999, "up_to": 9999.5}}, False),
        ({"made_from": date(2011, 4, 1)}, True),
        ({"made_from": date(2011, 4, 2)}, False),
        ({"made_before": date(2011, 4, 2)}, True),
        ({"made_before": date(2011, 4, 1)}, False),
        ({"facts": ["boat"]}, False),
        ({"without": ["boat"]}, True),
        ({"classes": ["B"], "length_mm": {"over": 10000}}, False),
    ],
)
def test_a_condition_holds_when_all_of_it_is_so(when: dict[str, Any], expected: bool) -> None:
    assert When.model_validate(when).holds(vehicle(), "B") is expected


def test_what_nobody_gave_counts_as_large() -> None:
    unknown = vehicle(gvwr_kg=None, cab_width_mm=None)
    assert When.model_validate({"gvwr_kg": {"over": 4536}}).holds(unknown, "B")
    assert not When.model_validate({"cab_width_mm": {"up_to": 1067}}).holds(unknown, "B")


@pytest.mark.parametrize(
    "fact",
    [
        "boat",
        "double_faced_turn",
        "hides_towing_lamps",
        "living_or_office",
        "rear_guard",
        "towed_singly",
        "towing_lamps_above_load",
    ],
)
def test_what_a_file_says_is_so_is_a_fact(fact: str) -> None:
    assert true_facts(vehicle()) == {"rear_plate"}
    assert true_facts(vehicle(**{fact: True})) == {"rear_plate", fact}
    assert When.model_validate({"facts": [fact]}).holds(vehicle(**{fact: True}), "B")
    assert not When.model_validate({"without": [fact]}).holds(vehicle(**{fact: True}), "B")


def test_abs_that_the_date_of_make_asks_for_is_a_fact() -> None:
    assert true_facts(vehicle(brakes={"system": "air"})) == {"abs", "rear_plate"}


def test_a_vehicle_shows_a_plate_unless_its_file_says_none() -> None:
    assert not true_facts(vehicle(rear_plate=False))


@pytest.mark.parametrize(("body", "holds"), [("tank", True), ("van", True), ("platform", False)])
def test_a_condition_may_name_bodies(body: str, holds: bool) -> None:
    when = When.model_validate({"bodies": ["tank", "van"]})
    assert when.holds(vehicle(body=body), "B") is holds


def test_a_condition_may_name_kinds_that_the_letters_do_not_tell_apart() -> None:
    when = When.model_validate({"kinds": ["bus"]})
    assert when.holds(vehicle(kind="bus"), "B")
    assert not when.holds(vehicle(kind="truck"), "B")


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        (date(2020, 12, 31), False),
        (date(2021, 1, 1), True),
        (date(2025, 6, 30), True),
        (date(2025, 7, 1), False),
    ],
)
def test_a_rule_is_in_force_from_its_first_to_its_last_day(day: date, expected: bool) -> None:
    when = When.model_validate({"valid_from": date(2021, 1, 1), "valid_to": date(2025, 6, 30)})
    assert when.in_force(day) is expected
    assert When().in_force(day)


@given(bound=st.floats(0, 1e5), value=st.floats(0, 1e5))
def test_each_value_lies_on_one_side_of_a_bound(bound: float, value: float) -> None:
    assert Span(from_=bound).holds(value) is not Span(under=bound).holds(value)
    assert Span(over=bound).holds(value) is not Span(up_to=bound).holds(value)
