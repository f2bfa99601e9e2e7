"""An air hold while it runs: large seconds, a chart for each gauge, and what to tap now.

The seconds shown are computed from the clock at each beat; nothing here counts.
"""

from __future__ import annotations

import asyncio
import math
from collections.abc import Callable, Mapping
from functools import partial

import flet as ft

from walkaround.airhold.hold import Hold
from walkaround.airhold.verdict import HOLD_MORE_S, Assessment
from walkaround.base.message import message
from walkaround.plan.steps import Step
from walkaround.rules.limits import Line
from walkaround.ui.airhold.correction import (
    ReadingToCorrect,
    chips_px,
    correction_pad,
    reading_rows,
)
from walkaround.ui.airhold.number_pad import pad_px
from walkaround.ui.airhold.reading import crossing_px, crossing_rows, reading_pad
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.parts import page_column, page_halves, stretched, top_bar
from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import ACCENT, BODY, FIGURE, GAP, QUIET, SMALL, Tone
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.ui.pictures.hold_chart import chart_view
from walkaround.ui.practice.observations import dials
from walkaround.ui.taps.walk import WalkTaps
from walkaround.words.air_hold import gauge_name, not_clear

STOPPED = message("hold-void-stopped")

_ABOVE_PX, _ABOVE_GROWS_PX = 168.0, 26.0
"""Height of the bar, the heading and the gaps around what the screen consists of; how much more
they take at twice the scale."""
_BESIDE_PX, _UNIT_PX = 26.0, 20.0
"""Largest size of words beside the clock, and of the unit in it."""
_FIGURES_PX = 90.0
"""What the seconds and the names of the gauges take in practice."""
_WAITING_PX, _UNDECIDED_PX = 68.0, 160.0
_LEAST_CHART_PX = 90.0
"""A chart lower than this says nothing; the words under it do."""


@screen
def running_screen(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Show the hold of this step; it beats by itself and stops when it leaves the screen."""
    _, set_beat = ft.use_state(0)
    none: ReadingToCorrect | None = None
    mending, set_mending = ft.use_state(none)

    async def beat() -> None:
        taps.hold_taps.follow(view.walk.holds[step.id])
        beats = 0
        while (running := view.walk.holds.get(step.id)) and running.running:
            await taps.hold_taps.beat()
            beats += 1
            set_beat(beats)
            await asyncio.sleep(view.parts.timing.hold_beat_s)

    effect(view, beat)
    hold = view.walk.holds[step.id]
    due = hold.due(view.parts.clock())
    # The buttons change by themselves when a gauge is due.
    effect(view, taps.appear_anew, [due])
    at_s = hold.elapsed_s(view.parts.clock())
    # Readings that cannot be void the hold at the next beat; until then nothing is told of them.
    assessments = {} if hold.odd_readings(at_s) else hold.results(at_s)
    crossing = [line for line in hold.rule.gauges if hold.gauge(line).crossing]
    # Another page may have taken it back meanwhile.
    if mending and mending not in {(look.gauge, look.at_s) for look in hold.readings}:
        mending = None
    bottom: list[ft.Control] = []
    wordy = hold.minute_in(at_s) and not crossing
    waiting_px = _UNDECIDED_PX if wordy else _WAITING_PX
    taken_px = crossing_px(view, crossing) + (pad_px(view) if due or mending else waiting_px)
    if crossing:
        bottom.append(crossing_rows(view, taps, step, crossing))
    if due:
        # What is due is read at once; what was being mended comes after.
        line, mark_s = due
        bottom.append(reading_pad(view, taps, step, line, mark_s, key=f"{line}_{mark_s:g}"))
    elif mending:
        key = f"mending_{mending.line}_{mending.at_s:g}"
        close = partial(set_mending, none)
        bottom.append(correction_pad(view, taps, step, mending, close, key=key))
    else:
        bottom.append(_waiting(view, taps, step, hold, assessments))
    assert view.walk.plan is not None
    give_up = tapped(taps.hold_taps.stop, step.id, hold.began, STOPPED)
    stop = button(view.words("hold-stop"), give_up, key="stop_hold", icon=ft.Icons.STOP)
    bar = top_bar(view.words, view.walk.plan.vehicle.name, actions=[stop])
    # What runs must be seen; the whole title stood on the step before.
    title = heading(view.words.text(step.title), max_lines=2)
    clock_part = _clock_and_charts(view, step, hold, assessments, taken_px, set_mending)
    # In practice the needle is what must be seen.
    body = [*clock_part, title] if view.practice else [title, *clock_part]
    if view.device.flat:
        return page_halves(bar, body, stretched(bottom, tight=True))
    return page_column(bar, body, bottom)


def _clock_and_charts(
    view: View,
    step: Step,
    hold: Hold,
    assessments: Mapping[Line, Assessment],
    taken_px: float,
    mend: Callable[[ReadingToCorrect], None],
) -> list[ft.Control]:
    """Show clock, readings and charts, as large as the rest leaves room for."""
    scale = view.device.text_scale
    above_px = _ABOVE_PX + _ABOVE_GROWS_PX * (scale - 1)
    free_px = view.device.height - above_px - chips_px(hold)
    free_px -= 0 if view.device.flat else taken_px
    if practice := view.practice:
        next_ = label(view.words(f"hold-clock-{_seconds(view, hold)[1]}"), bold=True)
        seconds = label(str(_seconds(view, hold)[0]), size=FIGURE, bold=True, key="seconds_left")
        ahead = ft.Row([seconds, ft.Container(next_, expand=True)], spacing=GAP)
        high_px = max(_LEAST_CHART_PX, min(240.0, free_px - _FIGURES_PX))
        return [dials(view, practice, step, hold, high_px), ahead, reading_rows(view, hold, mend)]
    ring_px = max(92.0, min(210.0 / scale, 0.48 * free_px))
    # On a phone that lies on its side what is tapped stands beside the clock.
    chart_px = 0.0 if view.device.flat else min(300.0, free_px - ring_px - 3 * GAP)
    clock_text = view.words(f"hold-clock-{_seconds(view, hold)[1]}")
    passed = view.words("hold-elapsed", seconds=math.floor(hold.elapsed_s(view.parts.clock())))
    size = fitting_size(BODY, _BESIDE_PX)
    clock_words = [label(clock_text, size=size, bold=True), label(passed, size=size, key="elapsed")]
    if hold.readings:
        clock_words.append(
            label(view.words("hold-tap-to-mend"), QUIET, fitting_size(SMALL, _BESIDE_PX))
        )
    side = ft.Row(
        [
            _clock(view, hold, ring_px),
            ft.Column(list(clock_words), spacing=4, tight=True, expand=True),
        ],
        spacing=20,
        # Seconds are in sight, also where the words beside them are longer than the room.
        vertical_alignment=ft.CrossAxisAlignment.START
        if scale > 1
        else ft.CrossAxisAlignment.CENTER,
    )
    parts = [side, reading_rows(view, hold, mend)]
    if chart_px < _LEAST_CHART_PX:
        return parts
    return [
        *parts,
        hold_charts(view, hold, assessments, hold.elapsed_s(view.parts.clock()), chart_px),
    ]


def hold_charts(
    view: View, hold: Hold, assessments: Mapping[Line, Assessment], at_s: float, height_px: float
) -> ft.Control:
    """Show one chart for each gauge, side by side."""
    lines = hold.rule.gauges
    room_px = (view.device.width if view.device.wide else view.device.column_px) - 24
    width_px = (room_px - (len(lines) - 1) * GAP) / len(lines)
    size, say, palette = (width_px, height_px), view.words, view.palette
    chart_controls = [
        chart_view(hold, line, assessments.get(line), at_s, say, palette, *size) for line in lines
    ]
    return ft.Row(list(chart_controls), spacing=GAP)


def _waiting(
    view: View, taps: WalkTaps, step: Step, hold: Hold, assessments: Mapping[Line, Assessment]
) -> ft.Control:
    """Say what comes next; once the minute is over, offer to end by the plain rule."""
    at_s = hold.elapsed_s(view.parts.clock())
    if assessments and hold.minute_in(at_s):
        reasons = label(not_clear(hold, assessments, view.words), bold=True)
        if not hold.may_end_early(at_s):
            return reasons
        end = tapped(taps.hold_taps.end_early, step.id, hold.began)
        early = button(view.words("hold-end-plain"), end, key="end_early")
        return stretched([reasons, early], 8)
    numbers = [line for line in hold.rule.gauges if not hold.gauge(line).crossing]
    if not numbers:
        return label(view.words("hold-next-tap"))
    gauges = tuple(gauge_name(line) for line in numbers)
    return label(view.words("hold-next", count=len(gauges), gauges=gauges))


def _clock(view: View, hold: Hold, size: float) -> ft.Control:
    """Show the one clock: seconds to the next reading, or how long a needle has been watched."""
    seconds, clock_state, share = _seconds(view, hold)
    ring = ft.ProgressRing(
        value=share,
        width=size,
        height=size,
        stroke_width=size / 11,
        color=ACCENT,
        bgcolor=Tone.PLAIN.ground,
    )
    share_of_size = 0.4 if seconds < 1000 else 0.28
    figure_px = fitting_size(round(size * share_of_size), size * share_of_size)
    figure = label(str(seconds), size=figure_px, bold=True, key="seconds_left")
    unit = label("s", QUIET, fitting_size(SMALL, _UNIT_PX), bold=True)
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
    clock = ft.Semantics(
        content=face,
        label=view.words(f"hold-clock-said-{clock_state}", seconds=seconds),
        exclude_semantics=True,
    )
    # The ring is drawn half outside its box.
    return ft.Container(clock, padding=size / 20)


def _seconds(view: View, hold: Hold) -> tuple[int, str, float]:
    """Return the figure in the ring, what it is, and how much of the ring is drawn."""
    now = view.parts.clock()
    elapsed = hold.elapsed_s(now)
    if all(hold.gauge(line).crossing for line in hold.rule.gauges):
        if elapsed < hold.end_s:
            remaining_s = hold.remaining_s(now)
            return math.ceil(remaining_s), "left", remaining_s / hold.rule.seconds
        return math.floor(elapsed), "held", min(1.0, elapsed / hold.last_s)
    remaining_s = max(0.0, hold.next_mark_s(now) - elapsed)
    longest = hold.rule.seconds / 2 if elapsed < hold.end_s else HOLD_MORE_S
    return math.ceil(remaining_s), "to-next", min(1.0, remaining_s / longest)
