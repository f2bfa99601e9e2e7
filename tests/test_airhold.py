"""Readings to rate, bounds and verdict, against general-purpose statistics and 49 CFR 570.57.

Slope: `statistics.linear_regression` of the standard library. Its standard error with known
reading errors: the covariance of `numpy.polyfit(cov="unscaled")`. The normal quantile:
`statistics.NormalDist`. Error of a scale read to the nearest step: JCGM 100:2008 (GUM) 4.3.7, a
rectangular distribution of half-width a has variance a^2/3.
"""

from __future__ import annotations

import math
from contextlib import suppress
from statistics import NormalDist, linear_regression

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from walkaround.airhold import HOLD_MORE_S, Z95, Assessment, Reading, assess
from walkaround.errors import InputError

psi = st.floats(0, 300)


@st.composite
def holds(draw: st.DrawFn) -> list[Reading]:
    """Readings of one gauge as a hold gives them: seconds apart, in order."""
    gaps = draw(st.lists(st.floats(1, 120), min_size=1, max_size=12))
    times = [0.0, *np.cumsum(gaps).tolist()]
    return [(at_s, draw(psi)) for at_s in times]


@given(holds())
def test_the_rate_is_the_slope_of_least_squares(readings: list[Reading]) -> None:
    minutes = [at_s / 60 for at_s, _ in readings]
    slope = linear_regression(minutes, [value for _, value in readings]).slope
    assert assess(readings, 2.0).rate_psi_per_min == pytest.approx(-slope, rel=1e-6, abs=1e-6)


@given(holds(), st.floats(0.1, 5), st.floats(0.05, 2))
def test_the_bounds_are_those_of_known_reading_errors(
    readings: list[Reading], step_psi: float, eye_psi: float
) -> None:
    sigma = math.hypot(step_psi / 2 / math.sqrt(3), eye_psi)
    minutes = [at_s / 60 for at_s, _ in readings]
    # numpy will not judge a line through two points; a third of no weight changes nothing.
    values = [value for _, value in readings]
    _, covariance = np.polyfit(
        [*minutes, 0.0], [*values, 0.0], 1, w=[*[1 / sigma] * len(values), 0.0], cov="unscaled"
    )
    half = NormalDist().inv_cdf(0.975) * math.sqrt(covariance[0][0])
    found = assess(readings, 2.0, gauge_step_psi=step_psi, read_sd_psi=eye_psi)
    assert found.high_psi_per_min - found.rate_psi_per_min == pytest.approx(half, rel=1e-4)
    assert found.rate_psi_per_min - found.low_psi_per_min == pytest.approx(half, rel=1e-4)


def test_the_quantile_is_the_normal_ones() -> None:
    assert pytest.approx(NormalDist().inv_cdf(0.975), abs=1e-6) == Z95


@pytest.mark.parametrize("times", [(0, 30, 60), (0, 30, 60, 75, 90, 120)])
def test_the_bounds_hold_the_true_rate_about_19_times_in_20(times: tuple[int, ...]) -> None:
    """Monte Carlo: a needle that falls evenly, an eye that errs, a scale read to the next mark."""
    rng = np.random.default_rng(57057)
    runs, held = 4000, 0
    for _ in range(runs):
        rate = rng.uniform(0, 5)
        true = rng.uniform(109.5, 110.5) - rate * np.array(times) / 60
        seen = np.round(true + rng.normal(0, 0.25, len(times)))
        found = assess(list(zip(map(float, times), seen.tolist(), strict=True)), 2.0)
        held += found.low_psi_per_min <= rate <= found.high_psi_per_min
    assert 0.94 <= held / runs <= 0.98


# 49 CFR 570.57(a)(5) and (6): "not more than" 2 psi in one minute released, 3 applied, for a
# single vehicle; 3 and 4 for a combination (read). So the limit itself passes.
@pytest.mark.parametrize(
    ("first_psi", "last_psi", "seconds", "limit", "verdict"),
    [
        (110, 108, 60, 2, "within"),
        (110, 109, 60, 2, "within"),
        (110, 107, 60, 2, "over"),
        (110, 109, 30, 2, "within"),
        (110, 108, 30, 2, "over"),
        (90, 87, 60, 3, "within"),
        (90, 86, 60, 3, "over"),
        (110, 107, 60, 3, "within"),
        (110, 106, 60, 4, "within"),
        (110, 100, 300, 2, "within"),
        (110, 99, 300, 2, "over"),
        (110, 111, 60, 2, "within"),
        (110.3, 108.3, 60, 2, "within"),
        (99.9, 97.9, 60, 2, "within"),
    ],
)
def test_the_plain_rule_counts_first_to_last_and_equal_passes(
    first_psi: float, last_psi: float, seconds: float, limit: float, verdict: str
) -> None:
    found = assess([(0, first_psi), (seconds, last_psi)], limit)
    assert found.rule_verdict == verdict
    assert found.rule_rate_psi_per_min == pytest.approx((first_psi - last_psi) * 60 / seconds)


@given(holds(), st.floats(0, 20))
def test_the_verdict_says_where_the_bounds_lie(readings: list[Reading], limit: float) -> None:
    found = assess(readings, limit)
    assert found.low_psi_per_min <= found.rate_psi_per_min <= found.high_psi_per_min
    assert (found.verdict == "within") == (found.high_psi_per_min <= limit)
    assert (found.verdict == "over") == (found.low_psi_per_min > limit)
    assert found.hold_more_s == (HOLD_MORE_S if found.verdict == "undecided" else 0)


@given(holds(), st.floats(5, 120))
def test_holding_longer_narrows_the_bounds(readings: list[Reading], more_s: float) -> None:
    longer = [*readings, (readings[-1][0] + more_s, readings[-1][1])]
    short, long = (assess(taken, 2.0) for taken in (readings, longer))
    assert (
        long.high_psi_per_min - long.low_psi_per_min
        < short.high_psi_per_min - short.low_psi_per_min
    )


@given(holds(), st.floats(-50, 50))
def test_a_gauge_that_reads_wrong_everywhere_shows_the_same_rate(
    readings: list[Reading], off_psi: float
) -> None:
    moved = [(at_s, value + off_psi) for at_s, value in readings]
    assume(all(0 <= value <= 300 for _, value in moved))
    rates = [assess(r, 2).rate_psi_per_min for r in (readings, moved)]
    assert rates[0] == pytest.approx(rates[1], abs=1e-6)


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        ([], "readings: only 0 given; take at least two."),
        ([(0, 110)], "readings: only 1 given; take at least two."),
        ([(0, 110), (0, 109)], "reading 2: its time does not rise"),
        ([(30, 110), (0, 109)], "reading 2: its time does not rise"),
        ([(0, 110), (5e-324, 109)], "reading 2: its time does not rise"),
        ([(0, 110), (60, -1)], "reading 2: -1 psi is no gauge pressure; 0 to 300 psi is."),
        ([(0, 301), (60, 110)], "reading 1: 301 psi is no gauge pressure"),
        ([(0, math.nan), (60, 110)], "reading 1: nan psi is no gauge pressure"),
        ([(-1, 110), (60, 110)], "reading 1: -1 s is no time in a hold; 0 to 3600 s is."),
        ([(0, 110), (math.inf, 110)], "reading 2: inf s is no time in a hold"),
    ],
)
def test_readings_that_cannot_be_are_told(readings: list[Reading], said: str) -> None:
    with pytest.raises(InputError) as caught:
        assess(readings, 2.0)
    assert said in str(caught.value)


def test_every_reading_that_cannot_be_is_told_at_once() -> None:
    with pytest.raises(InputError) as caught:
        assess([(0, -1), (60, 400), (30, 110)], 2.0, gauge_step_psi=-1, read_sd_psi=math.inf)
    assert len(caught.value.problems) == 5


anything = st.floats() | st.integers(-(10**6), 10**6)


@given(st.lists(st.tuples(anything, anything), max_size=6), anything, anything, anything)
def test_any_numbers_give_an_assessment_or_a_sentence(
    readings: list[Reading], limit: float, step: float, eye: float
) -> None:
    found: Assessment | None = None
    with suppress(InputError):
        found = assess(readings, limit, step, eye)
    if found is not None:
        assert math.isfinite(found.rate_psi_per_min)
        assert math.isfinite(found.rule_rate_psi_per_min)
        assert math.isfinite(found.high_psi_per_min)
