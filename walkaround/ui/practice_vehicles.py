"""Vehicles of practice, made from what a library and the standards' tables say of a vehicle."""

from __future__ import annotations

from walkaround.leaks.plumbing import plumbing_of
from walkaround.library.case_file import study_for
from walkaround.library.load import Library
from walkaround.library.standard_tables import standard_tables
from walkaround.plan.steps import Level, Plan
from walkaround.practice.air import HeldAir
from walkaround.practice.lamps import study_lamps
from walkaround.practice.vehicle import PracticeVehicle, levels_for, practice_vehicle
from walkaround.walk.events import Began
from walkaround.walk.evidence.air_heard import source_of
from walkaround.walk.state import Walk


def practice_vehicle_of(walk: Walk, library: Library) -> PracticeVehicle | None:
    """Make the vehicle of a walk in practice; None where no fault of its level can be put in.

    Raises:
        InputError: the vehicle cannot be wired, or its plumbing not laid.
    """
    began = walk.events[0]
    assert isinstance(began, Began)
    # As it was planned: what is read off a chamber since changes what strokes are held against.
    plan = began.plan
    if plan.practice is None:
        return None
    study = study_for(plan.vehicle, library, plan.power)
    lamps, air = study_lamps(plan, study), held_air(plan)
    return practice_vehicle(plan, study, lamps, air, plan.practice)


def levels_of(plan: Plan, library: Library) -> tuple[Level, ...]:
    """List the levels that can be practiced on the vehicle of a plan, the easiest first.

    Raises:
        InputError: the vehicle cannot be wired, or its plumbing not laid.
    """
    return levels_for(
        plan, study_lamps(plan, study_for(plan.vehicle, library, plan.power)), held_air(plan)
    )


def held_air(plan: Plan) -> HeldAir | None:
    """Lay the plumbing of a plan's vehicle; None where its air is held nowhere."""
    if not any(step.hold for step in plan.steps):
        return None
    tables = standard_tables().air
    plumbing = plumbing_of(plan.vehicle, tables, source_of(plan), plan.towed)
    return HeldAir(plumbing, tables.figures["heard_from"])
