"""What was measured, for the page: air holds with their charts, strokes by wheel end, limits."""

from __future__ import annotations

from collections.abc import Iterator

from walkaround.drawing.paper.hold import ChartWords, hold_svg
from walkaround.drawing.paper.vehicle import PlaceLabel, strokes_svg
from walkaround.plan.steps import WHEEL_END, Step
from walkaround.report.about import result_text
from walkaround.report.checked_items import SHARES
from walkaround.report.contents import Block, Prose, ReportPicture, Table
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
    """List the charts of all air holds, then of each what it came to and every reading."""
    assert walk.plan is not None
    holds = [(step, walk.holds[step.id]) for step in walk.steps if step.id in walk.holds]
    for step, hold in holds:
        for line in hold.rule.gauges:
            looks = [look for look in hold.readings if look.gauge == line]
            if not looks or hold.void:
                continue
            gauge = hold.gauge(line)
            named = words.text(gauge_name(line))
            readings = reading_words(looks, gauge, words)
            title = words("chart-title", gauge=named, unit=gauge.unit)
            chart = ChartWords(
                description=words("chart-of", gauge=named, unit=gauge.unit, readings=readings),
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
    """List the strokes on a plan, what chambers were read, and axles whose ends differ."""
    assert walk.plan is not None
    steps = [step for step in walk.steps if _end(step)]
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
    """Tell what was measured besides strokes, each against its limit."""
    rows = []
    for step in walk.steps:
        taken = walk.measured.get(step.id, {})
        if step.measure and not _end(step) and taken:
            rows.append((words.text(step.title), outcome_text(step.measure, taken, words)))
    if rows:
        yield Table(("", ""), SHARES, tuple(rows))


def limits(walk: Walk, words: Words) -> list[tuple[str, str]]:
    """Tell of what was measured each limit once, with where it is from, and what else there is.

    The limit of an air hold stands beside the hold.
    """
    whose: dict[str, list[str]] = {}
    for step in walk.steps:
        title = words("report-strokes") if _end(step) else words.text(step.title)
        if step.id in walk.holds and step.hold:
            limit = also_words(step.hold, words)
        elif step.measure and walk.measured.get(step.id):
            limit = limit_text(step.measure, words)
            if step.measure.also:
                also = "; ".join(map(words.text, step.measure.also))
                limit = f"{limit} {words('measure-also', also=also)}"
        else:
            continue
        if limit and title not in whose.setdefault(limit, []):
            whose[limit].append(title)
    return [("; ".join(titles), limit) for limit, titles in whose.items()]


def _end(step: Step) -> str:
    """The wheel end whose pushrod stroke this step measures; empty for any other step."""
    places = {item.place for item in step.items}
    if step.measure is None or step.measure.quantity != "in" or len(places) != 1:
        return ""
    place = next(iter(places))
    return place if WHEEL_END.fullmatch(place) else ""


def _stroke_label(walk: Walk, step: Step, words: Words) -> PlaceLabel:
    """What stands beside one wheel end: stroke, limit, what it comes to."""
    assert step.measure is not None
    readings = walk.measured.get(step.id, {})
    value = step.measure.values[0]
    read = readings.get(value.id)
    if read is None:
        return PlaceLabel(_end(step), (words("report-stroke-unmeasured"),), loud=False)
    came_to = judge_value(step.measure, value, readings)
    lines = [
        value_text(read),
        bounds_text(step.measure, value, read.unit, words),
        words(f"judged-{came_to}"),
    ]
    return PlaceLabel(_end(step), tuple(filter(None, lines)), loud=came_to in ("over", "under"))
