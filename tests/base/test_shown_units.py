"""Texts in other units: every pressure and length is converted, and nothing else is touched."""

from __future__ import annotations

import re
from typing import get_args

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from walkaround.base.shownunits import in_units
from walkaround.base.units import LengthUnit, PressureUnit, Units

UNITS = pint.UnitRegistry()
PRESSURES = st.sampled_from(get_args(PressureUnit))
LENGTHS = st.sampled_from(get_args(LengthUnit))
PLAIN = st.text(st.characters(exclude_categories=("N", "C")), max_size=30)


@given(PLAIN, PRESSURES, LENGTHS)
def test_a_text_without_numbers_stays_as_it_is(
    text: str, pressure: PressureUnit, length: LengthUnit
) -> None:
    assert in_units(text, Units(pressure, length)) == text


@given(st.text(max_size=40))
def test_a_text_in_the_units_of_the_tables_stays_as_it_is(text: str) -> None:
    assert in_units(text, Units()) == text


@given(st.text(max_size=40), PRESSURES, LENGTHS)
def test_any_text_can_be_shown(text: str, pressure: PressureUnit, length: LengthUnit) -> None:
    in_units(text, Units(pressure, length))


@given(st.integers(0, 300), st.sampled_from(("kPa", "bar")))
def test_a_pressure_is_the_same_pressure_as_pint_has_it(psi: int, unit: PressureUnit) -> None:
    shown = in_units(f"Charge to {psi} psi, then wait.", Units(pressure=unit))
    found = re.fullmatch(rf"Charge to ([\d.]+) {unit}, then wait\.", shown)
    assert found
    right = UNITS.Quantity(psi, "psi").to(unit).magnitude
    # To the last figure that is shown: whole kPa, hundredths of a bar.
    assert abs(float(found[1]) - right) <= {"kPa": 0.5, "bar": 0.005}[unit] + 1e-9


@given(st.integers(0, 12), st.integers(0, 15))
def test_a_length_is_the_same_length_as_pint_has_it(whole: int, sixteenths: int) -> None:
    assume(whole or sixteenths)
    parts = [str(whole)] if whole else []
    parts += [f"{sixteenths}/16"] if sixteenths else []
    shown = in_units(f"at most {' '.join(parts)} in: a rule", Units(length="mm"))
    found = re.fullmatch(r"at most ([\d.]+) mm: a rule", shown)
    assert found
    right = UNITS.Quantity(whole + sixteenths / 16, "inch").to("mm").magnitude
    assert abs(float(found[1]) - right) <= 0.05 + 1e-9


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        # 1 psi = 6.894757 kPa (NIST SP 811, B.8); worked out by hand.
        ("80 to 90 psi", "552 to 621 kPa"),
        ("20-45 psi", "138-310 kPa"),
        ("3 psi/min, equal passes", "21 kPa/min, equal passes"),
        ("at most 2 in: 49 CFR 393.47(e)", "at most 50.8 mm: 49 CFR 393.47(e)"),
        # The table of 49 CFR 393.47(e) prints 44.5 mm beside 1 3/4 in.
        ("1 3/4 in", "44.5 mm"),
        ("differ by more than 1/4 in", "differ by more than 6.4 mm"),
    ],
)
def test_ranges_rates_and_limits(text: str, shown: str) -> None:
    assert in_units(text, Units("kPa", "mm")) == shown


@pytest.mark.parametrize(
    "text",
    [
        "pin 6 in the plug",
        "axle 2 in front",
        "5 lamps, 2 in all",
        "the hoses, 2 in each hand",
        "3 in order",
        "49 CFR 393.47 in 2026",
        "a psi gauge",
        "section 570.57",
        "1/0 in",
    ],
)
def test_what_is_no_pressure_and_no_length_stays(text: str) -> None:
    assert in_units(text, Units("bar", "mm")) == text
