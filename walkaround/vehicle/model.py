"""What a vehicle is: kind, size, date of make, electrical system, brakes; its 393.11 class.

The models are the vehicle file itself. What a file can get wrong beyond its shape is told in
`vehicle_editor.checks`; what follows from a vehicle (class, ABS) is a function of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any, Literal, get_args

from pydantic import Field

from walkaround.base.message import Message, message
from walkaround.base.toml_model import Day, Flag, Id, Positive, Written

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
# What a trailer carries its load in or on; a platform has no bulkhead.
Body = Literal["van", "platform", "container_chassis", "tank", "other"]
# Whose lamp rules: 49 CFR part 393, or UN Regulation No. 48.
Rules = Literal["us", "unece"]

# 80 in, the width at which 49 CFR 393.11 Table 1 changes class.
WIDE_MM = 2032.0
# 49 CFR 393.55(c): truck tractors, and every other air-braked vehicle, made from these days on.
ABS_TRACTOR_FROM = date(1997, 3, 1)
ABS_OTHERS_FROM = date(1998, 3, 1)
# Outside these nothing is a road vehicle; a slip of the unit or of a zero is meant.
PLAUSIBLE = {
    "width_mm": (500.0, 6_000.0),
    "length_mm": (1_000.0, 60_000.0),
    "cab_width_mm": (500.0, 3_000.0),
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


class LampWiring(Written):
    """How one lamp is wired where that is not as usual: on which circuit, to which ground.

    `id` is the lamp's id; an empty `circuit` or `cluster` is as usual.
    """

    id: Id
    circuit: Annotated[str, Field(pattern=r"^[a-z0-9_]*$")] = ""
    cluster: Annotated[str, Field(pattern=r"^[a-z0-9_]*$")] = ""


class Electrical(Written):
    """Voltage, connectors and how the lamps are wired.

    Attributes:
        connector: id of the wiring that feeds the lamps; of a power unit, of its rear socket.
        second_connector: id of a supplementary one beside it, empty if there is none.
        blackout: ex-service blackout lighting is fitted.
        led: lamps whose bulb is not named in `bulbs` are LEDs.
        bulbs: trade number of a bulb, or "led", by lamp id or lamp kind; an id goes before a kind.
        lamps: the lamps that are not wired as usual.
    """

    volts: Literal[12, 24]
    connector: Id
    second_connector: Annotated[str, Field(pattern=r"^[a-z0-9_]*$")] = ""
    stop_turn: Literal["separate", "combined"] = "separate"
    blackout: Flag = False
    led: Flag = False
    bulbs: Mapping[Id, str] = Field(default_factory=dict)
    lamps: tuple[LampWiring, ...] = ()


def _name_from_id(data: dict[str, Any]) -> str:
    return str(data.get("id", "")).replace("_", " ").capitalize()


class Vehicle(Written):
    """One vehicle, as its file describes it; lengths in mm, mass in kg.

    The keys from `cab_width_mm` to `body` are there because a lamp rule asks for them: footnotes
    1, 2, 5, 5, 7 and 17 of 49 CFR 393.11 Table 1, 393.11(b), footnote 11, and 571.108 S8.2.3.1.3
    and S8.2.3.1.2.

    Attributes:
        length_mm: over everything, the tongue of a trailer included.
        cab_width_mm: width of the cab at the front of its roof; None when nobody gave it.
        double_faced_turn: a tractor's front turn signals are seen by drivers who pass it.
        towed_singly: a converter dolly behind a towing vehicle, with no trailer on it.
        hides_towing_lamps: such a dolly hides a turn signal of the vehicle that tows it.
        towing_lamps_above_load: what tows a pole trailer has its rear identification lamps
            higher than the load.
        boat: a boat trailer with one clearance lamp on each side near its middle, instead of
            those at its corners.
        living_or_office: a trailer made to be lived or worked in, and for nothing else.
        rear_plate: it shows a license plate at the rear, as vehicles that were in service do not.
        rear_guard: there is an underride guard at the rear.
        body: what the load is carried in or on; "platform" is one without a bulkhead.
        damage: what is known to be damaged, one sentence each.
    """

    id: Id
    kind: Kind
    made: Day
    width_mm: Positive
    length_mm: Positive
    gvwr_kg: Positive | None = None
    rules: Rules = "us"
    cab_width_mm: Positive | None = None
    double_faced_turn: Flag = False
    towed_singly: Flag = False
    hides_towing_lamps: Flag = False
    towing_lamps_above_load: Flag = False
    boat: Flag = False
    living_or_office: Flag = False
    rear_plate: Flag = True
    rear_guard: Flag = False
    body: Body = "other"
    electrical: Electrical
    brakes: Brakes = Brakes()
    name: str = Field(default_factory=_name_from_id)
    plate: str = ""
    vin: str = ""
    notes: str = ""
    damage: tuple[str, ...] = ()


def kind_words(kind: Kind) -> Message:
    """Write a kind of vehicle by name."""
    return message(f"vehicle-kind-{kind.replace(' ', '-')}")


def vehicle_class(vehicle: Vehicle) -> VehicleClass:
    """Find the letter that 49 CFR 393.11 Table 1 gives this vehicle (H is for loads alone)."""
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
    """Tell whether air works the brake chambers themselves."""
    return vehicle.brakes.system == "air"


def has_abs(vehicle: Vehicle) -> bool:
    """Tell whether ABS must be fitted: as the file says, else by date of make, 49 CFR 393.55(c).

    Air over hydraulic counts as air-braked there: 571.121 S4, air brake system.
    """
    if vehicle.brakes.abs is not None:
        return vehicle.brakes.abs
    since = ABS_TRACTOR_FROM if vehicle.kind == "truck tractor" else ABS_OTHERS_FROM
    return vehicle.brakes.system in ("air", "air_over_hydraulic") and vehicle.made >= since
