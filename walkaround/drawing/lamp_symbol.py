"""How a lamp is drawn: lit, flashing or dark by its shape, so that color only adds to it.

A steady lamp has rays all round, a flashing one arcs on both sides, a dark one is a hollow ring, a
dim one a ring with a rim of its color.
What never shines, a reflector or a strip of tape, is square.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin
from typing import Literal, NamedTuple

from walkaround.drawing import svg
from walkaround.drawing.palette import Palette
from walkaround.drawing.svg import Point
from walkaround.plan.steps import Look

RING = 2.0
"""Width of the line round a lamp, px."""
_RING_GAP = 1.25
_GAP = 2.5
"""Clear distance between a lamp and its rays or arcs, px."""
_RAYS, _RAY_PX = 8, 3.0
_LEAST_TEXT_PX = 16.0
_ARC_HALF = pi / 4
_EDGE_SHARE = 0.27
"""How wide the color along the edge of a square is, in radii."""
_DIM_RIM_SHARE = 0.18
"""How wide the rim of color of a dim lamp is, in radii."""
_BAR_SHARE = 1.5
"""Half the length of a strip of tape, in radii."""

Shown = Look | Literal["dim", "dim_flashing"]
"""How a lamp is drawn: as it should look, or as it does where it is dim."""


class Symbol(NamedTuple):
    """A numbered place as it is drawn.

    Attributes:
        color: of the lamp as rules word it; "" of what is no lamp.
        look: steady, flashing or dark, or dim; None of what shines not by itself.
        square: a reflector; flat: a strip of tape.
        radius: of the disc; reach: room around it for rays, px.
    """

    number: int
    color: str
    center: Point
    radius: float
    reach: float = 0.0
    look: Shown | None = None
    square: bool = False
    flat: bool = False


def symbol_svg(symbol: Symbol, palette: Palette) -> Iterator[str]:
    """Draw a place with its number."""
    ink = palette.ink
    if symbol.flat or symbol.square:
        yield from _square(symbol, palette)
    elif symbol.look == "dark":
        yield svg.circle(symbol.center, symbol.radius - 1, fill=palette.card, line=ink, px=RING)
    else:
        yield from ring_svg(symbol.center, symbol.radius, symbol.color, palette)
        ink = palette.on_lamp if palette.lamp(symbol.color) else palette.on_accent
    if symbol.look in ("dim", "dim_flashing"):
        yield from _dimmed(symbol, palette)
        ink = palette.ink
    if symbol.look == "steady" and symbol.reach > _GAP:
        yield svg.lines(_rays(symbol), line=palette.ink, px=_RAY_PX)
    elif symbol.look in ("flashing", "dim_flashing") and symbol.reach > _GAP:
        for arc in _arcs(symbol):
            yield svg.polyline(arc, line=palette.ink, px=_RAY_PX)
    yield svg.text(str(symbol.number), symbol.center, number_px(symbol), fill=ink)


def number_px(symbol: Symbol) -> float:
    """Give the size of a place's number."""
    return max(_LEAST_TEXT_PX, 1.2 * symbol.radius)


def _dimmed(symbol: Symbol, palette: Palette) -> Iterator[str]:
    """A lamp that is dim: dark inside, with a thin rim of its color."""
    inner = symbol.radius - RING - _RING_GAP - _DIM_RIM_SHARE * symbol.radius
    yield svg.circle(symbol.center, inner, fill=palette.card)


def ring_svg(at: Point, radius: float, color: str, palette: Palette) -> Iterator[str]:
    """Draw a lamp color in a ring, with a gap between, so that a white lamp too shows its ring.

    A lamp of two colors is half and half; wheels have no color of their own.
    """
    yield svg.circle(at, radius - RING / 2, fill=palette.card, line=palette.ink, px=RING)
    colors, inner = (palette.lamp(color) or (palette.accent,))[:2], radius - RING - _RING_GAP
    if len(colors) == 1:
        yield svg.circle(at, inner, fill=colors[0])
        return
    for number, half in enumerate(colors):
        yield svg.sector(at, inner, pi / 2 + number * pi, pi, fill=half)


def _square(symbol: Symbol, palette: Palette) -> Iterator[str]:
    """A reflector or a strip of tape, with its color along the edge and its number inside."""
    (x, y), high = symbol.center, 0.88 * symbol.radius
    wide = _BAR_SHARE * symbol.radius if symbol.flat else high
    color = (*palette.lamp(symbol.color), palette.card)[0]
    box = 2 * wide, 2 * high
    yield svg.rectangle((x - wide, y - high), box, fill=color, radius=3, line=palette.ink, px=RING)
    edge = _EDGE_SHARE * symbol.radius
    inside = 2 * (wide - edge), 2 * (high - edge)
    yield svg.rectangle((x - wide + edge, y - high + edge), inside, fill=palette.card)


def _rays(symbol: Symbol) -> Iterator[tuple[Point, Point]]:
    (x, y), inner = symbol.center, symbol.radius + _GAP
    outer = symbol.radius + symbol.reach
    for turn in range(_RAYS):
        across, down = cos(2 * pi * turn / _RAYS), sin(2 * pi * turn / _RAYS)
        yield (x + inner * across, y + inner * down), (x + outer * across, y + outer * down)


def _arcs(symbol: Symbol) -> Iterator[list[Point]]:
    """An arc on the left and one on the right."""
    (x, y), distance = symbol.center, symbol.radius + symbol.reach - _RAY_PX / 2
    for middle in (0.0, pi):
        turns = [middle + _ARC_HALF * part / 4 for part in range(-4, 5)]
        yield [(x + distance * cos(turn), y + distance * sin(turn)) for turn in turns]
