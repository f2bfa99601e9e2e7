"""Values that lie well within what bounds them, for walks in which nothing is wrong."""

from __future__ import annotations

from collections.abc import Iterator

from walkaround.plan.values import Measure, Value

UNBOUNDED_PSI = 100.0
TIME_S = 30.0


def good_values(measure: Measure) -> Iterator[tuple[Value, float]]:
    """Each value of a step with an amount that is within: whole psi, quarter inches, seconds."""
    for value in measure.values:
        yield value, good_value(measure, value)


def good_value(measure: Measure, value: Value) -> float:
    """An amount within the bounds of a value, in the unit of its quantity."""
    if value.before:
        return UNBOUNDED_PSI - 10.0
    match measure.quantity:
        case "s":
            return TIME_S
        case "in":
            # A quarter inch less than the limit, or a wedge brake's nothing at all.
            most = value.at_most if value.at_most is not None else 1.5
            return max(0.0, (most * 4 // 1 - 1) / 4)
        case _:
            return float(round(_pressure(value)))


def _pressure(value: Value) -> float:
    match value.at_least, value.at_most:
        case None, None:
            return UNBOUNDED_PSI
        case float(least), None:
            return least + 5.0
        case None, float(most):
            return most - 5.0
        case float(least), float(most):
            return (least + most) / 2
    raise AssertionError(value)


def inch_words(inches: float) -> tuple[str, str]:
    """The two keys of a length in quarter inches: its whole part, then the fraction."""
    whole = int(inches)
    part = ("", "1/4", "1/2", "3/4")[round((inches - whole) * 4)]
    return f"{whole} …", part or f"{whole}"
