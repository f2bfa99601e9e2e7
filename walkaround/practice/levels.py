"""The faults that are put into a vehicle, drawn by a seed: of each level one that can be seen.

Only what is plain to most eyes is put in: practice asks for the right look at the right place, not
for a guess between two words. The flasher of a vehicle in practice feels no load.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from walkaround.causes.faults import FaultVariant
from walkaround.leaks.tables import LeakPath
from walkaround.plan.steps import Chambers, Level, Plan, Step
from walkaround.practice.air import HeldAir, gauge_rates, hiss_place
from walkaround.practice.lamps import SeenLamps
from walkaround.walk.chambers import axle_of, comes_long, ends_of

_OVER_PSI_PER_MIN = 0.5
"""How much more than the limit a leak loses."""
_CLEAR_PSI_PER_MIN = 0.4
"""A gauge in practice is no nearer to its limit than this."""
_MOST_PSI_PER_MIN = 20.0
_FAULTS: dict[Level, tuple[str, ...]] = {
    "dead_lamp": ("burnt_out",),
    "bad_ground": ("poor_ground", "open_ground"),
    "crossed_turns": ("crossed",),
}


class Leak(NamedTuple):
    """A part that loses air: how, and how much free air where nothing holds against it, l/min."""

    way: LeakPath
    litres_per_min: float


class OddChamber(NamedTuple):
    """A chamber that is not what the vehicle's file has: at which end, what it is, its stroke."""

    end: str
    chamber: Chambers
    stroke_in: float


class PracticeFault(NamedTuple):
    """The fault of a vehicle in practice; one of the three fields is set."""

    lamps: FaultVariant | None = None
    leak: Leak | None = None
    chamber: OddChamber | None = None


def possible_faults(
    level: Level, plan: Plan, lamps: SeenLamps, air: HeldAir | None
) -> list[PracticeFault]:
    """List what a level may put into a vehicle; nothing where the vehicle can have none of it.

    Args:
        level: which.
        plan: of the walk.
        lamps, air: what its lamps and its gauges would show.
    """
    match level:
        case "leak":
            leaks = list(_leaks(plan, air)) if air else []
            heard = [leak for leak in leaks if air and _is_heard(plan, air, leak)]
            return [PracticeFault(leak=fault) for fault in heard or leaks]
        case "odd_chamber":
            return [PracticeFault(chamber=fault) for fault in _odd_chambers(plan)]
        case _:
            return [PracticeFault(lamps=fault) for fault in _lamp_faults(level, lamps)]


def draw_fault(seed: int, among: list[PracticeFault]) -> PracticeFault:
    """Draw one of them; the same seed draws the same."""
    return among[int(np.random.default_rng(seed).integers(len(among)))]


def _lamp_faults(level: Level, lamps: SeenLamps) -> Iterator[FaultVariant]:
    for variant in lamps.variants:
        kind = variant.fault.kind
        if kind not in _FAULTS[level] or variant.how != "whole":
            continue
        if kind == "crossed" and not _is_turn_pair(variant.fault.place):
            continue
        if lamps.is_plain(variant):
            yield variant


def _is_turn_pair(place: str) -> bool:
    one, other = place.split("+")
    return one.startswith("left_") and other == one.replace("left_", "right_", 1)


def _leaks(plan: Plan, air: HeldAir) -> Iterator[Leak]:
    """Yield leaks that take one gauge of one hold just over its limit, and none near its limit."""
    holds = [step for step in plan.steps if step.hold]
    for way in air.plumbing.ways:
        for step in holds:
            assert step.hold
            of_one = gauge_rates(air, Leak(way, 1.0), step)
            steepest = max(of_one.values())
            if steepest <= 0:
                continue
            wanted_rate = step.hold.limit_psi_per_min + _OVER_PSI_PER_MIN
            leak = Leak(way, wanted_rate / steepest)
            if all(_is_clear(air, leak, other) for other in holds):
                yield leak
                break


def _is_clear(air: HeldAir, leak: Leak, step: Step) -> bool:
    assert step.hold
    limit = step.hold.limit_psi_per_min
    rates = gauge_rates(air, leak, step).values()
    return all(
        abs(rate - limit) >= _CLEAR_PSI_PER_MIN and rate <= _MOST_PSI_PER_MIN for rate in rates
    )


def _is_heard(plan: Plan, air: HeldAir, leak: Leak) -> bool:
    """Tell whether a step at the place itself hears it."""
    return any(hiss_place(air, leak, step) for step in plan.steps)


def _odd_chambers(plan: Plan) -> Iterator[OddChamber]:
    """At one end the other class of the same size, its stroke between the limits of both."""
    for end in (end for step in plan.steps for end in ends_of(step)):
        axle = axle_of(plan, end)
        if not comes_long(plan, axle.actuator, axle.type):
            continue
        rows = [
            row
            for row in plan.chambers
            if (row.actuator, row.type) == (axle.actuator, axle.type)
            and (not row.long_stroke or row.rated_stroke_in in (None, axle.rated_stroke_in))
        ]
        limits = {row.long_stroke: row.limit_in or 0.0 for row in rows}
        other = next((row for row in rows if row.long_stroke != axle.long_stroke), None)
        if other is not None and len(limits) == 2 and limits[True] > limits[False]:
            middle = round(8 * (limits[True] + limits[False])) / 16
            yield OddChamber(end, other, middle)
