"""The keys on which a value is entered with two taps: first the coarse part, then the fine one.

A gauge's fine page holds its own marks, so that nothing can be entered that the gauge cannot show.
Where the marks are as far apart as the coarse keys, the first tap is the value.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Literal, NamedTuple

from walkaround.airhold.gauge import Gauge
from walkaround.base.units import (
    SIXTEENTHS,
    LengthUnit,
    PressureUnit,
    from_in,
    from_psi,
    mark_text,
    ruler_text,
)
from walkaround.plan.values import Measure
from walkaround.rules.limits import MeasureUnit

PadUnit = PressureUnit | LengthUnit | Literal["s"]

# What one coarse key covers, in the unit shown.
_BLOCK: Mapping[PadUnit, float] = {
    "psi": 10.0,
    "kPa": 100.0,
    "bar": 1.0,
    "in": 1.0,
    "mm": 10.0,
    "s": 10.0,
}
# Lengths and times are told to these; pressures to the step of their gauge.
_TOLD_TO: Mapping[PadUnit, float] = {"in": 1.0 / SIXTEENTHS, "mm": 1.0, "s": 1.0}
_ROUNDING = 1e-6


# The largest values that need be entered: psi, inches, seconds.
_MOST_PSI = 150.0
_MOST_IN = 3.5
_MOST_S = 150.0


class Scale(NamedTuple):
    """The scale in which a value is entered: its unit, its marks, its lowest and highest value."""

    unit: PadUnit
    step: float
    start: float
    most: float


class Key(NamedTuple):
    """One key: its value in the unit shown, and what stands on it, without the unit."""

    value: float
    label: str


def pad_scale(measure: Measure, gauge: Gauge | None, length: LengthUnit) -> Scale:
    """Return the scale for a value that is read off this gauge, or off a rule or a clock."""
    if gauge is not None:
        start, most = from_psi(measure.start, gauge.unit), from_psi(_MOST_PSI, gauge.unit)
        return Scale(gauge.unit, gauge.step, start, most)
    if measure.quantity == "in":
        return Scale(length, 1.0, from_in(measure.start, length), from_in(_MOST_IN, length))
    return Scale("s", 1.0, measure.start, _MOST_S)


def can_be_entered(quantity: MeasureUnit, scale: Scale, value: float) -> bool:
    """Tell whether a row of taps on the keys comes to this value."""
    coarse = coarse_keys(quantity, scale.unit, scale.step, scale.most)
    keys = [
        key
        for first in coarse
        for key in fine_keys(quantity, scale.unit, scale.step, first.value) or (first,)
    ]
    return any(abs(key.value - value) <= _ROUNDING for key in keys)


def coarse_keys(quantity: MeasureUnit, unit: PadUnit, step: float, most: float) -> tuple[Key, ...]:
    """List the first page: tens of psi, hundreds of kPa, whole bars, inches, tens of mm or seconds.

    Args:
        quantity: what is entered.
        unit: the unit shown.
        step: how far apart the marks of the gauge are, in that unit; no matter for other values.
        most: the largest value that need be entered, in that unit.
    """
    block = _block(quantity, unit, step)
    count = math.floor(most / block + _ROUNDING) + 1
    return tuple(Key(block * at, mark_text(block * at, block)) for at in range(count))


def fine_keys(
    quantity: MeasureUnit, unit: PadUnit, step: float, coarse_value: float
) -> tuple[Key, ...]:
    """List the second page: every mark from the coarse key to the next; empty if it is the value.

    A key's value is the whole value. Its label is too, but for inches: there it is the fraction.
    """
    block, mark = _block(quantity, unit, step), _mark(quantity, unit, step)
    if mark >= block:
        return ()
    first = math.ceil(coarse_value / mark - _ROUNDING)
    end = math.ceil((coarse_value + block) / mark - _ROUNDING)
    values = [round(mark * at, 6) for at in range(first, end)]
    return tuple(Key(value, _label(unit, value, mark)) for value in values)


def _mark(quantity: MeasureUnit, unit: PadUnit, step: float) -> float:
    return step if quantity == "psi" else _TOLD_TO[unit]


def _block(quantity: MeasureUnit, unit: PadUnit, step: float) -> float:
    return max(_BLOCK[unit], _mark(quantity, unit, step))


def _label(unit: PadUnit, value: float, mark: float) -> str:
    return ruler_text(value % 1.0) if unit == "in" else mark_text(value, mark)
