"""A leak in plain terms, as rules and in words; figures stand in tests/standards."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.airhold.leak_size import (
    SPRING_BRAKES_PSI,
    WARNING_PSI,
    leak_size,
    leak_words,
    minutes_to_psi,
)
from walkaround.base.errors import InputError
from walkaround.base.units import PressureUnit
from walkaround.voice.spoken import spoken

volumes_l = st.floats(1, 500)
psi_values = st.floats(50, 150)
rates = st.floats(0.1, 50)
PRESSURE_UNITS: tuple[PressureUnit, ...] = ("psi", "kPa", "bar")


@given(volumes_l, psi_values, rates)
def test_twice_the_volume_at_the_same_rate_is_twice_the_leak(
    volume_l: float, psi: float, rate: float
) -> None:
    one, two = leak_size(volume_l, psi, rate), leak_size(2 * volume_l, psi, rate)
    assert two.l_per_min == pytest.approx(2 * one.l_per_min)
    assert two.scfm == pytest.approx(2 * one.scfm)
    assert two.hole_mm == pytest.approx(math.sqrt(2) * one.hole_mm)


@given(volumes_l, psi_values, rates)
def test_the_same_loss_at_higher_pressure_takes_a_smaller_hole(
    volume_l: float, psi: float, rate: float
) -> None:
    assert leak_size(volume_l, psi + 10, rate).hole_mm < leak_size(volume_l, psi, rate).hole_mm


@pytest.mark.parametrize("rate", [0.0, -0.5])
def test_pressure_that_did_not_fall_is_no_leak(rate: float) -> None:
    size = leak_size(60, 100, rate)
    assert (size.l_per_min, size.scfm, size.hole_mm) == (0, 0, 0)
    assert minutes_to_psi(100, 60, rate) is None
    assert leak_words(size, None, None) == "No air was lost."


@given(st.floats(60, 150), st.floats(0.01, 40), st.floats(0.01, 40), rates)
def test_the_way_down_takes_as_long_as_its_parts(
    low: float, first: float, second: float, rate: float
) -> None:
    top, middle = low + first + second, low + second
    # The rate goes with the absolute pressure: that at the middle is known from that at the top.
    middle_rate = rate * (middle + 14.695949) / (top + 14.695949)
    parts = [minutes_to_psi(top, middle, rate), minutes_to_psi(middle, low, middle_rate)]
    assert minutes_to_psi(top, low, rate) == pytest.approx(sum(part or 0 for part in parts))


@given(st.floats(61, 150), rates)
def test_a_leak_slows_down_so_it_takes_longer_than_a_straight_line(psi: float, rate: float) -> None:
    minutes = minutes_to_psi(psi, WARNING_PSI, rate)
    assert minutes is not None
    assert minutes > (psi - WARNING_PSI) / rate


def test_what_is_reached_already_takes_no_time() -> None:
    assert minutes_to_psi(60, 60, 2) == 0
    assert minutes_to_psi(50, 60, 2) == 0


# 60 L at 3 psi/min: 60 x 3 / 14.696 = 12.2 L/min = 0.43 scfm. From 100 psi:
# 114.7 / 3 x ln(114.7 / 74.7) = 16.4 min and 114.7 / 3 x ln(114.7 / 59.7) = 25.0 min.
def test_a_leak_is_told_with_its_size_its_time_and_what_is_assumed() -> None:
    to_warning, to_brakes = (
        minutes_to_psi(100, end, 3) for end in (WARNING_PSI, SPRING_BRAKES_PSI)
    )
    assert leak_words(leak_size(60, 100, 3), to_warning, to_brakes) == (
        "About 12 L/min (0.43 scfm) of free air, like a round hole of 0.51 mm. "
        "At this rate 60 psi (low-pressure warning) after about 16 min and "
        "45 psi (spring brakes may apply) after about 25 min. "
        "Assumed: 60 L of trapped air that stays as warm as it is, and a sharp-edged hole with a "
        "discharge coefficient of 0.65."
    )


@pytest.mark.parametrize(
    ("minutes", "told"),
    [
        (0, "4.14 bar (low-pressure warning) is reached already."),
        (0.2, "4.14 bar (low-pressure warning) in less than 1 min."),
        (0.99, "4.14 bar (low-pressure warning) in less than 1 min."),
        (1, "4.14 bar (low-pressure warning) after about 1 min."),
        (119, "4.14 bar (low-pressure warning) after about 119 min."),
        (119.9, "4.14 bar (low-pressure warning) after about 120 min."),
        (120, "4.14 bar (low-pressure warning) after about 2 h."),
        (1439, "4.14 bar (low-pressure warning) after about 24 h."),
        (1440, "4.14 bar (low-pressure warning) after more than a day."),
        (9000, "4.14 bar (low-pressure warning) after more than a day."),
    ],
)
def test_times_are_told_no_finer_than_they_are_known(minutes: float, told: str) -> None:
    words = leak_words(leak_size(60, 100, 3), minutes, None, "bar")
    assert f"At this rate {told}" in words
    assert "spring brakes" not in words


def test_without_any_end_no_time_is_told() -> None:
    assert "At this rate" not in leak_words(leak_size(46.5, 100, 3), None, None)
    assert "46.5 L of trapped air" in leak_words(leak_size(46.5, 100, 3), None, None)


@pytest.mark.parametrize(
    ("volume_l", "rate", "told"),
    [
        (60, 0.02, "About 0.082 L/min (0.0029 scfm)"),
        (400, 6, "About 160 L/min (5.8 scfm)"),
        (1000, 300, "About 20000 L/min (720 scfm)"),
    ],
)
def test_flows_are_told_to_two_figures(volume_l: float, rate: float, told: str) -> None:
    assert leak_words(leak_size(volume_l, 100, rate), None, None).startswith(told)


@given(volumes_l, psi_values, rates, st.sampled_from(PRESSURE_UNITS))
def test_a_leak_is_said_without_a_digit_or_a_symbol(
    volume_l: float, psi: float, rate: float, unit: PressureUnit
) -> None:
    minutes = minutes_to_psi(psi, SPRING_BRAKES_PSI, rate)
    words = leak_words(leak_size(volume_l, psi, rate), None, minutes, unit)
    assert not re.search(r"\d|psi|kPa|scfm|[/()]|\b(?:L|mm|min|h)\b", spoken(words))


def test_the_least_and_the_most_that_can_be_are_taken() -> None:
    for volume_l, psi, rate in ((0.01, 1, -10_000), (10_000, 300, 10_000)):
        assert leak_size(volume_l, psi, rate).volume_l == volume_l
    assert minutes_to_psi(300, 300, 10_000) == minutes_to_psi(0, 60, 10_000) == 0
    assert minutes_to_psi(300, 300, -10_000) is None


@pytest.mark.parametrize(
    ("volume_l", "psi", "rate", "altitude_m", "named"),
    [
        (0, 100, 2, 0, "volume_l"),
        (10_000.5, 100, 2, 0, "volume_l"),
        (60, 0.5, 2, 0, "psi"),
        (60, 300.5, 2, 0, "psi"),
        (60, 100, 10_000.5, 0, "rate_psi_per_min"),
        (60, 100, -10_000.5, 0, "rate_psi_per_min"),
        (math.nan, 100, 2, 0, "volume_l"),
        (60, 0, 2, 0, "psi"),
        (60, 100, math.inf, 0, "rate_psi_per_min"),
        (60, 100, 2, 20_000, "altitude_m"),
    ],
)
def test_numbers_that_cannot_be_are_refused_by_name(
    volume_l: float, psi: float, rate: float, altitude_m: float, named: str
) -> None:
    with pytest.raises(InputError, match=f"^argument, {named}: "):
        leak_size(volume_l, psi, rate, altitude_m)


@pytest.mark.parametrize(
    ("from_psi", "to_psi", "rate", "named"),
    [
        (100, 10, 2, "to_psi"),  # no longer choked
        (math.nan, 60, 2, "from_psi"),
        (-0.5, 60, 2, "from_psi"),
        (300.5, 60, 2, "from_psi"),
        (300, 300.5, 2, "to_psi"),
        (100, 60, 10_000.5, "rate_psi_per_min_at_from"),
        (100, 60, math.nan, "rate_psi_per_min_at_from"),
    ],
)
def test_a_way_down_that_cannot_be_is_refused_by_name(
    from_psi: float, to_psi: float, rate: float, named: str
) -> None:
    with pytest.raises(InputError, match=f"^argument, {named}: "):
        minutes_to_psi(from_psi, to_psi, rate)
