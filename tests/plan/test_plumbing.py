"""Every order of a walk, folded through a small model of the vehicle's air, engine and brakes.

Nobody is in while a valve may move, no full service over set spring brakes, no start in gear,
chocks first and last, and no order for what the state before it cannot give: in every shipped
vehicle's walk, from every source, in every scope, in rechecks, and going back wherever the walk
allows it. The model, apart from the code, is tests/support/plumbing.py.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from functools import cache
from itertools import product
from types import MappingProxyType

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.plumbing import Plumbing, UnsafeError, followed

from walkaround.base.clock import Moment
from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Scope
from walkaround.rules.limits import Air
from walkaround.vehicle.model import POWER_UNITS, Axle, Brakes, Vehicle
from walkaround.walk.events import Answered
from walkaround.walk.state import Walk
from walkaround.walk.transitions import recheck_stands

AIRS: tuple[Air, ...] = ("shop", "coupled")
SCOPES: tuple[Scope, ...] = ("whole", "lamps", "brakes")


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


def sources(vehicle: Vehicle) -> list[str]:
    powers = library().rules.power_sources
    return [p for p in powers if p != "box" or vehicle.kind not in POWER_UNITS]


def stations() -> Iterator[tuple[Vehicle, str, Air]]:
    for vehicle in library().vehicles:
        airs = AIRS[:1] if vehicle.kind in POWER_UNITS else AIRS
        yield from ((vehicle, power, air) for power, air in product(sources(vehicle), airs))


STATIONS = [pytest.param(*each, id=f"{each[0].id}-{each[1]}-{each[2]}") for each in stations()]


@pytest.mark.parametrize(("vehicle", "power", "air"), STATIONS)
@pytest.mark.parametrize("together", [True, False])
@pytest.mark.parametrize("scope", SCOPES)
def test_every_walk_keeps_people_whole(
    vehicle: Vehicle, power: str, air: Air, scope: Scope, together: bool
) -> None:
    followed(
        plan_walk(
            vehicle, library().rules, scope=scope, power=power, air=air, together=together, towed=1
        )
    )


@pytest.mark.parametrize(("vehicle", "power", "air"), STATIONS)
def test_a_recheck_of_any_step_alone_keeps_people_whole(
    vehicle: Vehicle, power: str, air: Air
) -> None:
    whole = plan_walk(vehicle, library().rules, power=power, air=air)
    lamps = [step for step in whole.steps if step.kind == "lamp"]
    # What switches the lamps changes nothing of a recheck of the brakes.
    once = power == sources(vehicle)[0]
    for step in whole.steps:
        if step.looks and (once or step.kind == "lamp") and step not in lamps[2:-2]:
            followed(
                plan_walk(
                    vehicle,
                    library().rules,
                    scope="recheck",
                    power=power,
                    air=air,
                    only=(step.id,),
                )
            )


@given(st.data())
def test_a_recheck_of_several_steps_keeps_people_whole(data: st.DataObject) -> None:
    vehicle, power, air = data.draw(st.sampled_from([*stations()]))
    whole = plan_walk(vehicle, library().rules, power=power, air=air)
    looks = [step.id for step in whole.steps if step.looks]
    only = data.draw(st.lists(st.sampled_from(looks), min_size=2, max_size=5, unique=True))
    rechecked = plan_walk(
        vehicle, library().rules, scope="recheck", power=power, air=air, only=only
    )
    followed(rechecked)
    assert set(only) <= {step.id for step in rechecked.steps}


@given(
    kind=st.sampled_from(["semitrailer", "full trailer", "pole trailer", "converter dolly"]),
    axles=st.lists(
        st.builds(
            Axle,
            actuator=st.sampled_from(["clamp", "wedge", "other"]),
            spring=st.booleans(),
            lift=st.booleans(),
        ),
        max_size=4,
    ),
    system=st.sampled_from(["air", "electric", "surge", "none", "air_over_hydraulic"]),
    air=st.sampled_from(AIRS),
    scope=st.sampled_from(SCOPES),
)
def test_any_trailer_s_walk_keeps_people_whole(
    kind: str, axles: list[Axle], system: str, air: Air, scope: Scope
) -> None:
    semi = next(vehicle for vehicle in library().vehicles if vehicle.kind == "semitrailer")
    brakes = Brakes.model_validate({"system": system, "axles": axles})
    vehicle = semi.model_copy(update={"kind": kind, "brakes": brakes})
    followed(plan_walk(vehicle, library().rules, air=air, scope=scope))


@pytest.mark.parametrize(("vehicle", "power", "air"), STATIONS)
def test_going_back_wherever_the_walk_allows_it_keeps_people_whole(
    vehicle: Vehicle, power: str, air: Air
) -> None:
    """At each step, each earlier one that may be repeated there is, and the walk goes on."""
    plan = plan_walk(vehicle, library().rules, power=power, air=air)
    state = Plumbing(plan)
    answers = answered(plan)
    gone_back = 0
    for at, step in enumerate(plan.steps):
        given = {step.id: answers[step.id] for step in plan.steps[:at]}
        walk = Walk(plan=plan, phase="stepping", answers=MappingProxyType(given))
        for earlier in plan.steps[:at]:
            if earlier.looks and recheck_stands(walk, earlier.id):
                again = replace(state, done=[*state.done])
                again.follow(earlier)
                again.follow(step)
                gone_back += 1
        state.follow(step)
    assert gone_back > len(plan.steps) / 2


def answered(plan: Plan) -> dict[str, Answered]:
    """An OK to each step of a plan."""
    at = Moment(utc=datetime(2026, 11, 26, tzinfo=UTC), mono_s=0.0, boot="boot")
    return {
        step.id: Answered(
            seq=1, id="0" * 32, at=at, who="", digest="0" * 64, step=step.id, answer="ok"
        )
        for step in plan.steps
    }


@pytest.mark.parametrize(
    ("first", "then", "why"),
    [
        (("chocks_on", "lines_on", "supply_charged"), "lines_on", "under pressure"),
        ((), "supply_charged", "before the lines"),
        (("chocks_on", "lines_on", "supply_charged"), "applied_hold", "not applied"),
        (("chocks_on", "lines_on"), "stroke_1_left", "80 to 90"),
        (("chocks_on", "lines_on", "supply_charged"), "lines_off", "under pressure"),
    ],
)
def test_the_model_refuses_what_is_unsafe(first: tuple[str, ...], then: str, why: str) -> None:
    semi = next(vehicle for vehicle in library().vehicles if vehicle.kind == "semitrailer")
    plan = plan_walk(semi, library().rules)
    steps = [plan.step(id_) for id_ in first]
    vehicle = followed(plan, [step for step in steps if step])
    order = plan.step(then)
    assert order is not None
    with pytest.raises(UnsafeError, match=why):
        vehicle.follow(order)


def test_the_model_refuses_a_walk_without_its_call_to_clear() -> None:
    semi = next(vehicle for vehicle in library().vehicles if vehicle.kind == "semitrailer")
    plan = plan_walk(semi, library().rules)
    with pytest.raises(UnsafeError, match="may be in"):
        followed(plan, [step for step in plan.steps if step.id != "clear_called"])


def test_the_model_refuses_an_engine_started_before_it_was_out_of_gear() -> None:
    tractor = next(vehicle for vehicle in library().vehicles if vehicle.kind == "truck tractor")
    plan = plan_walk(tractor, library().rules, power="cab")
    steps = [
        step.model_copy(update={"short": str(step.short).replace("out of gear", "")})
        for step in plan.steps
    ]
    with pytest.raises(UnsafeError, match="out of gear"):
        followed(plan, steps)
