"""Measured values in words: each with its limit in the unit it was read in, and the outcome."""

from __future__ import annotations

from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.english import ENGLISH
from support.walks import Teller, begun, plan, step

from walkaround.plan.steps import Step
from walkaround.plan.values import Measure, Value
from walkaround.walk.events import Answered, Measured
from walkaround.walk.measured_values import JudgedValue
from walkaround.words.measured_values import (
    apart_at,
    apart_text,
    found_words,
    limit_text,
    next_value,
    outcome_text,
    said_text,
    strokes_apart,
    value_text,
    values_at,
)
from walkaround.words.pronunciation import pronounced

# Up to the limit of 2 in, so that every stroke is OK.
SIXTEENTHS = st.integers(0, 32)


def stroke_step(axle: int, side: str, at_most: float | None = 2.0) -> Step:
    item = {"id": f"axle_{axle}_{side}", "name": f"axle {axle}, {side} end", "kind": "wheel_end"}
    value = {"id": "stroke", "name": "pushrod stroke", "at_most": at_most}
    return step(
        f"stroke_{axle}_{side}",
        "strokes",
        "measure",
        items=(item,),
        soft=True,
        measure={
            "quantity": "in",
            "values": (value,),
            "known": at_most is not None,
            "limit": "at most 2 in: invented",
            "advice": "Find the cause.",
        },
    )


def pressures(quantity: str = "psi", **more: Any) -> Measure:
    fields: dict[str, Any] = {"limit": "at least 60 psi: invented", **more}
    values = (
        Value(id="primary", name="primary", gauge="primary", at_least=60.0),
        Value(id="secondary", name="secondary", gauge="secondary", at_least=60.0),
    )
    return Measure.model_validate({"quantity": quantity, "values": values, **fields})


DROP = Measure(
    quantity="psi",
    values=(
        Value(id="primary_before", name="primary before", gauge="primary"),
        Value(
            id="primary_after",
            name="primary after",
            gauge="primary",
            before="primary_before",
            at_most=20.0,
        ),
    ),
    limit="at most 20 %: 49 CFR 570.57(a)(1)",
)

STROKES = (stroke_step(1, "right"), stroke_step(2, "right"), stroke_step(1, "left"))


def taken(**values: tuple[float, str]) -> dict[str, Measured]:
    """Values as read, each as (value, unit)."""
    teller = begun()
    return {
        id_: teller.sealed(Measured, step="any", value_id=id_, value=value, unit=unit)
        for id_, (value, unit) in values.items()
    }


def stroke_walk(*strokes: tuple[str, float, str]) -> Teller:
    """A walk in which these strokes were measured, as (step, value, unit)."""
    teller = begun(plan(STROKES))
    for id_, value, unit in strokes:
        teller.tell(Measured, step=id_, value_id="stroke", value=value, unit=unit)
        teller.tell(Answered, step=id_, answer="ok")
    return teller


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (1.75, "in", "1 3/4 in"),
        (0.0, "in", "0 in"),
        (44.0, "mm", "44 mm"),
        (68.0, "psi", "68 psi"),
        (760.0, "kPa", "760 kPa"),
        (7.55, "bar", "7.55 bar"),
        (33.4, "s", "33.4 s"),
    ],
)
def test_a_value_is_told_in_the_unit_it_was_read_in(value: float, unit: str, text: str) -> None:
    assert value_text(taken(x=(value, unit))["x"]) == text


@pytest.mark.parametrize(
    ("read", "text"),
    [
        # 49 CFR 393.47(e): "must not be greater than", so 2 in passes at a limit of 2 in.
        ((1.75, "in"), "1 3/4 in, at most 2 in: within."),
        ((2.0, "in"), "2 in, at most 2 in: within."),
        ((2.0625, "in"), "2 1/16 in, at most 2 in: over."),
        # 2 in are 50.8 mm.
        ((50.0, "mm"), "50 mm, at most 50.8 mm: within."),
        ((51.0, "mm"), "51 mm, at most 50.8 mm: over."),
    ],
)
def test_a_stroke_beside_its_limit_in_the_same_unit(read: tuple[float, str], text: str) -> None:
    measure = stroke_step(1, "left").measure
    assert measure is not None
    assert outcome_text(measure, taken(stroke=read), ENGLISH) == text


def test_several_values_are_told_by_name_each_in_the_unit_of_its_gauge() -> None:
    read = taken(primary=(68.0, "psi"), secondary=(400.0, "kPa"))
    assert outcome_text(pressures(), read, ENGLISH) == (
        # 60 psi are 413.7 kPa.
        "primary 68 psi, at least 60 psi: within; secondary 400 kPa, at least 414 kPa: under."
    )


@pytest.mark.parametrize(
    ("after", "text"),
    [(72.0, "drop 20 %, at most 20 %: within."), (71.0, "drop 21.1 %, at most 20 %: over.")],
)
def test_a_drop_is_told_in_percent_of_what_it_was_before(after: float, text: str) -> None:
    read = taken(primary_before=(90.0, "psi"), primary_after=(after, "psi"))
    told = outcome_text(DROP, read, ENGLISH)
    assert told == f"primary before 90 psi; primary after {after:g} psi, {text}"


def test_a_value_that_nothing_bounds_is_said_to_be_only_written_down() -> None:
    measure = stroke_step(1, "left", at_most=None).measure
    assert measure is not None
    assert outcome_text(measure, taken(stroke=(1.5, "in")), ENGLISH) == "1 1/2 in: written down."
    assert limit_text(measure, ENGLISH).startswith("No limit is known")
    assert limit_text(pressures(), ENGLISH) == "Limit: at least 60 psi: invented."


def test_what_is_said_names_the_next_value_then_the_outcome_and_what_to_do() -> None:
    assert said_text(pressures(), taken(primary=(68.0, "psi")), ENGLISH) == "Now secondary."
    measure = stroke_step(1, "left").measure
    assert measure is not None
    said = said_text(measure, taken(stroke=(2.5, "in")), ENGLISH)
    assert said == "2 1/2 in, at most 2 in: over. Find the cause."
    assert not any(letter.isdigit() for letter in pronounced(said))
    assert "two and a half inches" in pronounced(said)
    assert "Find" not in said_text(measure, taken(stroke=(1.5, "in")), ENGLISH)


@given(SIXTEENTHS, SIXTEENTHS)
def test_ends_more_than_a_quarter_inch_apart_are_called_out(left: int, right: int) -> None:
    walk = stroke_walk(
        ("stroke_1_right", right / 16, "in"),
        ("stroke_2_right", 1.0, "in"),
        ("stroke_1_left", left / 16, "in"),
    ).walk
    [apart] = strokes_apart(walk)
    assert apart.axle == 1
    # In whole sixteenths, where nothing is lost to floats.
    assert apart.much == (abs(left - right) > 4)
    assert ("common practice, no source" in apart_text(apart, ENGLISH)) == apart.much


def test_ends_are_compared_across_units_and_only_when_both_are_measured() -> None:
    teller = stroke_walk(("stroke_1_right", 38.0, "mm"))
    assert strokes_apart(teller.walk) == ()
    assert apart_at(teller.walk, STROKES[0]) is None
    teller = stroke_walk(
        ("stroke_1_right", 38.0, "mm"), ("stroke_2_right", 1.0, "in"), ("stroke_1_left", 1.5, "in")
    )
    # 1 1/2 in are 38.1 mm.
    [apart] = strokes_apart(teller.walk)
    assert apart.inches == pytest.approx(0.1 / 25.4)
    assert apart_text(apart, ENGLISH) == "Axle 1: left 1 1/2 in, right 38 mm, 0 in apart."
    assert apart_at(teller.walk, STROKES[2]) == apart
    assert apart_at(teller.walk, STROKES[1]) is None


def test_a_defect_is_told_by_the_values_it_was_found_on_even_after_its_recheck() -> None:
    teller = begun(plan((STROKES[0],)))
    tell = {"step": "stroke_1_right", "value_id": "stroke", "unit": "in"}
    teller.tell(Measured, value=2.5, **tell)
    teller.found("stroke_1_right")
    found = teller.walk.answers["stroke_1_right"]
    defect = teller.walk.defects["stroke_1_right"]
    assert found_words(teller.walk, defect, ENGLISH) == "2 1/2 in, at most 2 in: over."
    teller.back("stroke_1_right", "recheck")
    assert teller.walk.measured.get("stroke_1_right") is None
    teller.tell(Measured, value=1.5, **tell)
    teller.ok("stroke_1_right")
    defect = teller.walk.defects["stroke_1_right"]
    assert defect.state == "rechecked"
    assert found_words(teller.walk, defect, ENGLISH) == "2 1/2 in, at most 2 in: over."
    again = teller.walk.answers["stroke_1_right"]
    assert values_at(teller.walk.events, found)["stroke"].value == 2.5
    assert values_at(teller.walk.events, again)["stroke"].value == 1.5


def test_every_gauge_is_read_before_and_then_every_one_after() -> None:
    values = [
        Value(id=f"{line}_{when}", name=f"{line} {when}", before=before)
        for line in ("primary", "secondary")
        for when, before in (("before", ""), ("after", f"{line}_before"))
    ]
    measure = Measure(quantity="psi", values=tuple(values))
    said, read = [], taken()
    while (value := next_value(measure, read)) is not None:
        said.append(value.name)
        read |= taken(**{value.id: (90.0, "psi")})
    assert said == ["primary before", "secondary before", "primary after", "secondary after"]
    assert (
        said_text(measure, taken(primary_before=(90.0, "psi")), ENGLISH) == "Now secondary before."
    )


def test_a_drop_from_nothing_is_no_drop() -> None:
    read = taken(primary_before=(0.0, "psi"), primary_after=(0.0, "psi"))
    told = "primary before 0 psi; primary after 0 psi, at most 20 %: not measured."
    assert outcome_text(DROP, read, ENGLISH) == told
    assert said_text(DROP, read, ENGLISH) == f"P{told[1:]}"


def test_a_fault_seen_goes_before_the_values() -> None:
    teller = begun(plan((STROKES[0],)))
    body = {"step": "stroke_1_right", "value_id": "stroke", "unit": "in", "value": 1.5}
    teller.tell(Measured, **body)
    teller.found("stroke_1_right", axle_1_right="worn")
    told = found_words(teller.walk, teller.walk.defects["stroke_1_right"], ENGLISH)
    assert told == ("axle 1, right end thinner than its limit. 1 1/2 in, at most 2 in: within.")


def test_no_outcome_has_the_words_of_another() -> None:
    judged = [ENGLISH(f"judged-{outcome}") for outcome in get_args(JudgedValue)]
    assert len(set(judged)) == len(judged)
