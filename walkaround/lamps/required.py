"""Which lamps and reflectors this vehicle must have, where, and by which rule.

The rules are rows of checklists; this module only asks which rows hold for a vehicle and sets
their lamps in place. One `Lamp` stands for one lamp that the rules count, so that three
identification lamps are three; what the eye sees as one lamp is a housing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import ceil
from typing import Literal, NamedTuple

from walkaround.base.message import Text, message
from walkaround.lamps.names import written
from walkaround.rules.checklist import Checklist, LampRule, Spot, Variant
from walkaround.vehicle.model import Vehicle, VehicleClass, vehicle_class

# Identification lamps stand 152 to 305 mm apart (49 CFR 393.11 Table 1); drawn in between.
IDENTIFICATION_GAP_MM = 230.0
# A side lamp in the first or last third of the length is a front or rear one.
_FRONT_THIRD, _REAR_THIRD = 1 / 3, 2 / 3
# As many as a row along the longest vehicle there can be has lamps on one side.
_MOST_IN_ROW = 20


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
        circuit: id of the circuit that the rule names for it, empty where its kind tells.
    """

    id: str
    kind: str
    name: Text
    colour: str
    place: str
    housing: str
    x_mm: float
    y_mm: float
    spot: Spot
    required: bool
    what: Text
    why: Text
    height: str
    source: str
    provenance: str
    rule: str
    circuit: str = ""


_Key = Literal["name", "what", "why"]
_TEXTS: tuple[_Key, ...] = ("name", "what", "why")


class _Row(NamedTuple):
    """A row as it reads for one vehicle, and its texts."""

    rule: LampRule
    name: Text
    what: Text
    why: Text


def lamps_for(vehicle: Vehicle, checklists: Iterable[Checklist]) -> tuple[Lamp, ...]:
    """The electric lamps of this vehicle: required ones first, by rule, left before right.

    Of two rules with one id the first counts.
    """
    rows = [row for row in _rows_for(vehicle, checklists) if not row.rule.reflector]
    rows.sort(key=lambda row: not row.rule.required)
    lamps = [lamp for row in rows for lamp in _placed(row, vehicle)]
    first = {lamp.housing: lamp for lamp in reversed(lamps)}
    # One housing stands in one place, whatever it holds.
    return tuple(
        replace(lamp, x_mm=first[lamp.housing].x_mm, y_mm=first[lamp.housing].y_mm)
        for lamp in lamps
    )


def reflectors_for(vehicle: Vehicle, checklists: Iterable[Checklist]) -> tuple[Lamp, ...]:
    """The reflex reflectors and reflective tape of this vehicle, in the order of the rules."""
    rows = [row for row in _rows_for(vehicle, checklists) if row.rule.reflector]
    return tuple(lamp for row in rows for lamp in _placed(row, vehicle))


def asked(
    rule: LampRule, vehicle: Vehicle, class_: VehicleClass, variants: Iterable[Variant] = ()
) -> LampRule | None:
    """The row as it reads for a vehicle of this 393.11 class; None where it asks no lamps of it.

    Args:
        rule: the row as the file has it, with variants of its own.
        vehicle: what stands there.
        class_: its class; H is a load, which is no vehicle, and so is always asked for by name.
        variants: of every row of the file.
    """
    if not rule.holds(vehicle, class_):
        return None
    for variant in (*rule.variants, *variants):
        if variant.holds(vehicle, class_):
            if variant.quantity == 0:
                return None
            rule = rule.varied(variant)
    return rule


def _rows_for(vehicle: Vehicle, checklists: Iterable[Checklist]) -> list[_Row]:
    class_ = vehicle_class(vehicle)
    rows: dict[str, _Row] = {}
    for checklist in checklists:
        if checklist.applies.matches(vehicle):
            for row in checklist.lamps:
                rule = asked(row, vehicle, class_, checklist.variants)
                if rule is not None:
                    name, what, why = (_text(rule, row, checklist, key) for key in _TEXTS)
                    rows.setdefault(rule.id, _Row(rule, name, what, why))
    return list(rows.values())


def _text(rule: LampRule, row: LampRule, checklist: Checklist, key: _Key) -> Text:
    """A text of a row, which one of the variants may have written."""
    text: str = getattr(rule, key)
    place = f"{checklist.id}/{row.id}"
    if text != getattr(row, key):
        variants = [*row.variants, *checklist.variants]
        place += f"/variant {[variant.what for variant in variants].index(text) + 1}"
    return written(f"{place}/{key}", text)


def _placed(row: _Row, vehicle: Vehicle) -> Iterator[Lamp]:
    rule = row.rule
    half_mm = vehicle.width_mm / 2 * (1.0 if rule.end == "side" else rule.across)
    gap_mm = IDENTIFICATION_GAP_MM if rule.spread == "three" else half_mm
    across_mm = {"left": -gap_mm, "centre": 0.0, "right": gap_mm}
    sides = {"pair": ["left", "right"], "three": [*across_mm]}.get(rule.spread, [rule.spread])
    for each in _repeated(row, vehicle) if rule.gap_mm else [row]:
        for side in sides:
            yield replace(_lamp(each, vehicle, side, across_mm[side]), rule=rule.id)


def _repeated(row: _Row, vehicle: Vehicle) -> list[_Row]:
    """A row that repeats along the sides, as one row for each place, front first.

    The fewest places that keep the gaps, and never fewer than two, evenly spaced.
    """
    rule, length_mm = row.rule, vehicle.length_mm
    gap_mm = rule.gap_mm or length_mm
    reach_mm = max(length_mm - rule.rear_gap_mm, length_mm / 2)
    count = max(2, ceil(reach_mm / gap_mm))
    return [
        row._replace(
            name=message("lamp-in-row", number=number, lamp=row.name),
            rule=rule.model_copy(
                update={
                    "id": f"{rule.id}_{number}",
                    "along": reach_mm * number / count / length_mm,
                }
            ),
        )
        for number in range(1, min(count, _MOST_IN_ROW) + 1)
    ]


def _lamp(row: _Row, vehicle: Vehicle, side: str, y_mm: float) -> Lamp:
    rule = row.rule
    on_side = message("lamp-on-side", side=message(f"side-{side}"), lamp=row.name)
    along = {"front": 0.0, "rear": 1.0, "side": rule.along}[rule.end]
    return Lamp(
        id=rule.id if rule.quantity == 1 else f"{rule.id}_{side}",
        kind=rule.kind,
        name=row.name if rule.quantity == 1 else on_side,
        colour=" or ".join(rule.colour),
        place=_place(rule, side),
        housing=_housing(rule, vehicle, side),
        x_mm=along * vehicle.length_mm,
        y_mm=y_mm,
        spot=_spot(rule, side),
        required=rule.required,
        what=row.what,
        why=row.why,
        height=rule.height,
        source=rule.source,
        provenance=rule.provenance,
        rule=rule.id,
        circuit=rule.circuit,
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
    if rule.end == "rear":
        if rule.kind in ("tail", "stop") or (rule.kind == "turn" and combined):
            return f"rear_{side}"
        if rule.kind in ("blackout_marker", "blackout_stop"):
            return f"blackout_rear_{side}"
    return rule.id if rule.quantity == 1 else f"{rule.id}_{side}"
