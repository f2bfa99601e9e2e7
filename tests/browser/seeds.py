"""Walks that are under way already, made by the app, so that a test starts where it matters."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from support.values import good_values
from support.walks import FakeClock

from walkaround.bootstrap import Parts
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Scope, Step
from walkaround.records.open_walks import Change
from walkaround.walk.events import (
    Answered,
    GaugesTold,
    HoldBegan,
    HoldEnded,
    Measured,
    ReadingTaken,
)

WHO = "Ana"
SEMITRAILER = "sandbag_semitrailer_7"
PUMP_TRAILER = "pump_trailer_3"
TRACTOR = "depot_tractor_2"
NAMES: Mapping[str, str] = {
    SEMITRAILER: "Sandbag semitrailer 7",
    PUMP_TRAILER: "Pump trailer 3",
    TRACTOR: "Depot tractor 2",
}


def plan_for(
    parts: Parts, vehicle_id: str, scope: Scope = "whole", *, together: bool = False
) -> Plan:
    """The walk that the app would plan for one of its own vehicles."""
    library = parts.library
    vehicle = next(vehicle for vehicle in library.vehicles if vehicle.id == vehicle_id)
    return plan_walk(vehicle, library.rules, scope=scope, together=together)


def walked(
    parts: Parts,
    vehicle_id: str,
    upto: str = "",
    *,
    scope: Scope = "whole",
    together: bool = False,
    bad: Mapping[str, Mapping[str, str]] | None = None,
) -> str:
    """A walk with every step before `upto` answered, all of them if it is empty; its id.

    `bad` gives what was seen of the faulty items of a step; other steps are OK, their air holds
    lose 1 psi in the minute.
    """
    plan = plan_for(parts, vehicle_id, scope, together=together)
    walk_id = parts.open_walks.begin(plan, WHO)
    for step in plan.steps:
        if step.id == upto:
            break
        answer(parts, walk_id, step, (bad or {}).get(step.id, {}))
    return walk_id


def answer(
    parts: Parts, walk_id: str, step: Step, seen: Mapping[str, str] = MappingProxyType({})
) -> None:
    """Another page than the test's does what the step asks and answers it."""
    plan = parts.open_walks.walk(walk_id).plan
    assert plan is not None
    if step.wait and isinstance(parts.clock, FakeClock):
        parts.clock.wait(step.wait.seconds)
    held = _held(step) if step.hold else [*_told(plan, step), *_measured(step)]
    given = {"step": step.id, "answer": "defect" if seen else "ok", "seen": dict(seen)}
    if step.choices and not seen:
        given["choice"] = step.choices[0].id
    parts.open_walks.do(walk_id, WHO, *held, (Answered, given))


def of_each_sort(plan: Plan) -> frozenset[str]:
    """The first step of each sort: by what it asks, how often, and which answers it takes."""
    first: dict[tuple[object, ...], str] = {}
    for step in plan.steps:
        asked = (step.measure.quantity, len(step.measure.values)) if step.measure else ()
        held = step.hold.gauges if step.hold else ()
        first.setdefault((step.kind, step.must, len(step.items) > 1, asked, held), step.id)
    return frozenset(first.values())


def _held(step: Step) -> list[Change]:
    assert step.hold is not None
    readings: list[Change] = [
        (ReadingTaken, {"step": step.id, "gauge": gauge, "at_s": at_s, "psi": psi - lost})
        for at_s, lost in ((0.0, 0.0), (step.hold.seconds, 1.0))
        for gauge, psi in step.hold.set_psi.items()
    ]
    return [(HoldBegan, {"step": step.id}), *readings, (HoldEnded, {"step": step.id})]


def _told(plan: Plan, step: Step) -> list[Change]:
    if step.kind != "gauges":
        return []
    gauges = {line: {"name": line} for line in plan.gauges}
    return [(GaugesTold, {"step": step.id, "gauges": gauges, "altitude_m": 0.0, "at_zero": True})]


def _measured(step: Step) -> list[Change]:
    if step.measure is None:
        return []
    body = {"step": step.id, "unit": step.measure.quantity}
    return [
        (Measured, body | {"value_id": value.id, "value": amount})
        for value, amount in good_values(step.measure)
    ]


def place_of(plan: Plan, step_id: str) -> int:
    """The number of a step as the screen counts."""
    return [step.id for step in plan.steps].index(step_id) + 1
