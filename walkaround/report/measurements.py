"""The blocks of the page on measurements: air holds with charts, strokes by wheel end, limits."""

from __future__ import annotations

from collections.abc import Iterator

from walkaround.drawing.paper.hold import ChartWords, hold_svg
from walkaround.drawing.paper.vehicle import PlaceLabel, strokes_svg
from walkaround.plan.steps import WHEEL_END, Step
from walkaround.report.checked_items import SHARES
from walkaround.report.contents import Block, Prose, ReportPicture, Table
from walkaround.report.walk_texts import result_text
from walkaround.walk.chambers import ends_of
from walkaround.walk.measured_values import judge_value
from walkaround.walk.state import Walk
from walkaround.words.air_hold import all_readings_words, also_words, gauge_name, reading_words
from walkaround.words.chambers import chambers_text
from walkaround.words.language import Words
from walkaround.words.leak import leak_text
from walkaround.words.measured_values import (
    apart_text,
    bounds_text,
    limit_text,
    outcome_text,
    strokes_apart,
    value_text,
)

_CHART_PX = (310.0, 165.0)
_CHARTS_IN_A_ROW = 3
_STROKES_SHARE = 0.85


def hold_blocks(walk: Walk, words: Words) -> Iterator[Block]:
    """Make the charts of all air holds, then the table of their results and readings."""
    assert walk.plan is not None
    holds = [(step, walk.holds[step.id]) for step in walk.steps if step.id in walk.holds]
    for step, hold in holds:
        for line in hold.rule.gauges:
            readings_of_line = [reading for reading in hold.readings if reading.gauge == line]
            if not readings_of_line or hold.void:
                continue
            gauge = hold.gauge(line)
            gauge_text = words.text(gauge_name(line))
            readings = reading_words(readings_of_line, gauge, words)
            title = words("chart-title", gauge=gauge_text, unit=gauge.unit)
            chart = ChartWords(
                description=words("chart-of", gauge=gauge_text, unit=gauge.unit, readings=readings),
                title=words("report-chart", step=step.title, chart=title),
                limit=words("chart-limit"),
                fitted=words("report-chart-fitted"),
            )
            yield ReportPicture(hold_svg(hold, line, chart, *_CHART_PX), 1 / _CHARTS_IN_A_ROW)
    rows = []
    for step, hold in holds:
        sentences = [
            result_text(walk, hold, words) or words("summary-no-result"),
            leak_text(hold, walk.plan, words, walk.altitude_m),
        ]
        if hold.readings:
            sentences.append(words("report-readings", readings=all_readings_words(hold, words)))
        rows.append((words.text(step.title), " ".join(filter(None, sentences))))
    if rows:
        yield Table(("", ""), SHARES, tuple(rows), strong=frozenset({0}))


def stroke_blocks(walk: Walk, words: Words) -> Iterator[Block]:
    """Make the plan of the strokes, and a paragraph on uneven axles and on chambers."""
    assert walk.plan is not None
    steps = [step for step in walk.steps if _wheel_end(step)]
    if not any(step.id in walk.answers for step in steps):
        return
    labels = [_stroke_label(walk, step, words) for step in steps]
    strokes_text = "; ".join(
        words("report-stroke-told", step=step.title, stroke=words.row(label.lines))
        for step, label in zip(steps, labels, strict=True)
    )
    picture = strokes_svg(
        walk.plan, labels, words("report-strokes-told", strokes=strokes_text), words.text
    )
    yield ReportPicture(picture, _STROKES_SHARE)
    yield Prose(words("report-strokes-key"), "quiet")
    lines = [apart_text(apart, words) for apart in strokes_apart(walk) if apart.much]
    lines += [
        words(
            "report-chambers",
            step=step.title,
            chambers="; ".join(chambers_text(walk, ends_of(step), words)),
        )
        for step in walk.steps
        if step.kind == "chambers" and step.id in walk.answers
    ]
    if lines:
        yield Prose("\n".join(lines))


def other_values(walk: Walk, words: Words) -> Iterator[Block]:
    """Make the table of measured values other than strokes, each with its limit."""
    rows = []
    for step in walk.steps:
        measured = walk.measured.get(step.id, {})
        if step.measure and not _wheel_end(step) and measured:
            rows.append((words.text(step.title), outcome_text(step.measure, measured, words)))
    if rows:
        yield Table(("", ""), SHARES, tuple(rows))


def limits(walk: Walk, words: Words) -> list[tuple[str, str]]:
    """List each limit of measured values once, with its source and other published limits.

    Returns:
        The titles of the steps, and the limit. The limit of an air hold is shown with the hold, so
        only other published limits of it are listed.
    """
    titles_by_limit: dict[str, list[str]] = {}
    for step in walk.steps:
        title = words("report-strokes") if _wheel_end(step) else words.text(step.title)
        if step.id in walk.holds and step.hold:
            limit = also_words(step.hold, words)
        elif step.measure and walk.measured.get(step.id):
            limit = limit_text(step.measure, words)
            if step.measure.also:
                also = "; ".join(map(words.text, step.measure.also))
                limit = f"{limit} {words('measure-also', also=also)}"
        else:
            continue
        if limit and title not in titles_by_limit.setdefault(limit, []):
            titles_by_limit[limit].append(title)
    return [("; ".join(titles), limit) for limit, titles in titles_by_limit.items()]


def _wheel_end(step: Step) -> str:
    """Return the wheel end whose pushrod stroke a step measures; empty for another step."""
    places = {item.place for item in step.items}
    if step.measure is None or step.measure.quantity != "in" or len(places) != 1:
        return ""
    place = next(iter(places))
    return place if WHEEL_END.fullmatch(place) else ""


def _stroke_label(walk: Walk, step: Step, words: Words) -> PlaceLabel:
    """Make the label of one wheel end: stroke, limit, result."""
    assert step.measure is not None
    readings = walk.measured.get(step.id, {})
    value = step.measure.values[0]
    reading = readings.get(value.id)
    if reading is None:
        return PlaceLabel(_wheel_end(step), (words("report-stroke-unmeasured"),), loud=False)
    result = judge_value(step.measure, value, readings)
    lines = [
        value_text(reading),
        bounds_text(step.measure, value, reading.unit, words),
        words(f"judged-{result}"),
    ]
    return PlaceLabel(
        _wheel_end(step), tuple(filter(None, lines)), loud=result in ("over", "under")
    )
