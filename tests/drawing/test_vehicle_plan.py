"""What the plan shows of a vehicle, in its own millimetres."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.plans import SPOTS, made_plan, made_vehicle, plans, shipped_plans, vehicles

from walkaround.drawing.svg import Point
from walkaround.drawing.vehicle_plan import clip_polygon, plan_shapes_of, plan_words
from walkaround.plan.steps import OTHERS, UNPLACED, Item, Mark, Plan
from walkaround.vehicle.model import KINDS, Kind, Vehicle


def area(points: tuple[Point, ...]) -> float:
    """Area of a simple polygon: the surveyor's (shoelace) formula, Meister 1769."""
    following = [*points[1:], *points[:1]]
    return (
        abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, following, strict=True)))
        / 2
    )


def marked(plan: Plan, step_id: str) -> list[tuple[int, str]]:
    step = plan.step(step_id)
    assert step is not None
    return [(place.number, place.id) for place in plan_shapes_of(plan, step).marked]


@given(vehicles)
def test_every_part_lies_within_the_vehicle(vehicle: Vehicle) -> None:
    plan = made_plan(vehicle)
    for shape in plan_shapes_of(plan, plan.steps[0]).shapes:
        # A wheel may reach a little past a very short vehicle's end.
        spare = 1000.0 if shape.part == "wheel" else 0.01
        assert all(-spare <= x <= vehicle.length_mm + spare for x, _ in shape.points), shape
        assert all(abs(y) <= vehicle.width_mm / 2 + 0.01 for _, y in shape.points), shape


@given(vehicles)
def test_the_plan_is_the_same_on_both_sides(vehicle: Vehicle) -> None:
    plan = made_plan(vehicle)
    drawn = plan_shapes_of(plan, plan.steps[0]).shapes
    corners = {(s.part, round(x, 3), round(y, 3)) for s in drawn for x, y in s.points}
    assert corners == {(part, x, -y + 0.0) for part, x, y in corners}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_vehicle_has_its_own_outline(kind: Kind) -> None:
    outlines = {}
    for other in KINDS:
        plan = made_plan(made_vehicle(other, axles=0))
        outlines[other] = {(s.part, s.points) for s in plan_shapes_of(plan, plan.steps[0]).shapes}
    assert [k for k, outline in outlines.items() if outline == outlines[kind]] == [kind]


@pytest.mark.parametrize(
    ("kind", "axles", "tyres"), [("semitrailer", 2, 8), ("truck", 3, 10), ("truck tractor", 2, 6)]
)
def test_axles_have_duals_but_the_steered_one(kind: Kind, axles: int, tyres: int) -> None:
    plan = made_plan(made_vehicle(kind, axles=axles))
    drawn = plan_shapes_of(plan, plan.steps[0]).shapes
    assert sum(shape.part == "wheel" for shape in drawn) == tyres


def test_places_are_numbered_in_the_order_of_the_items() -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    step = plan.step("marker_rear")
    assert step is not None
    assert step.items[-1].id == OTHERS
    expected = [(n, item.id) for n, item in enumerate(step.items[:-1], start=1)]
    assert marked(plan, "marker_rear") == expected


def test_an_item_without_a_mark_keeps_its_number_to_itself() -> None:
    vehicle = made_vehicle()
    mark = Mark(id="second", x_mm=vehicle.length_mm, y_mm=0, colour="red")
    plan = made_plan(vehicle, "rear", (mark,), ("first", "second"))
    assert marked(plan, "here") == [(2, "second")]


def test_every_mark_of_the_plan_is_a_place() -> None:
    for plan in shipped_plans().values():
        for step in plan.steps:
            places = plan_shapes_of(plan, step).places
            assert [place.id for place in places] == [mark.id for mark in plan.marks]


def test_every_numbered_item_of_the_shipped_vehicles_has_a_place() -> None:
    for plan in shipped_plans().values():
        marks = {mark.id for mark in plan.marks}
        for step in plan.steps:
            # Several things at one place have one number; a hose or a tank has none.
            places = dict.fromkeys(item.place for item in step.items if item.kind not in UNPLACED)
            wanted = [place for place in places if place in marks]
            assert [place.id for place in plan_shapes_of(plan, step).marked] == wanted, step.id


@pytest.mark.parametrize("spot", SPOTS)
def test_the_mechanic_stands_where_the_step_says(spot: str) -> None:
    plan = made_plan(made_vehicle(), spot)
    expected = {"left_side": "left", "right_side": "right", "source": "front", "cab": "front"}
    assert plan_shapes_of(plan, plan.steps[0]).stand == expected.get(spot, spot)


@pytest.mark.parametrize("kind", ["full trailer", "converter dolly", "pole trailer"])
def test_no_lamp_hangs_in_the_air_beside_a_drawbar(kind: Kind) -> None:
    vehicle = made_vehicle(kind)
    lamps = tuple(Mark(id=f"at_{x}", x_mm=x, y_mm=-1200, colour="amber") for x in (0, 600, 12000))
    plan = made_plan(vehicle, marks=lamps)
    drawn = plan_shapes_of(plan, plan.steps[0])
    first, second, last = (place.x_mm for place in drawn.places[:3])
    assert first == drawn.body_from_mm > 0
    assert first < second < last
    assert last == pytest.approx(vehicle.length_mm)


def test_wheels_stay_where_the_axles_are() -> None:
    vehicle = made_vehicle("full trailer")
    plan = made_plan(vehicle)
    drawn = plan_shapes_of(plan, plan.steps[0])
    assert [p.x_mm for p in drawn.places] == [m.x_mm for m in plan.marks]


@given(plans())
def test_the_focus_holds_every_place_of_the_step(plan: Plan) -> None:
    drawn = plan_shapes_of(plan, plan.steps[0])
    low, high = drawn.focus
    assert 0 <= low < high <= plan.vehicle.length_mm
    assert all(low - 0.01 <= place.x_mm <= high + 0.01 for place in drawn.marked)


def test_a_step_that_marks_nothing_shows_the_whole_vehicle() -> None:
    plan = made_plan(made_vehicle())
    assert plan_shapes_of(plan, plan.steps[0]).focus == (0.0, 12000.0)


convex = st.builds(
    lambda x, y, w, h: ((x, y), (x + w, y), (x + w, y + h), (x, y + h / 2)),
    *(st.floats(-100, 100), st.floats(-100, 100), st.floats(1, 100), st.floats(1, 100)),
)


@given(convex, st.floats(-150, 250))
def test_a_cut_polygon_has_the_area_of_its_two_pieces(
    polygon: tuple[Point, ...], at: float
) -> None:
    front, rear = clip_polygon(polygon, -1000, at), clip_polygon(polygon, at, 1000)
    assert area(front) + area(rear) == pytest.approx(area(polygon), abs=1e-6)
    assert all(x <= at + 1e-9 for x, _ in front)
    assert all(x >= at - 1e-9 for x, _ in rear)


def test_what_lies_outside_is_cut_off_altogether() -> None:
    square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    assert clip_polygon(square, 2, 3) == ()
    assert set(clip_polygon(square, -1, 2)) == set(square)


def test_the_plan_can_be_said_in_words() -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    said = {}
    for step_id in ("tail_rear", "abs_left_side", "supply_hold", "chocks_on"):
        step = plan.step(step_id)
        assert step is not None
        said[step_id] = str(plan_words(plan, step))
    start = "Plan of Sandbag semitrailer 7, seen from above: "
    assert said == {
        "tail_rear": "Rear of Sandbag semitrailer 7 as you see it, 5 places marked",
        "abs_left_side": "Left side of Sandbag semitrailer 7 as you see it, 1 place marked",
        "supply_hold": start + "you stand at the source",
        "chocks_on": start + "you stand at the left side",
    }


def test_items_of_kind_others_are_never_counted() -> None:
    vehicle = made_vehicle()
    mark = Mark(id="lamp", x_mm=vehicle.length_mm, y_mm=0, colour="red")
    plan = made_plan(vehicle, "rear", (mark,), ("lamp",))
    others = Item(id=OTHERS, name="any other lamp here", kind="others")
    step = plan.steps[0].model_copy(update={"items": (others, *plan.steps[0].items)})
    assert [place.number for place in plan_shapes_of(plan, step).marked] == [1]
