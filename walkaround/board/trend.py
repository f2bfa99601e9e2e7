"""The linear trend of values over time, with its confidence bounds.

There is no forecast beyond the last value: wear comes in steps, and a repair ends a trend.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

LEAST_POINTS = 3
"""Any two points are on a line."""
_T_975 = (
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160,
    2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086, 2.080, 2.074, 2.069, 2.064, 2.060, 2.056,
    2.052, 2.048, 2.045, 2.042,
)  # fmt: skip
"""Critical values of Student's t, 0.975, for 1 to 30 degrees of freedom (NIST/SEMATECH e-Handbook
of Statistical Methods, 1.3.6.7.2). For more of them the last one is a little too wide."""


class Trend(NamedTuple):
    """The trend line at each point, and its 95 % confidence bounds there."""

    line: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]


def trend_of(xs: Sequence[float], ys: Sequence[float]) -> Trend | None:
    """Fit a line by least squares; return None for too few points, or if all `xs` are equal."""
    count = len(xs)
    if count < LEAST_POINTS or min(xs) == max(xs):
        return None
    x, y = np.array(xs), np.array(ys)
    deviations = x - x.mean()
    sum_of_squares = float(deviations @ deviations)
    line = y.mean() + float(deviations @ (y - y.mean())) / sum_of_squares * deviations
    error = float(np.sqrt(((y - line) ** 2).sum() / (count - 2)))
    t = _T_975[min(count - 2, len(_T_975)) - 1]
    half_width = t * error * np.sqrt(1 / count + deviations**2 / sum_of_squares)
    return Trend(
        *(tuple(map(float, each)) for each in (line, line - half_width, line + half_width))
    )
