"""VIN check digit and model years against examples of 49 CFR 565.15 and the library vininfo."""

from __future__ import annotations

import csv
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from vininfo import Vin

from walkaround.vehicle.vin import vin_problem, vin_years

EXAMPLES = Path(__file__).with_name("vin_examples.csv")
# 49 CFR 565.15: digits and letters other than I, O and Q.
LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789"


def examples() -> list[dict[str, str]]:
    lines = EXAMPLES.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("example", examples(), ids=lambda example: example["vin"])
def test_each_published_example_is_judged_as_565_15_does(example: dict[str, str]) -> None:
    problem = vin_problem(example["vin"])
    if example["holds"] == "yes":
        assert problem is None
    else:
        assert problem is not None
        assert f"where {example['fitting']} would fit" in problem


@given(st.text(LETTERS, min_size=14, max_size=14), st.sampled_from("0123456789X"))
def test_vininfo_agrees_about_every_check_digit(rest: str, check: str) -> None:
    # The first two characters keep vininfo from choosing a maker that has rules of its own.
    vin = f"1Z{rest[:6]}{check}{rest[6:]}"
    assert (vin_problem(vin) is None) == Vin(vin).verify_checksum(check_year=False)


@given(st.text(LETTERS, min_size=14, max_size=14))
def test_exactly_one_check_digit_fits_and_it_is_the_one_named(rest: str) -> None:
    vins = {check: f"1Z{rest[:6]}{check}{rest[6:]}" for check in "0123456789X"}
    [fitting] = [check for check, vin in vins.items() if vin_problem(vin) is None]
    assert Vin(vins[fitting]).verify_checksum(check_year=False)
    for check in vins.keys() - {fitting}:
        assert f"where {fitting} would fit" in str(vin_problem(vins[check]))


@pytest.mark.parametrize("example", examples(), ids=lambda example: example["vin"])
def test_each_example_can_mean_the_years_that_the_table_gives_its_code(
    example: dict[str, str],
) -> None:
    assert vin_years(example["vin"]) == tuple(int(year) for year in example["years"].split())


# Vininfo leaves out years to come.
@given(st.text(LETTERS, min_size=15, max_size=15))
def test_vininfo_agrees_about_the_years_of_every_code(rest: str) -> None:
    vin = f"1Z{rest}"
    ours, theirs = set(vin_years(vin)), set(Vin(vin).years)
    assert theirs <= ours
    assert all(year >= date.today().year for year in ours - theirs)
