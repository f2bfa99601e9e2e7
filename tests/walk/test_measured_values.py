"""Values against their bounds: converted as pint converts, judged as the rule says."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.walks import begun, plan, step

from walkaround.plan.steps import Plan, Step
from walkaround.plan.values import Measure, Value
from walkaround.walk.events import Measured
from walkaround.walk.measured_values import JudgedValue, amount, in_base, judge_value, outcome

UNITS = pint.get_application_registry()
BASE = {"psi": "psi", "kPa": "psi", "bar": "psi", "in": "inch", "mm": "inch", "s": "second"}
NAMED = {"in": "inch", "s": "second"}
PSI = st.integers(0, 150).map(float)


def read(value: float, unit: str = "psi", value_id: str = "a") -> Measured:
    found: Measured = begun().sealed(
        Measured, step="any", value_id=value_id, value=value, unit=unit
    )
    return found


def bounded(least: float | None = None, most: float | None = None, **more: object) -> Measure:
    value = Value(id="a", name="a", gauge="supply", at_least=least, at_most=most)
    return Measure.model_validate({"quantity": "psi", "values": (value,), **more})


def found(measure: Measure, *values: float) -> JudgedValue:
    """What the last value comes to."""
    ids = [value.id for value in measure.values]
    taken = {id_: read(value, value_id=id_) for id_, value in zip(ids, values, strict=False)}
    return judge_value(measure, measure.values[len(values) - 1], taken)


@given(st.floats(0, 5000), st.sampled_from(sorted(BASE)))
def test_a_value_in_the_unit_of_the_rules_is_the_one_pint_has(value: float, unit: str) -> None:
    right = UNITS.Quantity(value, NAMED.get(unit, unit)).to(BASE[unit]).magnitude
    assert in_base(read(value, unit)) == pytest.approx(right, rel=1e-9)


@pytest.mark.parametrize(
    ("psi", "equal_passes", "verdict"),
    [
        (20.0, True, "within"),
        (45.0, True, "within"),
        (19.0, True, "under"),
        (46.0, True, "over"),
        (20.0, False, "under"),
        (45.0, False, "over"),
        (21.0, False, "within"),
    ],
)
def test_what_equals_a_bound_is_within_unless_the_rule_says_less_than(
    psi: float, equal_passes: bool, verdict: str
) -> None:
    assert found(bounded(20.0, 45.0, equal_passes=equal_passes), psi) == verdict


@given(PSI, PSI, PSI)
def test_within_means_between_the_bounds(psi: float, one: float, other: float) -> None:
    least, most = sorted((one, other))
    assert (found(bounded(least, most), psi) == "within") == (least <= psi <= most)


def test_a_bound_read_in_another_unit_is_still_the_bound() -> None:
    # 60 psi are 4.1369 bar; what floats lose in converting fails nobody.
    measure = bounded(least=60.0)
    exact = UNITS.Quantity(60.0, "psi").to("bar").magnitude
    assert judge_value(measure, measure.values[0], {"a": read(exact, "bar")}) == "within"
    assert judge_value(measure, measure.values[0], {"a": read(4.13, "bar")}) == "under"


DROP = Measure(
    quantity="psi",
    values=(
        Value(id="before", name="before", gauge="primary"),
        Value(id="after", name="after", gauge="primary", before="before", at_most=20.0),
    ),
)


@given(st.integers(1, 150), st.integers(0, 150))
def test_a_drop_is_in_percent_of_what_it_was_before(before: int, after: int) -> None:
    # 49 CFR 570.57(a)(1) (read): not lowered by more than 20 percent, in whole numbers here.
    over = 100 * (before - after) > 20 * before
    assert found(DROP, float(before), float(after)) == ("over" if over else "within")


def test_a_drop_needs_something_to_drop_from() -> None:
    after = DROP.values[1]
    taken = {"after": read(80.0, value_id="after")}
    assert amount(after, taken) is None
    assert amount(after, {**taken, "before": read(0.0, value_id="before")}) is None
    assert found(DROP, 90.0) == "unbounded"


VERDICTS = st.lists(st.sampled_from([50.0, 30.0, 10.0, None]), min_size=1, max_size=4)


@given(VERDICTS)
def test_one_value_outside_is_enough_and_within_needs_them_all(psi: list[float | None]) -> None:
    values = tuple(
        Value(id=f"v{at}", name=f"v{at}", gauge="supply", at_least=20.0, at_most=45.0)
        for at in range(len(psi))
    )
    measure = Measure(quantity="psi", values=values)
    taken = {
        f"v{at}": read(value, value_id=f"v{at}")
        for at, value in enumerate(psi)
        if value is not None
    }
    if any(value in (50.0, 10.0) for value in psi):
        expected = "outside"
    else:
        expected = "open" if None in psi else "within"
    assert outcome(measure, taken) == expected


def test_values_held_against_nothing_are_neither_within_nor_outside() -> None:
    measure = bounded(known=False)
    assert outcome(measure, {}) == "open"
    assert outcome(measure, {"a": read(30.0)}) == "unknown"


@pytest.mark.parametrize(
    ("value", "unit", "verdict"),
    # 49 CFR 393.47(e): a stroke must not be greater than its limit; 2 in are 50.8 mm.
    [(2.0, "in", "within"), (2.0625, "in", "over"), (50.0, "mm", "within"), (51.0, "mm", "over")],
)
def test_a_stroke_at_its_limit_passes(value: float, unit: str, verdict: str) -> None:
    stroke = Value(id="a", name="stroke", at_most=2.0)
    measure = Measure(quantity="in", values=(stroke,))
    assert judge_value(measure, stroke, {"a": read(value, unit)}) == verdict


HALVED = Value(id="a", name="a", gauge="primary", at_least=55.0, or_half_of="cut_out")
CUT_OUT = (
    Value(id="primary", name="primary", gauge="primary"),
    Value(id="secondary", name="secondary", gauge="secondary"),
)


def halved_plan() -> Plan:
    """A walk that measures a cut-out, and then a warning that goes by half of it."""
    cut_out = Measure(quantity="psi", values=CUT_OUT)
    warning = Measure(quantity="psi", values=(HALVED,))
    return plan(
        (
            step("cut_out", "charge", "measure", measure=cut_out),
            step("warning", "warning", "measure", measure=warning),
        )
    )


def asked(plan_: Plan | None, step_id: str) -> Step:
    assert plan_ is not None
    found_step = plan_.step(step_id)
    assert found_step is not None
    return found_step


# 49 CFR 393.51(c)(2): 55 psi or half of the governor's cut-out, whichever is less.
@pytest.mark.parametrize(
    ("cut_out_psi", "least"), [(120.0, 55.0), (110.0, 55.0), (108.0, 54.0), (90.0, 45.0)]
)
def test_a_bound_is_half_of_what_was_measured_where_that_is_lower(
    cut_out_psi: float, least: float
) -> None:
    warning = asked(halved_plan().halved("cut_out", "primary", cut_out_psi), "warning").measure
    assert warning is not None
    assert [value.least for value in warning.values] == [least]
    assert found(warning, least) == "within"
    assert found(warning, least - 1) == "under"


def test_until_the_other_pressure_is_measured_the_fixed_bound_counts() -> None:
    assert HALVED.least == 55.0
    assert halved_plan().halved("cut_out", "secondary", 90.0) == halved_plan()
    assert halved_plan().halved("warning", "primary", 90.0) == halved_plan()


def test_a_walk_goes_by_half_of_the_cut_out_that_it_measured() -> None:
    told = begun(halved_plan()).tell(
        Measured, step="cut_out", value_id="primary", value=90.0, unit="psi"
    )
    assert [value.least for value in asked(told.plan, "warning").values] == [45.0]
