"""What is wrong with a vehicle's file beyond its shape, as a list of pure checks."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from walkaround.base.checks import Flaw, outside, too_long, too_many
from walkaround.base.errors import Problem
from walkaround.base.message import message
from walkaround.base.toml_model import nearest
from walkaround.brakes.chambers import chamber_fault
from walkaround.brakes.strokes import StrokeTable
from walkaround.lamps.bulbs import Bulb, bulb_fault
from walkaround.lamps.connector import Connector
from walkaround.lamps.required_lamps import Lamp, lamps_for
from walkaround.lamps.wiring import lamp_problems
from walkaround.lamps.wiring_checks import fit_flaws
from walkaround.rules.checklist import Checklist
from walkaround.rules.lamp_rule import LAMP_KINDS
from walkaround.vehicle.model import PLAUSIBLE, POWER_UNITS, Kind, Vehicle
from walkaround.vehicle.vin import vin_fault

_TRAILERS: frozenset[Kind] = frozenset(("semitrailer", "full trailer"))
_DOLLY: frozenset[Kind] = frozenset(("converter dolly",))
# Of which kinds of vehicle a rule asks these: 49 CFR 393.11 Table 1, footnotes 1, 2, 5, 7 and 17,
# 393.11(b), and 571.108 S8.2.3.1.
KINDS_ASKED: dict[str, frozenset[Kind]] = {
    "cab_width_mm": POWER_UNITS,
    "double_faced_turn": frozenset(("truck tractor",)),
    "towed_singly": _DOLLY,
    "hides_towing_lamps": _DOLLY,
    "towing_lamps_above_load": frozenset(("pole trailer",)),
    "boat": _TRAILERS,
    "living_or_office": _TRAILERS,
    "rear_guard": _TRAILERS,
    "body": _TRAILERS,
}
# Nothing that ran on the road before is inspected by these rules.
EARLIEST = date(1900, 1, 1)
# As much as any vehicle has: a plan of more would keep people waiting, and no list shows it.
MOST_BY_KEY = {
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


@dataclass(frozen=True, slots=True)
class Reference:
    """The tables that a vehicle is checked against.

    Attributes:
        checklists: what says which lamps it has; without them ids of lamps are not checked.
        connectors: the connector table by id.
        bulbs, strokes: the tables of trade numbers and of brake strokes.
        today: the day it is where the app runs; the core knows no clock.
    """

    checklists: tuple[Checklist, ...]
    connectors: Mapping[str, Connector]
    bulbs: tuple[Bulb, ...]
    strokes: StrokeTable
    today: date


def vehicle_problems(vehicle: Vehicle, where: str, reference: Reference) -> list[Problem]:
    """Find everything wrong with a vehicle that the shape of its file cannot show.

    Args:
        vehicle: the vehicle as read.
        where: the file it was read from.
        reference: what it is checked against.
    """
    if flaws := [*_length_flaws(vehicle), *_text_flaws(vehicle)]:
        return [Problem(where, *flaw) for flaw in flaws]
    flaws = [
        *_size_flaws(vehicle),
        *_fact_flaws(vehicle),
        *_chamber_flaws(vehicle, reference.strokes),
        *_date_flaws(vehicle, reference.today),
        *_number_flaws(vehicle, reference.bulbs),
    ]
    problems = [Problem(where, *flaw) for flaw in flaws]
    unfit = [Problem(where, *flaw) for flaw in fit_flaws(vehicle, reference.connectors)]
    if reference.checklists and not unfit:
        lamps = lamps_for(vehicle, reference.checklists)
        unfit = lamp_problems(vehicle, lamps, reference.connectors, where)
        unfit += [Problem(where, *flaw) for flaw in _bulb_flaws(vehicle, lamps)]
    return problems + unfit


def _length_flaws(vehicle: Vehicle) -> Iterator[Flaw]:
    """Find lists that are longer than any vehicle's."""
    counts = {
        "brakes.axles": len(vehicle.brakes.axles),
        "brakes.reservoir_l": len(vehicle.brakes.reservoir_l),
        "electrical.lamps": len(vehicle.electrical.lamps),
        "electrical.bulbs": len(vehicle.electrical.bulbs),
        "damage": len(vehicle.damage),
    }
    counts_and_most = ((key, count, MOST_BY_KEY[key]) for key, count in counts.items())
    yield from too_many(counts_and_most, message("problem-keep-what-the-vehicle-has"))


def _text_flaws(vehicle: Vehicle) -> Iterator[Flaw]:
    """Find texts that no screen shows whole."""
    axles = enumerate(vehicle.brakes.axles, start=1)
    yield from too_long((key, getattr(vehicle, key), most) for key, most in LONGEST.items())
    yield from too_long(
        (f"damage {n}", text, LONGEST_DAMAGE) for n, text in enumerate(vehicle.damage, start=1)
    )
    yield from too_long((f"brakes.axles {n}.type", axle.type, LONGEST_TYPE) for n, axle in axles)


def _size_flaws(vehicle: Vehicle) -> Iterator[Flaw]:
    sizes = ((key, getattr(vehicle, key), span) for key, span in PLAUSIBLE.items())
    yield from outside(sizes, message("problem-meant-size"))
    reservoirs = enumerate(vehicle.brakes.reservoir_l, start=1)
    volumes = ((f"brakes.reservoir_l {n}", litres, RESERVOIR_L) for n, litres in reservoirs)
    yield from outside(volumes, message("problem-meant-volume"))


def _fact_flaws(vehicle: Vehicle) -> Iterator[Flaw]:
    """Find keys that no rule asks of a vehicle of this kind: one of the two is wrong."""
    for key, kinds in KINDS_ASKED.items():
        is_told = getattr(vehicle, key) != Vehicle.model_fields[key].default
        if is_told and vehicle.kind not in kinds:
            what = message("problem-is-for-kinds", kinds=tuple(sorted(kinds)))
            yield Flaw(key, what, message("problem-take-it-out-or-correct-kind"))


def _chamber_flaws(vehicle: Vehicle, strokes: StrokeTable) -> Iterator[Flaw]:
    for number, axle in enumerate(vehicle.brakes.axles, start=1):
        if fault := chamber_fault(axle, strokes):
            key, what, mend = fault
            yield Flaw(f"brakes.axles {number}.{key}", what, mend)


def _date_flaws(vehicle: Vehicle, today: date) -> Iterator[Flaw]:
    mend = message("problem-correct-the-date")
    if vehicle.made > today:
        yield Flaw("made", message("problem-day-to-come", day=str(vehicle.made)), mend)
    if vehicle.made < EARLIEST:
        yield Flaw("made", message("problem-day-too-early", day=str(vehicle.made)), mend)


def _number_flaws(vehicle: Vehicle, bulbs: Collection[Bulb]) -> Iterator[Flaw]:
    """Check the VIN, and the trade numbers of bulbs."""
    if vehicle.vin and (fault := vin_fault(vehicle.vin)):
        yield Flaw("vin", *fault)
    for key, number in vehicle.electrical.bulbs.items():
        if fault := bulb_fault(number, vehicle.electrical.volts, bulbs):
            yield Flaw(f"electrical.bulbs.{key}", *fault)


def _bulb_flaws(vehicle: Vehicle, lamps: Sequence[Lamp]) -> Iterator[Flaw]:
    """Find bulbs of lamps that the vehicle does not have."""
    names = [*_ELECTRIC, *(lamp.id for lamp in lamps)]
    for key in vehicle.electrical.bulbs:
        if key not in names:
            what = message("problem-bulb-of-no-lamp")
            yield Flaw(f"electrical.bulbs.{key}", what, nearest(key, names))
