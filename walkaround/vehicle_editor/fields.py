"""What is asked of a vehicle that is made or edited: a table with one line for each field.

A field names its key as the vehicle file does, `brakes.axles.*.type` for all axles at once; the
message of its title is named after the key. What a vehicle has no field for stays as it is.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, get_args

from walkaround.base.message import Message, Text, message
from walkaround.vehicle.model import KINDS, Axle, Body, BrakeSystem, Vehicle, kind_words
from walkaround.vehicle_editor.checks import KINDS_ASKED

Section = Literal["papers", "vehicle", "lamps", "brakes", "state", "seldom"]

MOST_AXLES = 9


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to choose: the value in the file, the word on the screen, what it means."""

    value: Any
    word: Text
    about: Text = ""


@dataclass(frozen=True, slots=True)
class Unit:
    """A way to step through sizes.

    Attributes:
        grain: the least step, in the unit of the vehicle file.
        steps: the steps on offer: a number, its unit, and how many grains it is.
    """

    name: Literal["metres", "feet", "kilograms", "pounds"]
    grain: float
    steps: tuple[tuple[int, str, int], ...]


METRES = Unit("metres", 10.0, ((1, "m", 100), (100, "mm", 10), (10, "mm", 1)))
FEET = Unit("feet", 25.4, ((5, "ft", 60), (1, "ft", 12), (1, "in", 1)))
KILOGRAMS = Unit("kilograms", 10.0, ((1000, "kg", 100), (100, "kg", 10), (10, "kg", 1)))
POUNDS = Unit("pounds", 45.359237, ((10_000, "lb", 100), (1000, "lb", 10), (100, "lb", 1)))


def _always(_: Vehicle) -> bool:
    return True


@dataclass(frozen=True, slots=True)
class Field:
    """Something asked of a vehicle; `when` says of which."""

    key: str
    when: Callable[[Vehicle], bool] = field(default=_always, kw_only=True)

    @property
    def title(self) -> Message:
        """What it is called beside its value."""
        name = self.key.replace(".*", "").replace(".", "-").replace("_", "-")
        return message(f"field-{name}")


@dataclass(frozen=True, slots=True)
class OptionsField(Field):
    """One of a few options; `narrowed`: those that would be wrong on this vehicle are left out."""

    options: tuple[Option, ...]
    narrowed: bool = field(default=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class ConnectorField(Field):
    """A wiring of the connector table; `optional`: or none."""

    optional: bool = False


@dataclass(frozen=True, slots=True)
class SizeField(Field):
    """A length in mm or a mass in kg: usual sizes, and steps; `optional`: or not known."""

    units: tuple[Unit, Unit]
    usual: tuple[float, ...]
    optional: bool = False


@dataclass(frozen=True, slots=True)
class MonthField(Field):
    """A year and a month."""


@dataclass(frozen=True, slots=True)
class TicksField(Field):
    """Yes or no for each axle."""


@dataclass(frozen=True, slots=True)
class VolumesField(Field):
    """Any number of usual volumes, in liters."""

    usual: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class TextField(Field):
    """Something typed: how many characters, if counted, in capitals, on several lines."""

    most: int
    counted: bool = field(default=False, kw_only=True)
    capitals: bool = field(default=False, kw_only=True)
    lines: bool = field(default=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class SentencesField(Field):
    """Sentences put together from what and where, or typed; each word by its name."""

    what: tuple[str, ...]
    where: tuple[str, ...]


def _options(*pairs: tuple[Any, str]) -> tuple[Option, ...]:
    return tuple(Option(value, message(f"choice-{name}")) for value, name in pairs)


def _named(*values: str) -> tuple[Option, ...]:
    return _options(*((value, value.replace("_", "-")) for value in values))


def _asked_with(key: str) -> Callable[[Vehicle], bool]:
    return lambda vehicle: vehicle.kind in KINDS_ASKED[key]


def _air(vehicle: Vehicle) -> bool:
    return vehicle.brakes.system in ("air", "air_over_hydraulic")


def _axles(vehicle: Vehicle) -> bool:
    return bool(vehicle.brakes.axles)


def _chambers(vehicle: Vehicle) -> bool:
    return vehicle.brakes.system == "air" and _axles(vehicle)


_YES_NO = _options((True, "yes"), (False, "no"))
_VOLTS = tuple(Option(volts, message("unit-v", n=volts)) for volts in (12, 24))
_TOGETHER = _named("separate", "combined")
_LIGHT = _options((False, "bulbs"), (True, "leds"))
_SYSTEMS = _named(*get_args(BrakeSystem))
_BODIES = _named(*get_args(Body))
_KINDS = tuple(Option(kind, kind_words(kind)) for kind in KINDS)
_COUNTS = tuple(Option(number, str(number)) for number in range(MOST_AXLES + 1))
_ACTUATORS = _named(*get_args(Axle.model_fields["actuator"].annotation))
# As the stroke tables of 49 CFR 393.47(e) name them: square inches, bolt chambers by letters.
_SIZES = ("6", "9", "12", "16", "20", "24", "30", "36", "50", *"ABCDEFG")
_TYPES = tuple(Option(size, message("choice-type", size=size)) for size in _SIZES)
_CHAMBERS = (*_TYPES, *_options(("", "not-known")))
_STROKES_IN = (1.75, 2.0, 2.25, 2.5, 3.0)
_MARKED = tuple(Option(inch, message("unit-in", n=inch)) for inch in _STROKES_IN)
_STROKES = (*_options((None, "not-marked")), *_MARKED)
_SLACK = _options(("automatic", "automatic"), ("manual", "manual"), (None, "not-known"))
_ABS = _options((None, "by-date"), (True, "fitted"), (False, "not-fitted"))
# The names of the rules, the same in every language.
_RULES = (Option("us", "49 CFR 393"), Option("unece", "UN R48"))

_LENGTH, _MASS = (METRES, FEET), (KILOGRAMS, POUNDS)
# 8 ft and 102 in; 20, 27, 40, 45 and 53 ft; some masses, and 10,000, 26,000 and 80,000 lb.
_WIDTHS_MM = (2438.0, 2591.0)
_LENGTHS_MM = (6096.0, 8230.0, 12192.0, 13716.0, 16154.0)
_MASSES_KG = (3500.0, 4536.0, 7500.0, 11793.0, 15000.0, 20000.0, 30000.0, 36287.0)
_TANKS_L = (10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 46.0, 60.0, 80.0, 100.0, 120.0)

_HURT = ("dented", "bent", "cracked", "torn", "rusted", "loose", "missing", "repaired")
_ROUND = ("front", "front-right", "right-side", "rear-right", "rear", "rear-left", "left-side")
_PLACES = (*_ROUND, "front-left", "underneath", "bumper", "tape", "cable-or-hose")

_CAB = _asked_with("cab_width_mm")
_FACTS = (
    "double_faced_turn",
    "towed_singly",
    "hides_towing_lamps",
    "towing_lamps_above_load",
    "boat",
    "living_or_office",
    "rear_guard",
)

FIELDS: Mapping[Section, tuple[Field, ...]] = {
    "papers": (
        TextField("name", 40),
        TextField("plate", 20, capitals=True),
        TextField("vin", 17, capitals=True, counted=True),
    ),
    "vehicle": (
        OptionsField("kind", _KINDS),
        MonthField("made"),
        SizeField("width_mm", _LENGTH, _WIDTHS_MM),
        SizeField("length_mm", _LENGTH, _LENGTHS_MM),
        SizeField("gvwr_kg", _MASS, _MASSES_KG, optional=True),
    ),
    "lamps": (
        ConnectorField("electrical.connector"),
        OptionsField("electrical.volts", _VOLTS, narrowed=True),
        OptionsField("electrical.stop_turn", _TOGETHER, narrowed=True),
        OptionsField("electrical.led", _LIGHT),
        OptionsField("electrical.blackout", _YES_NO, narrowed=True),
    ),
    "brakes": (
        OptionsField("brakes.system", _SYSTEMS),
        OptionsField("brakes.axles", _COUNTS),
        TicksField("brakes.axles.*.spring", when=_chambers),
        TicksField("brakes.axles.*.lift", when=_axles),
        OptionsField("brakes.axles.*.actuator", _ACTUATORS, when=_chambers),
        OptionsField("brakes.axles.*.type", _CHAMBERS, when=_chambers, narrowed=True),
        TicksField("brakes.axles.*.long_stroke", when=_chambers),
        OptionsField("brakes.axles.*.rated_stroke_in", _STROKES, when=_chambers),
        OptionsField("brakes.axles.*.slack", _SLACK, when=_chambers),
        OptionsField("brakes.axles.*.foundation", _named("drum", "disc"), when=_axles),
        VolumesField("brakes.reservoir_l", _TANKS_L, when=_air),
        OptionsField("brakes.abs", _ABS, when=_air),
    ),
    "state": (
        SentencesField("damage", _HURT, _PLACES),
        TextField("notes", 500, lines=True, counted=True),
    ),
    "seldom": (
        OptionsField("rules", _RULES, narrowed=True),
        ConnectorField("electrical.second_connector", optional=True),
        SizeField("cab_width_mm", _LENGTH, _WIDTHS_MM, optional=True, when=_CAB),
        OptionsField("rear_plate", _YES_NO),
        OptionsField("body", _BODIES, when=_asked_with("body")),
        *(OptionsField(key, _YES_NO, when=_asked_with(key)) for key in _FACTS),
    ),
}
