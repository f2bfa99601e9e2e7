"""Units converted and written. The oracle is pint, a general library of units."""

from __future__ import annotations

import re

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.base.units import (
    LengthUnit,
    PressureUnit,
    distance_text,
    from_in,
    from_psi,
    length_text,
    mark_text,
    nearest_whole,
    pressure_text,
    ruler_text,
    temperature_text,
    to_in,
    to_psi,
)
from walkaround.words.pronunciation import pronounced

UNITS = pint.get_application_registry()
PRESSURE_UNITS: tuple[PressureUnit, ...] = ("psi", "kPa", "bar")
LENGTH_UNITS: tuple[LengthUnit, ...] = ("in", "mm")
PINT_NAMES = {"psi": "psi", "kPa": "kilopascal", "bar": "bar", "in": "inch", "mm": "millimeter"}
psi_values = st.floats(0, 300)
inch_values = st.floats(0, 40)


# pint gives 1 psi = 6.894757293168 kPa and 1 in = 25.4 mm to the last digit of a double; the
# tolerance is a few units of that digit.
@given(psi_values, st.sampled_from(PRESSURE_UNITS))
def test_pressures_convert_as_pint_converts_them(psi: float, unit: PressureUnit) -> None:
    there = UNITS.Quantity(psi, "psi").to(PINT_NAMES[unit]).magnitude
    assert from_psi(psi, unit) == pytest.approx(there, rel=1e-12, abs=1e-300)
    back = UNITS.Quantity(psi, PINT_NAMES[unit]).to("psi").magnitude
    assert to_psi(psi, unit) == pytest.approx(back, rel=1e-12, abs=1e-300)


@given(inch_values, st.sampled_from(LENGTH_UNITS))
def test_lengths_convert_as_pint_converts_them(inch: float, unit: LengthUnit) -> None:
    there = UNITS.Quantity(inch, "inch").to(PINT_NAMES[unit]).magnitude
    assert from_in(inch, unit) == pytest.approx(there, rel=1e-12, abs=1e-300)
    back = UNITS.Quantity(inch, PINT_NAMES[unit]).to("inch").magnitude
    assert to_in(inch, unit) == pytest.approx(back, rel=1e-12, abs=1e-300)


# 49 CFR 393.51(c), read: "379 kPa (55 psi)"; 90 psi by pint is 620.528 kPa.
@pytest.mark.parametrize(
    ("psi", "psi_text", "kpa_text", "bar_text"),
    [
        (110, "110 psi", "758 kPa", "7.58 bar"),
        (55, "55 psi", "379 kPa", "3.79 bar"),
        (90, "90 psi", "621 kPa", "6.21 bar"),
        (0, "0 psi", "0 kPa", "0.00 bar"),
        (-0.001, "0 psi", "0 kPa", "0.00 bar"),
    ],
)
def test_a_pressure_is_written_with_its_unit(
    psi: float, psi_text: str, kpa_text: str, bar_text: str
) -> None:
    assert [pressure_text(psi, unit) for unit in PRESSURE_UNITS] == [psi_text, kpa_text, bar_text]


def test_a_pressure_is_written_with_as_many_decimals_as_asked_for() -> None:
    assert pressure_text(102.43, "psi", 1) == "102.4 psi"
    assert pressure_text(102.43, "kPa", 1) == "706.2 kPa"
    assert pressure_text(102.43, "bar", 0) == "7 bar"


@pytest.mark.parametrize(
    ("inch", "text"),
    [
        (0, "0 in"),
        (0.02, "0 in"),
        (0.0625, "1/16 in"),
        (0.5, "1/2 in"),
        (1.875, "1 7/8 in"),
        (1.9, "1 7/8 in"),
        (1.96875, "2 in"),
        (2, "2 in"),
        (2.4375, "2 7/16 in"),
        (-0.125, "-1/8 in"),
        (-0.01, "0 in"),
    ],
)
def test_inches_are_written_to_the_sixteenth_as_on_a_rule(inch: float, text: str) -> None:
    assert length_text(inch, "in") == text


def test_millimetres_are_written_whole() -> None:
    assert length_text(1.875, "mm") == "48 mm"  # 47.6
    assert length_text(2.0, "mm") == "51 mm"  # 50.8


@given(st.integers(0, 640))
def test_a_rule_reads_back_as_the_length_it_was_written_for(sixteenths: int) -> None:
    words = ruler_text(sixteenths / 16).split()
    parts = [word.partition("/") for word in words]
    assert sum(int(over) / int(under or 1) for over, _, under in parts) == sixteenths / 16
    assert all(int(under) in (2, 4, 8, 16) for _, slash, under in parts if slash)


@given(st.floats(0, 1000, allow_nan=False))
def test_the_nearest_whole_number_is_at_most_a_half_away(value: float) -> None:
    assert abs(nearest_whole(value) - value) <= 0.5


def test_halves_go_up_on_both_sides_of_zero() -> None:
    assert [nearest_whole(half) for half in (0.5, 1.5, 2.5, -0.5)] == [1, 2, 3, 0]


@pytest.mark.parametrize(
    ("value", "step", "text"),
    [
        (7.6, 0.05, "7.60"),
        (7.6, 0.2, "7.6"),
        (110.0, 1.0, "110"),
        (110.0, 10.0, "110"),
        (112.5, 2.5, "112.5"),
        (0.333, 1 / 3, "0.333"),
    ],
)
def test_a_mark_has_as_many_decimals_as_the_step(value: float, step: float, text: str) -> None:
    assert mark_text(value, step) == text


# Unit symbols by NIST SP 811 (2008), tables 1 to 8.
A_SYMBOL = re.compile(r"\d|psi|kPa|[/%°]|\b(?:in|mm|min|L|scfm)\b")


@given(psi_values, inch_values)
def test_every_text_is_said_without_a_digit_or_a_symbol(psi: float, inch: float) -> None:
    texts = [pressure_text(psi, unit) for unit in PRESSURE_UNITS]
    texts += [length_text(inch, unit) for unit in LENGTH_UNITS]
    assert [text for text in texts if A_SYMBOL.search(pronounced(text))] == []


def test_pressures_and_lengths_are_said_in_words() -> None:
    assert pronounced(pressure_text(110, "bar")) == "seven point five eight bar"
    assert pronounced(length_text(1.875, "in")) == "one and seven eighths inches"
    assert pronounced(length_text(1.875, "mm")) == "forty-eight millimeters"


@pytest.mark.parametrize(
    ("metres", "whole", "fine", "metric"),
    [
        (13.716, "45 ft", "45 ft 0 in", "14 m"),
        (7.0, "23 ft", "23 ft 0 in", "7 m"),
        (0.0, "0 ft", "0 ft 0 in", "0 m"),
    ],
)
def test_long_lengths_are_in_feet_for_who_reads_inches(
    metres: float, whole: str, fine: str, metric: str
) -> None:
    """45 ft are 13.716 m exactly: NIST SP 811 (2008), B.8."""
    assert distance_text(metres, "in") == whole
    assert distance_text(metres, "in", 1) == fine
    assert distance_text(metres, "mm") == metric


@pytest.mark.parametrize(("celsius", "shown"), [(0, "32 °F"), (100, "212 °F"), (-40, "-40 °F")])
def test_temperatures_are_in_fahrenheit_for_who_reads_inches(celsius: float, shown: str) -> None:
    """Ice, steam, and where both scales meet."""
    assert temperature_text(celsius, "in") == shown
    assert temperature_text(celsius, "mm") == f"{celsius} °C"
