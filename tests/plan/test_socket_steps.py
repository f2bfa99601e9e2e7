"""What is measured at the rear socket of what tows, and what a power unit shows besides its lamps.

SAE J560: pins 2 marker, 3 left, 4 stop, 5 right, 6 tail, 7 ABS. A truck tractor feeds the ABS of a
trailer through a circuit of its own: FMVSS 121 S5.5.2 (from memory).
"""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest
from support.english import ENGLISH

from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan
from walkaround.vehicle.model import POWER_UNITS
from walkaround.walk.answers import faults_for
from walkaround.words.prompts import prompt


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


def planned(kind: str, power: str = "", made: date | None = None) -> Plan:
    vehicle = next(vehicle for vehicle in library().vehicles if vehicle.kind == kind)
    vehicle = vehicle.model_copy(update={"made": made or vehicle.made})
    return plan_walk(vehicle, library().rules, power=power)


def test_a_dolly_passes_on_every_circuit_that_it_gets() -> None:
    step = planned("converter dolly").step("rear_socket")
    assert step is not None
    assert {item.id for item in step.items} == {f"contact_{pin}" for pin in "234567"}
    assert "and no other" in prompt(step, "box", "short", ENGLISH).say
    assert all(faults_for(item)[0] == "dead" for item in step.items)


@pytest.mark.parametrize("power", ["cab", "helper"])
def test_from_a_cab_the_contacts_of_a_dolly_are_seen_live_with_all_on(power: str) -> None:
    plan = planned("converter dolly", power)
    ids = [step.id for step in plan.steps]
    step = plan.step("rear_socket")
    assert step is not None
    assert ids[ids.index("rear_socket") - 1] == "load_rear"
    assert {item.id for item in step.items} == {f"contact_{pin}" for pin in "3456"}


@pytest.mark.parametrize("power", ["cab", "helper"])
def test_a_tractor_feeds_pin_7_as_long_as_its_key_is_on(power: str) -> None:
    plan = planned("truck tractor", power)
    ids = [step.id for step in plan.steps]
    before = plan.steps[ids.index("rear_socket_abs") - 1]
    assert before.spot == "rear"
    assert "flashing" in before.expect.values(), "a turn signal needs the key on"
    step = plan.steps[ids.index("rear_socket_abs")]
    assert "Pin 7" in str(step.title)
    assert step.hands_free, "nothing moves and nothing is metered that is not live"


def test_before_the_rule_for_it_nothing_is_asked_of_pin_7() -> None:
    assert planned("truck tractor", made=date(1990, 1, 1)).step("rear_socket_abs") is None


def test_horn_and_high_beams_are_asked_of_what_has_an_engine_and_of_nothing_else() -> None:
    for vehicle in library().vehicles:
        asked = plan_walk(vehicle, library().rules).step("horn_high_beams")
        assert (asked is not None) == (vehicle.kind in POWER_UNITS)
