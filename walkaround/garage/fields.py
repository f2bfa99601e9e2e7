"""What is asked of a vehicle that is made or edited: a table with one line for each field.

A field names its key as the vehicle file does, `brakes.axles.*.type` for all axles at once. What
a vehicle has no field for stays as it is.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, get_args

from walkaround.garage.checks import KINDS_ASKED
from walkaround.vehicle.model import KINDS, Axle, BrakeSystem, Vehicle

Part = Literal["Name and papers", "Vehicle", "Lamps", "Brakes", "State", "Seldom needed"]
PARTS: tuple[Part, ...] = get_args(Part)

MOST_AXLES = 9


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to choose: the value in the file, the word on the screen, what it means."""

    value: Any
    word: str
    about: str = ""


@dataclass(frozen=True, slots=True)
class Unit:
    """A way to step through sizes.

    Attributes:
        grain: the least step, in the unit of the vehicle file.
        steps: the steps on offer: what each is called, and how many grains it is.
    """

    name: str
    grain: float
    steps: tuple[tuple[str, int], ...]


METRES = Unit("Metres", 10.0, (("1 m", 100), ("100 mm", 10), ("10 mm", 1)))
FEET = Unit("Feet", 25.4, (("5 ft", 60), ("1 ft", 12), ("1 in", 1)))
KILOGRAMS = Unit("Kilograms", 10.0, (("1,000 kg", 100), ("100 kg", 10), ("10 kg", 1)))
POUNDS = Unit("Pounds", 45.359237, (("10,000 lb", 100), ("1,000 lb", 10), ("100 lb", 1)))


def _always(_: Vehicle) -> bool:
    return True


@dataclass(frozen=True, slots=True)
class Field:
    """Something asked of a vehicle; `when` says of which."""

    key: str
    title: str
    when: Callable[[Vehicle], bool] = field(default=_always, kw_only=True)


@dataclass(frozen=True, slots=True)
class Pick(Field):
    """One of a few options; `narrowed`: those that would be wrong on this vehicle are left out."""

    options: tuple[Option, ...]
    narrowed: bool = field(default=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class PickConnector(Field):
    """A wiring of the connector table, or none where `none` has a word for that."""

    none: str = ""


@dataclass(frozen=True, slots=True)
class Measure(Field):
    """A length in mm or a mass in kg: usual sizes, and steps; `unknown` is the word for none."""

    units: tuple[Unit, Unit]
    usual: tuple[float, ...]
    unknown: str = ""


@dataclass(frozen=True, slots=True)
class Day(Field):
    """A year and a month."""


@dataclass(frozen=True, slots=True)
class Ticks(Field):
    """Yes or no for each axle."""


@dataclass(frozen=True, slots=True)
class Several(Field):
    """Any number of usual values, in `unit`."""

    unit: str
    usual: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Typed(Field):
    """Something typed: so many characters at most, counted, in capitals, on several lines."""

    most: int
    counted: bool = field(default=False, kw_only=True)
    capitals: bool = field(default=False, kw_only=True)
    lines: bool = field(default=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class Sentences(Field):
    """Sentences put together from what and where, or typed."""

    what: tuple[str, ...]
    where: tuple[str, ...]


def _options(*pairs: tuple[Any, str]) -> tuple[Option, ...]:
    return tuple(Option(value, word) for value, word in pairs)


def _named(*values: str) -> tuple[Option, ...]:
    return tuple(Option(value, value.replace("_", " ").capitalize()) for value in values)


def _asked_with(key: str) -> Callable[[Vehicle], bool]:
    return lambda vehicle: vehicle.kind in KINDS_ASKED[key]


def _air(vehicle: Vehicle) -> bool:
    return vehicle.brakes.system in ("air", "air_over_hydraulic")


def _axles(vehicle: Vehicle) -> bool:
    return bool(vehicle.brakes.axles)


def _chambers(vehicle: Vehicle) -> bool:
    return vehicle.brakes.system == "air" and _axles(vehicle)


_YES_NO = _options((True, "Yes"), (False, "No"))
_VOLTS = _options((12, "12 V"), (24, "24 V"))
_TOGETHER = _named("separate", "combined")
_LIGHT = _options((False, "Bulbs"), (True, "LEDs"))
_SYSTEMS = _named(*get_args(BrakeSystem))
_COUNTS = tuple(Option(number, str(number)) for number in range(MOST_AXLES + 1))
_ACTUATORS = _named(*get_args(Axle.model_fields["actuator"].annotation))
# As the stroke tables of 49 CFR 393.47(e) name them: square inches, bolt chambers by letters.
_SIZES = ("6", "9", "12", "16", "20", "24", "30", "36", "50", *"ABCDEFG")
_CHAMBERS = (*(Option(size, f"Type {size}") for size in _SIZES), Option("", "Not known"))
_STROKES_IN = (1.75, 2.0, 2.25, 2.5, 3.0)
_STROKES = (Option(None, "Not marked"), *(Option(inch, f"{inch:g} in") for inch in _STROKES_IN))
_SLACK = _options(("automatic", "Automatic"), ("manual", "Manual"), (None, "Not known"))
_ABS = _options((None, "By date"), (True, "Fitted"), (False, "Not fitted"))
_RULES = _options(("us", "49 CFR 393"), ("unece", "UN R48"))

_LENGTH, _MASS = (METRES, FEET), (KILOGRAMS, POUNDS)
# 8 ft and 102 in; 20, 27, 40, 45 and 53 ft; some masses, and 10,000, 26,000 and 80,000 lb.
_WIDTHS_MM = (2438.0, 2591.0)
_LENGTHS_MM = (6096.0, 8230.0, 12192.0, 13716.0, 16154.0)
_MASSES_KG = (3500.0, 4536.0, 7500.0, 11793.0, 15000.0, 20000.0, 30000.0, 36287.0)
_TANKS_L = (10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 46.0, 60.0, 80.0, 100.0, 120.0)

_HURT = ("Dented", "Bent", "Cracked", "Torn", "Rusted", "Loose", "Missing", "Repaired")
_ROUND = ("front", "front right", "right side", "rear right", "rear", "rear left", "left side")
_PLACES = (*_ROUND, "front left", "underneath", "bumper", "reflective tape", "cable or hose")

_CAB = _asked_with("cab_width_mm")
_FACTS = {
    "double_faced_turn": "Double-faced turn signals",
    "towed_singly": "Towed with no trailer",
    "hides_towing_lamps": "Hides turn signals ahead",
    "towing_lamps_above_load": "Lamps ahead show over the load",
    "boat": "Boat trailer, lamps mid-side",
    "living_or_office": "To live or work in",
}

FIELDS: Mapping[Part, tuple[Field, ...]] = {
    "Name and papers": (
        Typed("name", "Name", 40),
        Typed("plate", "Licence plate", 20, capitals=True),
        Typed("vin", "VIN", 17, capitals=True, counted=True),
    ),
    "Vehicle": (
        Pick("kind", "Kind", _named(*KINDS)),
        Day("made", "Made"),
        Measure("width_mm", "Width", _LENGTH, _WIDTHS_MM),
        Measure("length_mm", "Length", _LENGTH, _LENGTHS_MM),
        Measure("gvwr_kg", "Gross weight (GVWR)", _MASS, _MASSES_KG, "Not known"),
    ),
    "Lamps": (
        PickConnector("electrical.connector", "Connector"),
        Pick("electrical.volts", "Voltage", _VOLTS, narrowed=True),
        Pick("electrical.stop_turn", "Stop and turn lamps", _TOGETHER, narrowed=True),
        Pick("electrical.led", "Light from", _LIGHT),
        Pick("electrical.blackout", "Blackout lamps", _YES_NO, narrowed=True),
    ),
    "Brakes": (
        Pick("brakes.system", "Brakes", _SYSTEMS),
        Pick("brakes.axles", "Axles", _COUNTS),
        Ticks("brakes.axles.*.spring", "Spring brakes on axle", when=_chambers),
        Ticks("brakes.axles.*.lift", "Axles that lift", when=_axles),
        Pick("brakes.axles.*.actuator", "Brake chambers", _ACTUATORS, when=_chambers),
        Pick("brakes.axles.*.type", "Chamber size", _CHAMBERS, when=_chambers, narrowed=True),
        Ticks("brakes.axles.*.long_stroke", "Long-stroke chambers on axle", when=_chambers),
        Pick("brakes.axles.*.rated_stroke_in", "Stroke marked on it", _STROKES, when=_chambers),
        Pick("brakes.axles.*.slack", "Slack adjusters", _SLACK, when=_chambers),
        Pick("brakes.axles.*.foundation", "Wheel brakes", _named("drum", "disc"), when=_axles),
        Several("brakes.reservoir_l", "Air reservoirs", "L", _TANKS_L, when=_air),
        Pick("brakes.abs", "ABS", _ABS, when=_air),
    ),
    "State": (
        Sentences("damage", "Damage", _HURT, _PLACES),
        Typed("notes", "Notes", 500, lines=True, counted=True),
    ),
    "Seldom needed": (
        Pick("rules", "Lamp rules", _RULES, narrowed=True),
        PickConnector("electrical.second_connector", "Second connector", "None"),
        Measure("cab_width_mm", "Cab width", _LENGTH, _WIDTHS_MM, "Not known", when=_CAB),
        *(Pick(key, title, _YES_NO, when=_asked_with(key)) for key, title in _FACTS.items()),
    ),
}
