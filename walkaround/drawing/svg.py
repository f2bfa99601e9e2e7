"""The pieces of a picture in SVG 1.1, as text, and the document around them.

A document stands alone: it names no font but the generic one and no style sheet, so that a page,
a record and a printer draw the same. Lengths are px. Only what every renderer draws alike is used:
no `dominant-baseline`, no style sheet, no script.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from math import cos, sin
from typing import Literal
from xml.sax.saxutils import escape

Point = tuple[float, float]
"""x to the right and y down from the left upper corner, px; on a vehicle mm, x to its rear."""

_NO_XML = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Characters that no XML document may hold (XML 1.0, 2.2)."""
Anchor = Literal["start", "middle", "end"]
"""Which part of a text stands at its point."""

_FOR_ALL = (
    'font-family="sans-serif" font-weight="700" text-anchor="middle" '
    'stroke-linejoin="round" stroke-linecap="round"'
)
"""What every piece of a document inherits."""
_HALF_CAPITAL = 0.36
"""How far the middle of a capital or figure lies above its base line, in sizes of the text."""


def document(width: float, height: float, title: str, pieces: Iterable[str]) -> str:
    """Put the pieces of a picture into one document; `title` says in words what it shows."""
    size = f'width="{_px(width)}" height="{_px(height)}"'
    box = f'viewBox="0 0 {_px(width)} {_px(height)}"'
    start = f'<svg xmlns="http://www.w3.org/2000/svg" {size} {box} role="img"'
    return f"{start} {_FOR_ALL}><title>{_written(title)}</title>{''.join(pieces)}</svg>"


def circle(center: Point, radius: float, *, fill: str = "", line: str = "", px: float = 0) -> str:
    """Draw a circle, filled, outlined `px` wide, or both."""
    at = f'cx="{_px(center[0])}" cy="{_px(center[1])}" r="{_px(radius)}"'
    return f"<circle {at}{_paint(fill, line, px)}/>"


def rectangle(
    corner: Point, size: Point, *, fill: str, radius: float = 0, line: str = "", px: float = 0
) -> str:
    """Draw a rectangle from its top left corner; its own corners may be round."""
    at = f'x="{_px(corner[0])}" y="{_px(corner[1])}"'
    extent = f'width="{_px(size[0])}" height="{_px(size[1])}"'
    rounded = f' rx="{_px(radius)}"' if radius else ""
    return f"<rect {at} {extent}{rounded}{_paint(fill, line, px)}/>"


def polygon(
    points: Sequence[Point], *, fill: str = "", line: str = "", px: float = 0, opacity: float = 1
) -> str:
    """Draw a closed shape."""
    shape = f'<polygon points="{_points(points)}"{_paint(fill, line, px)}'
    return f'{shape} fill-opacity="{opacity:g}"/>' if opacity < 1 else f"{shape}/>"


def polyline(points: Sequence[Point], *, line: str, px: float, dashes: Sequence[float] = ()) -> str:
    """Draw a line through these points; `dashes` gives px drawn and left out in turn."""
    dashed = f' stroke-dasharray="{" ".join(map(_px, dashes))}"' if dashes else ""
    return f'<polyline points="{_points(points)}"{_paint("", line, px)}{dashed}/>'


def sector(center: Point, radius: float, start: float, sweep: float, *, fill: str) -> str:
    """Fill a slice of a disc of less than a turn; angles in radians, clockwise from the right."""
    (x, y), ends = center, (start, start + sweep)
    (x0, y0), (x1, y1) = ((x + radius * cos(a), y + radius * sin(a)) for a in ends)
    large = int(sweep > 3.1416)
    arc = f"A{_px(radius)} {_px(radius)} 0 {large} 1 {_px(x1)} {_px(y1)}"
    return f'<path d="M{_px(x)} {_px(y)}L{_px(x0)} {_px(y0)}{arc}Z" fill="{fill}"/>'


def lines(ends: Iterable[tuple[Point, Point]], *, line: str, px: float) -> str:
    """Draw straight lines, each from one point to another."""
    path = "".join(f"M{_px(a)} {_px(b)}L{_px(c)} {_px(d)}" for (a, b), (c, d) in ends)
    return f'<path d="{path}" fill="none" stroke="{line}" stroke-width="{_px(px)}"/>'


def text(
    words: str,
    middle: Point,
    size: float,
    *,
    fill: str,
    anchor: Anchor = "middle",
) -> str:
    """Write words in bold around a point, or from it or up to it."""
    at = f'x="{_px(middle[0])}" y="{_px(middle[1] + _HALF_CAPITAL * size)}"'
    at += "" if anchor == "middle" else f' text-anchor="{anchor}"'
    return f'<text {at} font-size="{_px(size)}" fill="{fill}">{_written(words)}</text>'


def _written(text: str) -> str:
    """A text as XML may hold it; what it may not hold reads as unknown."""
    return escape(_NO_XML.sub("\ufffd", text))


def _paint(fill: str, line: str, px: float) -> str:
    inside = f' fill="{fill or "none"}"'
    if not line:
        return inside
    return f'{inside} stroke="{line}" stroke-width="{_px(px)}"'


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{_px(x)},{_px(y)}" for x, y in points)


def _px(length: float) -> str:
    """A length to a tenth of a px."""
    return f"{round(length, 1) + 0.0:.1f}".removesuffix(".0")
