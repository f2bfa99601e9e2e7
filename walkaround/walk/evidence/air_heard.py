"""What a walk tells of its air: what each hold lost, what was heard where, what was tried since."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from walkaround.airhold.hold import Hold
from walkaround.airhold.verdict import Z
from walkaround.base.errors import InputError
from walkaround.leaks.plumbing import Source
from walkaround.leaks.ranking import AirEvidence, HoldLosses, MeasuredLoss
from walkaround.leaks.tables import BrakeState
from walkaround.plan.steps import Plan, Step
from walkaround.rules.limits import Line
from walkaround.vehicle.model import POWER_UNITS
from walkaround.walk.state import FAULTS, Walk

_BRAKES: Mapping[str, BrakeState] = {"supply_hold": "released", "applied_hold": "applied"}
"""How the brakes stand in a hold, by the part of the walk that it belongs to."""
LOOKED: Mapping[str, tuple[BrakeState, Mapping[str, str]]] = {
    "lines_off": ("dumped", {"red_air": "red_gladhand"}),
    "blue_quiet": ("applied", {"blue_air": "blue_gladhand", "red_air": "red_gladhand"}),
    "booster_seen": ("applied", {"cylinder_air": "cylinder"}),
}
"""Looks at which air is heard: how the brakes stand then, and the place of each of their items."""


def brakes_at(step: Step) -> BrakeState | None:
    """Tell how the brakes stand in the air hold of a step; None where it has none."""
    return _BRAKES.get(step.part) if step.hold else None


def source_of(plan: Plan) -> Source:
    """Tell whose air a plan's vehicle is held on."""
    return "own" if plan.vehicle.kind in POWER_UNITS else plan.air or "shop"


def is_lost(walk: Walk, step: Step) -> bool:
    """Tell whether the air hold of a step is over its limit, or was answered with a defect."""
    hold = walk.holds.get(step.id)
    return walk.is_open(step.id) or (hold is not None and bool(hold.ended) and hold.over())


def losing_steps(walk: Walk) -> tuple[Step, ...]:
    """List the steps whose air hold lost too much and was not found well since."""
    return tuple(step for step in walk.steps if brakes_at(step) and is_lost(walk, step))


def air_heard(walk: Walk) -> AirEvidence:
    """Gather what a walk tells of its vehicle's air."""
    heard_places: dict[BrakeState, tuple[str, ...]] = {}
    for step in walk.steps:
        brakes, places = _heard_at(walk, step)
        if brakes and places:
            heard_places[brakes] = (*heard_places.get(brakes, ()), *places)
    return AirEvidence(tuple(_holds(walk)), heard_places, dict(walk.tried))


def _holds(walk: Walk) -> Iterator[HoldLosses]:
    for step in walk.steps:
        hold, brakes = walk.holds.get(step.id), brakes_at(step)
        if brakes and hold and hold.ended and hold.ended != "settling":
            yield HoldLosses(brakes, dict(_lost(hold)))


def _lost(hold: Hold) -> Iterator[tuple[Line, MeasuredLoss]]:
    try:
        results = hold.results()
    except InputError:
        return
    for gauge, assessment in results.items():
        error = (assessment.high_psi_per_min - assessment.low_psi_per_min) / (2 * Z)
        yield gauge, MeasuredLoss(assessment.rate_psi_per_min, error)


def _heard_at(walk: Walk, step: Step) -> tuple[BrakeState | None, tuple[str, ...]]:
    """Return how the brakes stood at a step, and where air was heard, if anybody listened."""
    if brakes := brakes_at(step):
        return brakes, walk.heard.get(step.id, ())
    answered = walk.answers.get(step.id)
    if step.id not in LOOKED or answered is None or answered.answer not in FAULTS:
        return None, ()
    brakes, places = LOOKED[step.id]
    return brakes, tuple(places[item] for item in answered.seen if item in places)
