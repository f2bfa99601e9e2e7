"""How the plan lies in its box: turned towards the mechanic, never mirrored, cut where long."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.plans import BOXES, made_plan, made_vehicle, plans, shipped_plans

from walkaround.drawing.frame import Frame, Heading, frame
from walkaround.drawing.vehicle_plan import PLAN_SIDES, plan_shapes_of
from walkaround.plan.steps import Plan

SEMITRAILER = "sandbag_semitrailer_7"
boxes = st.sampled_from(BOXES)


def framed(plan: Plan, step_id: str, box: tuple[float, float] = (396.0, 300.0)) -> Frame:
    step = plan.step(step_id)
    assert step is not None
    return frame(plan_shapes_of(plan, step), *box)


@pytest.mark.parametrize(
    ("step_id", "heading"),
    [
        ("stop_rear", "up"),
        ("marker_front", "down"),
        ("marker_left_side", "left"),
        ("marker_right_side", "right"),
        ("supply_hold", "left"),
    ],
)
def test_what_is_looked_at_lies_before_the_eyes(step_id: str, heading: Heading) -> None:
    assert framed(shipped_plans()[SEMITRAILER], step_id).heading == heading


def test_a_tall_box_holds_the_vehicle_upright() -> None:
    fitted = framed(shipped_plans()[SEMITRAILER], "marker_left_side", (400.0, 700.0))
    assert fitted.heading == "up"


@given(plans(), boxes)
def test_the_plan_is_turned_but_never_mirrored(plan: Plan, box: tuple[float, float]) -> None:
    # Rear, then right: a quarter turn against the clock on a screen whose y runs down, as it is
    # on the road seen from above. A mirror image would turn the other way.
    fitted = frame(plan_shapes_of(plan, plan.steps[0]), *box)
    (rear_x, rear_y), (right_x, right_y) = fitted.outward("rear"), fitted.outward("right")
    assert rear_x * right_y - rear_y * right_x == -1
    origin, rear, right = fitted.point(0, 0), fitted.point(1000, 0), fitted.point(0, 1000)
    turn = (rear[0] - origin[0]) * (right[1] - origin[1])
    turn -= (rear[1] - origin[1]) * (right[0] - origin[0])
    assert turn == pytest.approx(-((1000 * fitted.px_per_mm) ** 2))


@given(plans(), boxes)
def test_the_mechanic_is_below_what_is_looked_at(plan: Plan, box: tuple[float, float]) -> None:
    drawn = plan_shapes_of(plan, plan.steps[0])
    fitted = frame(drawn, *box)
    if drawn.marked and box[0] > box[1]:
        assert fitted.outward(drawn.stand) == (0, 1)


@given(plans(), boxes)
def test_every_place_of_the_step_is_in_view(plan: Plan, box: tuple[float, float]) -> None:
    drawn = plan_shapes_of(plan, plan.steps[0])
    fitted = frame(drawn, *box)
    for place in drawn.marked:
        assert fitted.window[0] - 1 <= place.x_mm <= fitted.window[1] + 1
        x, y = fitted.point(place.x_mm, place.y_mm)
        assert 0 <= x <= box[0]
        assert 0 <= y <= box[1]


@given(plans(), boxes)
def test_opposite_sides_are_as_far_apart_as_the_vehicle_is_wide(
    plan: Plan, box: tuple[float, float]
) -> None:
    fitted = frame(plan_shapes_of(plan, plan.steps[0]), *box)
    left, right = fitted.edge("left", body=True), fitted.edge("right", body=True)
    across = abs(left[0] - right[0]) + abs(left[1] - right[1])
    assert across == pytest.approx(plan.vehicle.width_mm * fitted.px_per_mm)


def test_the_end_of_a_long_vehicle_is_drawn_large() -> None:
    plan = shipped_plans()[SEMITRAILER]
    end, whole = framed(plan, "stop_rear"), framed(plan, "marker_right_side")
    assert end.px_per_mm > 4 * whole.px_per_mm
    assert len(end.cuts()) == 1
    # Neighbouring identification lamps, 230 mm apart, are then a thumb's breadth apart.
    assert 230 * end.px_per_mm > 25


def test_an_axle_in_the_middle_is_cut_on_both_sides() -> None:
    vehicle = made_vehicle("semitrailer", length_mm=20000)
    plan = made_plan(vehicle, "right_side", items=("axle_1_left", "axle_1_right"))
    marks = tuple(mark.model_copy(update={"x_mm": 10000.0}) for mark in plan.marks)
    fitted = framed(plan.model_copy(update={"marks": marks}), "here")
    assert len(fitted.cuts()) == 2
    assert sum(fitted.window) / 2 == pytest.approx(10000)


def test_a_short_vehicle_is_not_cut() -> None:
    plan = made_plan(made_vehicle(length_mm=3500.0, width_mm=2000.0), "left_side")
    assert framed(plan, "here").cuts() == ()


@pytest.mark.parametrize("box", BOXES)
def test_a_step_about_the_whole_vehicle_is_never_cut(box: tuple[float, float]) -> None:
    for plan in shipped_plans().values():
        for step in plan.steps:
            drawn = plan_shapes_of(plan, step)
            if not drawn.marked:
                fitted = frame(drawn, *box)
                assert fitted.window == (0.0, plan.vehicle.length_mm), step.id
                assert fitted.cuts() == ()


@given(plans(), boxes)
def test_a_cut_runs_across_the_vehicle_at_the_end_of_what_is_shown(
    plan: Plan, box: tuple[float, float]
) -> None:
    fitted = frame(plan_shapes_of(plan, plan.steps[0]), *box)
    hidden = (fitted.window[0] > 0) + (fitted.window[1] < plan.vehicle.length_mm)
    assert len(fitted.cuts()) <= hidden
    for (x0, y0), (x1, y1) in fitted.cuts():
        assert x0 == pytest.approx(x1) or y0 == pytest.approx(y1)


def test_each_side_has_its_own_way_out() -> None:
    for spot in ("front", "rear", "left_side", "right_side"):
        fitted = framed(made_plan(made_vehicle(), spot), "here")
        assert len({fitted.outward(side) for side in PLAN_SIDES}) == 4
    assert set(get_args(Heading)) == {"up", "down", "left", "right"}
