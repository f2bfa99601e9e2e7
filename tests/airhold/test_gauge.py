"""Gauges: their marks, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from walkaround.airhold.gauge import GAUGE_STEPS, Gauge
from walkaround.base.units import PressureUnit, to_psi

gauges = st.sampled_from(
    [
        Gauge(name="supply", unit=unit, step=step)
        for unit, all_ in GAUGE_STEPS.items()
        for step in all_
    ]
)


@pytest.mark.parametrize(
    ("unit", "step", "psi", "label"),
    [
        ("psi", 1.0, 110.4, "110"),
        ("psi", 2.0, 111.0, "112"),
        ("psi", 5.0, 112.4, "110"),
        ("psi", 10.0, 94.9, "90"),
        ("kPa", 20.0, 110.0, "760"),  # pint: 758.4 kPa
        ("kPa", 5.0, 110.0, "760"),
        ("bar", 0.05, 110.0, "7.60"),  # pint: 7.584 bar
        ("bar", 0.2, 110.0, "7.6"),
        ("bar", 0.5, 110.0, "7.5"),
    ],
)
def test_a_pressure_is_labelled_by_the_mark_next_to_it(
    unit: PressureUnit, step: float, psi: float, label: str
) -> None:
    assert Gauge(name="supply", unit=unit, step=step).label(psi) == label


@given(gauges, st.floats(0, 300))
def test_the_label_is_the_mark_next_to_the_pressure(gauge: Gauge, psi: float) -> None:
    mark_psi = to_psi(float(gauge.label(psi)), gauge.unit)
    assert abs(mark_psi - psi) <= gauge.step_psi / 2 * (1 + 1e-6) + 1e-6
    assert gauge.label(mark_psi) == gauge.label(psi)


def test_a_gauge_is_read_to_the_psi_unless_it_is_told_otherwise() -> None:
    gauge = Gauge(name="supply")
    assert (gauge.unit, gauge.step, gauge.step_psi, gauge.crossing) == ("psi", 1.0, 1.0, False)


@pytest.mark.parametrize(("unit", "step"), [("psi", 0.01), ("psi", 50.0), ("kPa", 344.7)])
def test_the_finest_and_the_coarsest_step_are_taken(unit: PressureUnit, step: float) -> None:
    assert Gauge(name="supply", unit=unit, step=step).step == step


def test_a_gauge_has_a_name_of_forty_characters_at_most() -> None:
    for name in ("s", "s" * 40):
        assert Gauge(name=name).name == name
    for name in ("", "s" * 41):
        with pytest.raises(ValidationError):
            Gauge(name=name)


@pytest.mark.parametrize("step", [0, 0.009, -1, 50.1, float("nan"), float("inf"), 1e9])
def test_a_step_that_no_gauge_has_is_refused(step: float) -> None:
    with pytest.raises(ValidationError):
        Gauge(name="supply", step=step)


def test_too_coarse_a_step_is_refused_in_one_sentence() -> None:
    with pytest.raises(ValidationError) as caught:
        Gauge(name="supply", unit="bar", step=5)
    [problem] = caught.value.errors()
    assert problem["ctx"]["error"].args[0].id == "gauge-too-coarse"
    refusal = r"step is 5 bar, which no brake gauge has; give at most 3\.4 bar"
    with pytest.raises(ValidationError, match=refusal):
        Gauge(name="supply", unit="bar", step=5)


def test_a_gauge_knows_no_other_key() -> None:
    with pytest.raises(ValidationError):
        Gauge.model_validate({"name": "supply", "colour": "red"})
