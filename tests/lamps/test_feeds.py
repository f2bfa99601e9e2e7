"""Which contacts can feed which lamps, and where lamps share a ground."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import get_args

import pytest

from walkaround.disk.locations import shipped
from walkaround.lamps.feeds import ROLES, PinFunction, cluster_of, feeds_of
from walkaround.lamps.required_lamps import Lamp, lamps_for
from walkaround.library.load import load_library
from walkaround.rules.checklist import Spot

LIBRARY = load_library(shipped(), today=date(2025, 11, 1))
LAMPS = {
    lamp.kind: lamp
    for vehicle in LIBRARY.vehicles
    for lamp in lamps_for(vehicle, LIBRARY.checklists)
}


def lamp(kind: str, place: str, spot: Spot = "rear") -> Lamp:
    return replace(LAMPS["tail"], kind=kind, place=place, spot=spot)


NO_CIRCUIT = {"GND", "NC", "CAN_H", "CAN_L", "SIG"}
"""Ground, no connection, data lines, and signals out of the trailer: nothing is fed by them."""


@pytest.mark.parametrize("fn", get_args(PinFunction))
def test_every_pin_function_has_a_circuit_or_feeds_nothing(fn: str) -> None:
    assert (fn in ROLES) is not (fn in NO_CIRCUIT)


def test_every_circuit_has_an_id_of_its_own() -> None:
    assert len({role.id for role in ROLES.values()}) == len(ROLES)


@pytest.mark.parametrize("kind", sorted(LAMPS))
def test_every_kind_of_lamp_in_the_depot_can_be_fed(kind: str) -> None:
    assert set(feeds_of(LAMPS[kind])) <= ROLES.keys()
    assert feeds_of(LAMPS[kind])


def test_a_lamp_is_fed_from_its_own_side_and_a_centre_one_from_the_left() -> None:
    assert feeds_of(lamp("turn", "rear_right")) == ("RSTOP", "R")
    assert feeds_of(lamp("turn", "rear_left")) == ("LSTOP", "L")
    assert feeds_of(lamp("licence_plate", "rear_centre")) == ("TAIL", "TAIL_L")


def test_a_front_turn_signal_never_hangs_on_a_stop_circuit() -> None:
    assert feeds_of(lamp("turn", "front_right")) == ("R",)


def test_a_kind_that_does_not_tell_has_no_feeds() -> None:
    assert feeds_of(lamp("other", "rear_left")) == ()


def test_lamps_of_a_side_share_a_ground_and_those_of_an_end_one_for_each_corner() -> None:
    assert cluster_of(lamp("side_marker", "left_side_front", "left_side")) == "left_side"
    assert cluster_of(lamp("tail", "rear_left")) == "rear_left"
