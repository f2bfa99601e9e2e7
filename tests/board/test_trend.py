"""The line and its bounds against scipy: `linregress`, `t`, and no line of too little."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.stats import linregress, t

from walkaround.board.trend import trend_of

POINTS = st.lists(st.tuples(st.floats(20000, 21000), st.floats(0, 10)), min_size=3, max_size=32)


@given(POINTS)
def test_line_and_bounds_are_those_of_linregress(points: list[tuple[float, float]]) -> None:
    """The bounds at a day are those of the intercept, were the days counted from that one."""
    xs, ys = np.array(points).T
    # Of values that are all alike it gives no error.
    assume(np.ptp(xs) > 1 and np.ptp(ys) > 0.001)
    trend = trend_of(list(xs), list(ys))
    assert trend is not None
    for at, x in enumerate(xs):
        fit = linregress(xs - x, ys)
        half = t.ppf(0.975, len(xs) - 2) * fit.intercept_stderr
        assert trend.line[at] == pytest.approx(fit.intercept, abs=1e-6)
        assert trend.high[at] - trend.line[at] == pytest.approx(half, rel=1e-3, abs=1e-5)
        assert trend.line[at] - trend.low[at] == pytest.approx(half, rel=1e-3, abs=1e-5)


def test_more_points_than_the_table_has_get_bounds_a_little_too_wide() -> None:
    xs, ys = list(range(60)), [float(n * n % 7) for n in range(60)]
    trend, fit = trend_of(xs, ys), linregress(xs, ys)
    assert trend is not None
    half = t.ppf(0.975, 58) * fit.intercept_stderr
    assert half <= trend.high[0] - trend.line[0] <= 1.03 * half


@pytest.mark.parametrize("xs", [[], [1.0], [1.0, 2.0], [5.0, 5.0, 5.0]])
def test_there_is_no_line_of_two_points_or_of_one_moment(xs: list[float]) -> None:
    assert trend_of(xs, [1.0] * len(xs)) is None
