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

from walkaround.brakes.not_covered import not_covered
from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Step
from walkaround.rules.limits import Air
from walkaround.vehicle.model import POWER_UNITS, Brakes, BrakeSystem, Kind

ENGINE = re.compile(r"start the engine", re.IGNORECASE)


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
    assert {step.id for step in asked} >= {"charged_cut_out", "engine_off_released", "fan_down"}
    for step in asked:
        assert "out of gear" in str(step.short).lower(), step.id
        before = str(step.long).lower().split("start the engine")[0]
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
        said = str(chocks.short).lower()
        assert "two wheels, one each side" in said
        assert "no steered wheel" in said
        assert "no lift axle" in said


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


@pytest.mark.parametrize(
    ("kind", "air", "held"),
    [
        ("semitrailer", "shop", "Landing gear down, or"),
        ("full trailer", "shop", "Drawbar on its support, or"),
        ("converter dolly", "shop", "Drawbar on its support, or"),
        ("pole trailer", "shop", "Pole on a stand, or"),
        ("semitrailer", "coupled", "Tow unit's parking brake set, out of gear"),
        ("truck", "shop", "Parking brake set, out of gear, engine off"),
    ],
)
def test_what_holds_the_front_up_or_the_vehicle_still_fits_its_kind(
    kind: Kind, air: Air, held: str
) -> None:
    known = next(v for v in library().vehicles if v.kind == "semitrailer")
    plan = plan_walk(known.model_copy(update={"kind": kind}), library().rules, air=air, power="cab")
    assert held in str(plan.steps[0].short)


@pytest.mark.parametrize("system", ["electric", "surge", "none", "air_over_hydraulic"])
def test_what_does_not_park_by_itself_ends_coupled_or_chocked_and_says_which(
    system: BrakeSystem,
) -> None:
    known = next(v for v in library().vehicles if v.kind == "semitrailer")
    vehicle = known.model_copy(update={"brakes": Brakes(system=system)})
    last = plan_walk(vehicle, library().rules).steps[-1]
    assert (last.id, last.must) == ("chocks_stay", True)
    assert [choice.id for choice in last.choices] == ["coupled", "chocked"]
    assert "parking brakes seen" not in str(last.short).lower()


def test_rear_air_lines_are_shut_before_any_air_goes_in() -> None:
    """A converter dolly or full trailer leads air on to a unit behind it."""
    for plan in plans():
        ids = [step.id for step in plan.steps]
        behind = plan.vehicle.kind in ("full trailer", "converter dolly")
        air = plan.vehicle.brakes.system == "air"
        assert ("rear_lines_shut" in ids) == (behind and air)
        if "rear_lines_shut" in ids:
            charged = ids.index("supply_charged" if plan.air == "shop" else "charged_coupled")
            assert ids.index("rear_lines_shut") < charged


def test_air_over_hydraulic_has_its_air_checked_and_its_fluid_named_as_not() -> None:
    """49 CFR 570.57 is for air brake systems and air-over-hydraulic subsystems, by its title."""
    truck = next(v for v in library().vehicles if v.brakes.system == "air_over_hydraulic")
    plan = plan_walk(truck, library().rules, power="cab")
    ids = {step.id for step in plan.steps}
    assert {"released_hold", "reserve", "applied_hold_tow", "booster_seen", "cut_out"} <= ids
    assert not any(step.kind == "chambers" or "stroke" in step.id for step in plan.steps)
    assert any("fluid" in str(sentence) for sentence in not_covered(truck))


def test_the_chamber_is_read_before_its_stroke_is_measured() -> None:
    """49 CFR 393.47(b), (e): the limit follows from the chamber that is there."""
    for plan in plans():
        ids = [step.id for step in plan.steps]
        for step in plan.steps:
            if step.id.startswith("stroke_"):
                axle = step.id.split("_")[1]
                read = plan.step(f"rods_marked_{axle}")
                assert read is not None
                assert read.kind == "chambers"
                assert ids.index(read.id) < ids.index(step.id)
                assert "square ports, a trapezoid tag" in str(plan.step("rods_marked_1").long)  # type: ignore[union-attr]
