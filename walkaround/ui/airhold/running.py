"""An air hold while it runs: seconds in large, a chart a gauge, and what is to be tapped now.

The seconds shown are computed from the clock at each beat; nothing here counts.
"""

from __future__ import annotations

import asyncio
import math
from collections.abc import Mapping

import flet as ft

from walkaround.airhold.hold import Hold
from walkaround.airhold.verdict import HOLD_MORE_S, Assessment
from walkaround.base.message import message
from walkaround.plan.steps import Step
from walkaround.rules.limits import Line
from walkaround.ui.airhold.reading import crossing_px, crossing_rows, pad_px, reading_pad
from walkaround.ui.drawn.hold_chart import chart_view
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.parts import page_column, stretched, top_bar
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import ACCENT, BODY, GAP, QUIET, SMALL, Tone
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.words.air_hold import gauge_name, not_clear, reading_words
from walkaround.words.language import capital

STOPPED = message("hold-void-stopped")

_ABOVE_PX = 120.0
"""Height of the bar, the heading and the gaps around what the screen consists of."""
_WAITING_PX, _UNDECIDED_PX = 132.0, 160.0
_LEAST_CHART_PX = 90.0
"""A chart lower than this says nothing; the words under it do."""
_LINE_PX = 24.0


@screen
def running_screen(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """The hold of this step; it beats by itself and stops when it leaves the screen."""
    _, set_beat = ft.use_state(0)

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
    # The buttons change by themselves when a gauge is due.
    effect(view, taps.fresh, [hold.due(view.parts.clock())])
    at_s = hold.elapsed_s(view.parts.clock())
    # Readings that cannot be void the hold at the next beat; until then nothing is told of them.
    found = {} if hold.odd_readings(at_s) else hold.results(at_s)
    crossing = [line for line in hold.rule.gauges if hold.gauge(line).crossing]
    due = hold.due(view.parts.clock())
    bottom: list[ft.Control] = []
    wordy = hold.minute_in(at_s) and not crossing
    waiting_px = _UNDECIDED_PX if wordy else _WAITING_PX
    taken_px = crossing_px(view, crossing) + (pad_px(view) if due else waiting_px)
    if crossing:
        bottom.append(crossing_rows(view, taps, step, crossing))
    if due:
        line, mark_s = due
        bottom.append(reading_pad(view, taps, step, line, mark_s, key=f"{line}_{mark_s:g}"))
    else:
        bottom.append(_waiting(view, taps, step, hold, found))
    assert view.walk.plan is not None
    # What runs must be seen; the whole title stood on the step before.
    body = [heading(view.words.text(step.title), max_lines=2), *_told(view, hold, found, taken_px)]
    return page_column(top_bar(view.words, view.walk.plan.vehicle.name), body, bottom)


def _told(
    view: View, hold: Hold, found: Mapping[Line, Assessment], taken_px: float
) -> list[ft.Control]:
    """Clock and readings side by side, the charts below: as large as the rest leaves room for."""
    free_px = view.device.height - _ABOVE_PX - taken_px
    ring_px = max(92.0, min(210.0, 0.48 * free_px))
    chart_px = min(300.0, free_px - ring_px - 3 * GAP)
    side = ft.Row(
        [_clock(view, hold, ring_px), ft.Container(_readings(view, hold, ring_px), expand=True)],
        spacing=20,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )
    if chart_px < _LEAST_CHART_PX:
        return [side]
    return [side, charts(view, hold, found, hold.elapsed_s(view.parts.clock()), chart_px)]


def charts(
    view: View, hold: Hold, found: Mapping[Line, Assessment], at_s: float, height_px: float
) -> ft.Control:
    """One chart a gauge, side by side."""
    lines = hold.rule.gauges
    room_px = (view.device.width if view.device.wide else view.device.column_px) - 24
    width_px = (room_px - (len(lines) - 1) * GAP) / len(lines)
    size, say, palette = (width_px, height_px), view.words, view.palette
    drawn = [chart_view(hold, line, found.get(line), at_s, say, palette, *size) for line in lines]
    return ft.Row(list(drawn), spacing=GAP)


def _waiting(
    view: View, taps: WalkTaps, step: Step, hold: Hold, found: Mapping[Line, Assessment]
) -> ft.Control:
    """What comes next, and the ways out: stop, or once the minute is in, the plain rule."""
    now = view.parts.clock()
    at_s = hold.elapsed_s(now)
    undecided = bool(found) and hold.minute_in(at_s)

    give_up = tapped(taps.hold_taps.stop, step.id, hold.began, STOPPED)
    word = view.words("hold-stop-short" if undecided else "hold-stop")
    stop = button(word, give_up, key="stop_hold", icon=ft.Icons.STOP)
    seconds = f"{hold.next_mark_s(now):g}"
    if undecided:
        told = not_clear(hold, found, view.words)
        if hold.crossing is None:
            told = f"{told} {view.words('hold-next-reading', seconds=seconds)}"
        if not hold.may_end_early(at_s):
            return stretched([label(told, bold=True), ft.Row([stop], spacing=GAP)], 8)
        end = tapped(taps.hold_taps.end_early, step.id, hold.began)
        early = button(view.words("hold-end-plain"), end, key="end_early", expand=True)
        return stretched([label(told, bold=True), ft.Row([early, stop], spacing=GAP)], 8)
    numbers = [line for line in hold.rule.gauges if not hold.gauge(line).crossing]
    if not numbers:
        told = view.words("hold-next-tap")
    elif len(numbers) > 1:
        told = view.words("hold-next-both", seconds=seconds)
    else:
        told = view.words("hold-next-one", gauge=gauge_name(numbers[0]), seconds=seconds)
    return stretched([label(told), stop], 8)


def _clock(view: View, hold: Hold, size: float) -> ft.Control:
    shown, what, share = _seconds(view, hold)
    ring = ft.ProgressRing(
        value=share,
        width=size,
        height=size,
        stroke_width=size / 11,
        color=ACCENT,
        bgcolor=Tone.PLAIN.ground,
    )
    share_of_size = 0.4 if shown < 1000 else 0.28
    figure = label(str(shown), size=round(size * share_of_size), bold=True, key="seconds_left")
    short = "" if size > 150 and what != "to-next" else "-short"
    told = view.words(f"hold-clock-{what}{short}")
    unit = label(told, QUIET, SMALL if size > 150 else SMALL - 2, bold=True)
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
    said = ft.Semantics(
        content=face, label=view.words(f"hold-clock-said-{what}", seconds=shown), value=str(shown)
    )
    # The ring is drawn half outside its box.
    return ft.Container(said, padding=size / 20)


def _seconds(view: View, hold: Hold) -> tuple[int, str, float]:
    """The figure in the ring, what it is, and how much of the ring is drawn."""
    now = view.parts.clock()
    elapsed = hold.elapsed_s(now)
    if elapsed < hold.end_s:
        left = hold.remaining_s(now)
        return math.ceil(left), "left", left / hold.rule.seconds
    if all(hold.gauge(line).crossing for line in hold.rule.gauges):
        return math.floor(elapsed), "held", min(1.0, elapsed / hold.last_s)
    left = max(0.0, hold.next_mark_s(now) - elapsed)
    return math.ceil(left), "to-next", min(1.0, left / HOLD_MORE_S)


def _readings(view: View, hold: Hold, height_px: float) -> ft.Control:
    """The last readings of each gauge, as many as there is room for."""
    gauges = hold.rule.gauges
    each = max(1, int(height_px / _LINE_PX / len(gauges)) - 1)
    lines: list[ft.Control] = []
    for line in gauges:
        looks = [look for look in hold.readings if look.gauge == line]
        if looks:
            lines.append(label(capital(view.words.text(gauge_name(line))), QUIET, SMALL, bold=True))
        lines += [
            label(reading_words([look], hold.gauge(line), view.words), size=BODY - 2)
            for look in looks[-min(each, 4) :]
        ]
    return ft.Column(lines, spacing=0, tight=True)
