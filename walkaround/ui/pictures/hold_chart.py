"""The chart of an air hold, drawn: readings, the limit's line, the fitted line and its bounds.

The limit is dashed and has its word on it, readings are dots, so that color only adds to it.
"""

from __future__ import annotations

from collections.abc import Iterator

import flet as ft
import flet.canvas as cv

from walkaround.airhold.hold import Hold
from walkaround.airhold.verdict import Assessment
from walkaround.drawing.hold_chart import HoldChart, hold_chart
from walkaround.drawing.palette import Palette
from walkaround.drawing.svg import Point
from walkaround.rules.limits import Line
from walkaround.ui.kit.theme import FONT, RADIUS
from walkaround.words.air_hold import gauge_name, reading_words
from walkaround.words.language import Words

NUMBER = 16
"""Size of the numbers on the axes."""
_DOT_PX = 5.0


def chart_view(
    hold: Hold,
    line: Line,
    assessment: Assessment | None,
    at_s: float,
    words: Words,
    palette: Palette,
    width_px: float,
    height_px: float,
) -> ft.Control:
    """Show one gauge's chart in a box of this size, px, with a description for screen readers."""
    chart = hold_chart(hold, line, assessment, at_s, width_px, height_px)
    gauge = hold.gauge(line)
    looks = [look for look in hold.readings if look.gauge == line]
    readings = reading_words(looks, gauge, words) or words("chart-no-reading")
    gauge_text = words.text(gauge_name(line))
    title = words("chart-title", gauge=gauge_text, unit=gauge.unit)
    return ft.Semantics(
        label=words("chart-of", gauge=gauge_text, unit=gauge.unit, readings=readings),
        image=True,
        content=ft.Container(
            width=width_px,
            height=height_px,
            bgcolor=palette.card,
            border=ft.Border.all(1, palette.line),
            border_radius=RADIUS,
            clip_behavior=ft.ClipBehavior.ANTI_ALIAS,
            content=cv.Canvas(
                width=width_px,
                height=height_px,
                shapes=list(_strokes(chart, title, words("chart-limit"), palette)),
            ),
        ),
    )


def _strokes(chart: HoldChart, title: str, limit: str, palette: Palette) -> Iterator[cv.Shape]:
    """Draw everything on the canvas, from the bottom up."""
    yield from _axes(chart, palette)
    if chart.fan:
        start, *other_points = chart.fan
        path = [cv.Path.MoveTo(*start), *(cv.Path.LineTo(*point) for point in other_points)]
        yield cv.Path([*path, cv.Path.Close()], _fill(ft.Colors.with_opacity(0.25, palette.accent)))
    if chart.fitted:
        yield _line(*chart.fitted, palette.accent, 3)
    yield _line(*chart.limit, palette.bad, 3, dashes=[9, 6])
    for x, y in chart.points:
        yield cv.Circle(x, y, _DOT_PX + 2, paint=_fill(palette.card))
        yield cv.Circle(x, y, _DOT_PX, paint=_fill(palette.ink))
    # The gauge's name at the top, where no falling line is; the limit's word under its end.
    at = chart.right, chart.top - 8
    yield _text(title, at, palette.quiet_ink, ft.Alignment.TOP_RIGHT, palette.card)
    end_x, end_y = chart.limit[1]
    at = end_x - 4, min(end_y + 4, chart.bottom - NUMBER - 6)
    yield _text(limit, at, palette.bad, ft.Alignment.TOP_RIGHT, palette.card)


def _axes(chart: HoldChart, palette: Palette) -> Iterator[cv.Shape]:
    faint, left, bottom = ft.Colors.with_opacity(0.45, palette.line), chart.left, chart.bottom
    for tick in chart.pressures:
        yield _line((left, tick.at_px), (chart.right, tick.at_px), faint, 1)
        yield _text(tick.label, (left - 10, tick.at_px), palette.ink, ft.Alignment.CENTER_RIGHT)
    for tick in chart.times:
        yield _line((tick.at_px, bottom), (tick.at_px, bottom + 4), palette.line, 1)
        at = tick.at_px, bottom + 3
        yield _text(f"{tick.label} s", at, palette.ink, ft.Alignment.TOP_CENTER)
    yield _line((left, chart.top), (left, bottom), palette.line, 2)
    yield _line((left, bottom), (chart.right, bottom), palette.line, 2)


def _fill(colour: str) -> ft.Paint:
    return ft.Paint(color=colour, style=ft.PaintingStyle.FILL)


def _line(
    start: Point, end: Point, colour: str, width: float, dashes: list[float] | None = None
) -> cv.Shape:
    stroke = ft.PaintingStyle.STROKE
    paint = ft.Paint(color=colour, style=stroke, stroke_width=width, stroke_dash_pattern=dashes)
    return cv.Line(*start, *end, paint=paint)


def _text(
    text: str, at: Point, colour: str, alignment: ft.Alignment, ground: str | None = None
) -> cv.Text:
    style = ft.TextStyle(
        size=NUMBER,
        weight=ft.FontWeight.W_700,
        color=colour,
        font_family=FONT,
        bgcolor=ft.Colors.with_opacity(0.85, ground) if ground else None,
    )
    return cv.Text(*at, text, style, alignment=alignment)
