"""A stopwatch on a step: start, seconds as they run, stop.

The seconds come from the walk's own timer, so that a page that drops and returns shows the true
ones.
"""

from __future__ import annotations

import flet as ft

from walkaround.clock import Moment
from walkaround.events import Measured, TimerBegan
from walkaround.state import Walk
from walkaround.steps import Step
from walkaround.ui.buttons import answer_zone, defect_zone
from walkaround.ui.guard import screen
from walkaround.ui.parts import notice
from walkaround.ui.taker import passed_s
from walkaround.ui.text import words
from walkaround.ui.theme import FIGURE, GAP
from walkaround.ui.view import View
from walkaround.ui.waiting import beating
from walkaround.ui.walker import Walker

BEAT_S = 0.1
"""How often a running stopwatch is drawn."""


def running_since(walk: Walk, step: Step) -> Moment | None:
    """When the stopwatch that runs now was started; None if it stands."""
    for event in reversed(walk.events):
        if isinstance(event, TimerBegan | Measured) and event.step == step.id:
            return event.at if isinstance(event, TimerBegan) else None
    return None


def start_zone(view: View, walker: Walker, step: Step) -> ft.Control:
    """Start the time; or tell that there was nothing to time."""
    assert step.measure is not None

    async def start() -> None:
        await walker.taker.start(step.id)

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


def stop_zone(view: View, walker: Walker, step: Step, began: Moment) -> ft.Control:
    """Stop the time; after a restart of the computer it can only be started anew."""
    assert step.measure is not None
    if began.boot != view.parts.clock().boot:
        lost = notice("The computer restarted while the time ran: start again.", view.palette)
        return ft.Column(
            [lost, start_zone(view, walker, step)],
            spacing=GAP,
            tight=True,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        )

    async def stop() -> None:
        await walker.taker.stop(step)

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
    beating(BEAT_S)
    seconds = passed_s(began, view.parts.clock())
    figure = words(f"{seconds:.0f} s", view.palette.ink, 2 * FIGURE, bold=True, key="seconds")
    return ft.Row([figure], alignment=ft.MainAxisAlignment.CENTER)
