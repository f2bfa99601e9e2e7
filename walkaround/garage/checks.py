"""What is wrong with a vehicle's file beyond its shape, as a list of pure checks."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date

from walkaround.base.errors import Problem
from walkaround.base.message import Text
from walkaround.base.toml_model import nearest
from walkaround.brakes.chambers import chamber_fault
from walkaround.brakes.strokes import StrokeTable
from walkaround.lamps.bulbs import Bulb, bulb_fault
from walkaround.lamps.required import lamps_for
from walkaround.lamps.wiring import Connector, lamp_problems
from walkaround.lamps.wiring_checks import fit_problems
from walkaround.rules.checklist import LAMP_KINDS, Checklist
from walkaround.vehicle.model import PLAUSIBLE, POWER_UNITS, Kind, Vehicle
from walkaround.vehicle.vin import vin_fault

_TRAILERS: frozenset[Kind] = frozenset(("semitrailer", "full trailer"))
_DOLLY: frozenset[Kind] = frozenset(("converter dolly",))
# Of which kinds of vehicle a rule asks these; 49 CFR 393.11 Table 1, footnotes 1, 2, 5, 7 and 17
# (from memory), and 393.11(b).
KINDS_ASKED: dict[str, frozenset[Kind]] = {
    "cab_width_mm": POWER_UNITS,
    "double_faced_turn": frozenset(("truck tractor",)),
    "towed_singly": _DOLLY,
    "hides_towing_lamps": _DOLLY,
    "towing_lamps_above_load": frozenset(("pole trailer",)),
    "boat": _TRAILERS,
    "living_or_office": _TRAILERS,
}
# Nothing that ran on the road before is inspected by these rules.
EARLIEST = date(1900, 1, 1)
# As much as any vehicle has: a plan of more would keep people waiting, and no list shows it.
MOST = {
    "brakes.axles": 24,
    "brakes.reservoir_l": 24,
    "electrical.lamps": 100,
    "electrical.bulbs": 100,
    "damage": 30,
}
# Characters: what a label, a screen and a breath hold.
LONGEST = {"name": 60, "plate": 20, "vin": 20, "notes": 2000}
LONGEST_DAMAGE, LONGEST_TYPE = 200, 20
RESERVOIR_L = (0.1, 2_000.0)
# Kinds of lamp that have a bulb.
_ELECTRIC = [kind for kind in LAMP_KINDS if kind not in ("reflector", "tape")]


def vehicle_problems(
    vehicle: Vehicle,
    where: str,
    connectors: Mapping[str, Connector],
    today: date,
    *,
    bulbs: Collection[Bulb],
    strokes: StrokeTable,
    checklists: Sequence[Checklist] = (),
) -> list[Problem]:
    """Everything wrong with a vehicle that the shape of its file cannot show.

    Args:
        vehicle: the vehicle as read.
        where: the file it was read from.
        connectors: the connector table by id.
        today: the day it is where the app runs; the core knows no clock.
        bulbs, strokes: the tables of trade numbers and of brake strokes.
        checklists: what says which lamps it has; without them ids of lamps are not checked.
    """
    found: _Found = [*_too_much(vehicle), *_texts(vehicle)]
    if found:
        return [Problem(where, key, what, mend) for key, what, mend in found]
    found = [*_sizes(vehicle), *_facts(vehicle), *_chambers(vehicle, strokes)]
    if vehicle.made > today:
        found.append(("made", f"is {vehicle.made}, a day to come", "correct the date of make"))
    if vehicle.made < EARLIEST:
        what = f"is {vehicle.made}, before there were such vehicles"
        found.append(("made", what, "correct the date of make"))
    if vehicle.vin and (fault := vin_fault(vehicle.vin)):
        found.append(("vin", *fault))
    for key, number in vehicle.electrical.bulbs.items():
        if dim := bulb_fault(number, vehicle.electrical.volts, bulbs):
            found.append((f"electrical.bulbs.{key}", *dim))
    problems = [Problem(where, key, what, mend) for key, what, mend in found]
    unfit = fit_problems(vehicle, connectors, where)
    if checklists and not unfit:
        unfit = _lamps(vehicle, where, connectors, checklists)
    return problems + unfit


# key, what, mend
_Found = list[tuple[str, Text, Text]]


def _sizes(vehicle: Vehicle) -> _Found:
    found: _Found = []
    for key, (least, most) in PLAUSIBLE.items():
        value: float | None = getattr(vehicle, key)
        if value is not None and not least <= value <= most:
            what = f"is {value:g}, not the size of a road vehicle"
            found.append((key, what, f"write a value from {least:g} to {most:g}"))
    least, most = RESERVOIR_L
    for number, litres in enumerate(vehicle.brakes.reservoir_l, start=1):
        if not least <= litres <= most:
            what = f"is {litres:g}, not the volume of a reservoir in litres"
            mend = f"write a value from {least:g} to {most:g}"
            found.append((f"brakes.reservoir_l {number}", what, mend))
    return found


def _too_much(vehicle: Vehicle) -> _Found:
    """Lists that are longer than any vehicle's."""
    counts = {
        "brakes.axles": len(vehicle.brakes.axles),
        "brakes.reservoir_l": len(vehicle.brakes.reservoir_l),
        "electrical.lamps": len(vehicle.electrical.lamps),
        "electrical.bulbs": len(vehicle.electrical.bulbs),
        "damage": len(vehicle.damage),
    }
    return [
        (key, f"lists {count}, {MOST[key]} at most", "keep what the vehicle has")
        for key, count in counts.items()
        if count > MOST[key]
    ]


def _texts(vehicle: Vehicle) -> _Found:
    """Texts that no screen shows whole."""
    told = [(key, getattr(vehicle, key), most) for key, most in LONGEST.items()]
    told += [(f"damage {n}", text, LONGEST_DAMAGE) for n, text in enumerate(vehicle.damage, 1)]
    told += [
        (f"brakes.axles {n}.type", axle.type, LONGEST_TYPE)
        for n, axle in enumerate(vehicle.brakes.axles, 1)
    ]
    return [
        (key, f"has {len(text)} characters, {most} at most", "say it shorter")
        for key, text, most in told
        if len(text) > most
    ]


def _facts(vehicle: Vehicle) -> _Found:
    """Keys that no rule asks of a vehicle of this kind: one of the two is wrong."""
    return [
        (key, f"is for a {' or '.join(sorted(kinds))}", "take it out or correct kind")
        for key, kinds in KINDS_ASKED.items()
        if getattr(vehicle, key) and vehicle.kind not in kinds
    ]


def _chambers(vehicle: Vehicle, strokes: StrokeTable) -> _Found:
    faults = [
        (number, chamber_fault(axle, strokes))
        for number, axle in enumerate(vehicle.brakes.axles, start=1)
    ]
    return [(f"brakes.axles {n}.{fault[0]}", *fault[1:]) for n, fault in faults if fault]


def _lamps(
    vehicle: Vehicle,
    where: str,
    connectors: Mapping[str, Connector],
    checklists: Sequence[Checklist],
) -> list[Problem]:
    lamps = lamps_for(vehicle, checklists)
    known = [*_ELECTRIC, *(lamp.id for lamp in lamps)]
    what = "is neither a kind of lamp nor a lamp of this vehicle"
    return lamp_problems(vehicle, lamps, connectors, where) + [
        Problem(where, f"electrical.bulbs.{key}", what, nearest(key, known))
        for key in vehicle.electrical.bulbs
        if key not in known
    ]
