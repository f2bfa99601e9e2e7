"""The plan of this vehicle on a screen: where to stand and where to look for one step."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from walkaround.drawing.plan_svg import PictureStyle, plan_svg
from walkaround.drawing.vehicle_plan import plan_words
from walkaround.plan.steps import Plan, Step
from walkaround.walk.state import Walk
from walkaround.words.language import Words


def plan_view(plan: Plan, look: PictureStyle, words: Words) -> ft.Control:
    """Show the plan of a walk that has not begun, as its first step needs it."""
    return plan_control(plan, plan.steps[0], look, words)


def plan_control(plan: Plan, step: Step, look: PictureStyle, words: Words) -> ft.Control:
    """Show the plan for one step, drawn here and fetched from nowhere."""
    description = words.text(plan_words(plan, step))
    return _image(plan_svg(plan, step, look, words.text), description, look)


def step_plan_view(
    walk: Walk,
    step: Step,
    look: PictureStyle,
    soon: PictureStyle | None,
    words: Words,
    *,
    moves: bool,
) -> ft.Control:
    """Show the plan for one step, and have the browser fetch that of the next one.

    Two images take turns: the next step's plan lies unseen under the one that is shown, so that
    it is there the moment it is needed.

    Args:
        walk, step: the step, and the walk that it is of.
        look: how large it is shown.
        soon: how large that of the next step will be; None where that shows no plan.
        words: in which it is told.
        moves: flashing lamps blink.
    """
    assert walk.plan is not None
    at = walk.steps.index(step)
    description = words.text(plan_words(walk.plan, step))
    image = _image(_address(walk, step, look, words), description, look)
    after = walk.steps[min(at + 1, len(walk.steps) - 1)] if soon else step
    ahead = _image(_address(walk, after, soon or look, words), "", soon or look)
    ahead.opacity = 0
    in_turn = [image, ahead] if at % 2 == 0 else [ahead, image]
    layers = [*in_turn, *_dark_phase(walk, step, look, moves=moves)]
    return ft.Stack(list(layers), width=look.width, height=look.height)


def step_plan_alone(
    walk: Walk, step: Step, look: PictureStyle, words: Words, *, moves: bool
) -> Sequence[ft.Control]:
    """Show the plan for one step, and nothing of the next: layers for a stack."""
    assert walk.plan is not None
    description = words.text(plan_words(walk.plan, step))
    plan = _image(_address(walk, step, look, words), description, look)
    return [plan, *_dark_phase(walk, step, look, moves=moves)]


def flashes(step: Step) -> bool:
    """Tell whether a lamp of this step is to flash."""
    return "flashing" in step.expect.values()


def _dark_phase(walk: Walk, step: Step, look: PictureStyle, *, moves: bool) -> list[ft.Image]:
    """Return the picture that darkens flashing lamps now and then."""
    if not (moves and flashes(step)):
        return []
    return [_image(f"/blinking/{walk.id}/{step.id}/{look.name}.webp", "", look)]


def _address(walk: Walk, step: Step, look: PictureStyle, words: Words) -> str:
    # Flet draws as SVG what has an address that ends in .svg.
    return f"/plans/{walk.id}/{step.id}/{words.language}/{look.name}.svg"


def _image(src: str, label: str, look: PictureStyle) -> ft.Image:
    return ft.Image(
        src=src,
        width=look.width,
        height=look.height,
        semantics_label=label or None,
        exclude_from_semantics=not label,
    )
