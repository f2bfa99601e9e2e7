"""Which lamps and reflectors this vehicle must have, where, and by which rule.

49 CFR 393.11 Table 1 has a row for each kind of lamp: how many, of which color, where, how high,
and for which classes of vehicle (A to H, the heads of its columns). Its footnotes change a row for
some of them: by size, by date of make, by what the vehicle is. Rows and footnotes are data, in
checklists; UN R48 and lamps of one's own are rows in the same way. What is decided here:

    a row counts for a vehicle whose class, sizes, date and facts it names (`When.holds`);
    its variants, as the footnotes are called, then change it one after the other, and one that
    says quantity 0 takes it away (`lamps_of_rule`);
    of two rows with one id the first counts, so that a shop's own file may stand before a shipped
    one; required lamps come before others.

One `Lamp` stands for one lamp that the rules count, so that three identification lamps are three;
what the eye sees as one lamp is a housing. A row along the sides with a greatest gap g between its
lamps, and f from the front to the first (g where nothing else is said), over a length L, has the
fewest lamps that keep both, n = 1 + ceil((L - f) / g), and two at least. The last stands at L, the
first at L/n, or so far back that the n - 1 gaps behind it are no larger than g; it is no further
back than f then, and with fewer lamps some gap is larger.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Literal

from walkaround.base.message import Message, Text, message
from walkaround.rules.checklist import Checklist, Spot
from walkaround.rules.lamp_rule import LampRule, Spread, Variant
from walkaround.vehicle.model import Vehicle, VehicleClass, vehicle_class

IDENTIFICATION_GAP_MM = 230.0
"""Identification lamps stand 152 to 305 mm apart (49 CFR 393.11 Table 1); drawn in between."""

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
        doubt: what is uncertain about the rule, and why; empty where nothing is.
        said: its name among other lamps, without the side; empty where `name` is said.
        side: where it is one of several of its row.
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
    doubt: str = ""
    said: Text = ""
    side: Literal["left", "centre", "right", ""] = ""


LampSide = Literal["left", "centre", "right"]
_SIDES: Mapping[Spread, tuple[LampSide, ...]] = {
    "pair": ("left", "right"),
    "three": ("left", "centre", "right"),
    "left": ("left",),
    "centre": ("centre",),
    "right": ("right",),
}
_Key = Literal["name", "said", "what", "why"]


def lamps_for(vehicle: Vehicle, checklists: Iterable[Checklist]) -> tuple[Lamp, ...]:
    """List the electric lamps of this vehicle: required ones first, by rule, left before right.

    Of two rules with one id the first counts.
    """
    lamps = sorted(_lamps(vehicle, checklists, reflectors=False), key=lambda x: not x.required)
    # One housing stands in one place, whatever it holds.
    first = {lamp.housing: lamp for lamp in reversed(lamps)}
    return tuple(
        replace(lamp, x_mm=first[lamp.housing].x_mm, y_mm=first[lamp.housing].y_mm)
        for lamp in lamps
    )


def reflectors_for(vehicle: Vehicle, checklists: Iterable[Checklist]) -> tuple[Lamp, ...]:
    """List the reflex reflectors and reflective tape of this vehicle, in the order of the rules."""
    return tuple(_lamps(vehicle, checklists, reflectors=True))


def lamps_of_rule(
    rule: LampRule, vehicle: Vehicle, class_: VehicleClass, variants: Iterable[Variant] = ()
) -> LampRule | None:
    """Read a row for a vehicle of this 393.11 class; None where it asks no lamps of it.

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


def _lamps(
    vehicle: Vehicle, checklists: Iterable[Checklist], *, reflectors: bool
) -> Iterator[Lamp]:
    """Yield the lamps of every row that counts, or its reflectors."""
    class_ = vehicle_class(vehicle)
    rule_ids = set()
    for checklist in checklists:
        for row in checklist.lamps if checklist.applies.matches(vehicle) else ():
            rule = lamps_of_rule(row, vehicle, class_, checklist.variants)
            if rule and rule.reflector == reflectors and rule.id not in rule_ids:
                rule_ids.add(rule.id)
                yield from _placed_lamps(rule, row, checklist, vehicle)


def _placed_lamps(
    rule: LampRule, row: LampRule, checklist: Checklist, vehicle: Vehicle
) -> Iterator[Lamp]:
    """Yield a row's lamps as it reads for this vehicle, front first, left before right."""
    half_mm = vehicle.width_mm / 2 * (1.0 if rule.end == "side" else rule.across)
    gap_mm = IDENTIFICATION_GAP_MM if rule.spread == "three" else half_mm
    across_mm = {"left": -gap_mm, "centre": 0.0, "right": gap_mm}
    sides: Sequence[LampSide] = _SIDES[rule.spread]
    several = rule.quantity > 1
    for number, along in _positions_along(rule, vehicle):
        name = _text(rule, row, checklist, "name")
        if number:
            name = message("lamp-in-row", number=number, lamp=name)
        for side in sides:
            id_ = f"{rule.id}_{number}" if number else rule.id
            id_ = f"{id_}_{side}" if several else id_
            sided = message("lamp-on-side", side=message(f"side-{side}"), lamp=name)
            place, spot = _place(rule, side, along)
            yield Lamp(
                id=id_,
                kind=rule.kind,
                name=sided if several else name,
                colour=" or ".join(rule.colour),
                place=place,
                housing=_shared_housing(rule, vehicle, side) or id_,
                x_mm=along * vehicle.length_mm,
                y_mm=across_mm[side],
                spot=spot,
                required=rule.required,
                what=_text(rule, row, checklist, "what"),
                why=_text(rule, row, checklist, "why"),
                height=rule.height,
                source=rule.source,
                provenance=rule.provenance,
                rule=rule.id,
                circuit=rule.circuit,
                doubt=rule.doubt or checklist.doubt,
                said=_text(rule, row, checklist, "said") if rule.said else "",
                side=side if several else "",
            )


def _positions_along(rule: LampRule, vehicle: Vehicle) -> list[tuple[int, float]]:
    """Return where the row stands, 0 at the front; numbered from 1 if it repeats."""
    if rule.gap_mm is None:
        return [(0, {"front": 0.0, "rear": 1.0, "side": rule.along}[rule.end])]
    reach_mm = max(vehicle.length_mm - rule.rear_gap_mm, vehicle.length_mm / 2)
    front_mm = rule.front_gap_mm or rule.gap_mm
    count = max(2, 1 + ceil((reach_mm - front_mm) / rule.gap_mm))
    first_mm = max(reach_mm / count, reach_mm - (count - 1) * rule.gap_mm)
    step_mm = (reach_mm - first_mm) / (count - 1)
    return [
        (number, (first_mm + (number - 1) * step_mm) / vehicle.length_mm)
        for number in range(1, min(count, _MOST_IN_ROW) + 1)
    ]


def _text(rule: LampRule, row: LampRule, checklist: Checklist, key: _Key) -> Text:
    """Return a text of a row, which one of the variants may have written."""
    text: str = getattr(rule, key)
    place = f"{checklist.id}/{row.id}"
    if text != getattr(row, key):
        variants = [*row.variants, *checklist.variants]
        place += f"/variant {[variant.what for variant in variants].index(text) + 1}"
    return Message(id=f"{place}/{key}", written=text)


def _place(rule: LampRule, side: str, along: float) -> tuple[str, Spot]:
    """Say where a lamp of this row is, and the spot to look at it from."""
    if rule.end != "side":
        # Lamps in a row stand together at the center.
        return f"{rule.end}_{'centre' if rule.spread == 'three' else side}", rule.end
    third = "front" if along < _FRONT_THIRD else "rear" if along > _REAR_THIRD else "middle"
    return f"{side}_side_{third}", "left_side" if side == "left" else "right_side"


def _shared_housing(rule: LampRule, vehicle: Vehicle, side: str) -> str:
    """Name the housing: rear tail and stop share one, and a turn on the stop filament."""
    if rule.end != "rear":
        return ""
    combined = vehicle.electrical.stop_turn == "combined"
    if rule.kind in ("tail", "stop") or (rule.kind == "turn" and combined):
        return f"rear_{side}"
    return f"blackout_rear_{side}" if rule.kind in ("blackout_marker", "blackout_stop") else ""
