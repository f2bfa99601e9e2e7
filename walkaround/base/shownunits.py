"""Texts with their pressures and lengths in the units that the mechanic chose.

Checklists are written in psi and inches, as the trade's tables are. Lengths become millimetres to
0.1, as limits are printed: rounded further, 51 mm would look like the 2 in that it is over.
"""

from __future__ import annotations

import re

from walkaround.base.units import (
    PressureUnit,
    Units,
    from_psi,
    length_limit_text,
    pressure_text,
)

_NUMBER = r"\d+(?:\.\d+)?"
_PSI = re.compile(
    rf"(?<![\w.])(?:(?P<first>{_NUMBER})(?P<link> to | and | or |-))?(?P<psi>{_NUMBER}) psi\b"
)
# After these a number is a name, and before those "in" is no inch: "pin 6 in the plug".
_NAMES = ("axle ", "pin ", "pins ", "step ", "type ")
_PLACES = "a all an any both each either every its one order place that the these this turn your"
_INCH = re.compile(
    rf"{''.join(f'(?<!{name})' for name in _NAMES)}(?<![\w/.])"
    r"(?:(?:(?P<whole>\d+) )?(?P<over>\d+)/(?P<under>[1-9]\d*)|(?P<plain>\d+)) in\b"
    rf"(?! (?:{_PLACES.replace(' ', '|')})\b)(?! \w+ of\b)"
)


def in_units(text: str, units: Units) -> str:
    """The text with its pressures ("110 psi", "80 to 90 psi") and lengths ("1/4 in") in units."""
    if units.pressure != "psi":
        text = _PSI.sub(lambda match: _pressures(match, units.pressure), text)
    return _INCH.sub(_millimetres, text) if units.length == "mm" else text


def _pressures(match: re.Match[str], unit: PressureUnit) -> str:
    last = pressure_text(float(match["psi"]), unit)
    if match["first"] is None:
        return last
    decimals = len(last.partition(" ")[0].partition(".")[2])
    return f"{from_psi(float(match['first']), unit):.{decimals}f}{match['link']}{last}"


def _millimetres(match: re.Match[str]) -> str:
    inches = float(match["whole"] or 0)
    inches += float(match["over"]) / float(match["under"]) if match["over"] else 0.0
    inches += float(match["plain"] or 0)
    return length_limit_text(inches, "mm")
