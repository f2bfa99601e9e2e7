"""How far the mechanic walks: trips round the vehicle, or to one spot and back.

The way is 1 m outside the outline, clockwise seen from above, from the front and back to it. The
outline is taken as a rectangle; the curve at a distance r around a convex outline is 2 pi r longer
than the outline (J. Steiner, 1840, from memory). The spots are in the middle of each side, so that
neighbours on this curve are a quarter of it apart, whatever the vehicle's length.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import pairwise
from math import pi

from walkaround.rules.checklist import SPOTS, Station
from walkaround.vehicle.model import Vehicle

_AT_FRONT: tuple[Station, ...] = ("cab", "source")
OUTSIDE_M = 1.0
"""How far from the vehicle a mechanic walks (common practice, no source)."""


def round_m(vehicle: Vehicle) -> float:
    """The length of one round of the vehicle, metres."""
    return 2 * (vehicle.length_mm + vehicle.width_mm) / 1000 + 2 * pi * OUTSIDE_M


def walked_m(vehicle: Vehicle, trips: Iterable[Collection[str]]) -> float:
    """How far these trips are, metres.

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
    """How far it is from each of these stations to the next, the shorter way round, metres.

    Cab and source are at the front, where lines and cable are connected.
    """
    places = [SPOTS.index("front" if at in _AT_FRONT else at) for at in stations]
    apart = [abs(there - here) for here, there in pairwise(places)]
    quarters = sum(min(way, len(SPOTS) - way) for way in apart)
    return round_m(vehicle) * quarters / len(SPOTS)


def trips(stations: Iterable[Station]) -> int:
    """How often somebody goes from the cab or the source to the vehicle."""
    return sum(here in _AT_FRONT and there not in _AT_FRONT for here, there in pairwise(stations))
