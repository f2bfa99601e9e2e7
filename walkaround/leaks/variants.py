"""What each leak does, at each size: how fast each gauge falls, and what can be heard where.

A variant is a way of leaking with a hole of one size. Sizes lie evenly apart by their ratio, and
each is as likely as the others: nobody knows how large a hole is before it is found. The same hole
that empties a tank slowly empties a hose at once, so a rate tells of both, volume and size.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from walkaround.diagnosis.figures import FigureTable
from walkaround.diagnosis.ranking import Flags, Floats, Numbers
from walkaround.diagnosis.thresholds import share_above
from walkaround.leaks.plumbing import ATMOSPHERE_PSI, Plumbing
from walkaround.leaks.tables import BRAKE_STATES, BrakeState
from walkaround.rules.limits import Line

NOTHING = "nothing"
"""What is heard where nothing is."""
_CHARGED_PSI = 100.0
_NEXT_TO = {
    "red_gladhand": "front", "blue_gladhand": "front", "red_hose": "front", "blue_hose": "front",
    "test_hose": "front", "relay_exhaust": "frame", "spring_valve": "frame", "tank": "frame",
    "tank_primary": "frame", "tank_secondary": "frame", "tank_supply": "frame",
    "cylinder": "frame", "cylinder_hose": "frame", "park_hose": "frame", "dash": "cab",
    "foot_valve": "cab", "governor": "engine", "dryer": "engine",
}  # fmt: skip
"""Where places lie; those at one wheel end lie together too."""


class AirPart(NamedTuple):
    """A part that may leak: `place` tells it from others of its kind."""

    kind: str
    place: str


@dataclass(frozen=True, slots=True)
class LeakVariants:
    """Every leak at every size, the last of each array being a vehicle without a leak.

    Attributes:
        parts: the part of each variant.
        before: how often each happens beside the others; without the last.
        places: where something may be heard, then `NOTHING`.
        rates: psi a minute that each gauge loses, [gauge, variant], by how the brakes stand.
        flows: l/min of free air, [variant], by how the brakes stand; 0 where it does not leak.
        place_of: where it is, [variant], as a place in `places`, by how the brakes stand.
        told_chances: the chance that a place is told of, [place, variant], by the brakes' state.
    """

    parts: tuple[AirPart, ...]
    before: Floats
    gauges: tuple[Line, ...]
    places: tuple[str, ...]
    rates: dict[BrakeState, Floats]
    flows: dict[BrakeState, Floats]
    place_of: dict[BrakeState, Numbers]
    told_chances: dict[BrakeState, Floats]

    def leaks_at(self, brakes: BrakeState, place: str) -> Flags:
        """Tell whether each variant leaks there while the brakes stand so."""
        return np.asarray(self.place_of[brakes] == self.places.index(place))


def leak_variants_of(plumbing: Plumbing, figures: FigureTable) -> LeakVariants:
    """Work out every leak of a vehicle at every size."""
    sizes = np.geomspace(
        figures["hole_least_l_per_min"], figures["hole_most_l_per_min"], int(figures["holes"])
    )
    ways, count = plumbing.ways, len(sizes)
    places = (*dict.fromkeys(way.heard for way in ways), NOTHING)
    rates, flows, place_of, place_chances = {}, {}, {}, {}
    for brakes in BRAKE_STATES:
        rate = np.zeros((len(plumbing.gauges), len(ways) * count + 1))
        flow = np.zeros(len(ways) * count + 1)
        at = np.full(len(flow), len(places) - 1, dtype=np.intp)
        for number, way in enumerate(ways):
            if brakes not in way.open_in or not plumbing.emptied(way.node, brakes):
                continue
            here = slice(number * count, (number + 1) * count)
            flow[here] = sizes * way.open_in[brakes]
            at[here] = places.index(way.heard)
            fall = plumbing.fall(way.node, brakes)
            for row, gauge in enumerate(plumbing.gauges):
                rate[row, here] = flow[here] * fall[gauge]
        # Of what empties within the minute no more can be lost than there was.
        most = _CHARGED_PSI + ATMOSPHERE_PSI
        rates[brakes], flows[brakes] = most * -np.expm1(-rate / most), flow
        place_of[brakes] = at
        place_chances[brakes] = _told_chances(places, flow, at, figures)
    return LeakVariants(
        parts=tuple(AirPart(way.kind, way.place) for way in ways for _ in sizes),
        before=np.array([way.share / count for way in ways for _ in sizes]),
        gauges=plumbing.gauges,
        places=places,
        rates=rates,
        flows=flows,
        place_of=place_of,
        told_chances=place_chances,
    )


def _told_chances(
    places: tuple[str, ...], flow: Floats, at: Numbers, figures: FigureTable
) -> Floats:
    """Return the chance that each place is named, [place, variant], or nothing is heard."""
    loud = np.maximum(flow, 1e-9) / figures["heard_from"]
    noticed = share_above(np.log(loud) / figures["heard_edge"]) * (flow > 0)
    noticed *= 1 - figures["heard_never"]
    nearness = np.array([[_confusion(one, other) for other in places] for one in places])
    nearness /= nearness.sum(axis=1, keepdims=True)
    elsewhere, wrong = figures["heard_elsewhere"], figures["heard_wrong"]
    right = np.eye(len(places)) * (1 - elsewhere) + nearness * elsewhere
    chance = noticed * right[at].T
    chance[-1] += 1 - noticed
    return np.asarray(chance * (1 - wrong) + wrong / len(places))


def _confusion(one: str, other: str) -> float:
    """Return how readily a leak at one place is taken for one at the other."""
    if one == other or other == NOTHING:
        return 0.0
    return 1.0 if _where(one) == _where(other) else 0.1


def _where(place: str) -> str:
    return _NEXT_TO.get(place) or place.partition("_")[2] or place


def rate_chances(rates: Floats, lost: float, error: float, figures: FigureTable) -> Floats:
    """Tell how well each rate explains what a gauge lost, 1 being best, [variant].

    Args:
        rates: that the gauge would lose, psi a minute.
        lost: what it lost, psi a minute; a rise counts as nothing lost.
        error: the standard deviation of that.
        figures: how far volumes and gauges may be off.
    """
    misread = figures["misread_gauge"]
    away = _sds(rates, error, figures) - _sds(np.array(max(lost, 0.0)), error, figures)
    return np.asarray((1 - misread) * np.exp(-(away**2) / 2) + misread * _BY_CHANCE)


def over_chances(rates: Floats, limit: float, figures: FigureTable) -> Floats:
    """Return the chance that a gauge losing so is judged over its limit, [variant]."""
    misread, error = figures["misread_gauge"], figures["rate_error"]
    away = _sds(rates, error, figures) - _sds(np.array(limit), error, figures)
    return np.asarray((1 - misread) * share_above(away) + misread / 2)


_BY_CHANCE = 0.15
"""How well a rate fits that was misread: as well as any between nothing and all of the air."""


def _sds(rates: Floats, error: float, figures: FigureTable) -> Floats:
    """Scale rates so that all are off by one: by the gauge, and by a share of themselves.

    The scale whose slope is 1 / sqrt(error^2 + (share rate)^2).
    """
    share, error = figures["model_error"], float(np.hypot(error, figures["gauge_floor"]))
    return np.asarray(np.arcsinh(share * rates / error) / share)
