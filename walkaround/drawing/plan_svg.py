"""The plan of one vehicle as a picture: where to stand and where to look for one step.

Lamps are drawn as they are seen from there (`ground_views`); else the vehicle is seen from above.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from itertools import chain
from math import dist
from typing import NamedTuple

from walkaround.base.message import Message
from walkaround.drawing import svg
from walkaround.drawing.frame import CUT_DEPTH
from walkaround.drawing.ground_views.end_view import end_lamps, end_outline
from walkaround.drawing.ground_views.rows import SeenLamp
from walkaround.drawing.ground_views.side_view import side_lamps, side_outline
from walkaround.drawing.labels import TEXT, Label
from walkaround.drawing.lamp_symbol import Symbol, ring_svg, symbol_svg
from walkaround.drawing.palette import DARK, LIGHT, Palette
from walkaround.drawing.picture import DOT_RADIUS, SPOT_RADIUS, Disc, PlanPicture, picture
from walkaround.drawing.svg import Point
from walkaround.drawing.vehicle_plan import Shape, plan_shapes_of, plan_words
from walkaround.plan.steps import Plan, Step

_ROUND_PX = 16.0
"""Radius of the picture's own corners."""
_TOOTH = CUT_DEPTH / 2
"""Height of the zigzag where the vehicle is cut, px."""
_LEAST_PX, _MOST_PX = 40, 2000
_NAME = re.compile(r"([0-9]{2,4})x([0-9]{2,4})_(light|dark)", re.ASCII)


class PictureStyle(NamedTuple):
    """The look of a picture: its size, px, and light or dark colors."""

    width: int
    height: int
    dark: bool

    @property
    def name(self) -> str:
        """The look in an address: "388x172_dark"."""
        return f"{self.width}x{self.height}_{'dark' if self.dark else 'light'}"

    @property
    def palette(self) -> Palette:
        """The colors of this look."""
        return DARK if self.dark else LIGHT


def style_named(name: str) -> PictureStyle | None:
    """Read a look from an address; None if there is none of that name."""
    match = _NAME.fullmatch(name)
    if match is None:
        return None
    look = PictureStyle(int(match[1]), int(match[2]), match[3] == "dark")
    sizes_fit = all(_LEAST_PX <= px <= _MOST_PX for px in look[:2])
    return look if sizes_fit and look.name == name else None


def plan_svg(
    plan: Plan, step: Step, look: PictureStyle, read: Callable[[Message], str] = str
) -> str:
    """Draw the plan for this step; made for boxes from 240 by 90 px.

    Args:
        plan: the plan of the walk.
        step: one of its steps.
        look: the size and colors.
        read: puts a message into words; into those of logs if not said.
    """
    width, height, _ = look
    plan_shapes, palette = plan_shapes_of(plan, step), look.palette
    card = svg.rectangle((0, 0), (width, height), fill=palette.card, radius=_ROUND_PX)
    if plan_shapes.from_there:
        outline = end_outline if plan_shapes.end else side_outline
        lamps = seen_lamps(plan, step, look)
        symbols = (piece for lamp in lamps for piece in symbol_svg(lamp.symbol, palette))
        pieces: Iterable[str] = chain(outline(plan_shapes, width, height, palette, read), symbols)
    else:
        pieces = _pieces(picture(plan_shapes, width, height, read), palette)
    return svg.document(width, height, read(plan_words(plan, step)), [card, *pieces])


def seen_lamps(plan: Plan, step: Step, look: PictureStyle) -> tuple[SeenLamp, ...]:
    """Tell where the lamps of a step are in its picture; empty in a view from above."""
    seen = plan_shapes_of(plan, step)
    if not seen.from_there:
        return ()
    return tuple((end_lamps if seen.end else side_lamps)(seen, look.width, look.height))


def seen_symbols(plan: Plan, step: Step, look: PictureStyle) -> tuple[Symbol, ...]:
    """List every numbered place of a step as its picture shows it."""
    seen = plan_shapes_of(plan, step)
    if seen.from_there:
        return tuple(lamp.symbol for lamp in seen_lamps(plan, step, look))
    return tuple(map(_symbol, picture(seen, look.width, look.height).discs))


def _symbol(disc: Disc) -> Symbol:
    return Symbol(disc.number, disc.color, disc.center, disc.radius, disc.reach, disc.look)


def _pieces(plan_picture: PlanPicture, palette: Palette) -> Iterator[str]:
    """Everything in the picture, from the bottom up."""
    for shape in plan_picture.shapes:
        yield vehicle_part(shape, palette)
    for first, last in plan_picture.cuts:
        yield from _cut(plan_picture, first, last, palette)
    yield svg.polygon(plan_picture.look, fill=palette.accent, opacity=0.16)
    for dot in plan_picture.dots:
        yield svg.circle(dot, DOT_RADIUS, fill=palette.card, line=palette.line, px=1.5)
    yield from _figure(plan_picture.figure, plan_picture.figure_px, palette)
    for label in plan_picture.labels:
        yield from _label(label, palette)
    for disc in plan_picture.discs:
        yield svg.polyline([disc.at, disc.center], line=palette.ink, px=2)
        yield from ring_svg(disc.at, SPOT_RADIUS, disc.color, palette)
    for disc in plan_picture.discs:
        yield from symbol_svg(_symbol(disc), palette)


def vehicle_part(shape: Shape, palette: Palette) -> str:
    """Draw one part of a vehicle, its points in px."""
    match shape.part:
        case "body" | "cab" | "frame" | "drawbar":
            return svg.polygon(shape.points, fill=palette.body, line=palette.line, px=2)
        case "wheel":
            return svg.polygon(shape.points, fill=palette.line)
    return svg.polygon(shape.points, line=palette.line, px=1.5)


def _cut(plan_picture: PlanPicture, first: Point, last: Point, palette: Palette) -> Iterator[str]:
    """A zigzag a little wider than the vehicle, over its cut end; what lies beyond is covered."""
    corners = [point for shape in plan_picture.shapes for point in shape.points]
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
    yield svg.polygon([*zigzag, at(1, -2), at(0, -2)], fill=palette.card)
    yield svg.polyline(zigzag, line=palette.line, px=2)


def _middle(points: list[Point]) -> Point:
    xs, ys = zip(*points, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def _unit(start: Point, end: Point) -> Point:
    length = dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def _figure(middle: Point, height: float, palette: Palette) -> Iterator[str]:
    """A standing figure: a head, and a body with round shoulders."""
    x, y = middle
    head, shoulder = 0.19 * height, 0.26 * height
    top, neck = y - height / 2, y - 0.07 * height
    yield svg.circle((x, top + head), head, fill=palette.accent)
    size = 2 * shoulder, y + height / 2 - neck
    yield svg.rectangle((x - shoulder, neck), size, fill=palette.accent, radius=0.6 * shoulder)


def _label(label: Label, palette: Palette) -> Iterator[str]:
    color = palette.accent if label.you else palette.quiet_ink
    yield svg.text(label.text, label.center, TEXT, fill=color)
    if label.arrow is not None:
        (x, y), (dx, dy) = label.arrow, label.pointing
        tip = x + 6 * dx, y + 6 * dy
        base = [(x - 5 * dx + 7 * s * dy, y - 5 * dy + 7 * s * dx) for s in (1, -1)]
        yield svg.polygon([tip, *base], fill=color)
