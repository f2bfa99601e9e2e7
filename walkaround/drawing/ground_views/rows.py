"""Lamps in rows, as the eye finds them: as large as they fit, and pushed apart where they crowd."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from walkaround.drawing.frame import DISC_RADIUS, MARGIN
from walkaround.drawing.lamp_symbol import Symbol
from walkaround.drawing.picture import spread_apart
from walkaround.drawing.svg import Point
from walkaround.drawing.vehicle_plan import PlacedMark

REACH = 8.0
"""Room for the rays of a lamp, px."""
_LEAST_RADIUS = 11.5
_APART, _WELL_APART = 2.0, 8.0
"""Clear distance between rays of two lamps where they crowd, and where there is room, px."""
TAPPED_PX = 46.0
"""Lamps stand so far apart, where there is room, that a thumb hits one (44 px: WCAG 2.2, 2.5.5)."""
SIDE_PX = MARGIN + DISC_RADIUS + REACH
"""How near the edge of the picture the middle of a lamp may be."""


class SeenLamp(NamedTuple):
    """A numbered place as it is drawn, and the room around it that is nearer to it than to others.

    Attributes:
        mark: id of its mark.
        symbol: how it is drawn.
        room: width and height of that room, px.
    """

    mark: str
    symbol: Symbol
    room: Point


def in_row(
    places: Sequence[tuple[float, PlacedMark]], width: float, middle: float, row_px: float
) -> Iterator[SeenLamp]:
    """Put the places of one row side by side.

    Args:
        places: where each would be across the picture, px, and the place.
        width: of the picture; middle, row_px: where the row is, and how high.
    """
    if not places:
        return
    gap = (width - 2 * SIDE_PX) / max(1, len(places) - 1)
    radius = min(DISC_RADIUS, row_px / 2 - REACH, (gap - _APART) / 2 - REACH)
    radius = max(_LEAST_RADIUS, radius)
    reach = max(0.0, min(REACH, row_px / 2 - radius, (gap - _APART) / 2 - radius))
    ordered_places = sorted(
        ((x, place.number, place) for x, place in places), key=lambda each: each[:2]
    )
    apart = min(gap, max(2 * (radius + reach) + _WELL_APART, min(gap, TAPPED_PX)))
    at = spread_apart([x for x, _, _ in ordered_places], apart, SIDE_PX, width - SIDE_PX)
    edges = [0.0, *((one + other) / 2 for one, other in pairwise(at)), width]
    for n, (x, (_, _, place)) in enumerate(zip(at, ordered_places, strict=True)):
        across = 2 * min(x - edges[n], edges[n + 1] - x)
        symbol = Symbol(
            place.number,
            place.color,
            (x, middle),
            radius,
            reach,
            look=place.look,
            square=place.kind == "reflector",
            flat=place.kind == "tape",
        )
        yield SeenLamp(place.id, symbol, (across, row_px))
