"""What is tapped for a gauge while an air hold runs: its value, or the mark its needle crosses."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import flet as ft

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold
from walkaround.base.units import from_psi, nearest_whole, to_psi
from walkaround.plan.steps import Step
from walkaround.rules.limits import Line
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.surface import surface, tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import ANSWER, GAP, QUIET, SMALL, TOUCH, Tone
from walkaround.ui.kit.zones import stacked
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.words.air_hold import gauge_name

_KEYS_PX, _LOW_KEYS_PX = 64, 54
"""Height of a number to tap; on a low phone."""
_SPACING_PX = 8
_AT_ONCE = 7
"""Numbers in sight, from one mark above the last value to five below it."""


def key_px(view: View) -> int:
    """Height of a number to tap on this phone."""
    return _LOW_KEYS_PX if view.device.low else _KEYS_PX


def pad_px(view: View) -> int:
    """Height of the whole pad."""
    return 3 * key_px(view) + 4 * _SPACING_PX + 62


@screen
def reading_pad(view: View, taps: WalkTaps, step: Step, line: Line, mark_s: float) -> ft.Control:
    """The gauge's own marks near its last value: one tap, or "Lower" and one more."""
    hold = view.walk.holds[step.id]
    shift, set_shift = ft.use_state(0)
    gauge = hold.gauge(line)
    last = _last_mark(hold, line)

    def number(below: int) -> ft.Control:
        mark = last + 1 + shift - below
        if mark < 0:
            return ft.Container(expand=True)

        psi = _psi(gauge, mark)
        shown, tone = gauge.label(psi), Tone.GOOD if mark == last else Tone.PLAIN
        face = label(shown, size=ANSWER, bold=True, max_lines=1)
        read = tapped(taps.hold_taps.reading, step.id, hold.began, line, mark_s, psi)
        return surface(face, read, tone=tone, key=f"read_{shown}", height=key_px(view))

    def shifted(key: str, by: int) -> ft.Control:
        tap, word = partial(set_shift, shift + by), view.words(f"hold-{key}")
        return button(word, tap, key=key, expand=True, height=key_px(view))

    rows: list[list[ft.Control]] = [
        [number(0), number(1), number(2)],
        [number(3), number(4), number(5)],
        [shifted("higher", _AT_ONCE), number(6), shifted("lower", -_AT_ONCE)],
    ]
    title = view.words("gauge-in-unit", gauge=gauge_name(line), unit=gauge.unit)
    now = view.parts.clock()
    when = view.words("hold-look-again", seconds=f"{hold.elapsed_s(now):.0f}")
    if hold.stamp_s(mark_s, now) == mark_s:
        when = view.words("hold-at-mark", seconds=f"{mark_s:g}")
    head = [label(title, size=ANSWER - 2, bold=True), label(when, QUIET, SMALL)]
    return stretched([*head, *(ft.Row(row, spacing=GAP) for row in rows)], _SPACING_PX)


def crossing_px(view: View, lines: Sequence[Line]) -> int:
    """Height of what is tapped for gauges read by crossing."""
    return len(lines) * (_row_px(view, lines) + 40)


def crossing_rows(view: View, taps: WalkTaps, step: Step, lines: Sequence[Line]) -> ft.Control:
    """For each gauge read by crossing, the marks that its needle comes to next."""
    height = _row_px(view, lines)
    return stretched([_crossing_row(view, taps, step, line, height) for line in lines], _SPACING_PX)


def _row_px(view: View, lines: Sequence[Line]) -> int:
    if len(lines) > 1:
        return 84
    return 92 if view.device.low else TOUCH


def _crossing_row(view: View, taps: WalkTaps, step: Step, line: Line, height: int) -> ft.Control:
    """Before the first tap the mark that the needle stands on, then the next ones below."""
    hold = view.walk.holds[step.id]
    gauge = hold.gauge(line)
    begun = any(look.gauge == line for look in hold.readings)
    last = _last_mark(hold, line)
    marks = [last - 1, last - 2] if begun else [last + 1, last, last - 1]
    first = last - 1 if begun else last
    word = view.words("hold-needle-crosses" if begun else "hold-needle-on")

    def zone(mark: int) -> ft.Control:
        psi = _psi(gauge, mark)
        shown, tone = gauge.label(psi), Tone.GOOD if mark == first else Tone.PLAIN
        above = word if mark == first else view.words("hold-or")
        face = stacked(
            label(above, size=SMALL, bold=True, max_lines=1),
            label(shown, size=ANSWER, bold=True, max_lines=1),
        )
        cross = tapped(taps.hold_taps.crossed, step.id, hold.began, line, psi)
        zone = surface(face, cross, tone=tone, key=f"cross_{line}_{shown}", height=height)
        zone.expand = 2 if mark == first else 1
        return zone

    title = label(view.words("gauge-in-unit", gauge=gauge_name(line), unit=gauge.unit), bold=True)
    zones = ft.Row([zone(mark) for mark in marks if mark >= 0], spacing=GAP)
    return ft.Column([title, zones], spacing=4)


def _last_mark(hold: Hold, line: Line) -> int:
    """The number of the mark that the gauge showed last, counted from zero."""
    gauge = hold.gauge(line)
    return nearest_whole(from_psi(hold.last_psi(line), gauge.unit) / gauge.step)


def _psi(gauge: Gauge, mark: int) -> float:
    return to_psi(mark * gauge.step, gauge.unit)
