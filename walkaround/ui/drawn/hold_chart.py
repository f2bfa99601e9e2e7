"""The chart of an air hold, drawn: readings, the limit's line, the fitted line and its bounds.

The limit is dashed and has its word on it, readings are dots, so that colour only adds to it.
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
    """One gauge's chart in a box of this size, with its words for those who hear it."""
    drawn = hold_chart(hold, line, assessment, at_s, width_px, height_px)
    gauge = hold.gauge(line)
    looks = [look for look in hold.readings if look.gauge == line]
    readings = reading_words(looks, gauge, words) or words("chart-no-reading")
    named = words.text(gauge_name(line))
    title = words("chart-title", gauge=named, unit=gauge.unit)
    return ft.Semantics(
        label=words("chart-of", gauge=named, unit=gauge.unit, readings=readings),
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
                shapes=list(_strokes(drawn, title, words("chart-limit"), palette)),
            ),
        ),
    )


def _strokes(drawn: HoldChart, title: str, limit: str, palette: Palette) -> Iterator[cv.Shape]:
    """Everything on the canvas, from the bottom up."""
    yield from _axes(drawn, palette)
    if drawn.fan:
        start, *rest = drawn.fan
        path = [cv.Path.MoveTo(*start), *(cv.Path.LineTo(*point) for point in rest)]
        yield cv.Path([*path, cv.Path.Close()], _fill(ft.Colors.with_opacity(0.25, palette.accent)))
    if drawn.fitted:
        yield _line(*drawn.fitted, palette.accent, 3)
    yield _line(*drawn.limit, palette.bad, 3, dashes=[9, 6])
    for x, y in drawn.points:
        yield cv.Circle(x, y, _DOT_PX + 2, paint=_fill(palette.card))
        yield cv.Circle(x, y, _DOT_PX, paint=_fill(palette.ink))
    # The gauge's name at the top, where no falling line is; the limit's word under its end.
    at = drawn.right, drawn.top - 8
    yield _text(title, at, palette.quiet_ink, ft.Alignment.TOP_RIGHT, palette.card)
    end_x, end_y = drawn.limit[1]
    at = end_x - 4, min(end_y + 4, drawn.bottom - NUMBER - 6)
    yield _text(limit, at, palette.bad, ft.Alignment.TOP_RIGHT, palette.card)


def _axes(drawn: HoldChart, palette: Palette) -> Iterator[cv.Shape]:
    faint, left, bottom = ft.Colors.with_opacity(0.45, palette.line), drawn.left, drawn.bottom
    for tick in drawn.pressures:
        yield _line((left, tick.at_px), (drawn.right, tick.at_px), faint, 1)
        yield _text(tick.label, (left - 10, tick.at_px), palette.ink, ft.Alignment.CENTER_RIGHT)
    for tick in drawn.times:
        yield _line((tick.at_px, bottom), (tick.at_px, bottom + 4), palette.line, 1)
        at = tick.at_px, bottom + 3
        yield _text(f"{tick.label} s", at, palette.ink, ft.Alignment.TOP_CENTER)
    yield _line((left, drawn.top), (left, bottom), palette.line, 2)
    yield _line((left, bottom), (drawn.right, bottom), palette.line, 2)


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
