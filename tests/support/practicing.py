"""Shipped vehicles in practice, and trainees who answer by rule."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import NamedTuple, get_args

from support.lampcases import LIBRARY, VEHICLES

from walkaround.causes.study import Study
from walkaround.library.case_file import study_for
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Level, Plan, Step
from walkaround.practice.air import HeldAir
from walkaround.practice.lamps import SeenLamps, study_lamps
from walkaround.practice.levels import PracticeFault, draw_fault, possible_faults
from walkaround.practice.vehicle import PracticeVehicle
from walkaround.ui.practice_vehicles import held_air
from walkaround.vehicle.model import Vehicle
from walkaround.walk.events import Answer, Answered, Seen

LAMP_LEVELS: tuple[Level, ...] = ("dead_lamp", "bad_ground", "crossed_turns")


@cache
def plan_of(vehicle_id: str) -> Plan:
    """The whole walk of a shipped vehicle."""
    return plan_walk(VEHICLES[vehicle_id], LIBRARY.rules)


class _Made(NamedTuple):
    plan: Plan
    study: Study
    lamps: SeenLamps
    air: HeldAir | None


@cache
def _made(vehicle_id: str) -> _Made:
    plan = plan_of(vehicle_id)
    study = study_for(plan.vehicle, LIBRARY, plan.power)
    return _Made(plan, study, study_lamps(plan, study), held_air(plan))


@cache
def _possible(vehicle_id: str, level: Level) -> list[PracticeFault]:
    plan, _, lamps, air = _made(vehicle_id)
    return possible_faults(level, plan, lamps, air)


@cache
def levels(vehicle_id: str) -> tuple[Level, ...]:
    """The levels that a shipped vehicle has."""
    return tuple(level for level in get_args(Level) if _possible(vehicle_id, level))


def in_practice(vehicle_id: str, level: Level, seed: int) -> PracticeVehicle:
    """A shipped vehicle with a fault of this level in it; what seeds share is worked out once."""
    return PracticeVehicle(*_made(vehicle_id), draw_fault(seed, _possible(vehicle_id, level)))


def _had(vehicle: Vehicle) -> Iterator[Level]:
    """The levels that a vehicle has by its brakes; working them out takes seconds for all."""
    yield from LAMP_LEVELS
    if vehicle.brakes.system in ("air", "air_over_hydraulic"):
        yield "leak"
    if vehicle.brakes.system == "air":
        yield "odd_chamber"


EVERY = [(id_, level) for id_, vehicle in VEHICLES.items() for level in _had(vehicle)]
"""Each shipped vehicle with each level that it has."""


def given(step: Step, answer: Answer, seen: Mapping[str, Seen] | None = None) -> Answered:
    """An answer to a step, as far as marks look at it."""
    return Answered.model_construct(step=step.id, answer=answer, seen=dict(seen or {}))


def all_well(vehicle: PracticeVehicle) -> dict[str, Answered]:
    """A trainee who says OK to everything."""
    return {step.id: given(step, "ok") for step in vehicle.plan.steps}


def rightly(vehicle: PracticeVehicle) -> dict[str, Answered]:
    """A trainee who reports what the picture, the needles, the rule and the ear tell, and no more.

    It looks at what is shown, not at what is due.
    """
    return {step.id: _answered(vehicle, step) for step in vehicle.plan.steps}


def _answered(vehicle: PracticeVehicle, step: Step) -> Answered:
    seen = dict(_seen(vehicle, step))
    if seen or _over(vehicle, step):
        return given(step, "defect", seen)
    return given(step, "ok")


def _seen(vehicle: PracticeVehicle, step: Step) -> Iterator[tuple[str, Seen]]:
    if step.kind == "lamp":
        shown = vehicle.lamp_looks(step)
        for item in step.items:
            look, right = shown.get(item.id), step.expect.get(item.id)
            if look is None or look == right:
                continue
            if right == "dark":
                yield item.id, "wrong_lamp"
            elif look == "dark":
                yield item.id, "dark"
            elif look in ("dim", "dim_flashing"):
                yield item.id, "dim"
            else:
                yield item.id, "flashing" if look == "flashing" else "steady"
    elif heard_at := vehicle.hiss(step):
        yield heard_at, "leak"


def _over(vehicle: PracticeVehicle, step: Step) -> bool:
    """Whether what a needle or a rule shows is over the limit of the step, or chambers differ."""
    if step.hold:
        lost = (
            vehicle.psi(step, gauge, 0.0) - vehicle.psi(step, gauge, 60.0)
            for gauge in step.hold.gauges
        )
        return any(psi > step.hold.limit_psi_per_min for psi in lost)
    if step.kind == "chambers":
        ends = {item.place for item in step.items if item.place.endswith(("_left", "_right"))}
        return len({vehicle.chamber(end).long_stroke for end in ends}) > 1
    if step.measure and step.measure.quantity == "in" and step.items:
        [value] = step.values
        chamber = vehicle.chamber(step.items[0].place)
        same = {
            row.limit_in
            for row in vehicle.plan.chambers
            if (row.type, row.long_stroke) == (chamber.type, chamber.long_stroke)
            and row.rated_stroke_in in (None, chamber.rated_stroke_in)
        }
        return vehicle.reading(step, value) > max(limit or 0.0 for limit in same)
    return False
