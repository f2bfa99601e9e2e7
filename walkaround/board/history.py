"""The history of one vehicle's air holds, strokes and defects from walk to walk.

Values are in one series only if they were measured in the same way: on the same air (shop or
coupled), with gauges read in the same steps, against the same limit.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from typing import Literal, NamedTuple

from walkaround.base.message import Text
from walkaround.rules.limits import Air
from walkaround.walk.events import Measured
from walkaround.walk.measured_values import in_base
from walkaround.walk.state import Walk


class SeriesValue(NamedTuple):
    """One value and its own bounds, psi/min or inches; of a stroke they equal the value."""

    at: datetime
    value: float
    low: float
    high: float


class Series(NamedTuple):
    """Values of one thing, measured in the same way, in order of time.

    Attributes:
        what: whether they are leak rates of air holds, or strokes.
        title: the title of the step.
        line: the gauge of the hold, or the id of the stroke among the step's values.
        air: where the air came from.
        step: the step of the gauge's scale, psi; 0 for a stroke.
        limit: psi/min or inches; None if no limit is known.
        values: the values.
    """

    what: Literal["hold", "stroke"]
    title: Text
    line: str
    air: Air
    step: float
    limit: float | None
    values: tuple[SeriesValue, ...]


class DefectEvent(NamedTuple):
    """What happened to a defect, when, and by whom; `back` means found again."""

    at: datetime
    kind: Literal["found", "back", "repaired", "ok", "withdrawn"]
    walk: str
    who: str


class StepHistory(NamedTuple):
    """The events of the defects of one step, in order of time."""

    title: Text
    events: tuple[DefectEvent, ...]


def series_of(walks: Iterable[Walk]) -> tuple[Series, ...]:
    """Collect the series of one vehicle's walks, which are in order of time."""
    rows: dict[tuple[object, ...], Series] = {}
    for walk in walks:
        for series in (*_holds(walk), *_strokes(walk)):
            key = (series.what, str(series.title), *series[2:6])
            values = rows[key].values if key in rows else ()
            rows[key] = series._replace(values=(*values, *series.values))
    return tuple(rows.values())


def _holds(walk: Walk) -> Iterator[Series]:
    assert walk.plan is not None
    for step in walk.steps:
        hold = walk.holds.get(step.id)
        if hold is None or hold.void or not hold.ended:
            continue
        for line, result in hold.results().items():
            # Adding 0.0 turns a rounded -0.0 into 0.0.
            rates = result.rate_psi_per_min, result.low_psi_per_min, result.high_psi_per_min
            rate = [round(each, 3) + 0.0 for each in rates]
            yield Series(
                "hold", step.title, line, walk.plan.air, hold.gauge(line).step_psi,
                hold.rule.limit_psi_per_min, (SeriesValue(hold.began.utc, *rate),),
            )  # fmt: skip


def _strokes(walk: Walk) -> Iterator[Series]:
    assert walk.plan is not None
    for step in walk.steps:
        if step.measure is None or step.measure.quantity != "in":
            continue
        measured = walk.measured.get(step.id, {})
        for value in step.measure.values:
            reading: Measured | None = measured.get(value.id)
            if reading is not None:
                amount = in_base(reading)
                series_value = SeriesValue(reading.at.utc, amount, amount, amount)
                limit = value.at_most
                yield Series(
                    "stroke", step.title, value.id, walk.plan.air, 0.0, limit, (series_value,)
                )


def step_histories(walks: Sequence[Walk]) -> tuple[StepHistory, ...]:
    """Collect when each defect of one vehicle was found, repaired, OK, and found again.

    Args:
        walks: the walks of the vehicle, in order of time.
    """
    titles: dict[str, Text] = {}
    history_of: dict[str, list[DefectEvent]] = {}
    for walk in walks:
        for step in walk.steps:
            defect = walk.defects.get(step.id)
            if defect is None:
                answer, rows = walk.answers.get(step.id), history_of.get(step.id, [])
                if rows and rows[-1].kind != "ok" and answer and answer.answer == "ok":
                    rows.append(DefectEvent(answer.at.utc, "ok", walk.id, answer.who))
                continue
            titles[step.id] = step.title
            rows = history_of.setdefault(step.id, [])
            is_back = any(each.kind == "ok" for each in rows)
            first_answer = defect.found
            rows.append(
                DefectEvent(
                    first_answer.at.utc, "back" if is_back else "found", walk.id, first_answer.who
                )
            )
            if repair := walk.repairs.get(step.id):
                rows.append(DefectEvent(repair.at.utc, "repaired", walk.id, repair.who))
            if defect.closed:
                kind: Literal["ok", "withdrawn"] = (
                    "ok" if defect.state == "rechecked" else "withdrawn"
                )
                rows.append(DefectEvent(defect.closed.at.utc, kind, walk.id, defect.closed.who))
    return tuple(StepHistory(titles[step], tuple(rows)) for step, rows in history_of.items())
