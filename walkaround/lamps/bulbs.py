"""Which bulb or LED burns in each housing, from trade numbers to watts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, message
from walkaround.base.toml_model import nearest
from walkaround.lamps.required_lamps import Lamp
from walkaround.lamps.wiring import Wiring
from walkaround.vehicle.model import Vehicle

LED = "led"
"""What a vehicle's file writes for an LED, which has no trade number."""
# In a bulb of two filaments these use the first, the bright one; every other lamp the second.
_BRIGHT = frozenset({"stop", "turn", "backup", "headlamp", "blackout_drive", "other"})


@dataclass(frozen=True, slots=True)
class Bulb:
    """A row of the bulb table.

    Attributes:
        system_volts: of the vehicles it is for, 12 or 24.
        watts, volts: of its filament, or the bright one of two, at its design voltage.
        dim_watts, dim_volts: of the second filament; None where there is one alone.
        led: an LED of common size; its watts are the middle of what is usual, never a limit.
        current: a day on which the text that was read was in force.
        usual_for: lamp kinds that have it unless the vehicle's file says otherwise.
    """

    trade_number: str
    system_volts: int
    watts: float
    volts: float
    dim_watts: float | None
    dim_volts: float | None
    led: bool
    usual_for: frozenset[str]
    provenance: str
    source: str
    current: date | None = None


@dataclass(frozen=True, slots=True)
class Filament:
    """A filament or LED of one circuit in one housing, and the ground it returns through.

    `volts` is the design voltage at which it takes `watts`.
    """

    housing: str
    circuit: str
    cluster: str
    watts: float
    volts: float
    led: bool
    trade_number: str


def bulbs_of(rows: Iterable[Mapping[str, str]]) -> tuple[Bulb, ...]:
    """Read the bulbs of a bulb table, whose columns these rows have."""
    return tuple(_bulb(row) for row in rows)


def filaments_of(
    vehicle: Vehicle, lamps: Sequence[Lamp], wiring: Wiring, bulbs: Sequence[Bulb]
) -> tuple[Filament, ...]:
    """List one filament for each circuit in each housing: stop and turn on one circuit burn one.

    Lamps whose bulb the vehicle's file does not name get the usual one.
    """
    filaments: dict[tuple[str, str], Filament] = {}
    for lamp in lamps:
        circuit = wiring.circuit_of[lamp.id]
        bulb = bulb_in(lamp, vehicle, bulbs)
        dim = lamp.kind not in _BRIGHT and bulb.dim_watts is not None
        filament = Filament(
            housing=lamp.housing,
            circuit=circuit,
            cluster=wiring.cluster_of[lamp.id],
            watts=bulb.dim_watts if dim and bulb.dim_watts else bulb.watts,
            volts=bulb.dim_volts if dim and bulb.dim_volts else bulb.volts,
            led=bulb.led,
            trade_number="" if bulb.led else bulb.trade_number,
        )
        filaments.setdefault((lamp.housing, circuit), filament)
    return tuple(filaments.values())


def bulb_in(lamp: Lamp, vehicle: Vehicle, bulbs: Sequence[Bulb]) -> Bulb:
    """Find the bulb of a lamp: as the vehicle's file says by id, else by kind, else the usual one.

    Raises:
        InputError: the file names a bulb that is not in the table, or is for another voltage.
    """
    electrical = vehicle.electrical
    key = lamp.id if lamp.id in electrical.bulbs else lamp.kind
    trade_number = electrical.bulbs.get(key, LED if electrical.led else "")
    fitting = [bulb for bulb in bulbs if bulb.system_volts == electrical.volts]
    if trade_number in ("", LED):
        led = trade_number == LED
        return next(bulb for bulb in fitting if bulb.led == led and lamp.kind in bulb.usual_for)
    if fault := bulb_fault(trade_number, electrical.volts, bulbs):
        raise InputError([Problem(vehicle.id, f"electrical.bulbs.{key}", *fault)])
    return next(bulb for bulb in fitting if bulb.trade_number == trade_number)


def bulb_fault(
    trade_number: str, volts: int, bulbs: Iterable[Bulb]
) -> tuple[Message, Message] | None:
    """Say why this cannot burn at this voltage, and how to mend it; None if it can."""
    volts_of = {bulb.trade_number: bulb.system_volts for bulb in bulbs if not bulb.led}
    if trade_number == LED or volts_of.get(trade_number) == volts:
        return None
    fitting = [number for number, each in volts_of.items() if each == volts]
    if trade_number in volts_of:
        bulb_volts = volts_of[trade_number]
        what = message("problem-bulb-of-other-volts", bulb=trade_number, of=bulb_volts, volts=volts)
        return what, message("problem-correct-the-bulb", volts=volts, bulbs=tuple(fitting))
    what = message("problem-unlisted-bulb", bulb=trade_number)
    return what, message("problem-bulb-or-led", near=nearest(trade_number, fitting))


def _bulb(row: Mapping[str, str]) -> Bulb:
    volts = float(row["design_v"])
    dim_volts = float(row["design_v_2"]) if row["design_v_2"] else None
    return Bulb(
        trade_number=row["trade_number"],
        system_volts=int(row["system_v"]),
        watts=round(_amps(row["design_a"]) * volts, 2),
        volts=volts,
        dim_watts=round(_amps(row["design_a_2"]) * dim_volts, 2) if dim_volts else None,
        dim_volts=dim_volts,
        led=row["base"] == "LED",
        usual_for=frozenset(row["usual_for"].split()),
        provenance=row["provenance"],
        source=row["source"],
        current=date.fromisoformat(row["current"]) if row.get("current") else None,
    )


def _amps(text: str) -> float:
    """Read a current as the table has it: "2.1", or the middle of a range "0.2-0.6"."""
    ends = [float(part) for part in text.split("-")]
    return sum(ends) / len(ends)
