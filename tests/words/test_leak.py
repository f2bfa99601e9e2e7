"""A leak, gauges and the shop's figures, in sentences."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.english import ENGLISH
from support.walks import begun, plan, step

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.leak_size import (
    SPRING_BRAKES_PSI,
    WARNING_PSI,
    leak_size,
    minutes_to_psi,
)
from walkaround.base.units import PressureUnit, Units
from walkaround.rules.limits import ShopFigures
from walkaround.walk.events import GaugesTold
from walkaround.words.language import Words
from walkaround.words.leak import (
    altitude_words,
    figures_text,
    gauges_text,
    leak_words,
    remembered_text,
)
from walkaround.words.pronunciation import pronounced

IN: dict[PressureUnit, Words] = {
    "psi": ENGLISH,
    "kPa": ENGLISH.shown_in(Units("kPa")),
    "bar": ENGLISH.shown_in(Units("bar")),
}
METRIC = ENGLISH.shown_in(Units(length="mm"))
volumes_l = st.floats(1, 500)
psi_values = st.floats(50, 150)
rates = st.floats(0.1, 50)


def test_air_that_was_not_lost_is_no_leak() -> None:
    assert leak_words(leak_size(60, 100, 0.0), None, None, ENGLISH) == "No air was lost."


# 60 L at 3 psi/min: 60 x 3 / 14.696 = 12.2 L/min = 0.43 scfm. From 100 psi:
# 114.7 / 3 x ln(114.7 / 74.7) = 16.4 min and 114.7 / 3 x ln(114.7 / 59.7) = 25.0 min.
def test_a_leak_is_told_with_its_size_its_time_and_what_is_assumed() -> None:
    to_warning, to_brakes = (
        minutes_to_psi(100, end, 3) for end in (WARNING_PSI, SPRING_BRAKES_PSI)
    )
    assert leak_words(leak_size(60, 100, 3), to_warning, to_brakes, ENGLISH) == (
        "About 0.43 scfm of free air, like a round hole of 0.020 in. "
        "At this rate 60 psi (low-pressure warning) after about 16 min and "
        "45 psi (spring brakes may apply) after about 25 min. "
        "Assumed: 3,660 cu in of trapped air that stays as warm as it is, and a sharp-edged hole "
        "with a discharge coefficient of 0.65."
    )


@pytest.mark.parametrize(
    ("minutes", "told"),
    [
        (0, "4.14 bar (low-pressure warning) is reached already."),
        (0.2, "4.14 bar (low-pressure warning) in less than 1 min."),
        (119, "4.14 bar (low-pressure warning) after about 119 min."),
        (125, "4.14 bar (low-pressure warning) after about 2 h."),
        (9000, "4.14 bar (low-pressure warning) after more than a day."),
    ],
)
def test_times_are_told_no_finer_than_they_are_known(minutes: float, told: str) -> None:
    words = leak_words(leak_size(60, 100, 3), minutes, None, IN["bar"])
    assert f"At this rate {told}" in words
    assert "spring brakes" not in words


def test_without_any_end_no_time_is_told() -> None:
    assert "At this rate" not in leak_words(leak_size(46.5, 100, 3), None, None, ENGLISH)
    assert "46.5 L of trapped air" in leak_words(leak_size(46.5, 100, 3), None, None, METRIC)


@pytest.mark.parametrize(
    ("volume_l", "rate", "told"),
    [
        (60, 0.02, "About 0.082 L/min"),
        (400, 6, "About 160 L/min"),
        (1000, 300, "About 20000 L/min"),
    ],
)
def test_flows_are_told_to_two_figures(volume_l: float, rate: float, told: str) -> None:
    assert leak_words(leak_size(volume_l, 100, rate), None, None, METRIC).startswith(told)


@given(volumes_l, psi_values, rates, st.sampled_from([*IN]))
def test_a_leak_is_said_without_a_digit_or_a_symbol(
    volume_l: float, psi: float, rate: float, unit: PressureUnit
) -> None:
    minutes = minutes_to_psi(psi, SPRING_BRAKES_PSI, rate)
    words = leak_words(leak_size(volume_l, psi, rate), None, minutes, IN[unit])
    assert not re.search(r"\d|psi|kPa|scfm|[/()]|\b(?:L|mm|min|h)\b", pronounced(words))


# 100 psi trapped at sea level: 102.43 psi at 1,500 m at the same temperature (computed with both
# fluids and ambiance); with 278.40 K against 288.15 K: 114.696 x 278.40 / 288.15 - 12.264 = 98.55.
def test_what_altitude_does_to_a_gauge_is_told_both_ways() -> None:
    assert altitude_words(100, 0, 1500, METRIC) == (
        "Trapped air that shows 100.0 psi at 0 m shows 102.4 psi at 1500 m if it stays as warm, "
        "as the air outside is thinner. If it turns as cold as standard air (15 °C at 0 m, 5 °C at "
        "1500 m), it shows 98.6 psi."
    )


def test_going_down_the_air_outside_is_denser() -> None:
    words = altitude_words(100, 1500, 0, IN["kPa"])
    # 1500 / 0.3048 = 4921.3; 15 - 1.5 x 6.5 = 5.25 °C = 41.5 °F.
    assert "shows 689 kPa at 4921 ft shows 673 kPa at 0 ft" in words
    assert "denser" in words
    assert "as warm as standard air (41 °F at 4921 ft, 59 °F at 0 ft)" in words


def test_a_move_that_does_not_show_takes_one_sentence() -> None:
    assert altitude_words(100, 200, 220, METRIC) == "A gauge shows the same at 220 m as at 200 m."


@given(st.floats(20, 150), st.floats(-400, 5000), st.floats(-400, 5000), st.sampled_from([*IN]))
def test_altitude_is_told_without_a_digit_or_a_symbol(
    psi: float, from_m: float, to_m: float, unit: PressureUnit
) -> None:
    said = pronounced(altitude_words(psi, from_m, to_m, IN[unit]))
    assert not re.search(r"\d|psi|kPa|°|\bm\b", said)
    assert said.count(".") in (1, 2)


def test_gauges_are_told_with_their_marks_and_their_zero() -> None:
    teller = begun(plan((step("gauges", "connect", "gauges"),)))
    gauges = {
        "supply": {"name": "supply"},
        "service": {"name": "service", "unit": "bar", "step": 0.5, "crossing": True},
    }
    body = {"step": "gauges", "gauges": gauges, "altitude_m": 250.0}
    seen = teller.sealed(GaugesTold, at_zero=True, **body)
    assert gauges_text(seen, ENGLISH) == (
        "supply: psi, marks of 1; service: bar, marks of 0.5, tapped as the needle crosses a "
        "mark; zero seen at 820 ft"
    )
    assert gauges_text(teller.sealed(GaugesTold, at_zero=False, **body), ENGLISH).endswith(
        "not at zero"
    )


def test_gauges_that_were_not_asked_are_told_as_remembered() -> None:
    known = {"supply": Gauge(name="supply", unit="bar", step=0.1)}
    asked = plan()
    assert remembered_text(asked, ENGLISH) == ""
    remembered = asked.model_copy(update={"known_gauges": known, "altitude_m": 250.0})
    assert remembered_text(remembered, ENGLISH) == (
        "Gauges as remembered, their zero seen earlier that day: supply: bar, marks of 0.1; the "
        "site 820 ft above the sea."
    )


def test_figures_tell_whose_they_are_and_are_in_the_readers_units() -> None:
    shipped = figures_text(ShopFigures(), ENGLISH)
    assert "common practice, no source" in shipped
    for figure in ("110 psi", "90 psi", "2 psi/min", "3 psi/min"):
        assert figure in shipped
    own = figures_text(ShopFigures(released_psi_per_min=1.5, own=True), ENGLISH)
    assert "This shop's own figures" in own
    assert "1.5 psi/min" in own
    # 110 psi are 758.4 kPa.
    assert "758 kPa" in figures_text(ShopFigures(), IN["kPa"])
