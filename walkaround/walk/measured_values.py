"""Values taken in a step, held against the bounds that count."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from walkaround.base.units import to_in, to_psi
from walkaround.brakes.strokes import stroke_verdict
from walkaround.plan.values import Measure, Value
from walkaround.walk.events import Measured

JudgedValue = Literal["within", "over", "under", "unbounded", "unmeasured"]
Outcome = Literal["open", "within", "outside", "unknown"]
# A value that differs from its bound by less than this, as a share of it, is the bound.
_SAME = 1e-6


def in_base(reading: Measured) -> float:
    """Return the value in psi, inches or seconds."""
    match reading.unit:
        case "s":
            return reading.value
        case "in" | "mm":
            return to_in(reading.value, reading.unit)
        case _:
            return to_psi(reading.value, reading.unit)


def amount(value: Value, readings: Mapping[str, Measured]) -> float | None:
    """Return what is held against the bounds: the value, or its drop in percent; None if open."""
    if value.id not in readings:
        return None
    now = in_base(readings[value.id])
    if not value.before:
        return now
    if value.before not in readings:
        return None
    before = in_base(readings[value.before])
    return 100.0 * (before - now) / before if before > 0 else None


def judge_value(measure: Measure, value: Value, readings: Mapping[str, Measured]) -> JudgedValue:
    """Hold one value against its bounds; equal is within, unless the limit says less than."""
    reading = amount(value, readings)
    if reading is None:
        return "unmeasured"
    least = value.least
    if value.at_most is None and least is None:
        return "unbounded"
    if measure.quantity == "in" and value.at_most is not None:
        return stroke_verdict(reading, value.at_most)
    if value.at_most is not None and not _up_to(reading, value.at_most, measure.equal_passes):
        return "over"
    if least is not None and not _up_to(least, reading, measure.equal_passes):
        return "under"
    return "within"


def outcome(measure: Measure, readings: Mapping[str, Measured]) -> Outcome:
    """Return all values together: open while one is missing, outside as soon as one is.

    It is unknown when all are in and nothing is known to hold them against.
    """
    verdicts = [judge_value(measure, value, readings) for value in measure.values]
    if "over" in verdicts or "under" in verdicts:
        return "outside"
    if "unmeasured" in verdicts:
        return "open"
    return "within" if measure.known else "unknown"


def _up_to(value: float, limit: float, equal_passes: bool) -> bool:
    if abs(value - limit) <= _SAME * max(1.0, abs(limit)):
        return equal_passes
    return value < limit
