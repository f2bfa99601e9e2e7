"""How one vehicle's air holds and strokes went from walk to walk, and its defects.

Values are put in one row only if they were taken in one set-up: on the same air (shop or coupled),
with gauges read in the same steps, against the same limit.
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


class Taken(NamedTuple):
    """One value, with the bounds of its own where it has any: psi/min, or inches."""

    at: datetime
    value: float
    low: float
    high: float


class Series(NamedTuple):
    """Values of one thing in one set-up, in order of time.

    Attributes:
        what: an air hold's rate, or a stroke.
        title: of the step.
        line: the gauge of the hold, or the value of the step that is the stroke.
        air: where the air came from.
        step: how far apart two values are that the gauge tells apart, psi; 0 of a stroke.
        limit: psi/min or inches; None where none is known.
    """

    what: Literal["hold", "stroke"]
    title: Text
    line: str
    air: Air
    step: float
    limit: float | None
    taken: tuple[Taken, ...]


class DefectHistory(NamedTuple):
    """What became of a defect, and when."""

    at: datetime
    kind: Literal["found", "back", "repaired", "ok", "withdrawn"]
    walk: str
    who: str


class Story(NamedTuple):
    """All that is known of the defects of one step."""

    title: Text
    told: tuple[DefectHistory, ...]


def series_of(walks: Iterable[Walk]) -> tuple[Series, ...]:
    """Collect the values of one vehicle's walks, which are in order of time."""
    rows: dict[tuple[object, ...], Series] = {}
    for walk in walks:
        for made in (*_holds(walk), *_strokes(walk)):
            key = (made.what, str(made.title), *made[2:6])
            before = rows[key].taken if key in rows else ()
            rows[key] = made._replace(taken=(*before, *made.taken))
    return tuple(rows.values())


def _holds(walk: Walk) -> Iterator[Series]:
    assert walk.plan is not None
    for step in walk.steps:
        hold = walk.holds.get(step.id)
        if hold is None or hold.void or not hold.ended:
            continue
        for line, found in hold.results().items():
            # No rate is below zero by rounding alone.
            rates = found.rate_psi_per_min, found.low_psi_per_min, found.high_psi_per_min
            rate = [round(each, 3) + 0.0 for each in rates]
            yield Series(
                "hold", step.title, line, walk.plan.air, hold.gauge(line).step_psi,
                hold.rule.limit_psi_per_min, (Taken(hold.began.utc, *rate),),
            )  # fmt: skip


def _strokes(walk: Walk) -> Iterator[Series]:
    assert walk.plan is not None
    for step in walk.steps:
        if step.measure is None or step.measure.quantity != "in":
            continue
        taken = walk.measured.get(step.id, {})
        for value in step.measure.values:
            read: Measured | None = taken.get(value.id)
            if read is not None:
                amount = in_base(read)
                one = Taken(read.at.utc, amount, amount, amount)
                limit = value.at_most
                yield Series("stroke", step.title, value.id, walk.plan.air, 0.0, limit, (one,))


def stories_of(walks: Sequence[Walk]) -> tuple[Story, ...]:
    """Tell of each defect of one vehicle when it was found, repaired, OK, and come back.

    Args:
        walks: in order of time.
    """
    titles: dict[str, Text] = {}
    history_of: dict[str, list[DefectHistory]] = {}
    for walk in walks:
        for step in walk.steps:
            defect = walk.defects.get(step.id)
            if defect is None:
                given, rows = walk.answers.get(step.id), history_of.get(step.id, [])
                if rows and rows[-1].kind != "ok" and given and given.answer == "ok":
                    rows.append(DefectHistory(given.at.utc, "ok", walk.id, given.who))
                continue
            titles[step.id] = step.title
            rows = history_of.setdefault(step.id, [])
            back = any(each.kind == "ok" for each in rows)
            found = defect.found
            rows.append(
                DefectHistory(found.at.utc, "back" if back else "found", walk.id, found.who)
            )
            if repair := walk.repairs.get(step.id):
                rows.append(DefectHistory(repair.at.utc, "repaired", walk.id, repair.who))
            if defect.closed:
                how: Literal["ok", "withdrawn"] = (
                    "ok" if defect.state == "rechecked" else "withdrawn"
                )
                rows.append(DefectHistory(defect.closed.at.utc, how, walk.id, defect.closed.who))
    return tuple(Story(titles[step], tuple(rows)) for step, rows in history_of.items())
