"""A walk that was left: nothing goes on before somebody says so."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.buttons import answer_zone
from walkaround.ui.kit.parts import caution, page_column, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps

LOOK_AGAIN = (
    "Look at the vehicle again before you go on: chocks, air and power may not be as you left them."
)


@screen
def paused_screen(view: View, taps: WalkTaps) -> ft.Control:
    """How far it is, and the way back into it."""
    colours, walk = view.palette, view.walk
    assert walk.plan is not None

    async def back() -> None:
        await view.go("/")

    go_on = answer_zone(
        "Go on",
        ft.Icons.PLAY_ARROW,
        colours.accent,
        colours.on_accent,
        taps.resume,
        key="resume",
    )
    done = f"{len(walk.answers)} of {len(walk.steps)} steps are answered."
    body: list[ft.Control] = [
        heading("Left for now", colours),
        words(done, colours.ink),
        caution(LOOK_AGAIN, colours),
    ]
    return page_column(top_bar(walk.plan.vehicle.name, colours, back=back), body, [ft.Row([go_on])])
