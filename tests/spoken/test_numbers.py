"""Numbers digit by digit, spelled by a library of number words."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from walkaround.spoken.numbers import number_said, number_words
from walkaround.walk.keypad import PadUnit


def spelled(digits: str) -> str:
    """Each digit by its name; num2words gives those."""
    return " ".join(num2words(int(digit)) if digit.isdigit() else "point" for digit in digits)


@given(st.integers(0, 1500))
def test_a_whole_number_is_read_as_it_was_spelled(number: int) -> None:
    for unit in ("psi", "kPa", "mm"):
        assert number_said(spelled(str(number)), unit) == number


@given(st.integers(0, 120))
def test_tenths_of_a_bar_are_read_as_they_were_spelled(tenths: int) -> None:
    assert number_said(spelled(f"{tenths / 10:.1f}"), "bar") == tenths / 10


@given(st.integers(1, 55))
def test_a_stroke_is_read_as_whole_inches_and_a_fraction(sixteenths: int) -> None:
    whole, rest = divmod(Fraction(sixteenths, 16), 1)
    fraction = f"{spelled(str(rest.numerator))} over {spelled(str(rest.denominator))}"
    words = f"{spelled(str(int(whole)))} and {fraction}" if whole else fraction
    if rest:
        assert number_said(words, "in") == sixteenths / 16


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("", "psi"), ("point five", "bar"), ("one two three four five", "kPa"),
        ("one and", "in"), ("over four", "in"), ("one over three", "in"), ("five over four", "in"),
        ("one over two", "psi"), ("eleven", "psi"), ("one zero over eight", "in"),
    ],
)  # fmt: skip
def test_what_is_no_number_is_not_made_one(text: str, unit: PadUnit) -> None:
    assert number_said(text, unit) is None


def test_only_what_a_number_in_that_unit_is_spelled_with_is_scored() -> None:
    assert len(number_words("psi")) == 10
    assert set(number_words("bar")) - set(number_words("psi")) == {"point"}
    assert set(number_words("in")) - set(number_words("psi")) == {"and", "over"}
