"""A side of a vehicle as it is seen from there: what is on the left of the eyes, what is tapped.

Where lamps are is read off the plan's own marks, which come from the rules. A target is wide and
high enough by WCAG 2.2, success criterion 2.5.5 (44 px).
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import cache
from math import dist

import pytest

from walkaround.disk.locations import shipped
from walkaround.drawing.plan_svg import PictureStyle, seen_lamps
from walkaround.drawing.vehicle_plan import plan_shapes_of
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import UNPLACED, Plan, Step
from walkaround.ui.step_content.lamp_zones import TOUCH_PX, lamp_at, tapped_lamps

TAPPED = (PictureStyle(388, 233, dark=False), PictureStyle(336, 192, dark=True))
"""The pictures in which lamps are tapped, of a phone and of a small one."""


@cache
def plans() -> tuple[Plan, ...]:
    library = load_library(shipped(), today=date(2026, 11, 25))
    return tuple(
        plan_walk(vehicle, library.rules, together=together)
        for vehicle in library.vehicles
        for together in (False, True)
    )


def lamp_steps() -> Iterator[tuple[Plan, Step]]:
    for plan in plans():
        for step in plan.steps:
            if step.kind == "lamp" and plan_shapes_of(plan, step).from_there:
                yield plan, step


def test_the_front_is_on_the_left_at_the_left_side_and_numbers_rise_from_left_to_right() -> None:
    checked = 0
    for plan, step in lamp_steps():
        if step.spot not in ("left_side", "right_side"):
            continue
        seen = plan_shapes_of(plan, step)
        lamps = {lamp.mark: lamp.symbol for lamp in seen_lamps(plan, step, TAPPED[0])}
        sign = 1 if step.spot == "left_side" else -1
        for one in seen.marked:
            for other in seen.marked:
                apart = lamps[one.id].center[1] == lamps[other.id].center[1]
                if apart and sign * one.x_mm < sign * other.x_mm - 1:
                    assert lamps[one.id].center[0] < lamps[other.id].center[0]
                    assert one.number < other.number
                    checked += 1
    assert checked


@pytest.mark.parametrize("look", TAPPED)
def test_every_lamp_that_has_a_place_can_be_tapped_with_a_thumb(look: PictureStyle) -> None:
    for plan, step in lamp_steps():
        lamps = tapped_lamps(plan, step, look)
        placed = {item.id for item in step.items if item.kind not in UNPLACED}
        assert set(lamps) == placed, (plan.vehicle.id, step.id)
        for item_id, lamp in lamps.items():
            assert min(lamp.room) >= TOUCH_PX
            assert lamp_at(lamps, *lamp.symbol.center) == item_id
            others = [each for other, each in lamps.items() if other != item_id]
            reach = (TOUCH_PX - 1) / 2
            x, y = lamp.symbol.center
            for at in ((x - reach, y), (x + reach, y), (x, y - reach), (x, y + reach)):
                nearest = min((dist(at, each.symbol.center) for each in others), default=1e9)
                assert dist(at, lamp.symbol.center) <= nearest, (plan.vehicle.id, step.id)


def test_a_tap_beside_every_lamp_is_none_of_them() -> None:
    plan, step = next(lamp_steps())
    assert lamp_at(tapped_lamps(plan, step, TAPPED[0]), 0.0, 0.0) == ""
    assert lamp_at({}, 100.0, 100.0) == ""
