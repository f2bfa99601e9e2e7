"""The straight line through a gauge's readings, and how far its slope may be off.

The slope is that of plain least squares. Its standard error is worked out from what is known of a
reading, never from the scatter of a few points:

- the eye errs by `read_sd_psi`, and the look comes `TIME_SD_S` early or late;
- the scale is read to the nearest mark, an error spread evenly over one step (variance
  step^2 / 12, JCGM 100:2008 (GUM) 4.3.7).

Where the needle hardly moves, or moves in step with the looks, rounding errors are alike from
reading to reading and do not average out. The rounding error along a falling needle is a sawtooth,
a Fourier series of waves `step / (pi n)` high and `step / n` long; an eye whose error has the
standard deviation s blurs each by exp(-(2 pi n s / step)^2 / 2). For a needle that starts anywhere
between two marks, the errors of two readings a fall of D apart have the covariance
sum over n of height^2 / 2 cos(2 pi n D / step).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

TIME_SD_S = 1.0
"""Standard deviation of when a gauge is looked at against the time written down."""
LEAST_SD_PSI = 0.01
"""No reading is better than this, whatever is said of gauge and eye."""
_TERMS = 12
"""Of the series; what is left of the rounding error counts as independent."""
_LEAST_WAVE = 1e-5
"""Share of a step below which a wave does nothing."""
_PHASES = np.linspace(0, 2 * math.pi, 48, endpoint=False)
"""Places between two marks that are tried for the worst."""
ATMOSPHERE_PSI = 14.696
"""The air around, where a hold asks for absolute pressure; a few tenths do not matter there."""


@dataclass(frozen=True)
class Fall:
    """The readings of one hold, ready for a fit.

    Attributes:
        minutes: time of each reading since the first.
        psi: its gauge pressure.
        step_psi: the gauge is read to the nearest such step; 0 where nothing is rounded.
        eye_sd_psi: standard deviation of all errors but rounding.
    """

    minutes: Floats
    psi: Floats
    step_psi: float
    eye_sd_psi: float

    @property
    def variance_psi2(self) -> float:
        """Variance of one reading's error, psi^2."""
        return self.eye_sd_psi**2 + self.step_psi**2 / 12.0

    @property
    def rounding_share(self) -> float:
        """How much of that is rounding, 0 to 1."""
        return self.step_psi**2 / 12.0 / self.variance_psi2

    @property
    def held_s(self) -> float:
        """Seconds from first to last reading."""
        return float(self.minutes[-1]) * 60.0

    @cached_property
    def rate(self) -> float:
        """Least-squares loss, psi/min."""
        return -float(self._weights @ self.psi)

    @property
    def plain_rate(self) -> float:
        """Drop from first to last reading, psi/min."""
        return float((self.psi[0] - self.psi[-1]) / self.minutes[-1])

    @cached_property
    def lost_psi(self) -> Floats:
        """Loss at each reading, psi, on a scale on which a choked leak is straight.

        Air leaks through a hole in proportion to its absolute pressure, so that a leak is straight
        in the logarithm of it.
        """
        middle = self.psi.mean() + ATMOSPHERE_PSI
        lost: Floats = -middle * np.log1p((self.psi + ATMOSPHERE_PSI - middle) / middle)
        return lost

    @cached_property
    def _weights(self) -> Floats:
        """The slope is these times the pressures; they add up to nothing."""
        away = self.minutes - self.minutes.mean()
        weights: Floats = away / (away @ away)
        return weights

    def rate_error(self, rates: Sequence[float]) -> float:
        """Return the standard error of the rate, psi/min.

        Args:
            rates: losses at which the needle may have fallen, psi/min. The worst counts, and
                readings whose rounding errors are independent are always among the cases.
        """
        own = float(self._weights @ self._weights)
        heights, moved = self._rounding(rates)
        alike = (np.abs(moved) ** 2 - own) @ (heights**2 / 2)
        return math.sqrt(self.variance_psi2 * own + max([0.0, *alike]))

    def worst_rounding(self, rates: Sequence[float]) -> float:
        """Return how far rounding alone can shift the rate, at worst, psi/min."""
        heights, moved = self._rounding(rates)
        turns = np.exp(1j * np.outer(np.arange(1, len(heights) + 1), _PHASES))
        return float(np.max(np.abs(((moved * heights) @ turns).imag)))

    @property
    def eye_error(self) -> float:
        """Standard error that the rate would have on a scale without marks, psi/min."""
        return self.eye_sd_psi * float(np.linalg.norm(self._weights))

    def _rounding(self, rates: Sequence[float]) -> tuple[Floats, NDArray[np.complex128]]:
        """Return the waves of the rounding error: heights, psi, and what each does to the slope.

        The second is of shape (rates, waves): while the needle falls at each of the rates.
        """
        if self.step_psi <= self.eye_sd_psi / 10.0:  # blurred away
            return np.zeros(1), np.zeros((len(rates), 1), dtype=np.complex128)
        waves: Floats = 2 * math.pi * np.arange(1.0, _TERMS + 1) / self.step_psi
        heights: Floats = 2 / waves * np.exp(-((waves * self.eye_sd_psi) ** 2) / 2)
        seen = heights > _LEAST_WAVE * self.step_psi
        places = np.multiply.outer(np.array(rates), self.minutes)
        moved = np.exp(1j * np.multiply.outer(places, waves[seen])).swapaxes(1, 2) @ self._weights
        return heights[seen], moved


def fall_of(
    readings: Sequence[tuple[float, float]],
    step_psi: float,
    read_sd_psi: float,
    time_sd_s: float = TIME_SD_S,
) -> Fall:
    """Return the readings of one gauge as a fall.

    Args:
        readings: (seconds, psi) pairs, two at least, times rising.
        step_psi: the gauge is read to the nearest such step.
        read_sd_psi: standard deviation of the eye's error.
        time_sd_s: standard deviation of the time written down, s.
    """
    seconds, psi = np.array(readings, dtype=float).T
    bare = Fall((seconds - seconds[0]) / 60.0, psi, step_psi, read_sd_psi)
    late_psi = bare.rate / 60.0 * time_sd_s
    eye_sd_psi = max(LEAST_SD_PSI, math.hypot(read_sd_psi, late_psi))
    return replace(bare, eye_sd_psi=eye_sd_psi)
