"""Quantities in the units of the reader: inches go with feet, °F, pounds and cubic inches."""

from __future__ import annotations

import math

from walkaround.base.message import Quantity
from walkaround.base.units import (
    INCH_MM,
    KG_IN_POUND,
    Units,
    distance_text,
    length_limit_text,
    pressure_text,
    temperature_text,
)

_INCHES_IN_LITRE = (100.0 / INCH_MM) ** 3
# The international foot is exactly 0.3048 m (agreement of 1959).
_LITRES_IN_FOOT = 3.048**3


def quantity_text(quantity: Quantity, units: Units) -> str:
    """Write a quantity in these units: "110 psi", "45 ft 0 in", "66,140 lb"."""
    value, decimals = quantity.value, quantity.decimals
    metric = units.length == "mm"
    match quantity.unit:
        case "in":
            return length_limit_text(value, units.length)
        case "m":
            return distance_text(value, units.length, decimals or 0)
        case "celsius":
            return temperature_text(value, units.length, decimals)
        case "kg":
            return f"{value:,.0f} kg" if metric else f"{_tens(value / KG_IN_POUND):,} lb"
        case "l":
            return f"{value:g} L" if metric else f"{_tens(value * _INCHES_IN_LITRE):,} cu in"
        case "l_per_min":
            flow = _two_figures(value if metric else value / _LITRES_IN_FOOT)
            return f"{flow} {'L/min' if metric else 'scfm'}"
        case "bore_mm":
            return f"{_two_figures(value)} mm" if metric else f"{_two_figures(value / INCH_MM)} in"
    text = pressure_text(value, units.pressure, decimals)
    return f"{text}/min" if quantity.unit == "psi_per_min" else text


def _two_figures(value: float) -> str:
    """Write a positive number to two figures, in digits alone: 12, 0.43, 130."""
    places = 1 - math.floor(math.log10(value))
    return f"{round(value, places):.{max(places, 0)}f}"


def _tens(value: float) -> int:
    return int(round(value, -1))
