"""Nothing in the picture lies over anything else, whatever the vehicle, the step and the box."""

from __future__ import annotations

from itertools import combinations, pairwise, product
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.plans import BOXES, ENDS, made_plan, made_vehicle, plans, shipped_plans

from walkaround.drawing.labels import Label, word_px
from walkaround.drawing.picture import PlanPicture, picture, spread_apart
from walkaround.drawing.vehicle_plan import plan_shapes_of
from walkaround.plan.steps import Mark, Plan
from walkaround.vehicle.model import KINDS, Kind

boxes = st.sampled_from(BOXES)
Rectangle = tuple[float, float, float, float]


def drawn(plan: Plan, step_id: str, box: tuple[float, float] = (396.0, 300.0)) -> PlanPicture:
    step = plan.step(step_id)
    assert step is not None
    return picture(plan_shapes_of(plan, step), *box)


def rectangle(label: Label) -> Rectangle:
    (x, y), (width, height) = label.center, word_px(label.text)
    return x - width / 2, y - height / 2, x + width / 2, y + height / 2


def overlap(one: Rectangle, other: Rectangle) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


@pytest.mark.parametrize("box", BOXES)
def test_all_of_every_shipped_step_is_in_its_box(box: tuple[float, float]) -> None:
    for plan in shipped_plans().values():
        for step in plan.steps:
            seen = picture(plan_shapes_of(plan, step), *box)
            for disc in seen.discs:
                (x, y), r = disc.center, disc.radius
                assert r <= x <= box[0] - r, step.id
                assert r <= y <= box[1] - r, step.id
            for label in seen.labels:
                left, top, right, bottom = rectangle(label)
                assert left >= 0, (step.id, label)
                assert top >= 0, (step.id, label)
                assert right <= box[0], (step.id, label)
                assert bottom <= box[1], (step.id, label)


@given(plans(), boxes)
def test_no_disc_lies_over_another(plan: Plan, box: tuple[float, float]) -> None:
    seen = picture(plan_shapes_of(plan, plan.steps[0]), *box)
    for one, other in combinations(seen.discs, 2):
        assert dist(one.center, other.center) >= one.radius + other.radius + 2


@given(plans(), boxes)
def test_no_disc_lies_over_the_figure(plan: Plan, box: tuple[float, float]) -> None:
    seen = picture(plan_shapes_of(plan, plan.steps[0]), *box)
    for disc in seen.discs:
        assert dist(disc.center, seen.figure) >= disc.radius + seen.figure_px / 2


@given(plans(), boxes)
def test_no_word_lies_over_another(plan: Plan, box: tuple[float, float]) -> None:
    seen = picture(plan_shapes_of(plan, plan.steps[0]), *box)
    for one, other in combinations(seen.labels, 2):
        assert not overlap(rectangle(one), rectangle(other)), (one, other)


@pytest.mark.parametrize("kind", KINDS)
def test_no_word_lies_over_another_on_a_vehicle_of_any_size(kind: Kind) -> None:
    sizes = product(range(3000, 20001, 1000), (1500, 2000, 2600), (0, 2), ENDS, BOXES)
    for length, width, axles, spot, box in sizes:
        plan = made_plan(made_vehicle(kind, float(length), float(width), axles), spot)
        labels = drawn(plan, "here", box).labels
        for one, other in combinations(labels, 2):
            assert not overlap(rectangle(one), rectangle(other)), (length, width, one, other)


@given(plans(), boxes)
def test_no_word_lies_over_a_disc_or_a_lamp(plan: Plan, box: tuple[float, float]) -> None:
    seen = picture(plan_shapes_of(plan, plan.steps[0]), *box)
    round_ones = [(d.center, d.radius) for d in seen.discs] + [(d.at, 7.5) for d in seen.discs]
    for label in seen.labels:
        left, top, right, bottom = rectangle(label)
        for (x, y), radius in round_ones:
            nearest = min(max(x, left), right), min(max(y, top), bottom)
            assert dist((x, y), nearest) >= radius, label


@pytest.mark.parametrize("box", BOXES)
def test_no_word_lies_over_a_disc_in_any_shipped_step(box: tuple[float, float]) -> None:
    for plan in shipped_plans().values():
        for step in plan.steps:
            seen = picture(plan_shapes_of(plan, step), *box)
            for label in seen.labels:
                left, top, right, bottom = rectangle(label)
                for disc in seen.discs:
                    x, y = disc.center
                    nearest = min(max(x, left), right), min(max(y, top), bottom)
                    assert dist((x, y), nearest) >= disc.radius, (step.id, label)


@given(plans(), boxes)
def test_lines_to_the_places_never_cross(plan: Plan, box: tuple[float, float]) -> None:
    seen = picture(plan_shapes_of(plan, plan.steps[0]), *box)
    for axis in (0, 1):
        for row in {round(disc.center[1 - axis], 3) for disc in seen.discs}:
            here = [d for d in seen.discs if round(d.center[1 - axis], 3) == row]
            here.sort(key=lambda disc: disc.center[axis])
            places = [disc.at[axis] for disc in here]
            if len(here) > 1 and len({round(d.center[axis], 3) for d in here}) == len(here):
                assert places == sorted(places)


@given(plans(), boxes)
def test_discs_are_numbered_and_coloured_as_their_places(
    plan: Plan, box: tuple[float, float]
) -> None:
    view = plan_shapes_of(plan, plan.steps[0])
    seen = picture(view, *box)
    assert [(d.number, d.color) for d in seen.discs] == [(p.number, p.color) for p in view.marked]


def test_numbers_rise_from_left_to_right_along_a_side() -> None:
    counted = 0
    for plan in shipped_plans().values():
        for step in plan.steps:
            if step.kind == "lamp" and step.spot in ("left_side", "right_side"):
                across = [disc.center[0] for disc in drawn(plan, step.id).discs]
                assert across == sorted(across), step.id
                counted += len(across) > 1
    assert counted


def test_the_front_of_the_vehicle_is_on_the_right_of_one_on_its_right_side() -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    step = plan.step("marker_right_side")
    assert step
    foremost = min(plan_shapes_of(plan, step).marked, key=lambda place: place.x_mm)
    assert foremost.number == len(plan_shapes_of(plan, step).marked)


def test_eight_lamps_at_the_rear_keep_their_full_size_on_a_phone() -> None:
    seen = drawn(shipped_plans()["pump_trailer_3"], "tail_rear", (388.0, 172.0))
    assert len(seen.discs) == 8
    assert {disc.radius for disc in seen.discs} == {17.0}


def test_the_words_say_where_the_front_is() -> None:
    """In a low box only where the vehicle is long enough to write on."""
    for plan in shipped_plans().values():
        for step in plan.steps:
            for box in BOXES[:2]:
                texts = [label.text for label in picture(plan_shapes_of(plan, step), *box).labels]
                assert texts[0] == "YOU"
                if box[1] > 210 or plan.vehicle.length_mm > 8000:
                    assert "FRONT" in texts, (plan.vehicle.id, step.id, box)


def test_left_and_right_are_named_where_lamps_are_told_apart_by_them() -> None:
    seen = drawn(shipped_plans()["sandbag_semitrailer_7"], "stop_rear")
    where = {label.text: label.center for label in seen.labels}
    assert where["LEFT"][0] < where["FRONT"][0] < where["RIGHT"][0]


def test_the_arrow_beside_front_points_to_the_front() -> None:
    for spot, pointing in (("rear", (0, -1)), ("front", (0, 1)), ("left_side", (-1, 0))):
        vehicle = made_vehicle()
        end = {"front": 0.0, "rear": vehicle.length_mm}.get(spot, 6000.0)
        lamp = Mark(id="lamp", x_mm=end, y_mm=-1200.0, colour="red")
        seen = drawn(made_plan(vehicle, spot, (lamp,), ("lamp",)), "here")
        (front,) = (label for label in seen.labels if label.text == "FRONT")
        assert front.pointing == pytest.approx(pointing)


@given(plans(), boxes)
def test_other_lamps_are_dots_that_do_not_touch(plan: Plan, box: tuple[float, float]) -> None:
    seen = picture(plan_shapes_of(plan, plan.steps[0]), *box)
    assert all(dist(one, other) > 7 for one, other in combinations(seen.dots, 2))
    assert all(dist(dot, disc.at) > 7 for dot in seen.dots for disc in seen.discs)


spaced = st.lists(st.floats(-50, 450), min_size=1, max_size=9).map(sorted)


@given(spaced, st.floats(1, 60))
def test_spread_places_keep_their_order_their_distance_and_their_bounds(
    wanted: list[float], gap: float
) -> None:
    placed = spread_apart(wanted, gap, 20.0, 380.0)
    least = min(gap, 360 / max(1, len(wanted) - 1))
    assert all(b - a >= least - 1e-6 for a, b in pairwise(placed))
    assert placed[0] >= 20 - 1e-6
    assert placed[-1] <= 380 + 1e-6


@given(st.lists(st.floats(0, 40), min_size=1, max_size=9))
def test_places_that_do_not_crowd_are_left_alone(between: list[float]) -> None:
    wanted = [20.0 + sum(between[: n + 1]) for n in range(len(between))]
    assert spread_apart(wanted, 0.0, 0.0, 500.0) == pytest.approx(wanted)


@given(spaced, st.floats(1, 40), st.lists(st.floats(0, 1), min_size=10, max_size=10))
def test_no_other_way_to_spread_shifts_less(
    wanted: list[float], gap: float, shares: list[float]
) -> None:
    # Any other allowed placing, made from random shares of the slack, costs at least as much.
    placed = spread_apart(wanted, gap, 0.0, 400.0)
    slack = 400.0 - gap * (len(wanted) - 1)
    total = sum(shares) or 1.0
    other = [slack * sum(shares[: n + 1]) / total + n * gap for n in range(len(wanted))]

    def cost(places: list[float]) -> float:
        return sum((a - b) ** 2 for a, b in zip(places, wanted, strict=True))

    assert cost(placed) <= cost(other) + 1e-6
