"""A stopwatch on a step: start, seconds as they run, stop.

The seconds come from the walk's own timer, so that a page that drops and returns shows the true
ones.
"""

from __future__ import annotations

import flet as ft

from walkaround.base.clock import Moment
from walkaround.plan.steps import Step
from walkaround.ui.kit.buttons import answer_zone, defect_zone
from walkaround.ui.kit.parts import notice
from walkaround.ui.kit.text import words
from walkaround.ui.kit.theme import FIGURE, GAP
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.step.waiting import beating
from walkaround.ui.taps.values import passed_s
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.timers import stopwatch_trouble

BEAT_S = 0.1
"""How often a running stopwatch is drawn."""


def start_zone(view: View, taps: WalkTaps, step: Step, running: Moment | None = None) -> ft.Control:
    """Start the time, in place of one that is lost; or tell that there was nothing to time."""
    assert step.measure is not None

    async def start() -> None:
        await taps.value_taps.start(step, running)

    async def fault() -> None:
        view.open("fault")

    colours = view.palette
    zone = answer_zone(
        step.measure.begin or "Start",
        ft.Icons.TIMER,
        colours.accent,
        colours.on_accent,
        start,
        key="start_time",
    )
    return ft.Row([defect_zone(colours, fault), zone], spacing=GAP)


def stop_zone(view: View, taps: WalkTaps, step: Step, began: Moment) -> ft.Control:
    """Stop the time; once the computer slept or restarted it can only be started anew."""
    assert step.measure is not None
    if trouble := stopwatch_trouble(began, view.parts.clock()):
        lost = notice(view.words.text(trouble), view.palette)
        return ft.Column(
            [lost, start_zone(view, taps, step, began)],
            spacing=GAP,
            tight=True,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        )

    async def stop() -> None:
        await taps.value_taps.stop(step, began)

    colours = view.palette
    zone = answer_zone(
        step.measure.end or "Stop",
        ft.Icons.STOP_CIRCLE,
        colours.accent,
        colours.on_accent,
        stop,
        key="stop_time",
    )
    return ft.Row([zone])


@screen
def running_time(view: View, began: Moment) -> ft.Control:
    """The seconds as they run; the clock is asked at each beat, nothing counts."""
    beating(view, BEAT_S)
    now = view.parts.clock()
    seconds = "lost" if stopwatch_trouble(began, now) else f"{passed_s(began, now):.0f} s"
    figure = words(seconds, view.palette.ink, 2 * FIGURE, bold=True, key="seconds")
    return ft.Row([figure], alignment=ft.MainAxisAlignment.CENTER)
