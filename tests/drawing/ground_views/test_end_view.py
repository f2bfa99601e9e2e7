"""An end of a vehicle as it is seen from there: who is left of whom, and what is told by shape.

Where lamps are is read off the plan's own marks, which come from the rules; how they must look off
the step. Elements are those of SVG 1.1 (W3C Recommendation, second edition, 2011).
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import cache
from math import dist
from xml.etree import ElementTree

import pytest
from support.plans import BOXES, shipped_plans

from walkaround.disk.locations import shipped
from walkaround.drawing.plan_svg import PictureStyle, plan_svg
from walkaround.drawing.vehicle_plan import plan_shapes_of
from walkaround.library.load import load_library
from walkaround.plan.lamp_items import end_row
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import UNPLACED, Plan, Step

NAMESPACE = "{http://www.w3.org/2000/svg}"
LOOK = PictureStyle(388, 247, dark=False)
SIZES = [(396, 300), (388, 172), (336, 140), (296, 172)]


@cache
def together() -> tuple[Plan, ...]:
    """Walks whose circuits are lit together, so that dark lamps have numbers too."""
    library = load_library(shipped(), today=date(2026, 11, 25))
    return tuple(plan_walk(vehicle, library.rules) for vehicle in library.vehicles)


def end_steps() -> Iterator[tuple[Plan, Step]]:
    for plan in (*shipped_plans().values(), *together()):
        for step in plan.steps:
            if step.kind == "lamp" and step.spot in ("front", "rear"):
                yield plan, step


def numbers(plan: Plan, step: Step, look: PictureStyle = LOOK) -> dict[int, tuple[float, float]]:
    """Where each number stands."""
    root = ElementTree.fromstring(plan_svg(plan, step, look))
    found = {}
    for text in root.iter(f"{NAMESPACE}text"):
        if (text.text or "").isdigit():
            found[int(text.text or "0")] = float(text.attrib["x"]), float(text.attrib["y"])
    return found


def test_at_both_ends_numbers_rise_from_left_to_right_row_by_row() -> None:
    for plan, step in end_steps():
        at = numbers(plan, step)
        in_reading_order = sorted(at, key=lambda number: (round(at[number][1], 1), at[number][0]))
        assert in_reading_order == sorted(at), step.id


def test_left_is_left_of_the_eyes() -> None:
    """Behind a vehicle its left is on the left; in front of it, on the right."""
    for plan, step in end_steps():
        at, sign = numbers(plan, step), 1 if step.spot == "rear" else -1
        places = plan_shapes_of(plan, step).marked
        for one in places:
            for other in places:
                same_row = end_row(one.kind, one.id) == end_row(other.kind, other.id)
                if same_row and sign * one.y_mm < sign * other.y_mm - 1:
                    assert at[one.number][0] < at[other.number][0], (step.id, one.id, other.id)


def test_clearance_and_identification_lamps_hang_above_the_plate() -> None:
    """49 CFR 393.11 Table 1: as near the top as practicable; the plate lamp is at the plate."""
    checked = 0
    for plan, step in end_steps():
        at = numbers(plan, step)
        height = {place.kind: at[place.number][1] for place in plan_shapes_of(plan, step).marked}
        if "identification" in height and "licence_plate" in height:
            assert height["identification"] < height["licence_plate"]
            checked += 1
    assert checked


@pytest.mark.parametrize("size", [*SIZES, *((round(w), round(h)) for w, h in BOXES)])
@pytest.mark.parametrize("dark", [False, True])
def test_nothing_lies_over_anything_else_and_all_of_it_is_inside(
    size: tuple[int, int], dark: bool
) -> None:
    for plan, step in end_steps():
        at = numbers(plan, step, PictureStyle(*size, dark))
        wanted = {item.place for item in step.items if item.kind not in UNPLACED}
        assert sorted(at) == list(range(1, len(wanted) + 1)), step.id
        for number, (x, y) in at.items():
            assert 12 <= x <= size[0] - 12
            assert 12 <= y <= size[1]
            others = [point for other, point in at.items() if other != number]
            # Two discs of the least size, 11.5 px, do not touch.
            assert all(dist((x, y), point) >= 23 for point in others), step.id


def rays_and_arcs(plan: Plan, step: Step) -> tuple[int, int]:
    root = ElementTree.fromstring(plan_svg(plan, step, LOOK))
    rays = [p for p in root.iter(f"{NAMESPACE}path") if p.attrib.get("stroke-width") == "3"]
    arcs = [p for p in root.iter(f"{NAMESPACE}polyline") if p.attrib["stroke-width"] == "3"]
    return len(rays), len(arcs)


def test_each_steady_lamp_has_rays_each_flashing_one_two_arcs_and_a_dark_one_neither() -> None:
    seen = set()
    for plan, step in end_steps():
        looks = [place.look for place in plan_shapes_of(plan, step).marked]
        assert rays_and_arcs(plan, step) == (looks.count("steady"), 2 * looks.count("flashing"))
        seen |= set(looks)
    assert seen >= {"steady", "flashing", "dark", None}
