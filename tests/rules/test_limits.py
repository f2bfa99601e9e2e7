"""Which of the published limits counts for a vehicle as it stands."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError
from support.walks import vehicle

from walkaround.rules.limits import Air, HoldRule, LimitRow, Situation, choose_limit


def row(id_: str, **more: Any) -> LimitRow:
    return LimitRow.model_validate(
        {"id": id_, "source": "invented", "provenance": "memory", "at_most": 2.0, **more}
    )


def standing(air: Air = "coupled", towed: int = 1, **of_vehicle: Any) -> Situation:
    return Situation(vehicle().model_copy(update=of_vehicle), air, towed)


LONE = row("lone", air="shop")
# 49 CFR 570.57(a)(5) (read): 2 psi/min single, 3 for a combination, 1 more for each further unit.
SINGLE = row("single", air="coupled", towed={"up_to": 0})
COMBINATION = row("combination", air="coupled", towed={"from": 1}, at_most=3.0, per_extra_towed=1.0)
ROWS = (LONE, SINGLE, COMBINATION)


@pytest.mark.parametrize(
    ("air", "towed", "id_", "at_most"),
    [
        ("shop", 0, "lone", 2.0),
        ("coupled", 0, "single", 2.0),
        ("coupled", 1, "combination", 3.0),
        ("coupled", 2, "combination", 4.0),
        ("coupled", 3, "combination", 5.0),
    ],
)
def test_the_limit_follows_from_where_the_air_comes_from_and_what_is_towed(
    air: Air, towed: int, id_: str, at_most: float
) -> None:
    counts, others = choose_limit(ROWS, standing(air, towed))
    assert counts is not None
    assert (counts.id, counts.at_most, others) == (id_, at_most, ())


def test_the_first_that_holds_counts_and_the_others_are_told() -> None:
    first, second, other = row("a"), row("b", at_most=3.0), row("c", made_from=date(2030, 1, 1))
    assert choose_limit((first, second, other), standing()) == (first, (second,))


def test_a_shop_can_choose_another_one_that_holds() -> None:
    first, second = row("a"), row("b", at_most=3.0)
    assert choose_limit((first, second), standing(), "b") == (second, (first,))
    assert choose_limit((first, second), standing(), "c") == (first, (second,))


def test_a_limit_may_depend_on_the_date_of_make() -> None:
    old, new = row("old", made_before=date(1975, 3, 1)), row("new", made_from=date(1975, 3, 1))
    for made, which in ((date(1975, 2, 28), old), (date(1975, 3, 1), new)):
        assert choose_limit((old, new), standing(made=made))[0] == which


def test_a_limit_may_be_for_some_kinds_of_vehicle() -> None:
    tractors = row("tractor", classes=("C",))
    assert choose_limit((tractors,), standing(kind="truck tractor"))[0] == tractors
    assert choose_limit((tractors,), standing()) == (None, ())


def test_without_a_limit_that_holds_none_counts() -> None:
    assert choose_limit((LONE,), standing("coupled")) == (None, ())


@given(st.integers(0, 6), st.floats(0, 10), st.floats(0, 5))
def test_each_towed_unit_after_the_first_adds_to_the_limit(
    towed: int, at_most: float, more: float
) -> None:
    a_row = row("a", at_most=at_most, per_extra_towed=more)
    counts, _ = choose_limit((a_row,), standing(towed=towed))
    assert counts is not None
    assert counts.at_most == pytest.approx(at_most + more * max(0, towed - 1))
    # What was resolved once stays so.
    assert choose_limit((counts,), standing(towed=towed))[0] == counts


def test_a_hold_is_set_to_something() -> None:
    limit = {"limit_psi_per_min": 2.0, "limit_source": "x", "limit_provenance": "memory"}
    with pytest.raises(ValidationError):
        HoldRule.model_validate({"set_psi": {}, **limit})
