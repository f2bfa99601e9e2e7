"""A sheet of 240 by 140 units that a line drawing is drawn on, laid as large as fits into a box."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

from walkaround.drawing import svg
from walkaround.drawing.palette import Palette
from walkaround.drawing.svg import Point

WIDE, HIGH = 240.0, 140.0
_LINE = 2.4
_ARC_PARTS = 40


class LineSheet:
    """The pieces of one drawing, in units from the top left corner.

    Attributes:
        palette: its colors; parts are `body` with `line` around, what matters is `accent`.
        pieces: what was drawn so far, from the bottom up.
    """

    def __init__(self, palette: Palette, width: float, height: float) -> None:
        """Lay the sheet into a box of this size, px."""
        self.palette, self.pieces = palette, list[str]()
        self._scale = min(width / WIDE, height / HIGH)
        self._left = (width - WIDE * self._scale) / 2
        self._top = (height - HIGH * self._scale) / 2

    def _at(self, point: Point) -> Point:
        return self._left + point[0] * self._scale, self._top + point[1] * self._scale

    def box(
        self, corner: Point, size: Point, *, fill: str = "", radius: float = 2, strong: bool = False
    ) -> None:
        """Draw a part with square corners, a little rounded."""
        wide, high = size[0] * self._scale, size[1] * self._scale
        self.pieces.append(
            svg.rectangle(
                self._at(corner),
                (wide, high),
                fill=fill or self.palette.body,
                radius=radius * self._scale,
                line=self._ink(strong),
                px=_LINE * self._scale,
            )
        )

    def disc(self, center: Point, radius: float, *, fill: str = "", strong: bool = False) -> None:
        """Draw a round part."""
        self.pieces.append(
            svg.circle(
                self._at(center),
                radius * self._scale,
                fill=fill or self.palette.body,
                line=self._ink(strong),
                px=_LINE * self._scale,
            )
        )

    def shape(self, points: Sequence[Point], *, fill: str = "", strong: bool = False) -> None:
        """Draw a part of any outline."""
        self.pieces.append(
            svg.polygon(
                [self._at(point) for point in points],
                fill=fill or self.palette.body,
                line=self._ink(strong),
                px=_LINE * self._scale,
            )
        )

    def line(
        self, points: Sequence[Point], *, strong: bool = False, wide: float = _LINE, color: str = ""
    ) -> None:
        """Draw a line through these points."""
        line_color = color or self._ink(strong)
        at = [self._at(point) for point in points]
        self.pieces.append(svg.polyline(at, line=line_color, px=wide * self._scale))

    def arc(
        self, center: Point, radius: float, start: float, end: float, *, wide: float, color: str
    ) -> None:
        """Draw a part of a circle, degrees clockwise from the right."""
        turns = [radians(start + (end - start) * n / _ARC_PARTS) for n in range(_ARC_PARTS + 1)]
        x, y = center
        points = [(x + radius * cos(a), y + radius * sin(a)) for a in turns]
        self.line(points, wide=wide, color=color)

    def arrow(self, start: Point, end: Point) -> None:
        """Draw an arrow in the color of what matters."""
        (x0, y0), (x1, y1) = start, end
        length = max(1e-6, ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)
        dx, dy = (x1 - x0) / length, (y1 - y0) / length
        back = x1 - 8 * dx, y1 - 8 * dy
        self.line([start, back], strong=True)
        head = [end, (back[0] + 5 * dy, back[1] - 5 * dx), (back[0] - 5 * dy, back[1] + 5 * dx)]
        at = [self._at(point) for point in head]
        self.pieces.append(svg.polygon(at, fill=self.palette.accent))

    def word(self, text: str, middle: Point, size: float = 12) -> None:
        """Write a number or a unit; no words, which would need a language."""
        at = self._at(middle)
        self.pieces.append(svg.text(text, at, size * self._scale, fill=self.palette.ink))

    def _ink(self, strong: bool) -> str:
        return self.palette.accent if strong else self.palette.ink
