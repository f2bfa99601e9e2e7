"""A leak in plain terms, as rules; figures stand in tests/standards."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.airhold.leak_size import (
    WARNING_PSI,
    leak_size,
    minutes_to_psi,
)
from walkaround.base.errors import InputError

volumes_l = st.floats(1, 500)
psi_values = st.floats(50, 150)
rates = st.floats(0.1, 50)


@given(volumes_l, psi_values, rates)
def test_twice_the_volume_at_the_same_rate_is_twice_the_leak(
    volume_l: float, psi: float, rate: float
) -> None:
    one, two = leak_size(volume_l, psi, rate), leak_size(2 * volume_l, psi, rate)
    assert two.l_per_min == pytest.approx(2 * one.l_per_min)
    assert two.hole_mm == pytest.approx(math.sqrt(2) * one.hole_mm)


@given(volumes_l, psi_values, rates)
def test_the_same_loss_at_higher_pressure_takes_a_smaller_hole(
    volume_l: float, psi: float, rate: float
) -> None:
    assert leak_size(volume_l, psi + 10, rate).hole_mm < leak_size(volume_l, psi, rate).hole_mm


def test_an_altitude_that_is_not_told_is_sea_level() -> None:
    assert leak_size(60, 100, 2) == leak_size(60, 100, 2, altitude_m=0)
    assert minutes_to_psi(100, 60, 2) == minutes_to_psi(100, 60, 2, altitude_m=0)


@pytest.mark.parametrize("rate", [0.0, -0.5])
def test_pressure_that_did_not_fall_is_no_leak(rate: float) -> None:
    size = leak_size(60, 100, rate)
    assert (size.l_per_min, size.hole_mm) == (0, 0)
    assert minutes_to_psi(100, 60, rate) is None


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
