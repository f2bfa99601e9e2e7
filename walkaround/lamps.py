"""Which lamps and reflectors this vehicle must have, where, and by which rule.

The rules are rows of checklists; this module only asks which rows hold for a vehicle and sets
their lamps in place. One `Lamp` stands for one lamp that the rules count, so that three
identification lamps are three; what the eye sees as one lamp is a housing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from walkaround.checklist import Checklist, LampRule, Spot
from walkaround.vehicle import Vehicle, VehicleClass, has_abs, vehicle_class

# Identification lamps stand 152 to 305 mm apart (49 CFR 393.11 Table 1); drawn in between.
IDENTIFICATION_GAP_MM = 230.0
# A side lamp in the first or last third of the length is a front or rear one.
_FRONT_THIRD, _REAR_THIRD = 1 / 3, 2 / 3


@dataclass(frozen=True, slots=True)
class Lamp:
    """One lamp or reflector that a rule counts.

    Attributes:
        place: where it is, in words: front_left, rear_centre, left_side_middle.
        housing: what the eye sees as one lamp; several lamps may share it.
        x_mm: from the foremost point of the vehicle rearward.
        y_mm: from the centreline, the vehicle's own right being positive.
        spot: where to stand to look at it.
        required: whether the law asks for it; a missing one is then a defect.
        height: how high above the road it may be, in words.
        rule: id of the lamp rule that asks for it.
    """

    id: str
    kind: str
    name: str
    colour: str
    place: str
    housing: str
    x_mm: float
    y_mm: float
    spot: Spot
    required: bool
    what: str
    why: str
    height: str
    source: str
    provenance: str
    rule: str


def lamps_for(vehicle: Vehicle, checklists: Iterable[Checklist]) -> tuple[Lamp, ...]:
    """The electric lamps of this vehicle: required ones first, by rule, left before right.

    Of two rules with one id the first counts.
    """
    rules = [rule for rule in _rules_for(vehicle, checklists) if not rule.reflector]
    rules.sort(key=lambda rule: not rule.required)
    lamps = [lamp for rule in rules for lamp in _placed(rule, vehicle)]
    first = {lamp.housing: lamp for lamp in reversed(lamps)}
    # One housing stands in one place, whatever it holds.
    return tuple(
        replace(lamp, x_mm=first[lamp.housing].x_mm, y_mm=first[lamp.housing].y_mm)
        for lamp in lamps
    )


def reflectors_for(vehicle: Vehicle, checklists: Iterable[Checklist]) -> tuple[Lamp, ...]:
    """The reflex reflectors and reflective tape of this vehicle, in the order of the rules."""
    rules = [rule for rule in _rules_for(vehicle, checklists) if rule.reflector]
    return tuple(lamp for rule in rules for lamp in _placed(rule, vehicle))


def holds_for(rule: LampRule, vehicle: Vehicle, class_: VehicleClass) -> bool:
    """Whether a lamp rule asks a vehicle of this 393.11 class for its lamps."""
    gvwr_kg = float("inf") if vehicle.gvwr_kg is None else vehicle.gvwr_kg
    fitted = {"": True, "abs": has_abs(vehicle), "blackout": vehicle.electrical.blackout}
    return (
        (not rule.classes or class_ in rule.classes)
        and (rule.over_length_mm is None or vehicle.length_mm > rule.over_length_mm)
        and (rule.over_gvwr_kg is None or gvwr_kg > rule.over_gvwr_kg)
        and (rule.made_from is None or vehicle.made >= rule.made_from)
        and fitted[rule.needs]
    )


def _rules_for(vehicle: Vehicle, checklists: Iterable[Checklist]) -> list[LampRule]:
    class_ = vehicle_class(vehicle)
    rules: dict[str, LampRule] = {}
    for checklist in checklists:
        if checklist.applies.matches(vehicle):
            for rule in checklist.lamps:
                if holds_for(rule, vehicle, class_):
                    rules.setdefault(rule.id, rule)
    return list(rules.values())


def _placed(rule: LampRule, vehicle: Vehicle) -> list[Lamp]:
    half_mm = vehicle.width_mm / 2 * (1.0 if rule.end == "side" else rule.across)
    gap_mm = half_mm if rule.spread == "pair" else IDENTIFICATION_GAP_MM
    across_mm = {"left": -gap_mm, "centre": 0.0, "right": gap_mm}
    if rule.spread in ("left", "right"):
        across_mm = {rule.spread: half_mm if rule.spread == "right" else -half_mm}
    elif rule.spread == "centre":
        across_mm = {"centre": 0.0}
    elif rule.spread == "pair":
        del across_mm["centre"]
    return [_lamp(rule, vehicle, side, y_mm) for side, y_mm in across_mm.items()]


def _lamp(rule: LampRule, vehicle: Vehicle, side: str, y_mm: float) -> Lamp:
    along = {"front": 0.0, "rear": 1.0, "side": rule.along}[rule.end]
    return Lamp(
        id=rule.id if rule.quantity == 1 else f"{rule.id}_{side}",
        kind=rule.kind,
        name=rule.name if rule.quantity == 1 else f"{side} {rule.name}",
        colour=" or ".join(rule.colour),
        place=_place(rule, side),
        housing=_housing(rule, vehicle, side),
        x_mm=along * vehicle.length_mm,
        y_mm=y_mm,
        spot=_spot(rule, side),
        required=rule.required,
        what=rule.what,
        why=rule.why,
        height=rule.height,
        source=rule.source,
        provenance=rule.provenance,
        rule=rule.id,
    )


def _place(rule: LampRule, side: str) -> str:
    if rule.end != "side":
        # Lamps in a row stand together at the centre.
        return f"{rule.end}_centre" if rule.spread == "three" else f"{rule.end}_{side}"
    if rule.along < _FRONT_THIRD:
        return f"{side}_side_front"
    return f"{side}_side_rear" if rule.along > _REAR_THIRD else f"{side}_side_middle"


def _spot(rule: LampRule, side: str) -> Spot:
    if rule.end == "front":
        return "front"
    if rule.end == "rear":
        return "rear"
    return "left_side" if side == "left" else "right_side"


def _housing(rule: LampRule, vehicle: Vehicle, side: str) -> str:
    """Rear tail and stop share a housing, and the turn signal where it is the stop filament."""
    combined = vehicle.electrical.stop_turn == "combined"
    if rule.end == "rear" and rule.quantity == 2:
        if rule.kind in ("tail", "stop") or (rule.kind == "turn" and combined):
            return f"rear_{side}"
        if rule.kind in ("blackout_marker", "blackout_stop"):
            return f"blackout_rear_{side}"
    return rule.id if rule.quantity == 1 else f"{rule.id}_{side}"
