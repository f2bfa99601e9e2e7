"""Pictures on the screens: their words for ears, the next one fetched ahead, a face's words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import flet as ft
from browser.seeds import answer
from support.app import App
from support.english import ENGLISH
from support.flet_harness import Screen

from walkaround.disk.locations import shipped
from walkaround.drawing.connector_face import advice, caption, face_words
from walkaround.drawing.palette import LIGHT
from walkaround.drawing.vehicle_plan import plan_words
from walkaround.library.load import load_library
from walkaround.ui.pictures.connector import pin_view

SEMITRAILER = "sandbag_semitrailer_7"
J560 = load_library(shipped(), today=date(2026, 11, 1)).connectors["sae_j560"]


def plans(screen: Screen) -> dict[bool, ft.Image]:
    """The plan that is shown (True), and the one that is fetched ahead."""
    images = [i for i in screen.controls(ft.Image) if str(i.src).startswith("/plans/")]
    return {image.opacity != 0: image for image in images}


def at_first_lamps(depot: App) -> str:
    """A walk that asks about lamps now, at which pictures are shown; its id."""
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    while (here := depot.parts.open_walks.walk(walk_id).here) and here.kind != "lamp":
        answer(depot.parts, walk_id, here)
    return walk_id


async def test_the_plan_of_the_next_step_is_fetched_ahead_and_then_shown(depot: App) -> None:
    walk_id = at_first_lamps(depot)
    steps = depot.parts.open_walks.walk(walk_id).steps
    async with depot.page(f"/walk/{walk_id}") as screen:
        first = next(at for at, step in enumerate(steps) if step.kind == "lamp")
        for at in range(first, first + 3):
            here = plans(screen)
            assert f"/plans/{walk_id}/{steps[at].id}/" in here[True].src
            assert f"/plans/{walk_id}/{steps[at + 1].id}/" in here[False].src
            plan = depot.parts.open_walks.walk(walk_id).plan
            assert plan is not None
            assert here[True].semantics_label == str(plan_words(plan, steps[at]))
            assert here[False].exclude_from_semantics
            await screen.click("ok")
            await screen.until(lambda at=at: screen.has(f"{at + 2} of {len(steps)}"))


async def test_the_image_that_was_fetched_ahead_is_the_one_that_is_shown(depot: App) -> None:
    async with depot.page(f"/walk/{at_first_lamps(depot)}") as screen:
        ahead = plans(screen)[False]
        address, number = ahead.src, ahead._i
        await screen.click("ok")
        await screen.until(lambda: plans(screen)[True].src == address)
        assert plans(screen)[True]._i == number


def controls(control: ft.Control) -> Iterator[ft.Control]:
    yield control
    content = getattr(control, "content", None)
    for child in [content] if content else getattr(control, "controls", []):
        yield from controls(child)


def test_the_face_of_a_connector_is_told_in_words_beside_it_or_below() -> None:
    for box, beside in (((388.0, 165.0), True), ((344.0, 240.0), False)):
        face = pin_view(J560, LIGHT, *box, ["7"], ENGLISH)
        assert isinstance(face, ft.Semantics)
        assert face.label == str(face_words(J560, ["7"]))
        inside = list(controls(face))
        assert any(isinstance(control, ft.Row) for control in inside) == beside
        read = {control.value for control in inside if isinstance(control, ft.Text)}
        assert {str(caption(J560)), str(advice(J560))} <= read
