"""An air hold while it runs: seconds left in large, gauges entered with one or two taps.

The seconds shown are computed from the clock at each beat; nothing here counts.
"""

from __future__ import annotations

import asyncio
import math

import flet as ft

from walkaround.holds import Hold
from walkaround.steps import Step
from walkaround.ui.buttons import Tap, button, surface
from walkaround.ui.guard import screen
from walkaround.ui.parts import page_column, top_bar
from walkaround.ui.text import heading, words
from walkaround.ui.theme import ANSWER, BODY, GAP, SMALL
from walkaround.ui.view import View
from walkaround.ui.walker import Walker

BEAT_S = 0.2
"""How often a running hold is looked at: often enough for the eye, and for a spoken mark."""
STOPPED = "The mechanic stopped the air hold."
PAD_TOUCH = 64
"""Height of a number to tap."""


@screen
def running_screen(view: View, walker: Walker, step: Step) -> ft.Control:
    """The hold of this step; it beats by itself and stops when it leaves the screen."""
    _, set_beat = ft.use_state(0)

    async def beat() -> None:
        walker.follow_hold(view.walk.holds[step.id])
        beats = 0
        while _running(view, step):
            await walker.beat_hold()
            beats += 1
            set_beat(beats)
            await asyncio.sleep(BEAT_S)

    # The cleanup makes Flet end the beat when this leaves the screen.
    ft.use_effect(beat, dependencies=[], cleanup=lambda: None)
    return _drawn(view, walker, step, view.walk.holds[step.id])


def _running(view: View, step: Step) -> bool:
    hold = view.walk.holds.get(step.id)
    return hold is not None and hold.running


def _drawn(view: View, walker: Walker, step: Step, hold: Hold) -> ft.Control:
    colours, walk = view.palette, view.walk
    due = hold.due(view.parts.clock())

    async def give_up() -> None:
        await walker.stop_hold(step.id, STOPPED)

    assert walk.plan is not None
    body = [heading(step.title, colours), _clock(view, hold), *_readings(view, hold)]
    if due is None:
        waiting = words(_next_words(view, hold), colours.ink, BODY)
        bottom: ft.Control = ft.Column(
            [
                waiting,
                button("Stop this hold", colours, give_up, key="stop_hold", icon=ft.Icons.STOP),
            ],
            spacing=GAP,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        )
    else:
        gauge, mark_s = due
        bottom = reading_pad(view, walker, step, gauge, mark_s, key=f"{gauge}_{mark_s:g}")
    return page_column(top_bar(walk.plan.vehicle.name, colours), body, [bottom])


def _next_words(view: View, hold: Hold) -> str:
    elapsed = hold.elapsed_s(view.parts.clock())
    mark = next((mark for mark in hold.marks_s() if mark > elapsed), hold.end_s)
    which = "both gauges" if len(hold.rule.gauges) > 1 else "the gauge"
    return f"Next: read {which} at {mark:g} s. Touch no valve."


def _clock(view: View, hold: Hold) -> ft.Control:
    colours = view.palette
    left = hold.remaining_s(view.parts.clock())
    shown = math.ceil(left)
    size = max(120.0, min(230.0, view.height * 0.25))
    ring = ft.ProgressRing(
        value=left / hold.rule.seconds,
        width=size,
        height=size,
        stroke_width=size / 11,
        color=colours.accent,
        bgcolor=colours.other,
    )
    figure = words(str(shown), colours.ink, round(size * 0.42), bold=True, key="seconds_left")
    unit = words("seconds left", colours.quiet_ink, SMALL)
    face = ft.Stack(
        [
            ring,
            ft.Column(
                [figure, unit],
                spacing=0,
                width=size,
                height=size,
                alignment=ft.MainAxisAlignment.CENTER,
                horizontal_alignment=ft.CrossAxisAlignment.CENTER,
            ),
        ],
        width=size,
        height=size,
    )
    told = ft.Semantics(content=face, label=f"{shown} seconds left", value=str(shown))
    # The ring is drawn half outside its box.
    framed = ft.Container(told, padding=size / 20)
    return ft.Row([framed], alignment=ft.MainAxisAlignment.CENTER)


def _readings(view: View, hold: Hold) -> list[ft.Control]:
    """What was read so far, a line a gauge."""
    lines = []
    for gauge in hold.rule.gauges:
        taken = [f"{r.psi:g} at {r.at_s:g} s" for r in hold.readings if r.gauge == gauge]
        if taken:
            lines.append(words(f"{gauge.capitalize()}: {', '.join(taken)}", view.palette.ink))
    return [ft.Column(list(lines), spacing=2)]


@screen
def reading_pad(view: View, walker: Walker, step: Step, gauge: str, mark_s: float) -> ft.Control:
    """Numbers near the gauge's last value: one tap, or "lower" and one more."""
    hold = view.walk.holds[step.id]
    shift, set_shift = ft.use_state(0)
    colours = view.palette
    last = round(hold.last_psi(gauge))
    top = last + 1 + shift

    def number(psi: int) -> ft.Control:
        async def read() -> None:
            await walker.reading(step.id, gauge, mark_s, float(psi))

        return _pad_key(view, str(psi), psi == last, read)

    def shifted(word: str, by: int) -> ft.Control:
        key = word.lower()
        return button(
            word, colours, lambda: set_shift(shift + by), key=key, expand=True, height=PAD_TOUCH
        )

    rows: list[list[ft.Control]] = [
        [number(top), number(top - 1), number(top - 2)],
        [number(top - 3), number(top - 4), number(top - 5)],
        [shifted("Higher", 7), number(top - 6), shifted("Lower", -7)],
    ]
    return ft.Column(
        [
            words(f"{gauge.capitalize()} gauge, psi", colours.ink, ANSWER, bold=True),
            words(_when(view, hold, mark_s), colours.quiet_ink, SMALL),
            *[ft.Row(row, spacing=GAP) for row in rows],
        ],
        spacing=8,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def _when(view: View, hold: Hold, mark_s: float) -> str:
    now = view.parts.clock()
    if hold.stamp_s(mark_s, now) == mark_s:
        return f"As it was at the mark, {mark_s:g} s"
    return f"Look again now: it counts from {hold.elapsed_s(now):.0f} s"


def _pad_key(view: View, number: str, last: bool, tap: Tap) -> ft.Control:
    colours = view.palette
    ground, ink = (colours.ok, colours.on_ok) if last else (colours.other, colours.on_other)
    face = words(number, ink, ANSWER, bold=True)
    key = f"psi_{number}"
    return surface(face, ground, ink, tap, key=key, height=PAD_TOUCH, line=colours.line)
