"""What is tapped for a gauge while an air hold runs: its value, or the mark its needle crosses."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from walkaround.plan.steps import Step
from walkaround.rules.limits import Line
from walkaround.ui.airhold.number_pad import SPACING_PX, mark_of, number_pad, pad_px, psi_of
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.scale import fitting_size, fitting_size_in_row
from walkaround.ui.kit.surface import surface, tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import ANSWER, GAP, QUIET, SMALL, TOUCH, Tone
from walkaround.ui.kit.zones import answer_zone, stacked
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.air_hold import UnlikelyReading
from walkaround.ui.taps.walk import WalkTaps
from walkaround.words.air_hold import gauge_name

_HEAD_PX = 36.0
"""Largest size of what stands above the numbers, which must be on the screen with it."""
_ABOVE_SHARE, _FIGURE_SHARE = 0.22, 0.4
"""Sizes of the word and the number of a mark, of the height of what is tapped."""


@screen
def reading_pad(view: View, taps: WalkTaps, step: Step, line: Line, mark_s: float) -> ft.Control:
    """Show the gauge's own marks near its last value: one tap, or "Lower" and one more.

    A value that jumps is asked about; its time is that of the first tap all the same.
    """
    hold, gauge = view.walk.holds[step.id], view.walk.holds[step.id].gauge(line)
    no_jump: UnlikelyReading | None = None
    jump, ask = ft.use_state(no_jump)

    async def read(psi: float) -> None:
        ask(await taps.hold_taps.enter_reading(step.id, hold.began, line, mark_s, psi))

    if jump is not None:
        return _unlikely_reading(view, taps, step, line, jump)
    now = view.parts.clock()
    when = view.words("hold-look-again", seconds=f"{hold.elapsed_s(now):.0f}")
    if hold.stamp_s(mark_s, now) == mark_s:
        when = view.words("hold-at-mark", seconds=f"{mark_s:g}")
    title = view.words("gauge-in-unit", gauge=gauge_name(line), unit=gauge.unit)
    size, small = (
        fitting_size_in_row(len(title), ANSWER - 2, 1, _HEAD_PX),
        fitting_size_in_row(len(when), SMALL, 1, _HEAD_PX),
    )
    head = [label(title, size=size, bold=True), label(when, QUIET, small)]
    return number_pad(view, gauge, hold.last_psi(line), head, read)


def _unlikely_reading(
    view: View, taps: WalkTaps, step: Step, line: Line, jump: UnlikelyReading
) -> ft.Control:
    """Ask which of two values was meant, by one tap, where the new one is far from the last."""
    hold = view.walk.holds[step.id]
    gauge, last = hold.gauge(line), hold.last_psi(line)
    figures = {"meant": gauge.label(jump.meant_psi), "read": gauge.label(jump.psi)}

    def zone(psi: float, key: str, tone: Tone) -> ft.Control:
        take = tapped(taps.hold_taps.record_reading, step.id, hold.began, line, jump.at_s, psi)
        icon = ft.Icons.SPEED
        return answer_zone(gauge.label(psi), icon, take, key=key, tone=tone, height=TOUCH)

    last_read = view.words("hold-jump-last", last=gauge.label(last), unit=gauge.unit)
    zones = [
        zone(jump.meant_psi, "jump_meant", Tone.ACCENT),
        zone(jump.psi, "jump_read", Tone.PLAIN),
    ]
    body = stretched(
        [
            label(view.words("hold-jump", **figures), size=ANSWER, bold=True, key="jump"),
            label(last_read, QUIET, SMALL),
            ft.Row(zones, spacing=GAP),
        ],
        SPACING_PX,
    )
    return ft.Container(body, height=pad_px(view))


def crossing_px(view: View, lines: Sequence[Line]) -> int:
    """Return the height of the rows for gauges that are read by crossing, px."""
    return len(lines) * (_row_px(view, lines) + 40)


def crossing_rows(view: View, taps: WalkTaps, step: Step, lines: Sequence[Line]) -> ft.Control:
    """Show, for each gauge read by crossing, the marks that its needle comes to next."""
    height = _row_px(view, lines)
    return stretched([_crossing_row(view, taps, step, line, height) for line in lines], SPACING_PX)


def _row_px(view: View, lines: Sequence[Line]) -> int:
    if len(lines) > 1:
        return 84
    return 92 if view.device.low else TOUCH


def _crossing_row(view: View, taps: WalkTaps, step: Step, line: Line, height: int) -> ft.Control:
    """Show the mark the needle stands on before the first tap, then the next ones below."""
    hold = view.walk.holds[step.id]
    gauge = hold.gauge(line)
    begun = any(look.gauge == line for look in hold.readings)
    last = mark_of(gauge, hold.last_psi(line))
    marks = [last - 1, last - 2] if begun else [last + 1, last, last - 1]
    first = last - 1 if begun else last
    word = view.words("hold-needle-crosses" if begun else "hold-needle-on")

    def zone(mark: int) -> ft.Control:
        psi = psi_of(gauge, mark)
        mark_text, tone = gauge.label(psi), Tone.GOOD if mark == first else Tone.PLAIN
        above = word if mark == first else view.words("hold-or")
        face = stacked(
            label(
                above,
                size=fitting_size_in_row(len(above), SMALL, 2, _ABOVE_SHARE * height),
                bold=True,
            ),
            label(
                mark_text, size=fitting_size(ANSWER, _FIGURE_SHARE * height), bold=True, max_lines=1
            ),
        )
        cross = tapped(taps.hold_taps.record_crossing, step.id, hold.began, line, psi)
        zone = surface(face, cross, tone=tone, key=f"cross_{line}_{mark_text}", height=height)
        zone.expand = 2 if mark == first else 1
        return zone

    title = label(view.words("gauge-in-unit", gauge=gauge_name(line), unit=gauge.unit), bold=True)
    zones = ft.Row([zone(mark) for mark in marks if mark >= 0], spacing=GAP)
    return ft.Column([title, zones], spacing=4)
