"""Every word on the screens of a walk's steps is seen in sun, in light colors and in dark ones.

WCAG 2.2, success criterion 1.4.6 Contrast (Enhanced), level AAA: 7:1 for text.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import flet as ft
from support.app import App
from support.contrast import TEXT, contrast
from support.flet_harness import Screen

from walkaround.drawing.palette import DARK, LIGHT, Palette
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan
from walkaround.ui.kit.theme import flet_theme

SEMITRAILER = "sandbag_semitrailer_7"


def one_step_of_each_kind(depot: App) -> Iterator[Plan]:
    """A walk of one step for each kind of step, and for what stands on its screen."""
    library = depot.parts.library
    vehicle = next(each for each in library.vehicles if each.id == SEMITRAILER)
    plan = plan_walk(vehicle, library.rules)
    looks = {(step.kind, bool(step.caution), bool(step.choices)): step for step in plan.steps}
    for step in looks.values():
        yield plan.model_copy(update={"steps": (step,)})


def surface(control: Any) -> tuple[Any, Any]:
    """What a control lies on, and the ink of it; the page's if nothing nearer has a color."""
    at = control
    while at is not None:
        style = getattr(at, "style", None)
        if isinstance(style, ft.ButtonStyle) and style.bgcolor:
            return style.bgcolor, style.color
        if ground := getattr(at, "bgcolor", None):
            return ground, ft.Colors.ON_SURFACE
        at = getattr(at, "parent", None)
    return ft.Colors.SURFACE, ft.Colors.ON_SURFACE


def inks(screen: Screen) -> set[tuple[Any, Any]]:
    """The roles of each text's color and of the surface below it."""
    texts = [text for text in screen.controls(ft.Text) if text.value]
    assert texts
    return {(text.color or surface(text)[1], surface(text)[0]) for text in texts}


def shown(role: Any, colors: Palette) -> str:
    scheme = flet_theme(colors).color_scheme
    hexed = getattr(scheme, ft.Colors(role).name.lower())
    assert isinstance(hexed, str)
    return hexed


async def test_every_text_of_a_steps_screen_contrasts_seven_to_one(depot: App) -> None:
    pairs: set[tuple[Any, Any]] = set()
    for plan in one_step_of_each_kind(depot):
        walk_id = depot.parts.open_walks.begin(plan, "Kim")
        async with depot.page(f"/walk/{walk_id}") as screen:
            pairs |= inks(screen)
            await screen.click("menu")
            pairs |= inks(screen)
    assert len(pairs) >= 6
    for colors in (LIGHT, DARK):
        ratios = {pair: contrast(shown(pair[0], colors), shown(pair[1], colors)) for pair in pairs}
        assert {pair: ratio for pair, ratio in ratios.items() if ratio < TEXT} == {}
