"""The chart of one gauge in an air hold, for paper: readings, limit, fitted line and its bounds.

Each line has its own pattern and its word, so that none of them needs its color.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from walkaround.airhold.hold import Hold
from walkaround.drawing import svg
from walkaround.drawing.hold_chart import BOTTOM_PX, TOP_PX, HoldChart, hold_chart
from walkaround.drawing.palette import LIGHT
from walkaround.drawing.svg import Point
from walkaround.rules.limits import Line

TEXT_PX = 12.0
_ROW_PX = 16.0
"""Height of the title, and of the key below it."""
_DOT_PX = 4.0
_DASHES, _LIMIT_PX, _FITTED_PX = (7.0, 4.0), 2.5, 1.5
_FAN_INK = "#D5DBE8"


@dataclass(frozen=True, slots=True)
class ChartWords:
    """The words written on a chart.

    Attributes:
        description: all of it in words, for screen readers.
        title: which gauge, in which unit.
        limit, fitted: the two lines.
    """

    description: str
    title: str
    limit: str
    fitted: str


def hold_svg(hold: Hold, line: Line, words: ChartWords, width_px: float, height_px: float) -> str:
    """Draw the chart of one gauge of an ended hold in a box of this size."""
    assessment = hold.results().get(line)
    above = 2 * _ROW_PX - TOP_PX / 2
    chart = hold_chart(hold, line, assessment, hold.ended_s, width_px, height_px - above)
    return svg.document(
        width_px, height_px, words.description, _pieces(_moved_down(chart, above), words)
    )


def _moved_down(chart: HoldChart, by_px: float) -> HoldChart:
    """Return the same chart further down, so that its title stands above it."""

    def down(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((x, y + by_px) for x, y in points)

    limit_from, limit_to = down(chart.limit)
    fitted = down(chart.fitted) if chart.fitted else ()
    return HoldChart(
        left=chart.left,
        top=chart.top + by_px,
        right=chart.right,
        bottom=chart.bottom + by_px,
        points=down(chart.points),
        limit=(limit_from, limit_to),
        fitted=(fitted[0], fitted[1]) if fitted else None,
        fan=down(chart.fan),
        times=chart.times,
        pressures=tuple(
            type(tick)(at_px=tick.at_px + by_px, label=tick.label) for tick in chart.pressures
        ),
    )


def _pieces(chart: HoldChart, words: ChartWords) -> Iterator[str]:
    """Everything in the chart, from the bottom up."""
    left, right, bottom = chart.left, chart.right, chart.bottom
    if chart.fan:
        yield svg.polygon(chart.fan, fill=_FAN_INK, line=LIGHT.line, px=0.75)
    for tick in chart.pressures:
        yield svg.polyline([(left - 4, tick.at_px), (left, tick.at_px)], line=LIGHT.ink, px=1)
        yield _words(tick.label, (left - 7, tick.at_px), "end")
    for tick in chart.times:
        yield svg.polyline([(tick.at_px, bottom), (tick.at_px, bottom + 4)], line=LIGHT.ink, px=1)
        yield _words(f"{tick.label} s", (tick.at_px, bottom + BOTTOM_PX / 2 + 2), "middle")
    yield svg.polyline([(left, chart.top), (left, bottom), (right, bottom)], line=LIGHT.ink, px=1.5)
    if chart.fitted:
        yield svg.polyline(chart.fitted, line=LIGHT.ink, px=_FITTED_PX)
    yield svg.polyline(chart.limit, line=LIGHT.ink, px=_LIMIT_PX, dashes=_DASHES)
    for point in chart.points:
        yield svg.circle(point, _DOT_PX + 1, fill=LIGHT.card)
        yield svg.circle(point, _DOT_PX, fill=LIGHT.ink)
    yield _words(words.title, (2, _ROW_PX / 2), "start")
    # The key, below the title: each line as it is drawn, and its word.
    x, y = left, 1.5 * _ROW_PX
    keys: list[tuple[str, tuple[float, ...], float]] = [(words.limit, _DASHES, _LIMIT_PX)]
    if chart.fitted:
        keys.append((words.fitted, (), _FITTED_PX))
    for word, dashes, px in keys:
        yield svg.polyline([(x, y), (x + 24, y)], line=LIGHT.ink, px=px, dashes=dashes)
        yield _words(word, (x + 29, y), "start")
        x += 29 + len(word) * TEXT_PX * 0.7 + 12


def _words(text: str, at: Point, anchor: svg.Anchor) -> str:
    return svg.text(text, at, TEXT_PX, fill=LIGHT.ink, anchor=anchor)
