"""The air's temperature at the start and the end of a hold, and what the leak is without it."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from walkaround.plan.steps import Step
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import notice, page_column, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import ANSWER, BODY, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_kept
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.words.air_hold import corrected_text

_FROM_C = 20.0
_LEAST_C, _MOST_C = -50.0, 70.0
_MOVES_C = (-5, -1, 1, 5)


@screen
def air_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Two temperatures by taps; the corrected rate is shown as they change."""
    hold = view.walk.holds[step.id]
    before_c = hold.air_c or (_FROM_C, _FROM_C)
    start_c, set_start = use_kept(view.unfinished, "start", before_c[0])
    end_c, set_end = use_kept(view.unfinished, "end", before_c[1])
    colours, settings = view.palette, view.settings

    async def back() -> None:
        view.open("")

    async def save() -> None:
        await taps.hold_taps.temperature(step.id, hold.began, start_c, end_c)

    corrected = corrected_text(hold, (start_c, end_c), view.words, settings.altitude_m)
    body = [
        heading("Temperature of the air", colours),
        words("At the reservoir, else around it.", colours.ink, SMALL + 1),
        _dial(view, "At the start", "start", start_c, set_start),
        _dial(view, "At the end", "end", end_c, set_end),
        notice(corrected, colours, key="corrected"),
    ]
    keep = wide_button(
        colours, "Keep with the hold", save, key="save_air", icon=ft.Icons.SAVE, height=72
    )
    return page_column(top_bar(step.title, colours, back=back), body, [keep])


def _dial(
    view: View, word: str, name: str, value_c: float, change: Callable[[float], None]
) -> ft.Control:
    """A temperature and the four taps that move it."""
    colours = view.palette

    def move(by: int) -> ft.Control:
        to_c = min(_MOST_C, max(_LEAST_C, value_c + by))
        key = f"{name}_{'plus' if by > 0 else 'minus'}_{abs(by)}"
        return button(f"{by:+d}", colours, lambda: change(to_c), key=key, expand=True, height=60)

    figure = words(f"{value_c:g} °C", colours.ink, ANSWER, bold=True, key=f"{name}_c")
    return ft.Column(
        [
            ft.Row(
                [words(word, colours.ink, BODY, bold=True), figure],
                alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
            ),
            ft.Row([move(by) for by in _MOVES_C], spacing=8),
        ],
        spacing=4,
    )
