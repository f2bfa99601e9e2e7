"""Pressures and lengths in the mechanic's units: numbers converted, and written as a text.

Inside, pressures are psi gauge and lengths are inches, as the rules give them. Only what is shown
and what was typed is in another unit; a text of this module always names its unit.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Literal, NamedTuple

PressureUnit = Literal["psi", "kPa", "bar"]
LengthUnit = Literal["in", "mm"]


class Units(NamedTuple):
    """The units in which pressures and lengths are shown; with inches, feet and Fahrenheit too."""

    pressure: PressureUnit = "psi"
    length: LengthUnit = "in"


AS_WRITTEN = Units()
"""Psi and inches, as checklists are written and as the rules' tables are."""

_NUMBER = r"\d+(?: \d+/[1-9]\d*|/[1-9]\d*|\.\d+)?"
WRITTEN_QUANTITY = re.compile(
    rf"(?:(?P<first>{_NUMBER})(?P<link> to | and | or |-))?(?P<last>{_NUMBER}) (?P<unit>psi|in)"
)
"""A quantity, or a range, as a checklist writes it: "110 psi", "80 to 90 psi", "1 7/8 in"."""

PSI_KPA = 6.894757293168
"""Kilopascals in a psi: 0.45359237 kg x 9.80665 m/s2 on (0.0254 m)2, NIST SP 811 (2008), B.8."""
INCH_MM = 25.4
"""Millimetres in an inch, exact: NIST SP 811 (2008), B.8."""
KG_IN_POUND = 0.45359237
"""Kilograms in a pound, exact: the agreement of 1959."""
INCHES_IN_FOOT = 12
LOST = 1e-6
"""What floats lose in mm."""
SIXTEENTHS = 16
"""A brake rule is read to the sixteenth of an inch: common practice, no source."""

_OF_A_PSI: Mapping[PressureUnit, float] = {"psi": 1.0, "kPa": PSI_KPA, "bar": PSI_KPA / 100.0}
_OF_AN_INCH: Mapping[LengthUnit, float] = {"in": 1.0, "mm": INCH_MM}
# Fine enough that the marks of a gauge stay apart, and no finer.
_PRESSURE_DECIMALS: Mapping[PressureUnit, int] = {"psi": 0, "kPa": 0, "bar": 2}
_MOST_DECIMALS = 3


def number_of(text: str) -> float:
    """Return the number that a checklist writes: "110", "2.5", "1/4", "1 7/8"."""
    return float(sum(Fraction(part) for part in text.split()))


def to_psi(value: float, unit: PressureUnit) -> float:
    """Convert a pressure, or a change of pressure, in psi."""
    return value / _OF_A_PSI[unit]


def from_psi(psi: float, unit: PressureUnit) -> float:
    """Convert a pressure, or a change of pressure, from psi into this unit."""
    return psi * _OF_A_PSI[unit]


def to_in(value: float, unit: LengthUnit) -> float:
    """Convert a length to inches."""
    return value / _OF_AN_INCH[unit]


def from_in(inch: float, unit: LengthUnit) -> float:
    """Convert a length from inches into this unit."""
    return inch * _OF_AN_INCH[unit]


def pressure_text(psi: float, unit: PressureUnit, decimals: int | None = None) -> str:
    """Write a pressure as it is shown: "110 psi", "758 kPa", "7.58 bar"."""
    places = _PRESSURE_DECIMALS[unit] if decimals is None else decimals
    return f"{from_psi(psi, unit):z.{places}f} {unit}"


def length_text(inch: float, unit: LengthUnit) -> str:
    """Write a length as it is shown: "1 7/8 in" to the nearest sixteenth, or "48 mm"."""
    if unit == "in":
        return f"{ruler_text(inch)} in"
    return f"{from_in(inch, unit):z.0f} {unit}"


def distance_text(metres: float, unit: LengthUnit, decimals: int = 0) -> str:
    """Write a long length for readers of inches or mm: "45 ft" or "14 m"; finer, "45 ft 3 in"."""
    if unit == "mm":
        return f"{metres:z.{decimals}f} m"
    inches = metres * 1000.0 / INCH_MM
    if not decimals:
        return f"{nearest_whole(inches / INCHES_IN_FOOT)} ft"
    feet, over = divmod(nearest_whole(inches), INCHES_IN_FOOT)
    return f"{feet} ft {over} in"


def temperature_text(celsius: float, unit: LengthUnit, decimals: int | None = None) -> str:
    """Write a temperature for readers of inches or of mm: "68 °F" or "20 °C"."""
    if unit == "mm":
        return f"{celsius:z.4g} °C" if decimals is None else f"{celsius:z.{decimals}f} °C"
    return f"{to_fahrenheit(celsius):z.0f} °F"


def to_fahrenheit(celsius: float) -> float:
    """Convert degrees Celsius to degrees Fahrenheit: NIST SP 811 (2008), B.8."""
    return celsius * 1.8 + 32.0


def ruler_text(inch: float) -> str:
    """Write inches to the nearest sixteenth as on a rule, the fraction reduced: "1 7/8", "0"."""
    sixteenths = nearest_whole(abs(inch) * SIXTEENTHS)
    whole, part = divmod(sixteenths, SIXTEENTHS)
    shared = math.gcd(part, SIXTEENTHS)
    fraction = f"{part // shared}/{SIXTEENTHS // shared}" if part else ""
    text = f"{whole} {fraction}".strip() if whole else fraction or "0"
    return f"-{text}" if inch < 0 and sixteenths else text


def mark_text(value: float, step: float) -> str:
    """Write a value with the decimals that marks `step` apart need: 7.6 at 0.05 is "7.60"."""
    decimals = f"{step:.{_MOST_DECIMALS}f}".rstrip("0").partition(".")[2]
    return f"{value:z.{len(decimals)}f}"


def nearest_whole(value: float) -> int:
    """Return the nearest whole number; halves go up, as on paper, and not to the even one."""
    return math.floor(value + 0.5)


def length_limit_text(limit_in: float, unit: LengthUnit) -> str:
    """Write a limit as it is shown, never rounded past a reading that it tells from the next.

    Whole sixteenths of an inch as such ("1 3/4 in"), other inches as decimals ("1.8 in"),
    millimeters to 0.1, halves up, as the table prints them ("44.5 mm").
    """
    if unit == "mm":
        tenths = nearest_whole(from_in(limit_in, unit) * 10 + LOST)
        return f"{tenths / 10:g} {unit}"
    ruled = (limit_in * SIXTEENTHS).is_integer()
    return length_text(limit_in, unit) if ruled else f"{limit_in:.4g} {unit}"
