"""The plan as drawn: every step of the shipped vehicles, day and night, for eyes and for ears."""

from __future__ import annotations

import flet as ft
import flet.canvas as cv
import pytest
from support.flet_harness import shown
from support.plans import BOXES, made_plan, made_vehicle, shipped_plans

from walkaround.drawing.vehicle_plan import shapes, words
from walkaround.plan.steps import Mark, Plan, Step
from walkaround.ui.drawn.plan import plan_view
from walkaround.ui.kit.theme import DARK, LIGHT, Palette

both = pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])


@ft.component
def Card(plan: Plan, step: Step, palette: Palette, width: float, height: float) -> ft.Control:
    return plan_view(plan, step, palette, width, height)


def step_of(vehicle: str, step_id: str) -> tuple[Plan, Step]:
    plan = shipped_plans()[vehicle]
    step = plan.step(step_id)
    assert step is not None
    return plan, step


def canvas_of(control: ft.Control) -> cv.Canvas:
    assert isinstance(control, ft.Semantics)
    assert isinstance(control.content, ft.Container)
    assert isinstance(control.content.content, cv.Canvas)
    return control.content.content


def numbers_on(canvas: cv.Canvas) -> dict[str, cv.Text]:
    texts = [shape for shape in canvas.shapes if isinstance(shape, cv.Text)]
    return {text.value: text for text in texts if text.value and text.value.isdigit()}


async def test_the_plan_says_in_words_where_to_look() -> None:
    plan, step = step_of("sandbag_semitrailer_7", "stop_rear")
    async with shown(Card, plan, step, LIGHT, 396.0, 300.0) as screen:
        assert screen.names() == [words(plan, step)]


async def test_the_numbers_and_the_front_are_on_the_plan() -> None:
    plan, step = step_of("pump_trailer_3", "tail_rear")
    async with shown(Card, plan, step, LIGHT, 396.0, 300.0) as screen:
        read = screen.texts()
        assert {"YOU", "FRONT", "LEFT", "RIGHT"} <= set(read)
        assert sorted(text for text in read if text.isdigit()) == list("12345678")


@both
@pytest.mark.parametrize("box", BOXES)
def test_every_shipped_step_is_drawn_with_all_its_numbers(
    palette: Palette, box: tuple[float, float]
) -> None:
    for plan in shipped_plans().values():
        for step in plan.steps:
            canvas = canvas_of(plan_view(plan, step, palette, *box))
            assert (canvas.width, canvas.height) == box
            count = len(shapes(plan, step).marked)
            assert sorted(numbers_on(canvas)) == [str(n + 1) for n in range(count)], step.id


@both
def test_a_number_is_drawn_in_the_ink_that_fits_its_disc(palette: Palette) -> None:
    plan, step = step_of("sandbag_semitrailer_7", "stop_rear")
    for text in numbers_on(canvas_of(plan_view(plan, step, palette, 396, 300))).values():
        assert text.style is not None
        assert text.style.color == palette.on_lamp
    plan, step = step_of("sandbag_semitrailer_7", "axle_1_applied")
    for text in numbers_on(canvas_of(plan_view(plan, step, palette, 396, 300))).values():
        assert text.style is not None
        assert text.style.color == palette.on_accent


@both
def test_every_lamp_disc_has_a_ring_in_ink_around_its_colour(palette: Palette) -> None:
    plan, step = step_of("sandbag_semitrailer_7", "tail_rear")
    canvas = canvas_of(plan_view(plan, step, palette, 396, 300))
    for text in numbers_on(canvas).values():
        here = [
            s for s in canvas.shapes if isinstance(s, cv.Circle) and (s.x, s.y) == (text.x, text.y)
        ]
        here.sort(key=lambda circle: -circle.radius)
        assert here[0].paint.color == palette.ink
        assert here[-1].paint.color in palette.lamps.values()
        assert here[-1].radius < here[0].radius - 2


def test_a_lamp_of_two_colours_is_drawn_half_and_half() -> None:
    plan, step = step_of("sandbag_semitrailer_7", "left_turn_rear")
    canvas = canvas_of(plan_view(plan, step, LIGHT, 396, 300))
    halves = {shape.paint.color for shape in canvas.shapes if isinstance(shape, cv.Arc)}
    assert halves == {LIGHT.lamps["amber"], LIGHT.lamps["red"]}


def test_only_words_that_the_local_font_can_draw_are_used() -> None:
    for plan in shipped_plans().values():
        for step in plan.steps:
            canvas = canvas_of(plan_view(plan, step, LIGHT, 396, 300))
            texts = [shape.value or "" for shape in canvas.shapes if isinstance(shape, cv.Text)]
            assert all(text.isascii() and text for text in texts)


def test_no_text_on_the_plan_is_below_sixteen_px() -> None:
    for plan in shipped_plans().values():
        for step in plan.steps:
            canvas = canvas_of(plan_view(plan, step, DARK, 344, 240))
            for shape in canvas.shapes:
                if isinstance(shape, cv.Text):
                    assert shape.style is not None
                    assert shape.style.size is not None
                    assert shape.style.size >= 16, (step.id, shape.value)


def test_a_vehicle_cut_at_both_ends_shows_two_ragged_edges() -> None:
    vehicle = made_vehicle(length_mm=20000.0, axles=0)
    lamp = Mark(id="lamp", x_mm=10000.0, y_mm=1250.0, colour="amber")
    plan = made_plan(vehicle, "right_side", (lamp,), ("lamp",))
    canvas = canvas_of(plan_view(plan, plan.steps[0], LIGHT, 396, 300))
    ragged = [s for s in canvas.shapes if isinstance(s, cv.Path) and len(s.elements) > 5]
    lines = [path for path in ragged if path.paint.style == ft.PaintingStyle.STROKE]
    assert len(lines) == 2
