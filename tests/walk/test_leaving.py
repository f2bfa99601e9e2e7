"""What is said to one who leaves a vehicle: its open brake defects, and the air it stands under.

The orders themselves are common practice, no source; what stands under air when is checked against
the plumbing model of the tests, which is apart from the code.
"""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest
from support.plumbing import Plumbing
from support.walks import Teller, begun

from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Scope
from walkaround.rules.limits import Air
from walkaround.vehicle.model import POWER_UNITS
from walkaround.walk.events import Answered
from walkaround.walk.leaving import brake_defects, leaving_step, under_air

SEMI = "sandbag_semitrailer_7"


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


def planned(vehicle_id: str, air: Air = "shop", scope: Scope = "whole") -> Plan:
    vehicle = next(vehicle for vehicle in library().vehicles if vehicle.id == vehicle_id)
    power = "cab" if vehicle.kind in POWER_UNITS else "box"
    return plan_walk(vehicle, library().rules, power=power, air=air, scope=scope)


def answer(teller: Teller, **more: str) -> None:
    step = teller.walk.place
    assert step
    wanted = more.get(step.id, "")
    if not wanted:
        wanted = "ok" if step.must or step.kind == "act" else "not_checked"
    choice = step.choices[0].id if step.choices and wanted == "ok" else ""
    reason = "no_tool" if wanted == "not_checked" else None
    teller.tell(Answered, step=step.id, answer=wanted, reason=reason, choice=choice)


def to_the_end(plan: Plan, **more: str) -> Teller:
    teller = begun(plan)
    while teller.walk.place and teller.walk.place is not plan.steps[-1]:
        answer(teller, **more)
    return teller


@pytest.mark.parametrize(
    ("defects", "count"),
    [
        ({}, 0),
        ({"look_1_rear": "defect"}, 0),
        ({"rods_back": "defect"}, 1),
        ({"rods_back": "defect", "brakes_set": "defect", "look_1_rear": "defect"}, 2),
    ],
)
def test_the_last_step_knows_the_open_brake_defects(defects: dict[str, str], count: int) -> None:
    plan = planned(SEMI)
    walk = to_the_end(plan, **defects).walk
    assert brake_defects(walk) == count
    last = leaving_step(walk, plan.steps[-1])
    for wording in ("short", "long", "brisk"):
        stays = str(getattr(last, wording)) == "Leave the chocks in and tag the vehicle."
        assert stays == bool(count)
    told = {0: "", 1: "One open brake defect.", 2: "2 open brake defects."}
    assert str(last.caution) == told[count]
    assert last.choices == plan.steps[-1].choices


def test_what_the_last_step_warns_of_anyway_is_still_said() -> None:
    plan = planned("pump_trailer_3")
    walk = to_the_end(plan, rods_back="defect").walk
    told = str(leaving_step(walk, plan.steps[-1]).caution)
    assert told.startswith("One open brake defect. ")
    assert told.endswith(str(plan.steps[-1].caution))
    assert plan.steps[-1].caution


def test_no_other_step_is_told_otherwise_for_a_defect() -> None:
    plan = planned(SEMI)
    walk = to_the_end(plan, rods_back="defect").walk
    assert [step for step in plan.steps if leaving_step(walk, step) != step] == [plan.steps[-1]]


@pytest.mark.parametrize("air", ["shop", "coupled"])
@pytest.mark.parametrize("vehicle_id", [vehicle.id for vehicle in library().vehicles])
def test_whoever_stops_under_air_is_told_what_to_do_first(vehicle_id: str, air: Air) -> None:
    plan = planned(vehicle_id, air)
    vehicle, teller = Plumbing(plan), begun(plan)
    charged = 0
    for step in plan.steps[:-1]:
        vehicle.follow(step)
        answer(teller)
        orders = [str(order) for order in under_air(teller.walk)]
        if vehicle.service:
            assert "held on by air" in orders[0], step.id
        if vehicle.red >= 60:
            charged += 1
            assert any("Air is in the lines" in order for order in orders), step.id
        if not charged:
            assert orders == [], step.id
    assert under_air(to_the_end(plan).walk) == ()


def test_a_walk_of_lamps_alone_leaves_no_air() -> None:
    teller = begun(planned(SEMI, scope="lamps"))
    while teller.walk.place:
        answer(teller)
        assert under_air(teller.walk) == ()
