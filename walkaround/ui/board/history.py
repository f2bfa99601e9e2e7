"""How the holds, strokes and defects of one vehicle went from walk to walk."""

from __future__ import annotations

import asyncio
import logging

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.base.message import Quantity
from walkaround.board.history import Series, StepHistory, series_of, step_histories
from walkaround.board.trend import trend_of
from walkaround.drawing.paper.history import HistoryWords, ValuesOverTime, history_svg
from walkaround.ui.kit.parts import card, page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, QUIET, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.vehicle.model import Vehicle
from walkaround.walk.advance import fold
from walkaround.walk.state import Walk
from walkaround.words.air_hold import gauge_name

MOST_WALKS = 40
"""How many of the latest walks are read."""
_HIGH_PX, _MOST_PX = 210.0, 22.0
"""Height of a chart, and the largest size of the words in it."""
_DAY_S = 86400.0
log = logging.getLogger(__name__)
_Read = tuple[tuple[Series, ...], tuple[StepHistory, ...]]


@screen
def history_screen(view: View, vehicle: Vehicle) -> ft.Control:
    """Show a chart for each set-up, then the defects."""
    words = view.words
    nothing: _Read | None = None
    read, show = ft.use_state(nothing)

    async def load() -> None:
        walks = await asyncio.to_thread(_walks, view, vehicle.id)
        show((series_of(walks), step_histories(walks)))

    effect(view, load)
    body: list[ft.Control] = []
    if read is None:
        body.append(label(words("history-reading")))
    else:
        series, stories = read
        body.append(label(words("history-latest", count=MOST_WALKS), QUIET, SMALL))
        body += [heading(words("history-values"))] if series else []
        body += [_chart(view, each) for each in series]
        body.append(heading(words("history-defects")))
        body += [_story(view, story) for story in stories]
        if not stories:
            body.append(label(words("history-no-defect")))
    top = top_bar(words, vehicle.name, back=view.to(f"/vehicle/{vehicle.id}"))
    return page_column(top, body)


def _walks(view: View, vehicle_id: str) -> list[Walk]:
    """Read the latest walks of a vehicle, in order; they do not stay in memory."""
    store, walks = view.parts.store, []
    lines = [line for line in store.overview().lines if line.vehicle == vehicle_id]
    for line in reversed(lines[:MOST_WALKS]):
        try:
            walks.append(fold(store.read(line.id).events))
        except WalkaroundError as error:
            log.warning("the history goes without %s: %s", line.id, error)
    return walks


def _chart(view: View, series: Series) -> ft.Control:
    words, points = view.words, series.values
    xs = [point.at.timestamp() / _DAY_S for point in points]
    ys = [point.value for point in points]
    trend = trend_of(xs, ys)
    unit = "psi_per_min" if series.what == "hold" else "in"
    limit = "" if series.limit is None else words.quantity(_quantity(series.limit, unit))
    spoken_label = words(
        "history-told",
        values=tuple(words.quantity(_quantity(point, unit)) for point in ys),
        limit=limit or words("history-no-limit"),
    )
    over = ValuesOverTime(
        xs,
        ys,
        [(point.low, point.high) for point in points],
        list(zip(*trend, strict=True)) if trend else (),
        series.limit,
    )
    days = [f"{point.at.astimezone():%Y-%m-%d}" for point in (points[0], points[-1])]
    legend = words("history-limit", limit=limit) if limit else ""
    wide = view.device.column_px - 24 - 34
    text_px = min(_MOST_PX, SMALL * view.device.text_scale)
    chart_words = HistoryWords(spoken_label, legend, *days)
    picture = history_svg(over, chart_words, wide, _HIGH_PX, view.palette, text_px)
    title = words.text(series.title)
    if series.what == "hold":
        title = words("history-of-gauge", step=title, gauge=gauge_name(series.line))
    rows: list[ft.Control] = [
        label(title, bold=True),
        label(_setup(view, series), QUIET, SMALL),
        ft.Image(src=picture, width=wide, height=_HIGH_PX, semantics_label=spoken_label),
    ]
    rows += [label(words("history-line"), QUIET, SMALL)] if trend else []
    return card(ft.Column(rows, spacing=4))


def _setup(view: View, series: Series) -> str:
    words = view.words
    if series.what == "stroke":
        return words("history-stroke")
    step = words.quantity(Quantity(value=series.step, unit="psi"))
    return words(f"history-air-{series.air}", step=step)


def _quantity(value: float, unit: str) -> Quantity:
    return Quantity.model_validate({"value": value, "unit": unit})


def _story(view: View, story: StepHistory) -> ft.Control:
    words = view.words
    rows: list[ft.Control] = [label(words.text(story.title), bold=True)]
    for event in story.events:
        line = words(
            f"history-{event.kind}", day=f"{event.at.astimezone():%Y-%m-%d}", who=event.who
        )
        bad = event.kind in ("found", "back")
        rows.append(label(line, BAD if bad else None, SMALL, bold=event.kind == "back"))
    return card(ft.Column(rows, spacing=2))
