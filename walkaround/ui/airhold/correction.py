"""The readings of a running air hold; a tap on one that was entered wrong corrects it."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import flet as ft

from walkaround.airhold.correction import correction_refusal, is_crossing_tap
from walkaround.airhold.hold import Hold, HoldReading
from walkaround.plan.steps import Step
from walkaround.rules.limits import Line
from walkaround.ui.airhold.number_pad import SPACING_PX, number_pad
from walkaround.ui.kit.buttons import button, icon_button
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.surface import style, tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BODY, QUIET, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.words.air_hold import gauge_name, reading_words
from walkaround.words.language import capital

CHIP_PX = 48
_NAME_PX = 82
_NAME_TEXT_PX, _CHIP_TEXT_PX = 19.0, 26.0
"""Largest size of a gauge's name and readings, which share one row."""
_ABOVE = 3
"""Of the seven marks offered for a corrected reading, how many are above it."""


class ReadingToCorrect(NamedTuple):
    """The reading that is being corrected."""

    line: Line
    at_s: float


def chips_px(hold: Hold) -> float:
    """Return the height of the readings, px: a row for each gauge that was read."""
    rows = len({look.gauge for look in hold.readings})
    return rows * CHIP_PX + max(0, rows - 1) * SPACING_PX


def reading_rows(view: View, hold: Hold, mend: Callable[[ReadingToCorrect], None]) -> ft.Control:
    """Show every reading of each gauge in a row, the last one first; a tap is for mending it."""
    rows: list[ft.Control] = []
    for line in hold.rule.gauges:
        looks = [look for look in hold.readings if look.gauge == line]
        if not looks:
            continue
        chips = [_chip(view, hold, line, look, mend) for look in reversed(looks)]
        name = label(
            capital(view.words.text(gauge_name(line))),
            QUIET,
            fitting_size(SMALL, _NAME_TEXT_PX),
            bold=True,
        )
        name_box = ft.Container(name, width=_NAME_PX)
        row = ft.Row(chips, spacing=SPACING_PX, scroll=ft.ScrollMode.HIDDEN, expand=True)
        rows.append(ft.Row([name_box, row], spacing=0, height=CHIP_PX))
    return ft.Column(rows, spacing=SPACING_PX, tight=True)


def _chip(
    view: View, hold: Hold, line: Line, look: HoldReading, mend: Callable[[ReadingToCorrect], None]
) -> ft.Control:
    reading = label(
        reading_words([look], hold.gauge(line), view.words),
        size=fitting_size(BODY - 2, _CHIP_TEXT_PX),
        bold=True,
    )
    can = is_crossing_tap(hold, line, look.at_s) or not correction_refusal(
        hold, line, look.at_s, look.psi
    )
    if not can:
        return ft.Container(reading, padding=8)
    face = ft.Row([reading, ft.Icon(ft.Icons.EDIT, size=20)], spacing=6, tight=True)
    return ft.Button(
        content=face,
        elevation=0,
        style=style(Tone.PLAIN, (10, 4)),
        height=CHIP_PX,
        on_click=lambda: mend(ReadingToCorrect(line, look.at_s)),
        key=f"mend_{line}_{look.at_s:g}",
    )


@screen
def correction_pad(
    view: View, taps: WalkTaps, step: Step, mending: ReadingToCorrect, close: Callable[[], None]
) -> ft.Control:
    """Tell what the gauge showed then; or of a mark that was tapped, that it was not crossed."""
    hold, (line, at_s) = view.walk.holds[step.id], mending
    gauge = hold.gauge(line)
    psi = next(look.psi for look in hold.readings if (look.gauge, look.at_s) == mending)

    async def mend(psi: float | None) -> None:
        if await taps.hold_taps.correct_reading(step.id, hold.began, line, at_s, psi):
            close()

    stands = gauge.label(psi)
    title = view.words("hold-mend", gauge=gauge_name(line), seconds=f"{at_s:.3g}")
    keep = view.words("hold-mend-keep", value=stands, unit=gauge.unit)
    size = fitting_size(BODY, _CHIP_TEXT_PX)
    head = ft.Row(
        [
            ft.Column([label(title, size=size, bold=True, max_lines=2)], expand=True),
            icon_button(ft.Icons.CLOSE, keep, close, key="close_mending"),
        ]
    )
    if is_crossing_tap(hold, line, at_s):
        word, icon = view.words("hold-mend-not-crossed", value=stands), ft.Icons.UNDO
        take_back_button = button(word, tapped(mend, None), key="not_crossed", icon=icon, height=72)
        return stretched([head, take_back_button], SPACING_PX)
    return number_pad(view, gauge, psi, [head], mend, above=_ABOVE)
