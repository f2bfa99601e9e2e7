"""Can cooling air explain the readings? Air that was just charged is warm, and loses pressure.

Two stories of one hold are compared by how badly they miss the readings (the sum of squared
misses over the variance of a reading, "chi square"):

- a leak alone, of any size: a straight line (`Fall.lost_psi`);
- a leak within the limit, and cooling besides: `A (1 - (1 + t / 3T)^-3)` psi lost after `t`.

That is how air cools at the wall of a reservoir: by convection of its own making, whose heat
transfer goes with the cube root of how much warmer the air is (Nu = 0.13 Ra^(1/3), from memory).
So the warmer it is the faster it cools, what is left goes slowly, and a little cooling takes longer
than much: an exponential, which falls off too soon, took many of those for leaks.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np

from walkaround.airhold.fit import Fall, Floats

TIMES_S = (20.0, 30.0, 45.0)
"""Time constants T that are tried. By the formula above air that is 5 to 25 C too warm begins to
cool with T from 16 s (20 L) to 48 s (100 L): tests/standards/test_cooling_air.py."""
MOST_COOLING_PSI = 12.0
"""Most that cooling takes: 31 C at 100 psi gauge, by Gay-Lussac 0.39 psi per C."""
SURER_PER_PSI = 2.5
"""A leak is called only if the straight line misses less than cooling of A psi does, by
2.5 A - `FORGIVEN`: the more cooling the readings could hold, the surer one must be."""
FORGIVEN = 11.5
FORGIVEN_S = 90.0
"""A short hold cannot tell a little cooling from a leak, so a little is forgiven; after this
many seconds less and less of it."""
CLEARLY_COOLING = 8.0
"""Cooling is called when it misses less than the straight line by more than this. Leaks that
are straight look so by chance in well under 1 hold of 100."""


class _Shape(NamedTuple):
    """Sums of squares and products of a fall (y), time (t) and one cooling curve (c)."""

    yy: float
    yt: float
    yc: float
    tt: float
    tc: float
    cc: float

    def miss(self, rate: float, cooling: float) -> float:
        """Return the squared miss of `rate` psi/min and `cooling` psi, psi^2."""
        moved = rate**2 * self.tt + cooling**2 * self.cc + 2 * rate * cooling * self.tc
        return self.yy - 2 * rate * self.yt - 2 * cooling * self.yc + moved


def leak_is_plain(fall: Fall, limit_psi_per_min: float) -> bool:
    """Tell whether no cooling, with a leak within the limit, could well be taken for this leak."""
    forgiven = FORGIVEN * min(1.0, FORGIVEN_S / fall.held_s)
    cooled = cooling_miss(fall, limit_psi_per_min, SURER_PER_PSI)
    return cooled + forgiven > line_miss(fall)


def is_cooling(fall: Fall, limit_psi_per_min: float) -> bool:
    """Tell whether cooling, with a leak within the limit, fits clearly better than a leak alone."""
    return line_miss(fall) - cooling_miss(fall, limit_psi_per_min) > CLEARLY_COOLING


def line_miss(fall: Fall) -> float:
    """Tell how badly a leak alone misses the readings, chi square."""
    (yy, yt), (_, tt) = _products([fall.lost_psi, fall.minutes])
    return max(0.0, yy - yt**2 / tt) / fall.variance_psi2


def cooled_share(seconds: Floats, time_s: float) -> Floats:
    """Tell how much of what cooling takes is gone after so many seconds, 0 to 1."""
    share: Floats = 1.0 - (1.0 + seconds / (3.0 * time_s)) ** -3
    return share


def cooling_miss(fall: Fall, limit: float, surer_per_psi: float = 0.0) -> float:
    """Return the least miss of any cooling with a leak within the limit, chi square.

    Args:
        fall: the readings.
        limit: most that the leak may lose, psi/min.
        surer_per_psi: taken off for each psi of cooling, so that more of it counts as nearer.
    """
    tilt = surer_per_psi * fall.variance_psi2 / 2.0
    curves = [cooled_share(fall.minutes * 60.0, time_s) for time_s in TIMES_S]
    (yy, yt, *ycs), (_, tt, *tcs), *products = _products([fall.lost_psi, fall.minutes, *curves])
    ccs = [row[n] for n, row in enumerate(products, 2)]
    # Miss - 2 tilt A is again a sum of squares and products: only the product of y and c differs.
    shapes = (
        _Shape(yy, yt, yc + tilt, tt, tc, cc) for yc, tc, cc in zip(ycs, tcs, ccs, strict=True)
    )
    return min(_least(shape, limit) for shape in shapes) / fall.variance_psi2


def _products(curves: list[Floats]) -> list[list[float]]:
    """Return the sum of products of each two curves, each taken from its own mean."""
    away = np.array(curves)
    away -= away.mean(axis=1, keepdims=True)
    products: list[list[float]] = (away @ away.T).tolist()
    return products


def _least(shape: _Shape, limit: float) -> float:
    """Return the least miss with 0 to `limit` psi/min and as much cooling as there may be."""
    return min(shape.miss(rate, cooling) for rate, cooling in _candidates(shape, limit))


def _candidates(shape: _Shape, limit: float) -> Iterable[tuple[float, float]]:
    _, yt, yc, tt, tc, cc = shape
    for cooling in (0.0, MOST_COOLING_PSI):
        yield min(max((yt - cooling * tc) / tt, 0.0), limit), cooling
    for rate in (0.0, limit):
        yield rate, min(max((yc - rate * tc) / cc, 0.0), MOST_COOLING_PSI)
    spread = tt * cc - tc * tc
    if spread > 1e-9 * tt * cc:
        rate, cooling = (yt * cc - yc * tc) / spread, (yc * tt - yt * tc) / spread
        if 0 <= rate <= limit and 0 <= cooling <= MOST_COOLING_PSI:
            yield rate, cooling
