"""The fit of an air hold against general-purpose statistics: scipy and numpy.

Slope: `scipy.stats.linregress`, `numpy.polyfit`. Its standard error with known reading errors:
the covariance of `numpy.polyfit(cov="unscaled")`. Rounding errors that are alike: integrated over
where between two marks the needle is, with `scipy.stats.norm`. Cooling against a leak:
`scipy.optimize`, and its curve `scipy.integrate`. Error of a scale read to the nearest step: JCGM
100:2008 (GUM) 4.3.7, a rectangular distribution of half-width a has variance a^2 / 3.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.optimize import lsq_linear, minimize
from scipy.stats import linregress, norm

from walkaround.airhold.cooling import MOST_COOLING_PSI, TIMES_S, cooling_miss, line_miss
from walkaround.airhold.fit import TIME_SD_S, Fall, fall_of
from walkaround.airhold.verdict import NEAR_PSI_PER_MIN, Z_EYE, Reading, Z, assess

LOOKS_S = (0.0, 30.0, 60.0, 75.0, 90.0, 105.0, 120.0)


@st.composite
def holds(draw: st.DrawFn) -> list[Reading]:
    """Readings of one gauge as a hold gives them: seconds apart, in order."""
    gaps = draw(st.lists(st.floats(1, 120), min_size=1, max_size=12))
    times = [0.0, *np.cumsum(gaps).tolist()]
    return [(at_s, draw(st.floats(60, 130))) for at_s in times]


def weights(minutes: NDArray[np.float64]) -> NDArray[np.float64]:
    """A slope is linear in what it is fitted to: the slopes of unit readings, one by one."""
    ones = np.eye(len(minutes))
    return np.array([linregress(minutes, one).slope for one in ones])


def mean_rounding(psi: NDArray[np.float64], step: float, eye: float) -> NDArray[np.float64]:
    """Mean error of a needle at `psi` read with an erring eye to the nearest mark."""
    marks = np.arange(-60, 61) * step
    high, low = (
        norm.cdf(marks + side * step / 2, loc=psi[..., None], scale=eye) for side in (1, -1)
    )
    return ((high - low) * marks).sum(-1) - psi


@given(holds())
def test_the_rate_is_the_slope_of_least_squares(readings: list[Reading]) -> None:
    seconds, psi = np.array(readings).T
    rate = assess(readings, 2.0).rate_psi_per_min
    assert rate == pytest.approx(-linregress(seconds / 60, psi).slope, rel=1e-6, abs=1e-6)
    assert rate == pytest.approx(-np.polyfit(seconds / 60, psi, 1)[0], rel=1e-6, abs=1e-6)


@given(holds(), st.floats(0.1, 5), st.floats(0.05, 2))
def test_its_standard_error_is_that_of_known_reading_errors(
    readings: list[Reading], step_psi: float, eye_psi: float
) -> None:
    fall = fall_of(readings, step_psi, eye_psi)
    late_psi = fall.rate / 60 * TIME_SD_S
    sigma = math.hypot(step_psi / 2 / math.sqrt(3), eye_psi, late_psi)
    # numpy will not judge a line through two points; a third of no weight changes nothing.
    minutes = [*fall.minutes, 0.0]
    values = [*fall.psi, 0.0]
    weight = [*[1 / sigma] * len(readings), 0.0]
    _, covariance = np.polyfit(minutes, values, 1, w=weight, cov="unscaled")
    assert fall.rate_error(()) == pytest.approx(math.sqrt(covariance[0][0]), rel=1e-4)


@given(st.sampled_from([1.0, 2.0, 5.0]), st.floats(0.15, 0.6), st.floats(-0.5, 6))
@settings(max_examples=40)
def test_rounding_errors_that_are_alike_are_counted_as_such(
    step_psi: float, eye_psi: float, rate: float
) -> None:
    minutes = np.array(LOOKS_S) / 60
    fall = Fall(minutes, 110 - rate * minutes, step_psi, eye_psi)
    places = np.linspace(0, step_psi, 400, endpoint=False)
    errors = mean_rounding(places[:, None] - rate * minutes, step_psi, eye_psi)
    # Of one reading, all of its variance; of two, what their means have in common.
    covariance = errors.T @ errors / len(places)
    np.fill_diagonal(covariance, eye_psi**2 + step_psi**2 / 12)
    slopes = weights(minutes)
    alike = math.sqrt(slopes @ covariance @ slopes)
    assert fall.rate_error([rate]) == pytest.approx(max(alike, fall.rate_error(())), rel=2e-3)
    worst = np.abs(errors @ slopes).max()
    assert fall.worst_rounding([rate]) == pytest.approx(worst, rel=0.05, abs=2e-3)


@given(holds(), st.sampled_from([1.0, 0.5]))
def test_the_bounds_of_a_fine_gauge_lie_so_many_standard_errors_away(
    readings: list[Reading], step_psi: float
) -> None:
    found = assess(readings, 2.0, step_psi)
    fall = fall_of(readings, step_psi, 0.25)
    rates = (found.rate_psi_per_min, 2.0, 2.0 - NEAR_PSI_PER_MIN, 2.0 + NEAR_PSI_PER_MIN)
    half = max(Z * fall.rate_error(rates), fall.worst_rounding(rates) + Z_EYE * fall.eye_error)
    assert found.high_psi_per_min - found.rate_psi_per_min == pytest.approx(half, rel=1e-6)
    assert found.rate_psi_per_min - found.low_psi_per_min == pytest.approx(half, rel=1e-6)


def straightened(fall: Fall) -> NDArray[np.float64]:
    """A choked leak is exponential in absolute pressure, so straight in its logarithm."""
    middle = fall.psi.mean() + 14.696
    return middle * np.log((fall.psi + 14.696) / middle)


@given(holds())
def test_a_leak_alone_misses_the_readings_by_the_residuals_of_a_line(
    readings: list[Reading],
) -> None:
    fall = fall_of(readings, 1.0, 0.25)
    y = straightened(fall)
    line = np.polyval(np.polyfit(fall.minutes, y, 1), fall.minutes)
    missed = ((y - line) ** 2).sum() / fall.variance_psi2
    assert line_miss(fall) == pytest.approx(missed, rel=1e-6, abs=1e-6)


def _cooling_per_s(_: float, warm: NDArray[np.float64], time_s: float) -> NDArray[np.float64]:
    return -(warm ** (4 / 3)) / time_s


def cooled(seconds: NDArray[np.float64], time_s: float) -> NDArray[np.float64]:
    """How much has cooled of air that loses heat with the 4/3 power of how warm it is."""
    end_s = float(seconds[-1])
    left = solve_ivp(
        lambda _, x: -(x ** (4 / 3)) / time_s,
        (0, end_s),
        [1.0],
        t_eval=seconds,
        rtol=1e-10,
        atol=1e-12,
    )
    return np.asarray(1 - left.y[0], dtype=np.float64)


@given(holds(), st.floats(0.5, 5))
@settings(max_examples=40)
def test_cooling_with_a_leak_misses_them_by_a_bounded_least_squares(
    readings: list[Reading], limit: float
) -> None:
    fall = fall_of(readings, 1.0, 0.25)
    y = straightened(fall)
    bounds = ([-np.inf, 0, 0], [np.inf, limit, MOST_COOLING_PSI])
    missed = []
    for time_s in TIMES_S:
        curve = cooled(fall.minutes * 60, time_s)
        terms = np.column_stack([np.ones_like(y), -fall.minutes, -curve])
        fit = lsq_linear(terms, y - y.mean(), bounds, method="bvls")
        missed.append(2 * fit.cost / fall.variance_psi2)
    assert cooling_miss(fall, limit) == pytest.approx(min(missed), rel=1e-5, abs=1e-5)


@given(holds(), st.floats(0.5, 5), st.floats(0, 5))
@settings(max_examples=30)
def test_the_more_cooling_the_nearer_it_counts(
    readings: list[Reading], limit: float, surer: float
) -> None:
    fall = fall_of(readings, 1.0, 0.25)
    y = straightened(fall)

    def miss(at: NDArray[np.float64], curve: NDArray[np.float64]) -> float:
        rate, cooling = at
        rest = y + rate * fall.minutes + cooling * curve
        return float(((rest - rest.mean()) ** 2).sum() / fall.variance_psi2 - surer * cooling)

    edges = [(0, limit), (0, MOST_COOLING_PSI)]
    curves = [cooled(fall.minutes * 60, time_s) for time_s in TIMES_S]
    found = [
        min(minimize(miss, start, (curve,), bounds=edges).fun for start in ((0, 1), (limit / 2, 8)))
        for curve in curves
    ]
    assert cooling_miss(fall, limit, surer) == pytest.approx(min(found), rel=1e-3, abs=3e-2)
