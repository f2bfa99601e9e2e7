"""A vehicle written as a file is the same vehicle when it is read, by Python's own TOML reader."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from support.made_up_vehicles import SHIPPED, vehicles

from walkaround.vehicle.model import Vehicle
from walkaround.vehicle.to_toml import vehicle_toml


@given(vehicles)
def test_what_is_written_is_read_as_the_same_vehicle(vehicle: Vehicle) -> None:
    text = vehicle_toml(vehicle).encode("utf-8")
    assert Vehicle.model_validate(tomllib.loads(text.decode("utf-8"))) == vehicle


@pytest.mark.parametrize("vehicle", SHIPPED.values(), ids=SHIPPED)
def test_the_shipped_vehicles_go_round_too(vehicle: Vehicle) -> None:
    assert Vehicle.model_validate(tomllib.loads(vehicle_toml(vehicle))) == vehicle


def test_sizes_are_written_as_people_write_them_and_defaults_are_left_out() -> None:
    text = vehicle_toml(SHIPPED["sandbag_semitrailer_7"])
    assert "width_mm = 2591\n" in text
    assert "made = 2014-05-12\n" in text
    assert "blackout" not in text
