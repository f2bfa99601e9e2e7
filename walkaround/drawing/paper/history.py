"""Values over time with their limit, for a screen or for paper; each line has its own pattern."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from walkaround.drawing import svg
from walkaround.drawing.palette import Palette
from walkaround.drawing.svg import Point

_LEFT, _RIGHT, _TOP, _BOTTOM = 3.7, 1.3, 2.5, 2.0
"""What is left for words around it, in sizes of its text."""
_DOT_PX = 4.0
_LIMIT_DASHES = (7.0, 4.0)
_BAND = 0.16


@dataclass(frozen=True, slots=True)
class ValuesOverTime:
    """The values drawn: `xs` in days or any unit of time, the rest in the unit of the values.

    Attributes:
        bounds: of each value itself, low and high.
        trend: the line and its bounds at each x, low and high; empty where there is none.
        limit: None where none is known.
    """

    xs: Sequence[float]
    values: Sequence[float]
    bounds: Sequence[tuple[float, float]]
    trend: Sequence[tuple[float, float, float]]
    limit: float | None


@dataclass(frozen=True, slots=True)
class HistoryWords:
    """The words written: for screen readers, at the limit, on the first and the last day."""

    description: str
    limit: str
    first: str
    last: str


def history_svg(
    over: ValuesOverTime,
    words: HistoryWords,
    width: float,
    height: float,
    look: Palette,
    text_px: float = 16.0,
) -> str:
    """Draw values over time in a box of this size, px, with words of this one."""
    pieces = _pieces(over, words, width, height, look, text_px)
    return svg.document(width, height, words.description, pieces)


def _pieces(
    over: ValuesOverTime,
    words: HistoryWords,
    width: float,
    height: float,
    look: Palette,
    text_px: float,
) -> Iterator[str]:
    left, right = _LEFT * text_px, width - _RIGHT * text_px
    top, bottom = _TOP * text_px, height - _BOTTOM * text_px
    heights = [*over.values, *(each for pair in over.bounds for each in pair), 0.0]
    heights += [over.limit] if over.limit is not None else []
    heights += [each for row in over.trend for each in row]
    low, high = min(heights), max(heights) * 1.08 + 0.01
    span = over.xs[-1] - over.xs[0] or 1.0
    first = over.xs[0] if over.xs[-1] > over.xs[0] else over.xs[0] - 0.5

    def at(x: float, value: float) -> Point:
        share = (x - first) / span
        return (
            left + 8 + share * (right - left - 16),
            bottom - (value - low) / (high - low) * (bottom - top),
        )

    if over.trend:
        ups = [at(x, row[2]) for x, row in zip(over.xs, over.trend, strict=True)]
        downs = [at(x, row[1]) for x, row in zip(over.xs, over.trend, strict=True)]
        yield svg.polygon([*ups, *reversed(downs)], fill=look.ink, opacity=_BAND)
        line = [at(x, row[0]) for x, row in zip(over.xs, over.trend, strict=True)]
        yield svg.polyline(line, line=look.ink, px=1.5)
    yield svg.polyline([(left, top), (left, bottom), (right, bottom)], line=look.ink, px=1.5)
    for value in (low, (low + high) / 2, high / 1.08):
        y = at(over.xs[0], value)[1]
        yield svg.polyline([(left - 4, y), (left, y)], line=look.ink, px=1)
        yield svg.text(f"{value:.1f}", (left - 7, y), text_px, fill=look.ink, anchor="end")
    if over.limit is not None:
        y = at(over.xs[0], over.limit)[1]
        yield svg.polyline([(left, y), (right, y)], line=look.ink, px=2.5, dashes=_LIMIT_DASHES)
        yield svg.text(words.limit, (left, top / 2), text_px, fill=look.ink, anchor="start")
    for x, value, (down, up) in zip(over.xs, over.values, over.bounds, strict=True):
        if up > down:
            yield svg.polyline([at(x, down), at(x, up)], line=look.ink, px=1)
        yield svg.circle(at(x, value), _DOT_PX, fill=look.ink)
    y = bottom + _BOTTOM * text_px / 2 + 2
    yield svg.text(words.first, (left, y), text_px, fill=look.ink, anchor="start")
    if words.last != words.first:
        yield svg.text(words.last, (right, y), text_px, fill=look.ink, anchor="end")
