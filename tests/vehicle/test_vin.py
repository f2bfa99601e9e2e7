"""Whether a text can be a VIN, what is wrong with it otherwise, and which years it can mean."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.vehicle.vin import VIN_VALUES, vin_problem, vin_years


def test_a_vin_of_another_length_says_who_may_leave_it_out() -> None:
    assert vin_problem("12345") == (
        "the VIN has 5 characters, 17 expected; older and military units may leave vin out"
    )
    assert vin_problem("") is not None


@pytest.mark.parametrize("character", ["I", "O", "Q", "-", " ", "²", "Ä"])
def test_a_character_that_no_vin_uses_is_named_with_its_place(character: str) -> None:
    problem = vin_problem(f"1M8G{character}M9AXKP042788")
    assert problem is not None
    assert f"character 5 of the VIN is {character!r}" in problem


def test_a_vin_may_be_typed_in_small_letters() -> None:
    assert vin_problem("1m8gdm9axkp042788") is None


# The weights of 49 CFR 565.15(c) are none of them a multiple of 11, a prime: one character misread
# as one of another value always shows.
@given(
    place=st.integers(0, 16).filter(lambda place: place != 8),
    read=st.sampled_from(sorted(VIN_VALUES)),
)
def test_one_misread_character_of_another_value_always_shows(place: int, read: str) -> None:
    vin = "1M8GDM9AXKP042788"
    misread = vin[:place] + read + vin[place + 1 :]
    same_value = VIN_VALUES[vin[place]] == VIN_VALUES[read]
    assert (vin_problem(misread) is None) is same_value


@given(st.text())
def test_any_text_is_judged_as_a_vin_in_one_line(text: str) -> None:
    problem = vin_problem(text)
    assert problem is None or (problem and "\n" not in problem)


@pytest.mark.parametrize(
    ("vin", "place", "meant"),
    [
        ("1M8GDM9AXKPO42788", 12, "0"),
        ("1M8GDM9AXKPQ42788", 12, "0"),
        ("IM8GDM9AXKP042788", 1, "1"),
    ],
)
def test_a_letter_that_no_vin_uses_is_told_with_the_digit_that_fits(
    vin: str, place: int, meant: str
) -> None:
    assert vin_problem(vin) == (
        f"character {place} of the VIN is {vin[place - 1]!r}, which no VIN uses; "
        f"{meant} fits its check digit, compare with the plate"
    )


def test_a_digit_that_does_not_fit_either_is_only_offered_as_like_it() -> None:
    assert str(vin_problem("1M8GDM9AXKPO42789")).endswith("0 is like it, compare with the plate")


@pytest.mark.parametrize("vin", ["", "1M8GDM9AX", "1M8GDM9AXUP042788", "1M8GDM9AX0P042788"])
def test_a_text_without_a_year_code_means_no_year(vin: str) -> None:
    assert vin_years(vin) == ()


def test_a_year_code_may_be_typed_in_small_letters() -> None:
    assert vin_years("1m8gdm9axkp042788") == (1989, 2019)


@given(st.text(sorted(VIN_VALUES), min_size=17, max_size=17))
def test_every_year_comes_again_after_30_years(vin: str) -> None:
    years = vin_years(vin)
    assert not years or years == (years[0], years[0] + 30)
    assert all(1980 <= year <= 2039 for year in years)
