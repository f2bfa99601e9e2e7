"""Which walks may be deleted, by 49 CFR 396.3(c).

Records are kept "for a period of 1 year and for 6 months after the motor vehicle leaves the motor
carrier's control". So a walk may be deleted a year after its last day, if its vehicle left half a
year ago. A walk of a vehicle with an open defect never may, nor one that is under way or cannot be
read.
"""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Mapping
from datetime import date

from walkaround.records.overview import Overview
from walkaround.records.walk_line import WalkLine

MONTHS, MONTHS_AFTER = 12, 6
"""How long a walk is kept at least, and how long after its vehicle has left."""


def months_after(day: date, months: int) -> date:
    """Return the same day `months` later, or the last day of a month that is shorter."""
    years, month = divmod(day.month - 1 + months, 12)
    year, month = day.year + years, month + 1
    return date(year, month, min(day.day, monthrange(year, month)[1]))


def kept_until(line: WalkLine, left_on: date) -> date:
    """Return the last day on which a walk must be kept, if its vehicle left on this day."""
    last = max(each for each in (line.began, line.last_answer, line.finished) if each is not None)
    return max(months_after(last.date(), MONTHS), months_after(left_on, MONTHS_AFTER))


def deletable_walks(
    overview: Overview, left_on: Mapping[str, date], today: date
) -> tuple[WalkLine, ...]:
    """List the walks that may be deleted, the oldest first.

    None while some walks cannot be read: there might be an open defect in them.

    Args:
        overview: all walks.
        left_on: the day on which each vehicle left, by its id.
        today: the present day.
    """
    if overview.unread or any(line.trouble for line in overview.lines):
        return ()
    return tuple(
        line
        for line in reversed(overview.lines)
        if line.vehicle in left_on
        and line.vehicle not in overview.open_defects
        and line.phase == "finished"
        and kept_until(line, left_on[line.vehicle]) < today
    )
