"""Numbers digit by digit, spelled by a library of number words."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from walkaround.spoken_answers.numbers import number_example, number_words, parse_number
from walkaround.walk.keypad import PadUnit


def spelled(digits: str) -> str:
    """Each digit by its name; num2words gives those."""
    return " ".join(num2words(int(digit)) if digit.isdigit() else "point" for digit in digits)


@given(st.integers(0, 1500))
def test_a_whole_number_is_read_as_it_was_spelled(number: int) -> None:
    for unit in ("psi", "kPa", "mm"):
        assert parse_number(spelled(str(number)), unit) == number


@given(st.integers(0, 120))
def test_tenths_of_a_bar_are_read_as_they_were_spelled(tenths: int) -> None:
    assert parse_number(spelled(f"{tenths / 10:.1f}"), "bar") == tenths / 10


@given(st.integers(1, 55))
def test_a_stroke_is_read_as_whole_inches_and_a_fraction(sixteenths: int) -> None:
    whole, rest = divmod(Fraction(sixteenths, 16), 1)
    fraction = f"{spelled(str(rest.numerator))} over {spelled(str(rest.denominator))}"
    words = f"{spelled(str(int(whole)))} and {fraction}" if whole else fraction
    if rest:
        assert parse_number(words, "in") == sixteenths / 16


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("", "psi"), ("point five", "bar"), ("one two three four five", "kPa"),
        ("one and", "in"), ("over four", "in"), ("one over three", "in"), ("five over four", "in"),
        ("one over two", "psi"), ("eleven", "psi"), ("one zero over eight", "in"),
    ],
)  # fmt: skip
def test_what_is_no_number_is_not_made_one(text: str, unit: PadUnit) -> None:
    assert parse_number(text, unit) is None


def test_only_what_a_number_in_that_unit_is_spelled_with_is_scored() -> None:
    digits = set(number_words("kPa"))
    assert len(digits) == 10
    assert set(number_words("psi")) - digits == {"pounds"}
    assert set(number_words("bar")) - digits == {"point"}
    assert set(number_words("in")) - digits == {"and", "over", "inches"}


@pytest.mark.parametrize(
    ("unit", "number"), [("psi", 118), ("kPa", 620), ("bar", 8.1), ("in", 1.75), ("mm", 44)]
)
def test_what_is_shown_as_an_example_is_a_number_in_that_unit(unit: PadUnit, number: float) -> None:
    example = number_example(unit)
    assert parse_number(example, unit) == number
    assert set(example.split()) <= set(number_words(unit))


def test_the_unit_may_be_said_last_and_nowhere_else() -> None:
    assert parse_number("nine seven pounds", "psi") == parse_number("nine seven", "psi") == 97
    assert parse_number("one and three over four inches", "in") == 1.75
    for text in ("pounds", "nine pounds seven", "nine seven inches", "nine seven pounds pounds"):
        assert parse_number(text, "psi") is None
