"""The plan of this vehicle, drawn: where to stand and where to look for one step.

Number and ring tell one lamp from another, so that colour only adds to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist, pi

import flet as ft
import flet.canvas as cv

from walkaround.drawing.frame import CUT_DEPTH
from walkaround.drawing.labels import TEXT, Label
from walkaround.drawing.picture import DOT_RADIUS, SPOT_RADIUS, Disc, Picture, picture
from walkaround.drawing.vehicle_plan import Point, Shape, shapes, words
from walkaround.plan.steps import Plan, Step
from walkaround.ui.kit.theme import FONT, RADIUS, Palette

_RING = 2.0
_RING_GAP = 1.25
_TOOTH = CUT_DEPTH / 2
"""Height of the zigzag where the vehicle is cut, px."""


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
    for shape in drawn.shapes:
        yield from _part(shape, palette)
    for first, last in drawn.cuts:
        yield from _cut(drawn, first, last, palette)
    yield _polygon(drawn.look, _fill(ft.Colors.with_opacity(0.16, palette.accent)))
    for x, y in drawn.dots:
        yield cv.Circle(x, y, DOT_RADIUS, paint=_fill(palette.card))
        yield cv.Circle(x, y, DOT_RADIUS, paint=_line(palette.line, 1.5))
    yield from _figure(drawn.figure, drawn.figure_px, palette)
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
        case "glass" | "kingpin" | "fifth_wheel" | "landing_gear":
            yield _polygon(shape.points, _line(palette.line, 1.5))


def _cut(drawn: Picture, first: Point, last: Point, palette: Palette) -> Iterator[cv.Shape]:
    """A zigzag a little wider than the vehicle, over its cut end; what lies beyond is covered."""
    corners = [point for shape in drawn.shapes for point in shape.points]
    along = _unit(first, last)
    inward = _unit(_middle([first, last]), _middle(corners))

    def at(share: float, depth: float) -> Point:
        far = share * (dist(first, last) + 2 * _TOOTH) - _TOOTH
        return (
            first[0] + far * along[0] + depth * inward[0],
            first[1] + far * along[1] + depth * inward[1],
        )

    teeth = max(4, 2 * round(dist(first, last) / 28))
    zigzag = [at(n / teeth, _TOOTH * (1 + n % 2)) for n in range(teeth + 1)]
    yield _polygon([*zigzag, at(1, -2), at(0, -2)], _fill(palette.card))
    yield _path(zigzag, _line(palette.line, 2))


def _middle(points: Sequence[Point]) -> Point:
    xs, ys = zip(*points, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def _unit(start: Point, end: Point) -> Point:
    length = dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def _figure(middle: Point, height: float, palette: Palette) -> Iterator[cv.Shape]:
    """A standing figure: head, and a body with round shoulders."""
    (x, y), paint = middle, _fill(palette.accent)
    head, shoulder = 0.19 * height, 0.26 * height
    top, neck = y - height / 2, y - 0.07 * height
    yield cv.Circle(x, top + head, head, paint=paint)
    yield cv.Rect(
        x - shoulder,
        neck,
        2 * shoulder,
        y + height / 2 - neck,
        border_radius=ft.BorderRadius(
            top_left=shoulder, top_right=shoulder, bottom_left=4, bottom_right=4
        ),
        paint=paint,
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
    yield from _ringed(disc.at, SPOT_RADIUS, disc.colour, palette)


def _disc(disc: Disc, palette: Palette) -> Iterator[cv.Shape]:
    yield from _ringed(disc.centre, disc.radius, disc.colour, palette)
    colour = palette.on_lamp if palette.lamp(disc.colour) else palette.on_accent
    yield _text(str(disc.number), disc.centre, colour, 1.2 * disc.radius)


def _ringed(at: Point, radius: float, colour: str, palette: Palette) -> Iterator[cv.Shape]:
    """A lamp colour in a ring, with a gap between, so that a white lamp too shows its ring."""
    yield cv.Circle(*at, radius, paint=_fill(palette.ink))
    yield cv.Circle(*at, radius - _RING, paint=_fill(palette.card))
    for paint, start, sweep in _halves(colour, palette):
        yield _sector(at, radius - _RING - _RING_GAP, start, sweep, paint)


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
