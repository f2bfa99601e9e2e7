"""Orders that could hurt somebody say first what keeps people whole, in the words that are spoken.

Each is read from every shipped vehicle's plan, so a checklist that loses one of them fails here.
An engine is started out of gear with the parking brake set or the wheels chocked, service brakes
are not applied fully over set spring brakes, chocks hold two wheels: common practice, no source;
29 CFR 1910.178(k)(1) on chocks as background.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from functools import cache
from itertools import product

import pytest

from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Step
from walkaround.rules.limits import Air
from walkaround.vehicle.model import POWER_UNITS

ENGINE = re.compile(r"start the engine|engine on|cut-out", re.IGNORECASE)
"""What is asked for only of a running engine; a reading, or a look at what was done, is not."""


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


@cache
def plans() -> tuple[Plan, ...]:
    """Every shipped vehicle with every source of power and air, as its whole walk."""
    airs: tuple[Air, ...] = ("shop", "coupled")
    return tuple(
        plan_walk(vehicle, library().rules, power=power, air=air)
        for vehicle, power, air in product(library().vehicles, library().rules.power_sources, airs)
    )


def steps(part: str = "") -> Iterator[tuple[Plan, Step]]:
    for plan in plans():
        yield from ((plan, step) for step in plan.steps if part in ("", step.part))


def test_no_engine_is_started_before_it_is_asked_to_be_out_of_gear() -> None:
    asked = [s for _, s in steps() if s.kind == "act" and ENGINE.search(str(s.short))]
    assert {step.id for step in asked} >= {
        "charged_cut_out",
        "engine_off_released",
        "charged_again",
    }
    for step in asked:
        assert "out of gear" in str(step.short).lower(), step.id
        before = str(step.long).lower().split("cut-out")[0]
        assert "out of gear" in before, step.id


def test_a_pedal_that_lights_lamps_is_pressed_just_far_enough_to_light_them() -> None:
    """Full service air over set spring brakes adds both forces up."""
    pressed = [step for _, step in steps("lamps") if "pedal" in str(step.switching).lower()]
    assert pressed
    for step in pressed:
        assert "just far enough to light the stop lamps" in str(step.switching), step.id


def test_two_wheels_are_chocked_and_neither_steers_nor_lifts() -> None:
    for plan in plans():
        chocks = plan.step("chocks_on")
        assert chocks is not None
        assert chocks.must
        assert "two wheels" in str(chocks.short)
        assert "steered" in str(chocks.short)
        assert "lift axle" in str(chocks.short)


@pytest.mark.parametrize("spring", [True, False])
def test_draining_says_that_it_releases_brakes_where_it_does(spring: bool) -> None:
    """A trailer without spring brakes is held by its reservoirs' air: 49 CFR 393.43 background."""
    drained = [
        step
        for plan, step in steps()
        if step.id.startswith("water_drained")
        and plan.vehicle.kind not in POWER_UNITS
        and any(axle.spring for axle in plan.vehicle.brakes.axles) == spring
    ]
    assert drained
    for step in drained:
        assert ("releases the brakes" in str(step.caution)) != spring
        assert spring or ("Chocks in?" in str(step.short) and step.must)


def test_a_source_that_was_shut_is_opened_before_it_is_to_give_air() -> None:
    """On shop air: each order for air after the source was shut opens it first."""
    giving = {"service_applied", "full_application", "reservoirs_full"}
    for plan in plans():
        if plan.air != "shop" or plan.vehicle.kind in POWER_UNITS:
            continue
        shut = False
        for step in plan.steps:
            said = str(step.short).lower()
            if step.id in giving:
                assert "open" in said or not shut, step.id
            if step.kind == "act" and "shut" in said and "source" in said:
                shut = True
            if step.id in giving:
                shut = False
