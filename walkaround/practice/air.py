"""What the gauges of a vehicle in practice show, and where its air is heard."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from walkaround.leaks.plumbing import Plumbing
from walkaround.leaks.tables import BrakeState, LeakPath
from walkaround.plan.steps import WHEEL_END, Item, Step
from walkaround.rules.limits import Line
from walkaround.walk.evidence.air_heard import LOOKED, brakes_at

_STANDS: Mapping[str, BrakeState] = {"strokes": "applied", "clear": "released"}
"""How the brakes stand in parts of the walk that look at wheel ends."""


class Leaking(Protocol):
    """A part that loses air, and how much free air where nothing holds against it, l/min."""

    @property
    def way(self) -> LeakPath: ...
    @property
    def litres_per_min(self) -> float: ...


@dataclass(frozen=True, slots=True)
class HeldAir:
    """The air of one vehicle: its plumbing, and how much of a leak is heard, l/min."""

    plumbing: Plumbing
    heard_from: float


def gauge_rates(air: HeldAir, leak: Leaking | None, step: Step) -> Mapping[Line, float]:
    """Tell what each gauge of a hold loses, psi/min."""
    brakes = brakes_at(step)
    assert step.hold
    assert brakes
    lost = dict.fromkeys(step.hold.gauges, 0.0)
    if leak is not None:
        flow = leak.litres_per_min * leak.way.open_in.get(brakes, 0.0)
        falls = air.plumbing.fall(leak.way.node, brakes)
        lost = {gauge: flow * falls.get(gauge, 0.0) for gauge in lost}
    return lost


def can_hear_air(step: Step) -> bool:
    """Tell whether a step is near a place where air might be heard."""
    return bool(_listening_places(step)[1])


def hiss_place(air: HeldAir, leak: Leaking | None, step: Step) -> str:
    """Tell at which item of a step air is heard; empty where none is."""
    brakes, places = _listening_places(step)
    if leak is None or brakes is None or leak.way.heard not in places:
        return ""
    flow = leak.litres_per_min * leak.way.open_in.get(brakes, 0.0)
    reached = air.plumbing.emptied(leak.way.node, brakes)
    return places[leak.way.heard] if reached and flow >= air.heard_from else ""


def _listening_places(step: Step) -> tuple[BrakeState | None, Mapping[str, str]]:
    """Return how the brakes stand at a step, and the item for each place where air is heard."""
    if step.id in LOOKED:
        brakes, places = LOOKED[step.id]
        return brakes, {place: item for item, place in places.items()}
    leaks = [item for item in step.items if item.id.endswith("_leak")]
    return _STANDS.get(step.part), {place: item.id for item in leaks for place in _places_at(item)}


def _places_at(item: Item) -> tuple[str, ...]:
    end = item.id.removesuffix("_leak")
    return (f"chamber_{end}", f"hose_{end}") if WHEEL_END.fullmatch(end) else ()
