"""Outliers: a reading that does not fit the others, misread, mistyped or a new beginning.

Air that is held falls smoothly, so a reading far off the line through all the others is more likely
a mistake of who read than a thing that air did. Each reading is held against the line through the
others (the residual left out, as in regression diagnostics: Belsley, Kuh and Welsch, 1980, from
memory), and against what gauge and eye can be off.

Of three readings any one leaves two, which always fit a line. Then only what air cannot do tells
which of them it is: it does not rise, and does not lose more than cooling and a leak take.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from walkaround.airhold.cooling import MOST_COOLING_PSI, line_miss
from walkaround.airhold.fit import Fall, Floats

OFF_SDS = 4.5
"""A reading this many standard deviations off the line through the others does not fit. Such a
reading comes by chance in well under 1 hold of 1000, counting every look at it."""
REST_SDS = 3.0
"""The others fit a line if their misses add up to no more than this far out in the chi-square
distribution."""


def outliers(fall: Fall, limit_psi_per_min: float) -> tuple[int, ...]:
    """Find the readings of which one does not fit, by their index; empty if all do.

    One index: that reading, or what comes after it is something new if it is the last. Several:
    one of them, which the next reading will tell. Readings that fit no line whichever is left out
    are none of this.
    """
    count = len(fall.psi)
    if count < 3 or not _deviations(fall).max() > OFF_SDS:
        return ()
    if count == 3:
        return _of_three(fall, limit_psi_per_min)
    # Without the one that is furthest off the others fit best.
    first, second = np.argsort(-_deviations(fall))[:2].tolist()
    rest, other = _without(fall, first), _without(fall, second)
    if not _fits(rest) or (_fits(other) and line_miss(other) - line_miss(rest) < REST_SDS**2):
        return ()
    # Air that was just charged: an early steep part is no mistake.
    return () if first == 0 and 0 < _above_psi(fall) <= MOST_COOLING_PSI else (first,)


def _deviations(fall: Fall) -> Floats:
    """Return how many standard deviations each reading is off the line through the others."""
    missed, left = _residuals_and_leverages(fall)
    off: Floats = np.abs(missed) / np.sqrt(fall.variance_psi2 * np.maximum(left, 1e-9))
    return off


def _residuals_and_leverages(fall: Fall) -> tuple[Floats, Floats]:
    """Return each reading's distance above the line through all, psi, and its pull.

    The second is 1 less the leverage of regression: what a reading that is off by 1 psi still
    misses the line by.
    """
    away = fall.minutes - fall.minutes.mean()
    lost = fall.lost_psi - fall.lost_psi.mean()
    spread = float(away @ away)
    missed: Floats = float(away @ lost) / spread * away - lost
    left: Floats = 1.0 - 1.0 / len(away) - away**2 / spread
    return missed, left


def _above_psi(fall: Fall) -> float:
    """Return how far the first reading is above the line through the others."""
    missed, left = _residuals_and_leverages(fall)
    return float(missed[0] / left[0])


def _fits(fall: Fall) -> bool:
    """Tell whether the readings fit a line that does not rise."""
    freedom = len(fall.psi) - 2
    # Wilson and Hilferty, 1931 (from memory): the cube root of chi square is nearly normal.
    share = 2.0 / (9.0 * freedom)
    most = freedom * (1.0 - share + REST_SDS * math.sqrt(share)) ** 3
    return fall.rate > -REST_SDS * fall.rate_error([fall.rate]) and line_miss(fall) <= most


def _of_three(fall: Fall, limit_psi_per_min: float) -> tuple[int, ...]:
    first, middle, last = fall.psi.tolist()
    noise = _noise_psi(fall)
    rises = max(middle - first, last - middle, last - first) > noise
    if not rises and _residuals_and_leverages(fall)[0][1] < 0:
        # It falls less and less, as air does that cools.
        return ()
    return tuple(_wrong_candidates(fall, limit_psi_per_min, noise))


def _wrong_candidates(fall: Fall, limit: float, noise_psi: float) -> Iterator[int]:
    """Yield each of three readings without which the others are plausible for a hold."""
    for number in range(3):
        rest = _without(fall, number)
        drop = float(rest.psi[0] - rest.psi[1])
        most = MOST_COOLING_PSI + limit * float(rest.minutes[1] - rest.minutes[0]) + noise_psi
        if -noise_psi <= drop <= most:
            yield number


def _noise_psi(fall: Fall) -> float:
    """Return by how much two readings of the same pressure can differ, psi."""
    return fall.step_psi + REST_SDS * math.sqrt(2.0) * fall.eye_sd_psi


def _without(fall: Fall, number: int) -> Fall:
    return Fall(
        np.delete(fall.minutes, number),
        np.delete(fall.psi, number),
        fall.step_psi,
        fall.eye_sd_psi,
    )
