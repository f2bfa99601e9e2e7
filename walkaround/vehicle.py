"""What a vehicle is: kind, size, date of make, electrical system, brakes; its 393.11 class and VIN.

The models are the vehicle file itself. Everything that a file can get wrong beyond its shape is
told by `vehicle_problems`; what follows from a vehicle (class, ABS) is a function of it.
"""

from __future__ import annotations

from collections.abc import Mapping, Set
from datetime import date
from typing import Any, Literal, Protocol, get_args

from pydantic import Field

from walkaround.errors import Problem
from walkaround.written import Day, Flag, Id, Number, Positive, Written, nearest

# 49 CFR 390.5 and 393.5 words.
Kind = Literal[
    "truck",
    "bus",
    "truck tractor",
    "semitrailer",
    "full trailer",
    "pole trailer",
    "converter dolly",
]
KINDS: tuple[Kind, ...] = get_args(Kind)
POWER_UNITS: frozenset[Kind] = frozenset(("truck", "bus", "truck tractor"))
VehicleClass = Literal["A", "B", "C", "D", "E", "F", "G", "H"]
BrakeSystem = Literal["air", "air_over_hydraulic", "electric", "surge", "none"]

# 80 in, the width at which 49 CFR 393.11 Table 1 changes class.
WIDE_MM = 2032.0
# 49 CFR 393.55(c): truck tractors, and every other air-braked vehicle, made from these days on.
ABS_TRACTOR_FROM = date(1997, 3, 1)
ABS_OTHERS_FROM = date(1998, 3, 1)
# Outside these nothing is a road vehicle; a slip of the unit or of a zero is meant.
PLAUSIBLE = {
    "width_mm": (500.0, 6_000.0),
    "length_mm": (1_000.0, 60_000.0),
    "gvwr_kg": (100.0, 300_000.0),
}


class Axle(Written):
    """One axle: its brake actuator, slack adjuster and foundation brake.

    `type` is the chamber size as the stroke tables name it ("30"); `rated_stroke_in` is the
    stroke marked on the chamber, inches; `slack` None means that the file does not say.
    """

    actuator: Literal["clamp", "bolt", "roto", "dd3", "wedge", "other"] = "other"
    type: str = ""
    long_stroke: Flag = False
    rated_stroke_in: Positive | None = None
    spring: Flag = False
    slack: Literal["automatic", "manual"] | None = None
    foundation: Literal["drum", "disc"] = "drum"
    lift: Flag = False


class Brakes(Written):
    """The brake system; a vehicle file without [brakes] reads as system "none".

    `abs` None means: by the date of make.
    """

    system: BrakeSystem = "none"
    reservoir_l: tuple[Positive, ...] = ()
    axles: tuple[Axle, ...] = ()
    abs: Flag | None = None


class Electrical(Written):
    """Voltage, connector id and how the lamps are wired; `blackout`: ex-service lighting fitted."""

    volts: Literal[12, 24]
    connector: Id
    stop_turn: Literal["separate", "combined"] = "separate"
    blackout: Flag = False
    led: Flag = False


def _name_from_id(data: dict[str, Any]) -> str:
    return str(data.get("id", "")).replace("_", " ").capitalize()


class Vehicle(Written):
    """One vehicle, as its file describes it; lengths in mm, mass in kg."""

    id: Id
    kind: Kind
    made: Day
    width_mm: Positive
    length_mm: Positive
    gvwr_kg: Positive | None = None
    electrical: Electrical
    brakes: Brakes = Brakes()
    name: str = Field(default_factory=_name_from_id)
    plate: str = ""
    vin: str = ""
    notes: str = ""


def vehicle_class(vehicle: Vehicle) -> VehicleClass:
    """The letter that 49 CFR 393.11 Table 1 gives this vehicle (H is for loads alone)."""
    match vehicle.kind:
        case "truck tractor":
            return "C"
        case "converter dolly":
            return "E"
        case "pole trailer":
            return "G"
        case "truck" | "bus":
            return "B" if vehicle.width_mm >= WIDE_MM else "A"
        case _:
            return "D" if vehicle.width_mm >= WIDE_MM else "F"


def has_air_brakes(vehicle: Vehicle) -> bool:
    """Whether air works the brake chambers themselves."""
    return vehicle.brakes.system == "air"


def has_abs(vehicle: Vehicle) -> bool:
    """Whether ABS must be fitted: as the file says, else by date of make, 49 CFR 393.55(c).

    Air over hydraulic counts as an air brake there (FMVSS 121 S4, from memory).
    """
    if vehicle.brakes.abs is not None:
        return vehicle.brakes.abs
    since = ABS_TRACTOR_FROM if vehicle.kind == "truck tractor" else ABS_OTHERS_FROM
    return vehicle.brakes.system in ("air", "air_over_hydraulic") and vehicle.made >= since


# 49 CFR 565.15(c): value of each character (I, O and Q are not used), weight of each place.
VIN_VALUES = dict(zip("ABCDEFGHJKLMNPRSTUVWXYZ", map(int, "12345678123457923456789"), strict=True))
VIN_VALUES |= {digit: int(digit) for digit in "0123456789"}
VIN_WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
_CHECK_PLACE = 8


def vin_problem(vin: str) -> str | None:
    """Say in one sentence why this cannot be a VIN, or None when its check digit fits.

    Source: 49 CFR 565.15. Small letters are read as capitals.
    """
    fault = _vin_fault(vin.upper())
    return f"{fault[0]}; {fault[1]}" if fault else None


def _vin_fault(vin: str) -> tuple[str, str] | None:
    if len(vin) != len(VIN_WEIGHTS):
        return (
            f"the VIN has {len(vin)} characters, 17 expected",
            "older and military units may leave vin out",
        )
    for place, character in enumerate(vin, start=1):
        if character not in VIN_VALUES:
            return (
                f"character {place} of the VIN is {character!r}, which no VIN uses",
                "a VIN has digits and letters other than I, O and Q",
            )
    total = sum(VIN_VALUES[c] * weight for c, weight in zip(vin, VIN_WEIGHTS, strict=True))
    fitting = "0123456789X"[total % 11]
    if vin[_CHECK_PLACE] == fitting:
        return None
    return (
        f"the VIN's check digit, character 9, is {vin[_CHECK_PLACE]} where {fitting} would fit",
        "one character was misread, compare each with the plate",
    )


class Plug(Protocol):
    """What a vehicle needs to know of a connector to be checked against it."""

    @property
    def nominal_volts(self) -> int: ...
    @property
    def other_volts(self) -> tuple[int, ...]: ...
    @property
    def functions(self) -> Set[str]: ...


def vehicle_problems(
    vehicle: Vehicle, where: str, known_connectors: Mapping[str, Plug], today: date
) -> list[Problem]:
    """Everything wrong with a vehicle that the shape of its file cannot show.

    Args:
        vehicle: the vehicle as read.
        where: the file it was read from.
        known_connectors: the connector table by id.
        today: the day it is where the app runs; the core knows no clock.
    """
    found = _size_problems(vehicle) + _connector_problems(vehicle, known_connectors)
    if vehicle.made > today:
        found.append(("made", f"is {vehicle.made}, a day to come", "correct the date of make"))
    if vehicle.vin and (fault := _vin_fault(vehicle.vin.upper())):
        found.append(("vin", *fault))
    return [Problem(where, key, what, mend) for key, what, mend in found]


# key, what, mend
_Found = tuple[str, str, str]


def _size_problems(vehicle: Vehicle) -> list[_Found]:
    found = []
    for key, (least, most) in PLAUSIBLE.items():
        value: Number | None = getattr(vehicle, key)
        if value is not None and not least <= value <= most:
            what = f"is {value:g}, not the size of a road vehicle"
            found.append((key, what, f"write a value from {least:g} to {most:g}"))
    return found


def _connector_problems(vehicle: Vehicle, known: Mapping[str, Plug]) -> list[_Found]:
    electrical = vehicle.electrical
    name, as_wired = electrical.connector, "name the connector as wired"
    connector = known.get(name)
    if connector is None:
        return [("electrical.connector", f"no connector is called {name}", nearest(name, [*known]))]
    fed = connector.functions
    found = []
    if electrical.volts not in (connector.nominal_volts, *connector.other_volts):
        what = f"is {electrical.volts}, but {name} is a {connector.nominal_volts} V connector"
        found.append(("electrical.volts", what, f"correct volts or {as_wired}"))
    if electrical.stop_turn == "separate" and {"LSTOP", "RSTOP"} <= fed:
        what = f"is separate, but {name} feeds stop and turn on the same contacts"
        mend = f'set stop_turn = "combined" or {as_wired}'
        found.append(("electrical.stop_turn", what, mend))
    # A power unit's connector is its rear socket, which its own lamps do not hang on.
    if vehicle.kind not in POWER_UNITS:
        if not fed & {"TAIL", "TAIL_L"}:
            what = f"is {name}, which feeds no lamps"
            found.append(("electrical.connector", what, "name the connector of the lamps"))
        if electrical.blackout and not {"BO_MARK", "BO_STOP"} <= fed:
            what = f"is true, but {name} has no blackout contacts"
            found.append(("electrical.blackout", what, f"set it to false or {as_wired}"))
    return found
