"""What altitude and temperature do to a gauge, as rules; figures stand in tests/standards."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.airhold.atmosphere import (
    ZERO_AGAIN_M,
    absolute_psi,
    corrected_rate_psi_per_min,
    isa_pressure_pa,
    isa_temperature_k,
    sealed_reading_psi,
    temperature_change_psi,
    zero_is_due,
)
from walkaround.base.errors import InputError

altitudes_m = st.floats(-500, 6000)
temperatures_c = st.floats(-60, 80)
gauge_psi_values = st.floats(0, 150)


@given(altitudes_m, altitudes_m)
def test_the_higher_the_thinner_and_colder(one_m: float, other_m: float) -> None:
    low, high = sorted((one_m, other_m))
    assert isa_pressure_pa(high) <= isa_pressure_pa(low)
    assert isa_temperature_k(high) <= isa_temperature_k(low)


@given(gauge_psi_values, altitudes_m, st.booleans())
def test_a_gauge_that_stays_where_it_is_shows_what_it_showed(
    psi: float, altitude_m: float, with_temperature: bool
) -> None:
    shown = sealed_reading_psi(psi, altitude_m, altitude_m, with_temperature=with_temperature)
    assert shown == pytest.approx(psi, abs=1e-9)


@given(gauge_psi_values, altitudes_m, altitudes_m, st.booleans())
def test_there_and_back_again_a_gauge_shows_what_it_showed(
    psi: float, from_m: float, to_m: float, with_temperature: bool
) -> None:
    there = sealed_reading_psi(psi, from_m, to_m, with_temperature=with_temperature)
    back = sealed_reading_psi(there, to_m, from_m, with_temperature=with_temperature)
    assert back == pytest.approx(psi, abs=1e-9)


@given(gauge_psi_values, temperatures_c, temperatures_c)
def test_warmed_and_cooled_again_a_gauge_has_not_moved(
    psi: float, one_c: float, other_c: float
) -> None:
    up = temperature_change_psi(psi, one_c, other_c)
    down = temperature_change_psi(psi + up, other_c, one_c)
    assert up + down == pytest.approx(0, abs=1e-9)


@given(st.floats(60, 150), st.floats(0, 5), temperatures_c, temperatures_c, st.floats(30, 300))
def test_a_hold_made_of_a_leak_and_a_change_of_temperature_gives_the_leak_again(
    psi: float, leak_psi_per_min: float, start_c: float, end_c: float, seconds: float
) -> None:
    fell = leak_psi_per_min * seconds / 60 - temperature_change_psi(psi, start_c, end_c)
    seen = fell * 60 / seconds
    corrected = corrected_rate_psi_per_min(seen, psi, start_c, end_c, seconds)
    assert corrected == pytest.approx(leak_psi_per_min, abs=1e-9)


def test_cooling_is_taken_out_of_a_leak_and_warming_is_put_back() -> None:
    assert corrected_rate_psi_per_min(2.4, 100, 20, 19, 60) < 2.4
    assert corrected_rate_psi_per_min(2.4, 100, 20, 21, 60) > 2.4


def test_an_altitude_that_is_not_told_is_sea_level() -> None:
    there = temperature_change_psi(100, 20, 10, altitude_m=0)
    assert temperature_change_psi(100, 20, 10) == there
    # Gay-Lussac: of 1 atm more than the gauge shows, 10 K of 293.15 K are lost.
    assert there == pytest.approx(-(100 + 14.695949) * 10 / 293.15, abs=1e-6)
    corrected = corrected_rate_psi_per_min(2, 100, 20, 10, 60, altitude_m=0)
    assert corrected_rate_psi_per_min(2, 100, 20, 10, 60) == corrected


def test_the_absolute_pressure_of_an_open_line_is_the_air_around() -> None:
    assert absolute_psi(0, 0) == pytest.approx(14.695949, abs=1e-6)  # pint: 1 atm in psi


@pytest.mark.parametrize(
    ("checked_at_m", "site_m", "due"),
    [
        (None, 0, True),
        (100, 100, False),
        (100, 400, False),
        (100, 400.1, True),
        (900, 599, True),
    ],
)
def test_the_zero_is_seen_again_after_a_change_of_more_than_300_m(
    checked_at_m: float | None, site_m: float, due: bool
) -> None:
    assert zero_is_due(checked_at_m, site_m) is due


def test_so_much_altitude_is_half_a_mark_of_a_gauge_read_to_the_psi() -> None:
    assert absolute_psi(0, 0) - absolute_psi(0, ZERO_AGAIN_M) == pytest.approx(0.5, abs=0.02)


def test_the_ends_of_what_can_be_are_taken() -> None:
    assert isa_pressure_pa(-500) > isa_pressure_pa(11_000) > 0
    assert temperature_change_psi(100, -100, 150) > 0 > temperature_change_psi(100, 150, -100)
    assert corrected_rate_psi_per_min(2, 100, 20, 20, 1) == 2
    assert corrected_rate_psi_per_min(2, 100, 20, 20, 86_400) == 2


@pytest.mark.parametrize("altitude_m", [-500.5, 11_000.5, math.nan, math.inf])
def test_an_altitude_beyond_the_model_is_refused_in_one_sentence(altitude_m: float) -> None:
    with pytest.raises(InputError, match=r"altitude_m: .* cannot be; give -500 to 11000\.$"):
        isa_pressure_pa(altitude_m)


@pytest.mark.parametrize(
    ("start_c", "end_c", "seconds", "named"),
    [
        (-100.5, 20, 60, "start_c"),
        (150.5, 20, 60, "start_c"),
        (20, -100.5, 60, "end_c"),
        (20, math.nan, 60, "end_c"),
        (20, 19, 0.5, "seconds"),
        (20, 19, 86_400.5, "seconds"),
    ],
)
def test_numbers_that_cannot_be_are_refused_by_name(
    start_c: float, end_c: float, seconds: float, named: str
) -> None:
    with pytest.raises(InputError, match=f"^argument, {named}: "):
        corrected_rate_psi_per_min(2.0, 100, start_c, end_c, seconds)
