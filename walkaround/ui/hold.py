"""The air hold on screen: a big countdown, gauges entered with one or two taps, the result.

The seconds shown are computed from the clock at each beat; nothing here counts.
"""

from __future__ import annotations

import asyncio
import math
from collections.abc import Sequence

import flet as ft

from walkaround.airhold import Assessment
from walkaround.holds import Hold
from walkaround.prompts import hold_bounds, hold_result
from walkaround.state import Walk
from walkaround.steps import Step
from walkaround.ui.guard import screen
from walkaround.ui.parts import answer_zone, button, card, caution, words
from walkaround.ui.theme import ANSWER, FIGURE, GAP, SMALL
from walkaround.ui.view import View
from walkaround.ui.walker import Walker

BEAT_S = 0.2
"""How often a running hold is looked at: often enough for the eye, and for a spoken mark."""
STOPPED = "The mechanic stopped the air hold."


def hold_body(view: View, walk: Walk, step: Step) -> Sequence[ft.Control]:
    """What stands under the step's words: why a hold was void, or its result."""
    hold = walk.holds.get(step.id)
    if hold is None or hold.running:
        return []
    if hold.void:
        return [caution(hold.void, view.palette)]
    limit = hold.rule.limit_psi_per_min
    return [_result(view, gauge, found, limit) for gauge, found in hold.results().items()]


def _result(view: View, gauge: str, found: Assessment, limit: float) -> ft.Control:
    colours = view.palette
    within = found.rule_verdict == "within"
    colour = colours.ok if within else colours.bad
    icon = ft.Icons.CHECK_CIRCLE if within else ft.Icons.REPORT
    rate = f"{found.rule_rate_psi_per_min:.1f} psi/min"
    return card(
        ft.Column(
            [
                ft.Row(
                    [
                        ft.Icon(icon, size=40, color=colour),
                        words("Within" if within else "Over", colour, ANSWER, bold=True),
                        words(rate, colours.ink, ANSWER, bold=True),
                    ],
                    spacing=10,
                    wrap=True,
                ),
                words(hold_result(gauge, found, limit), colours.ink),
                words(hold_bounds(found), colours.quiet_ink, SMALL),
            ],
            spacing=4,
        ),
        colours,
        key=f"result_{gauge}",
    )


def hold_answers(view: View, walker: Walker, walk: Walk, step: Step) -> ft.Control:
    """Start, then the running hold, then the answer that its result allows."""
    hold = walk.holds.get(step.id)
    if hold is not None and hold.running:
        return RunningHold(view, walker, step, key=f"running_{hold.began.mono_s}")
    colours = view.palette

    async def start() -> None:
        await walker.begin_hold(step.id)

    async def ok() -> None:
        await walker.answer(step.id, "ok")

    async def defect() -> None:
        await walker.answer(step.id, "defect")

    if hold is None or hold.void or view.peek:
        word = "Start the minute" if hold is None else "Hold again"
        if view.peek:
            return ft.Row([])
        zone = answer_zone(
            word, ft.Icons.TIMER, colours.accent, colours.on_accent, start, key="start_hold"
        )
        return ft.Row([zone])
    again = button("Hold again", colours, start, key="again_hold", icon=ft.Icons.REPLAY)
    if hold.over():
        zone = answer_zone(
            "Defect", ft.Icons.REPORT, colours.bad, colours.on_bad, defect, key="defect"
        )
    else:
        zone = answer_zone("OK", ft.Icons.CHECK_CIRCLE, colours.ok, colours.on_ok, ok, key="ok")
    return ft.Column([ft.Row([again]), ft.Row([zone])], spacing=8)


@screen
def RunningHold(view: View, walker: Walker, step: Step) -> ft.Control:
    """The hold while it runs; beats by itself and stops when it leaves the screen."""
    _, set_beat = ft.use_state(0)

    async def beat() -> None:
        beats = 0
        hold = view.walk.holds.get(step.id)
        if hold is not None:
            walker.follow_hold(hold)
        while running():
            await walker.beat_hold()
            beats += 1
            set_beat(beats)
            await asyncio.sleep(BEAT_S)

    def running() -> bool:
        hold = view.walk.holds.get(step.id)
        return hold is not None and hold.running

    # The cleanup makes Flet end the beat when this leaves the screen.
    ft.use_effect(beat, dependencies=[], cleanup=lambda: None)
    hold = view.walk.holds.get(step.id)
    if hold is None or not hold.running:
        return ft.Container(height=0)
    return _running(view, walker, step, hold)


def _running(view: View, walker: Walker, step: Step, hold: Hold) -> ft.Control:
    now = view.parts.clock()
    due = hold.due(now)
    colours = view.palette

    async def give_up() -> None:
        await walker.stop_hold(step.id, STOPPED)

    clock = _clock(view, hold)
    if due is None:
        stop = button("Stop this hold", colours, give_up, key="stop_hold", icon=ft.Icons.STOP)
        return ft.Column(
            [clock, ft.Row([stop], alignment=ft.MainAxisAlignment.CENTER)],
            spacing=8,
            horizontal_alignment=ft.CrossAxisAlignment.CENTER,
        )
    gauge, mark_s = due
    return ft.Column(
        [clock, ReadingPad(view, walker, step, gauge, mark_s, key=f"{gauge}_{mark_s:g}")],
        spacing=8,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def _clock(view: View, hold: Hold) -> ft.Control:
    colours = view.palette
    left = hold.remaining_s(view.parts.clock())
    shown = math.ceil(left)
    figure = words(f"{shown} s", colours.ink, FIGURE, bold=True, key="seconds_left")
    bar = ft.ProgressBar(
        value=1 - left / hold.rule.seconds,
        color=colours.accent,
        bgcolor=colours.other,
        bar_height=16,
        border_radius=8,
        expand=True,
    )
    row = ft.Row([figure, bar], spacing=16, vertical_alignment=ft.CrossAxisAlignment.CENTER)
    return ft.Semantics(content=row, label=f"{shown} seconds left", value=str(shown))


@screen
def ReadingPad(view: View, walker: Walker, step: Step, gauge: str, mark_s: float) -> ft.Control:
    """Numbers near the gauge's last value: one tap, or "lower" and one more."""
    hold = view.walk.holds[step.id]
    shift, set_shift = ft.use_state(0)
    colours = view.palette
    top = round(hold.last_psi(gauge)) + 1 + shift

    def number(psi: int) -> ft.Control:
        async def read() -> None:
            await walker.reading(step.id, gauge, mark_s, float(psi))

        last = psi == round(hold.last_psi(gauge))
        return ft.Button(
            content=words(str(psi), colours.on_ok if last else colours.on_other, ANSWER, bold=True),
            bgcolor=colours.ok if last else colours.other,
            elevation=0,
            style=ft.ButtonStyle(
                shape=ft.RoundedRectangleBorder(radius=12),
                side=ft.BorderSide(1, colours.line),
                padding=0,
            ),
            height=60,
            expand=True,
            on_click=read,
            key=f"psi_{psi}",
        )

    def shifted(word: str, by: int) -> ft.Control:
        return button(
            word, colours, lambda: set_shift(shift + by), key=word, expand=True, height=60
        )

    rows: list[list[ft.Control]] = [
        [number(top), number(top - 1), number(top - 2)],
        [number(top - 3), number(top - 4), number(top - 5)],
        [shifted("higher", 7), number(top - 6), shifted("lower", -7)],
    ]
    elapsed = hold.elapsed_s(view.parts.clock())
    at_s = hold.stamp_s(mark_s, view.parts.clock())
    when = "as it was at the mark" if at_s == mark_s else f"as it is now, at {elapsed:.0f} s"
    return ft.Column(
        [
            words(f"{gauge.capitalize()} gauge, psi", colours.ink, ANSWER, bold=True),
            words(f"{when}, {mark_s:g} s" if at_s == mark_s else when, colours.quiet_ink, SMALL),
            *[ft.Row(row, spacing=GAP) for row in rows],
        ],
        spacing=8,
    )
