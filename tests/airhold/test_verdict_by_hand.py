"""Bounds and verdicts reckoned by hand from the formulas, where chance has no part."""

from __future__ import annotations

import math

import pytest
from scipy.stats import linregress

from walkaround.airhold.verdict import LEAST_S, LONGEST_HOLD_S, Z, assess, assess_crossings

EXACT = {"gauge_step_psi": 0.0, "read_sd_psi": 0.0}
"""No rounding and the least error there can be: 0.01 psi."""
AIR_PSI = 14.696
"""One standard atmosphere, NIST SP 811 (2008), B.8: 101.325 kPa."""


def test_the_bounds_of_a_smooth_gauge_are_the_slope_and_so_many_of_its_standard_errors() -> None:
    """The slope is that of scipy; its error follows from a known error of each reading."""
    readings = [(0.0, 110.0), (30.0, 109.1), (60.0, 107.8), (75.0, 107.4), (90.0, 107.2)]
    minutes = [seconds / 60 for seconds, _ in readings]
    slope = float(linregress(minutes, [psi for _, psi in readings]).slope)
    middle = sum(minutes) / len(minutes)
    # The eye errs by 0.5 psi; a look a second early or late moves the reading by the slope / 60.
    error = math.hypot(0.5, slope / 60) / math.sqrt(sum((at - middle) ** 2 for at in minutes))
    found = assess(readings, 2.0, 0.0, 0.5)
    assert found.rate_psi_per_min == pytest.approx(-slope)
    assert found.low_psi_per_min == pytest.approx(-slope - Z * error)
    assert found.high_psi_per_min == pytest.approx(-slope + Z * error)


@pytest.mark.parametrize(("rise_psi", "rising"), [(2.05, False), (2.07, True)])
def test_a_rise_counts_from_a_mark_and_three_errors_of_two_looks_on(
    rise_psi: float, rising: bool
) -> None:
    """1 psi and 3 x sqrt(2) x 0.25 psi are 2.061 psi; the slope through these readings is 0."""
    found = assess([(0, 110), (30, 110 + rise_psi), (60, 110)], 2.0)
    assert found.rate_psi_per_min == pytest.approx(0)
    assert ((found.verdict, found.reason) == ("settling", "rising")) == rising


@pytest.mark.parametrize(("held_s", "verdict"), [(54.5, "undecided"), (55.0, "within")])
def test_nothing_is_within_before_a_minute_less_two_slow_hands(held_s: float, verdict: str) -> None:
    found = assess([(0, 110), (held_s / 2, 110), (held_s, 110)], 2.0, **EXACT)
    assert found.high_psi_per_min < 2.0
    assert (found.verdict, found.reason) == (verdict, "few" if verdict == "undecided" else "")
    assert LEAST_S == 55.0


@pytest.mark.parametrize(
    ("held_s", "more_s"),
    [(1, 30), (29, 30), (31, 29), (44, 16), (46, 15), (60, 15), (285, 15), (290, 10), (300, 0)],
)
def test_the_next_reading_is_at_the_minute_or_15_s_on_or_when_the_hold_is_given_up(
    held_s: float, more_s: float
) -> None:
    found = assess([(0, 110), (held_s, 110 - 2 * held_s / 60)], 2.0)
    assert found.verdict == "undecided"
    assert found.hold_more_s == pytest.approx(more_s)
    assert LONGEST_HOLD_S == 300


def test_after_one_tap_the_needle_is_taken_to_be_half_a_mark_on_and_no_further_than_one() -> None:
    """5 psi, and 2.2 errors of two looks, in 149 s: the tap may have come a second late."""
    found = assess_crossings([(0, 110)], 150.0, 2.0, 5.0)
    assert found.rate_psi_per_min == pytest.approx(2.5 / 2.5)
    assert found.rule_rate_psi_per_min == pytest.approx(1.0)
    assert found.low_psi_per_min == 0.0
    most = 60 * (5 + Z * math.sqrt(2) * 0.25) / 149
    assert found.high_psi_per_min == pytest.approx(most)
    assert (found.verdict, found.hold_more_s) == ("undecided", 15.0)


def test_a_needle_that_stood_at_nothing_falls_no_lower() -> None:
    assert assess_crossings([(0, 2)], 60.0, 2.0, 5.0).rate_psi_per_min == pytest.approx(2.0)


def test_what_a_choked_leak_loses_slows_down_as_its_pressure_falls() -> None:
    """5 psi/min of 122.2 psi absolute is 4.1 % a minute: in the mean half of it for two minutes."""
    taps = [(0.0, 110.0), (60.0, 105.0)]
    now = assess_crossings(taps, 60.0, 2.0, 5.0).low_psi_per_min
    later = assess_crossings(taps, 180.0, 2.0, 5.0).low_psi_per_min
    assert now > 0
    assert later / now == pytest.approx(1 - 5 / (107.5 + AIR_PSI) * 120 / 120)


def test_a_needle_that_stopped_after_its_first_marks_was_cooling_air() -> None:
    """5 psi in the first 20 s, then no further mark for 280 s."""
    found = assess_crossings([(0, 110), (20, 105)], 300.0, 2.0, 5.0)
    assert (found.verdict, found.reason) == ("settling", "cooling")


@pytest.mark.parametrize(("equal_passes", "verdict"), [(True, "within"), (False, "undecided")])
def test_an_upper_bound_of_the_limit_itself_goes_by_what_the_rule_says(
    equal_passes: bool, verdict: str
) -> None:
    readings = [(0, 110), (60, 110)]
    limit = assess(readings, 2.0, **EXACT).high_psi_per_min
    assert assess(readings, limit, equal_passes=equal_passes, **EXACT).verdict == verdict


@pytest.mark.parametrize(("equal_passes", "verdict"), [(True, "within"), (False, "over")])
def test_a_drop_of_the_limit_itself_goes_by_what_the_rule_says(
    equal_passes: bool, verdict: str
) -> None:
    """49 CFR 570.57(a)(5): "not more than"; some manuals say "less than"."""
    found = assess([(0, 110), (60, 108)], 2.0, equal_passes=equal_passes)
    assert found.rule_verdict == verdict
    assert assess([(0, 110), (60, 108.1)], 2.0, equal_passes=False).rule_verdict == "within"
    assert assess([(0, 110), (60, 107.9)], 2.0, equal_passes=True).rule_verdict == "over"
