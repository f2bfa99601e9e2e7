"""The plan of this vehicle, drawn: where to stand and where to look for one step.

Number and ring tell one lamp from another, so that colour only adds to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot, pi

import flet as ft
import flet.canvas as cv

from walkaround.planpicture import DOT_RADIUS, FIGURE_HEIGHT, Disc, Picture, picture
from walkaround.planview import Point, Shape, shapes, words
from walkaround.planwords import TEXT, Label
from walkaround.steps import Plan, Step
from walkaround.ui.theme import FONT, RADIUS, Palette

_RING = 3.0
_TOOTH = 7.0
"""Depth of the zigzag where the vehicle is cut, px."""


def plan_view(
    plan: Plan, step: Step, palette: Palette, width_px: float, height_px: float
) -> ft.Control:
    """The plan for this step in a box of this size, with its words for those who hear it."""
    drawn = picture(shapes(plan, step), width_px, height_px)
    return ft.Semantics(
        label=words(plan, step),
        image=True,
        content=ft.Container(
            width=width_px,
            height=height_px,
            bgcolor=palette.card,
            border_radius=RADIUS,
            clip_behavior=ft.ClipBehavior.ANTI_ALIAS,
            content=cv.Canvas(
                width=width_px, height=height_px, shapes=list(_strokes(drawn, palette))
            ),
        ),
    )


def _strokes(drawn: Picture, palette: Palette) -> Iterator[cv.Shape]:
    """Everything on the canvas, from the bottom up."""
    yield _polygon(drawn.look, _fill(ft.Colors.with_opacity(0.16, palette.accent)))
    for shape in drawn.shapes:
        yield from _part(shape, palette)
    for first, last in drawn.cuts:
        yield from _cut(drawn, first, last, palette)
    for x, y in drawn.dots:
        yield cv.Circle(x, y, DOT_RADIUS, paint=_fill(palette.card))
        yield cv.Circle(x, y, DOT_RADIUS, paint=_line(palette.line, 1.5))
    yield from _figure(drawn.figure, palette)
    for label in drawn.labels:
        yield from _label(label, palette)
    for disc in drawn.discs:
        yield from _place(disc, palette)
    for disc in drawn.discs:
        yield from _disc(disc, palette)


def _fill(colour: str) -> ft.Paint:
    return ft.Paint(color=colour, style=ft.PaintingStyle.FILL)


def _line(colour: str, width: float) -> ft.Paint:
    return ft.Paint(
        color=colour,
        style=ft.PaintingStyle.STROKE,
        stroke_width=width,
        stroke_join=ft.StrokeJoin.ROUND,
        stroke_cap=ft.StrokeCap.ROUND,
    )


def _polygon(points: Sequence[Point], paint: ft.Paint) -> cv.Path:
    return _path([*points, points[0]], paint)


def _path(points: Sequence[Point], paint: ft.Paint) -> cv.Path:
    start, *rest = points
    return cv.Path([cv.Path.MoveTo(*start), *(cv.Path.LineTo(*point) for point in rest)], paint)


def _part(shape: Shape, palette: Palette) -> Iterator[cv.Shape]:
    match shape.part:
        case "body" | "cab" | "frame" | "drawbar":
            yield _polygon(shape.points, _fill(palette.body))
            yield _polygon(shape.points, _line(palette.line, 2))
        case "wheel":
            yield _polygon(shape.points, _fill(palette.line))
            yield _polygon(shape.points, _line(palette.line, 3))
        case "glass" | "kingpin" | "fifth_wheel" | "landing_gear":
            yield _polygon(shape.points, _line(palette.line, 1.5))


def _cut(drawn: Picture, first: Point, last: Point, palette: Palette) -> Iterator[cv.Shape]:
    """A zigzag over the cut end; what lies beyond it is covered."""
    middle = (first[0] + last[0]) / 2, (first[1] + last[1]) / 2
    corners = [point for shape in drawn.shapes for point in shape.points]
    inward = _unit(middle, (_mean(corners, 0), _mean(corners, 1)))
    along = _unit(first, last)
    length = hypot(last[0] - first[0], last[1] - first[1])
    teeth = max(4, 2 * round(length / 28))
    points = []
    for tooth in range(teeth + 1):
        share = (length + 12) * tooth / teeth - 6
        depth = _TOOTH * (1 + tooth % 2)
        points.append(
            (
                first[0] + along[0] * share + inward[0] * depth,
                first[1] + along[1] * share + inward[1] * depth,
            )
        )
    beyond = [
        (x - inward[0] * 4 + along[0] * d, y - inward[1] * 4 + along[1] * d)
        for (x, y), d in ((last, 6), (first, -6))
    ]
    yield _polygon([*points, *beyond], _fill(palette.card))
    yield _path(points, _line(palette.line, 2))


def _mean(points: Sequence[Point], axis: int) -> float:
    return (min(p[axis] for p in points) + max(p[axis] for p in points)) / 2


def _unit(start: Point, end: Point) -> Point:
    x, y = end[0] - start[0], end[1] - start[1]
    length = hypot(x, y)
    return x / length, y / length


def _figure(middle: Point, palette: Palette) -> Iterator[cv.Shape]:
    """A standing figure: head, and a body with round shoulders."""
    x, y = middle
    top, bottom = y - FIGURE_HEIGHT / 2, y + FIGURE_HEIGHT / 2
    yield cv.Circle(x, top + 8, 8, paint=_fill(palette.accent))
    yield cv.Rect(
        x - 11,
        top + 18,
        22,
        bottom - top - 18,
        border_radius=ft.BorderRadius(top_left=11, top_right=11, bottom_left=4, bottom_right=4),
        paint=_fill(palette.accent),
    )


def _text(text: str, at: Point, colour: str, size: float) -> cv.Text:
    return cv.Text(
        *at,
        text,
        ft.TextStyle(size=size, weight=ft.FontWeight.W_700, color=colour, font_family=FONT),
        alignment=ft.Alignment.CENTER,
    )


def _label(label: Label, palette: Palette) -> Iterator[cv.Shape]:
    colour = palette.accent if label.text == "YOU" else palette.quiet_ink
    yield _text(label.text, label.centre, colour, TEXT)
    if label.arrow is not None:
        (x, y), (dx, dy) = label.arrow, label.pointing
        tip = x + 6 * dx, y + 6 * dy
        base = [(x - 5 * dx + 7 * s * dy, y - 5 * dy + 7 * s * dx) for s in (1, -1)]
        yield _polygon([tip, *base], _fill(colour))


def _place(disc: Disc, palette: Palette) -> Iterator[cv.Shape]:
    """The lamp itself and the line from it to its number."""
    yield _path([disc.at, disc.centre], _line(palette.ink, 2))
    yield cv.Circle(*disc.at, 7, paint=_fill(palette.ink))
    for paint, start, sweep in _halves(disc.colour, palette):
        yield _sector(disc.at, 4.5, start, sweep, paint)


def _disc(disc: Disc, palette: Palette) -> Iterator[cv.Shape]:
    yield cv.Circle(*disc.centre, disc.radius + 1, paint=_fill(palette.ink))
    for paint, start, sweep in _halves(disc.colour, palette):
        yield _sector(disc.centre, disc.radius + 1 - _RING, start, sweep, paint)
    colour = palette.on_lamp if palette.lamp(disc.colour) else palette.on_accent
    yield _text(str(disc.number), disc.centre, colour, 1.25 * disc.radius)


def _halves(colour: str, palette: Palette) -> Iterator[tuple[ft.Paint, float, float]]:
    """One full turn for one colour, half a turn each for two; wheels have none of their own."""
    colours = (palette.lamp(colour) or (palette.accent,))[:2]
    sweep = 2 * pi / len(colours)
    for number, one in enumerate(colours):
        yield _fill(one), pi / 2 + number * sweep, sweep


def _sector(at: Point, radius: float, start: float, sweep: float, paint: ft.Paint) -> cv.Shape:
    if sweep > pi:
        return cv.Circle(*at, radius, paint=paint)
    x, y = at[0] - radius, at[1] - radius
    return cv.Arc(x, y, 2 * radius, 2 * radius, start, sweep, use_center=True, paint=paint)
