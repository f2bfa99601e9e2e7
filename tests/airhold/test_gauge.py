"""Gauges: their marks, what is refused, and what altitude does to them in words."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from walkaround.airhold.gauge import GAUGE_STEPS, Gauge, altitude_words
from walkaround.base.units import PressureUnit, to_psi
from walkaround.voice.spoken import spoken

gauges = st.sampled_from(
    [
        Gauge(name="supply", unit=unit, step=step)
        for unit, all_ in GAUGE_STEPS.items()
        for step in all_
    ]
)


@pytest.mark.parametrize(
    ("unit", "step", "psi", "label"),
    [
        ("psi", 1.0, 110.4, "110"),
        ("psi", 2.0, 111.0, "112"),
        ("psi", 5.0, 112.4, "110"),
        ("psi", 10.0, 94.9, "90"),
        ("kPa", 20.0, 110.0, "760"),  # pint: 758.4 kPa
        ("kPa", 5.0, 110.0, "760"),
        ("bar", 0.05, 110.0, "7.60"),  # pint: 7.584 bar
        ("bar", 0.2, 110.0, "7.6"),
        ("bar", 0.5, 110.0, "7.5"),
    ],
)
def test_a_pressure_is_labelled_by_the_mark_next_to_it(
    unit: PressureUnit, step: float, psi: float, label: str
) -> None:
    assert Gauge(name="supply", unit=unit, step=step).label(psi) == label


@given(gauges, st.floats(0, 300))
def test_the_label_is_the_mark_next_to_the_pressure(gauge: Gauge, psi: float) -> None:
    mark_psi = to_psi(float(gauge.label(psi)), gauge.unit)
    assert abs(mark_psi - psi) <= gauge.step_psi / 2 * (1 + 1e-6) + 1e-6
    assert gauge.label(mark_psi) == gauge.label(psi)


def test_a_gauge_is_read_to_the_psi_unless_it_is_told_otherwise() -> None:
    gauge = Gauge(name="supply")
    assert (gauge.unit, gauge.step, gauge.step_psi, gauge.crossing) == ("psi", 1.0, 1.0, False)


@pytest.mark.parametrize(("unit", "step"), [("psi", 0.01), ("psi", 50.0), ("kPa", 344.7)])
def test_the_finest_and_the_coarsest_step_are_taken(unit: PressureUnit, step: float) -> None:
    assert Gauge(name="supply", unit=unit, step=step).step == step


def test_a_gauge_has_a_name_of_forty_characters_at_most() -> None:
    for name in ("s", "s" * 40):
        assert Gauge(name=name).name == name
    for name in ("", "s" * 41):
        with pytest.raises(ValidationError):
            Gauge(name=name)


@pytest.mark.parametrize("step", [0, 0.009, -1, 50.1, float("nan"), float("inf"), 1e9])
def test_a_step_that_no_gauge_has_is_refused(step: float) -> None:
    with pytest.raises(ValidationError):
        Gauge(name="supply", step=step)


def test_too_coarse_a_step_is_refused_in_one_sentence() -> None:
    refusal = r"step is 5 bar, which no brake gauge has; give at most 3\.4 bar"
    with pytest.raises(ValidationError, match=refusal):
        Gauge(name="supply", unit="bar", step=5)


def test_a_gauge_knows_no_other_key() -> None:
    with pytest.raises(ValidationError):
        Gauge.model_validate({"name": "supply", "colour": "red"})


# 100 psi trapped at sea level: 102.43 psi at 1,500 m at the same temperature (computed with both
# fluids and ambiance); with 278.40 K against 288.15 K: 114.696 x 278.40 / 288.15 - 12.264 = 98.55.
def test_what_altitude_does_to_a_gauge_is_told_both_ways() -> None:
    assert altitude_words(100, 0, 1500, "psi") == (
        "Trapped air that shows 100.0 psi at 0 m shows 102.4 psi at 1500 m if it stays as warm, "
        "as the air outside is thinner. If it turns as cold as standard air (15 °C at 0 m, 5 °C at "
        "1500 m), it shows 98.6 psi."
    )


def test_going_down_the_air_outside_is_denser() -> None:
    words = altitude_words(100, 1500, 0, "kPa")
    assert "shows 689 kPa at 1500 m shows 673 kPa at 0 m" in words
    assert "denser" in words
    assert "as warm as standard air (5 °C at 1500 m, 15 °C at 0 m)" in words


# 30 m of air is 0.05 psi (1.2 kg/m3 x 9.81 m/s2 x 30 m = 353 Pa): half of what is shown.
def test_a_move_shows_from_half_a_tenth_of_a_psi_on() -> None:
    for up, down in ((200, 228), (228, 200)):
        assert "shows the same" in altitude_words(100, up, down, "psi")
    for up, down in ((200, 232), (232, 200)):
        assert "shows the same" not in altitude_words(100, up, down, "psi")


def test_what_is_shown_has_one_figure_more_than_the_gauge() -> None:
    for unit, shown in (("psi", "102.4 psi"), ("kPa", "706 kPa"), ("bar", "7.06 bar")):
        assert f"shows {shown} at 1500 m" in altitude_words(100, 0, 1500, unit)


def test_a_move_that_does_not_show_takes_one_sentence() -> None:
    assert altitude_words(100, 200, 220, "psi") == "A gauge shows the same at 220 m as at 200 m."


@given(
    st.floats(20, 150),
    st.floats(-400, 5000),
    st.floats(-400, 5000),
    st.sampled_from([*GAUGE_STEPS]),
)
def test_altitude_is_told_without_a_digit_or_a_symbol(
    psi: float, from_m: float, to_m: float, unit: PressureUnit
) -> None:
    said = spoken(altitude_words(psi, from_m, to_m, unit))
    assert not re.search(r"\d|psi|kPa|°|\bm\b", said)
    assert said.count(".") in (1, 2)
