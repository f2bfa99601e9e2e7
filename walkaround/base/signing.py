"""Signatures: what people sign for, and the strokes that a finger drew, thinned to few points."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

SignedFor = Literal[
    "walked", "tag_placed", "tag_lifted", "repaired", "brakes", "drivers_repaired",
    "drivers_unnecessary",
]  # fmt: skip
"""What a person answers for by name; at last, what became of a driver's report."""

WIDE, HIGH = 1000, 400
"""A field to draw in: how many units it has across and down."""
MOST_POINTS, MOST_STROKES = 100, 24
"""The most points of a stroke, and the most strokes of a drawing."""

Point: TypeAlias = tuple[Annotated[int, Field(ge=0, le=WIDE)], Annotated[int, Field(ge=0, le=HIGH)]]
"""Units from the left, and from the top."""
Stroke: TypeAlias = Annotated[tuple[Point, ...], Field(min_length=1, max_length=MOST_POINTS)]
"""From touch to lift."""
Strokes: TypeAlias = Annotated[tuple[Stroke, ...], Field(max_length=MOST_STROKES)]


def within_field(x: float, y: float) -> tuple[int, int]:
    """Bring a point, in units, into the field."""
    return min(max(round(x), 0), WIDE), min(max(round(y), 0), HIGH)


def thin_points(
    points: Sequence[tuple[int, int]], most: int = MOST_POINTS
) -> tuple[tuple[int, int], ...]:
    """Leave out what shows least of a stroke, until it has no more than `most` points.

    Visvalingam and Whyatt (Cartographic Journal 30, 1993): the point that makes the smallest
    triangle with its neighbors goes first. Ends stay.
    """
    remaining = list(points)
    while len(remaining) > most:
        areas = [
            abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]))
            for a, b, c in zip(remaining, remaining[1:], remaining[2:], strict=False)
        ]
        del remaining[1 + areas.index(min(areas))]
    return tuple(remaining)
