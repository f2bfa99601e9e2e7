"""How far a mechanic walks, and how long a walk takes.

The way is 1 m outside the outline, clockwise seen from above, from the front and back to it. The
outline is taken as a rectangle; the curve at a distance r around a convex outline is 2 pi r longer
than the outline (J. Steiner, 1840, from memory). The spots are in the middle of each side, so that
neighbors on this curve are a quarter of it apart, whatever the vehicle's length.

The time of a walk is an estimate to choose by, not a target: its figures are our own, common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from itertools import pairwise
from math import pi

from walkaround.plan.steps import Plan, Step
from walkaround.rules.checklist import SPOTS, Station, StepKind
from walkaround.vehicle.model import Vehicle

_AT_FRONT: tuple[Station, ...] = ("cab", "source")
OUTSIDE_M = 1.0
"""How far from the vehicle a mechanic walks (common practice, no source)."""
WALKING_M_PER_S = 1.2
"""How fast a mechanic walks between two places of a vehicle; common practice, no source."""
SECONDS_OF_KIND: Mapping[StepKind, float] = {
    "act": 15.0,
    "look": 8.0,
    "lamp": 6.0,
    "listen": 10.0,
    "hold": 75.0,
    "measure": 15.0,
    "chambers": 25.0,
    "gauges": 15.0,
    "wait": 0.0,
}
"""What a step of each kind takes besides its words; of a wait, see `walk_s`. Common practice, no
source: our own estimate."""


def round_m(vehicle: Vehicle) -> float:
    """Return the length of one round of the vehicle, meters."""
    return 2 * (vehicle.length_mm + vehicle.width_mm) / 1000 + 2 * pi * OUTSIDE_M


def walked_m(vehicle: Vehicle, trips: Iterable[Collection[str]]) -> float:
    """Tell how far these trips are, meters.

    Args:
        trips: the spots of each. One spot is walked to and back by the shorter way; several
            take a whole round.
    """
    return round_m(vehicle) * sum(_share(spots) for spots in trips)


def _share(spots: Collection[str]) -> float:
    if len(set(spots)) != 1:
        return 1.0 if spots else 0.0
    quarters = SPOTS.index(next(spot for spot in SPOTS if spot in spots))
    return 2 * min(quarters, len(SPOTS) - quarters) / len(SPOTS)


def way_m(vehicle: Vehicle, stations: Iterable[Station]) -> float:
    """Tell how far it is from each of these stations to the next, the shorter way round, meters.

    Cab and source are at the front, where lines and cable are connected.
    """
    places = [SPOTS.index("front" if at in _AT_FRONT else at) for at in stations]
    apart = [abs(there - here) for here, there in pairwise(places)]
    quarters = sum(min(way, len(SPOTS) - way) for way in apart)
    return round_m(vehicle) * quarters / len(SPOTS)


def trips(stations: Iterable[Station]) -> int:
    """Tell how often somebody goes from the cab or the source to the vehicle."""
    return sum(here in _AT_FRONT and there not in _AT_FRONT for here, there in pairwise(stations))


def walk_s(plan: Plan, spoken_words: int, words_per_min: float) -> float:
    """Estimate how long a walk takes that finds nothing wrong, seconds.

    Args:
        plan: what it asks.
        spoken_words: how many words its prompts have, as they are said.
        words_per_min: how fast they are said.
    """
    said_s = 60.0 * spoken_words / words_per_min
    walked_s = way_m(plan.vehicle, (step.spot for step in plan.steps)) / WALKING_M_PER_S
    done_s = sum(SECONDS_OF_KIND[step.kind] for step in plan.steps)
    return said_s + walked_s + done_s + sum(_left_s(plan, step) for step in plan.steps)


def _left_s(plan: Plan, step: Step) -> float:
    """What of a wait is left once the steps are done during which it runs, seconds."""
    if step.wait is None or plan.step(step.wait.after) is None:
        return 0.0
    ids = [each.id for each in plan.steps]
    steps_meanwhile = plan.steps[ids.index(step.wait.after) + 1 : ids.index(step.id)]
    return max(0.0, step.wait.seconds - sum(SECONDS_OF_KIND[each.kind] for each in steps_meanwhile))
