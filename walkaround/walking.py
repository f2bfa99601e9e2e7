"""The way round a vehicle: which spots, in which order, and how far it is.

The mechanic walks 1 m outside the outline, clockwise seen from above. The outline is taken as a
rectangle; the curve at a distance r around a convex outline is 2 pi r longer than the outline
(J. Steiner, 1840, from memory). The spots are in the middle of each side, so that neighbours on
this curve are a quarter of it apart, whatever the vehicle's length.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import pi

from walkaround.checklist import SPOTS, Spot
from walkaround.lamps import Lamp
from walkaround.rounds import Rounds
from walkaround.vehicle import Vehicle

OUTSIDE_M = 1.0
"""How far from the vehicle a mechanic walks (common practice, no source)."""


def walking_order(lamps: Iterable[Lamp], start: Spot = "front") -> tuple[Spot, ...]:
    """The spots that have lamps, clockwise seen from above, the first one at or after `start`."""
    with_lamps = {lamp.spot for lamp in lamps}
    return tuple(spot for spot in _clockwise(start) if spot in with_lamps)


def round_m(vehicle: Vehicle) -> float:
    """The length of one round of the vehicle, metres."""
    return 2 * (vehicle.length_mm + vehicle.width_mm) / 1000 + 2 * pi * OUTSIDE_M


def walked_m(vehicle: Vehicle, rounds: Rounds, start: Spot = "front") -> float:
    """How far the mechanic walks: every round back to the start, and what the load check adds.

    A load check that wants another trip to the cab adds the way from the start to the rear.
    """
    quarters = _clockwise(start).index("rear") if rounds.trips > rounds.rounds else 0
    return round_m(vehicle) * (rounds.rounds + quarters / 4)


def _clockwise(start: Spot) -> Sequence[Spot]:
    first = SPOTS.index(start)
    return [*SPOTS[first:], *SPOTS[:first]]
