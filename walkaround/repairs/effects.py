"""Which answers a repair can have made untrue, so that they are asked again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from walkaround.causes.study import Study
from walkaround.plan.steps import WHEEL_END, Step
from walkaround.repairs.repair_options import axles_at, group_of
from walkaround.walk.state import Defect, Walk

_BULBS = frozenset({"lamp", "burnt_out"})
_WIRES = frozenset({"open_feed", "poor_feed", "shorted"})
_GROUNDS = frozenset({"open_ground", "poor_ground"})
_PAIRS = frozenset({"crossed", "bridged"})
_OPENED_AIR = frozenset({"chamber", "hose", "valve", "seal", "drain"})
"""Repairs after which the air may leak anywhere near."""
_PARTS: Mapping[str, str] = {
    "service_diaphragm": "chamber",
    "spring_diaphragm": "chamber",
    "chamber_hose": "hose",
}
"""What a part at a wheel is repaired as; other parts that leak are as valves are."""
_NO_AIR = frozenset({"adjuster", "lining", "other", "cleaned", "replaced"})
_AT_AXLE: Mapping[str, frozenset[str]] = {
    "measure": frozenset({"adjuster", "lining", "chamber", "hose", "valve"}),
    "chambers": frozenset({"chamber"}),
}
"""Repairs at an axle that change what a step of this kind finds at its ends."""


def to_recheck(walk: Walk, defect: Defect, option_id: str, study: Study | None) -> tuple[str, ...]:
    """List the answered steps that a repair can have changed, the repaired one first.

    Of lamps: a bulb, every look at its housing lit; a branch, ground or feed, every look at a lamp
    on it; a flasher, every look at a turn signal; plug, cable and main ground, every lamp. Of
    brakes: an adjuster or lining, the strokes at both ends of its axle; a chamber, its axle's
    chambers, strokes and every hold; a hose, valve, seal or drain, every hold, and at an axle its
    strokes. A part that was likely to leak counts as one of these, at its own axle.

    Args:
        walk: so far.
        defect: what was repaired.
        option_id: what was done about it: an id of `repair_options_at`.
        study: of the vehicle's wiring; without it every look at lamps counts.
    """
    step = next(step for step in walk.steps if step.id == defect.step)
    changed = set(_changed(walk, step, defect, option_id, study))
    other_ids = (other.id for other in walk.steps if other.id in changed and other.id != step.id)
    return (step.id, *(id_ for id_ in other_ids if id_ in walk.answers))


def _changed(
    walk: Walk, step: Step, defect: Defect, option_id: str, study: Study | None
) -> Iterator[str]:
    kind, _, place = option_id.partition(":")
    group = group_of(step, defect.found)
    if group == "lamp" and kind not in ("other", "cleaned"):
        housings = _housings(step, defect, kind, place, study)
        for other in walk.steps:
            dark = _dark(other) if kind in _BULBS else frozenset()
            looked_at = frozenset(other.expect) - dark
            if other.kind == "lamp" and (housings is None or housings & looked_at):
                yield other.id
    elif group in ("brake", "hold", "air"):
        yield from _of_brakes(walk, step, defect, kind, place)


def _dark(step: Step) -> frozenset[str]:
    return frozenset(id_ for id_, look in step.expect.items() if look == "dark")


def _housings(
    step: Step, defect: Defect, kind: str, place: str, study: Study | None
) -> frozenset[str] | None:
    """Find the housings that it can have changed; None for all."""
    seen_ids = frozenset(defect.found.seen)
    if kind in _BULBS:
        return (
            frozenset({place.partition(":")[0]}) if place else seen_ids & set(step.expect) or None
        )
    if study is None:
        return None
    loads = study.network.loads
    if kind == "wire":
        on = frozenset(step.circuits_on)
        changed_loads = [load for load in loads if load.circuit in on]
    elif kind in _WIRES:
        changed_loads = [load for load in loads if load.circuit == place]
    elif kind in _PAIRS:
        changed_loads = [load for load in loads if load.circuit in place.split("+")]
    elif kind == "flasher":
        changed_loads = [load for load in loads if load.circuit in study.flashing]
    elif kind == "open_branch":
        circuit, _, cluster = place.partition("@")
        changed_loads = [
            load for load in loads if (load.circuit, load.cluster) == (circuit, cluster)
        ]
    elif kind in _GROUNDS:
        changed_loads = [load for load in loads if load.cluster == place]
    elif kind == "ground":
        nearby_clusters = {load.cluster for load in loads if load.housing in seen_ids}
        changed_loads = [load for load in loads if load.cluster in nearby_clusters]
    else:
        return None
    return frozenset(load.housing for load in changed_loads) or None


def _of_brakes(walk: Walk, step: Step, defect: Defect, kind: str, place: str) -> Iterator[str]:
    at = WHEEL_END.fullmatch(place)
    axles = frozenset({at["axle"]}) if at else axles_at(step, defect.found) or axles_at(step)
    if kind not in _OPENED_AIR | _NO_AIR:
        kind = _PARTS.get(kind, "valve")
    if not axles and kind == "chamber":
        axles = frozenset(axle for other in walk.steps for axle in axles_at(other))
    for other in walk.steps:
        of_air = other.hold is not None and kind in _OPENED_AIR
        of_axle = bool(axles & axles_at(other)) and kind in _AT_AXLE.get(other.kind, ())
        if of_air or of_axle:
            yield other.id
