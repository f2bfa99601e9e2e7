"""Two taps enter every value that a gauge, a rule or a watch can show."""

from __future__ import annotations

from itertools import pairwise

import pytest

from walkaround.airhold.gauge import GAUGE_STEPS, Gauge
from walkaround.base.units import LengthUnit, from_psi
from walkaround.plan.values import Measure
from walkaround.rules.limits import MeasureUnit
from walkaround.walk.keypad import (
    Key,
    PadUnit,
    can_be_entered,
    coarse_keys,
    fine_keys,
    pad_scale,
)

# Largest values on offer: 150 psi and the same in round kPa and bar; strokes up to 3 in.
MOST: dict[PadUnit, float] = {"psi": 150, "kPa": 1000, "bar": 10, "in": 3, "mm": 80, "s": 120}
PRESSURES: list[tuple[PadUnit, float]] = [
    (unit, step) for unit, steps in GAUGE_STEPS.items() for step in steps
]
PADS: list[tuple[MeasureUnit, PadUnit, float]] = [
    *(("psi", unit, step) for unit, step in PRESSURES),
    ("in", "in", 1 / 16),
    ("in", "mm", 1.0),
    ("s", "s", 1.0),
]


def labels(keys: tuple[Key, ...]) -> list[str]:
    return [key.label for key in keys]


def entered(quantity: MeasureUnit, unit: PadUnit, step: float) -> list[float]:
    """Every value that two taps can enter, in the order of the keys."""
    values = []
    for coarse in coarse_keys(quantity, unit, step, MOST[unit]):
        fine = fine_keys(quantity, unit, step, coarse.value)
        values += [key.value for key in fine or (coarse,)]
    return values


@pytest.mark.parametrize(("quantity", "unit", "step"), PADS)
def test_two_taps_reach_each_mark_up_to_the_most_once(
    quantity: MeasureUnit, unit: PadUnit, step: float
) -> None:
    values = entered(quantity, unit, step)
    assert values[0] == 0
    assert values[-1] >= MOST[unit]
    gaps = [later - earlier for earlier, later in pairwise(values)]
    assert gaps == pytest.approx([step] * len(gaps), abs=1e-5)


@pytest.mark.parametrize(("quantity", "unit", "step"), PADS)
def test_no_two_keys_of_a_page_look_alike(
    quantity: MeasureUnit, unit: PadUnit, step: float
) -> None:
    coarse = coarse_keys(quantity, unit, step, MOST[unit])
    pages = [coarse, *(fine_keys(quantity, unit, step, key.value) for key in coarse)]
    assert all(len(set(labels(page))) == len(page) for page in pages)


@pytest.mark.parametrize(("quantity", "unit", "step"), PADS)
def test_a_page_is_no_larger_than_a_hand_can_hit(
    quantity: MeasureUnit, unit: PadUnit, step: float
) -> None:
    coarse = coarse_keys(quantity, unit, step, MOST[unit])
    # 5 kPa and 0.05 bar are twenty marks between hundreds of kPa or whole bars; no other is.
    most = 20 if (unit, step) in (("kPa", 5.0), ("bar", 0.05)) else 16
    assert len(coarse) <= 16
    assert all(len(fine_keys(quantity, unit, step, key.value)) <= most for key in coarse)


def test_psi_goes_by_tens_and_then_by_the_marks_of_the_gauge() -> None:
    assert labels(coarse_keys("psi", "psi", 1.0, 150)) == [str(10 * ten) for ten in range(16)]
    assert labels(fine_keys("psi", "psi", 2.0, 110)) == ["110", "112", "114", "116", "118"]


def test_a_gauge_as_coarse_as_the_first_page_needs_one_tap() -> None:
    assert fine_keys("psi", "psi", 10.0, 110) == ()
    assert labels(coarse_keys("psi", "psi", 25.0, 150)) == [
        "0",
        "25",
        "50",
        "75",
        "100",
        "125",
        "150",
    ]
    assert fine_keys("psi", "psi", 25.0, 125) == ()


def test_kpa_goes_by_hundreds_and_bar_by_whole_bars() -> None:
    assert labels(coarse_keys("psi", "kPa", 20.0, 1000))[-2:] == ["900", "1000"]
    assert labels(fine_keys("psi", "kPa", 20.0, 700)) == ["700", "720", "740", "760", "780"]
    assert labels(coarse_keys("psi", "bar", 0.2, 10))[-2:] == ["9", "10"]
    assert labels(fine_keys("psi", "bar", 0.2, 7)) == ["7.0", "7.2", "7.4", "7.6", "7.8"]


def test_inches_go_by_whole_ones_and_then_by_sixteenths_as_a_rule_names_them() -> None:
    assert labels(coarse_keys("in", "in", 1.0, 3)) == ["0", "1", "2", "3"]
    fine = fine_keys("in", "in", 1.0, 1)
    assert " ".join(labels(fine)) == (
        "0 1/16 1/8 3/16 1/4 5/16 3/8 7/16 1/2 9/16 5/8 11/16 3/4 13/16 7/8 15/16"
    )
    assert fine[14] == Key(1.875, "7/8")


def test_millimetres_and_seconds_go_by_tens_and_ones() -> None:
    assert labels(fine_keys("in", "mm", 1.0, 40))[0::9] == ["40", "49"]
    assert labels(fine_keys("s", "s", 1.0, 30))[0::9] == ["30", "39"]
    assert fine_keys("in", "mm", 1.0, 40)[8] == Key(48.0, "48")


def test_marks_that_do_not_divide_ten_are_all_there() -> None:
    assert labels(fine_keys("psi", "psi", 3.0, 10)) == ["12", "15", "18"]
    assert labels(fine_keys("psi", "psi", 7.0, 10)) == ["14"]
    assert labels(fine_keys("psi", "psi", 2.5, 110)) == ["110.0", "112.5", "115.0", "117.5"]


@pytest.mark.parametrize(
    ("length", "limits"),
    [
        ("in", (1.25, 1.375, 1.5, 1.75, 2.0, 2.25, 2.5, 2.75, 3.0)),
        ("mm", (32, 35, 38, 44, 51, 57, 64, 70, 76)),
    ],
)
def test_every_stroke_near_a_published_limit_can_be_entered(
    length: LengthUnit, limits: tuple[float, ...]
) -> None:
    """The limits of 49 CFR 393.47(e), in millimeters the next whole ones."""
    scale = pad_scale(Measure(quantity="in", values=(), start=1.0), None, length)
    assert (scale.unit, scale.start) == (length, {"in": 1.0, "mm": 25.4}[length])
    mark = {"in": 1 / 16, "mm": 1}[length]
    for limit in limits:
        for stroke in (limit - mark, limit, limit + mark):
            assert can_be_entered("in", scale, stroke)
        assert not can_be_entered("in", scale, limit + mark / 2)
    assert not can_be_entered("in", scale, {"in": 4.5, "mm": 100}[length])


def test_a_time_is_entered_in_whole_seconds_past_two_minutes() -> None:
    scale = pad_scale(Measure(quantity="s", values=(), start=45.0), None, "in")
    assert (scale.unit, scale.start) == ("s", 45.0)
    assert all(can_be_entered("s", scale, second) for second in range(151))
    assert not can_be_entered("s", scale, 44.5)
    assert not can_be_entered("s", scale, 160)


@pytest.mark.parametrize(("unit", "step"), PRESSURES)
def test_a_pressure_is_entered_on_the_marks_of_its_gauge(unit: PadUnit, step: float) -> None:
    gauge = Gauge.model_validate({"name": "supply", "unit": unit, "step": step})
    scale = pad_scale(Measure(quantity="psi", values=(), start=100.0), gauge, "in")
    assert (scale.unit, scale.step) == (unit, step)
    assert scale.start == pytest.approx(from_psi(100.0, gauge.unit))
    marks = int(from_psi(150.0, gauge.unit) / step)
    assert all(can_be_entered("psi", scale, step * mark) for mark in range(marks + 1))
    assert not can_be_entered("psi", scale, step * (marks + 0.5))
