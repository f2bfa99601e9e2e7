"""How far a brake's pushrod may travel, and what to do about one that travels further.

The limits are those of 49 CFR 393.47(e) and (f). They come as a table, so that a figure is mended
in one place; "must not be greater than" there means that a stroke equal to its limit passes.

Which row is for a chamber: its kind, type and stroke class decide, and where the table has a row
for a marked rated stroke as well, that row, because the same type is made with several strokes and
the table allows the longer one more. A chamber that no row lists, and only such a one, goes by
(f): a share of the rated stroke marked on it. That rule is never lent to a listed kind whose type
nobody wrote down: the share may be more than its own row allows, and to know no limit is safer
than to hold a stroke against one too long.

A reading is exact to its last figure only. The table prints millimeters to 0.1 beside inches, so
one read in whole millimeters is held against the printed figure: it is over from 0.05 mm above
the limit in inches on, which no whole millimeter between misses (`stroke_verdict`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from walkaround.base.message import Message, message
from walkaround.base.units import LOST, from_in
from walkaround.vehicle.model import Axle, Vehicle

LimitKind = Literal["pushrod stroke", "lining movement"]

# 49 CFR 393.53(b): made on or after this day with air brakes. Hydraulic brakes a year earlier,
# 393.53(a), which no brake system of a vehicle file is.
AUTOMATIC_FROM = date(1994, 10, 20)

# Rated strokes outside these are slips, mostly millimeters: no limit may follow from one. Common
# practice, no source: chambers are marked from 1 5/8 to 4 in.
RATED_IN = (1.0, 5.0)

_ANY_TYPE = "any"
# Rated strokes come in quarter inches; 76 mm is marked where 3 in is meant.
_SAME_RATED_IN = 0.02
# Half of the last figure of the millimeters that the table prints beside its inches, so that
# 44.5 mm, printed for 1 3/4 in (44.45 mm), is not over it.
_PRINTED_MM = 0.05 + LOST


@dataclass(frozen=True, slots=True)
class StrokeRow:
    """A row of the table.

    Attributes:
        actuator, type: as in vehicle files; wedge brakes have one row for any type.
        rated_stroke_in: the marked stroke that the row alone is for; None if it asks for none.
        limit_in: the greatest stroke that passes, inches.
        current: a day on which the text that was read was in force.
        valid_from, valid_to: the first and the last day on which the row is in force.
    """

    actuator: str
    type: str
    long_stroke: bool
    rated_stroke_in: float | None
    limit_in: float
    source: str
    provenance: str
    current: date | None = None
    valid_from: date | None = None
    valid_to: date | None = None

    def is_for(self, axle: Axle) -> bool:
        """Tell whether it lists the chambers of this axle."""
        if self.actuator != axle.actuator:
            return False
        if self.type == _ANY_TYPE:
            return True
        if (self.type, self.long_stroke) != (axle.type, axle.long_stroke):
            return False
        marked_in = axle.rated_stroke_in or 0.0
        return (
            self.rated_stroke_in is None or abs(marked_in - self.rated_stroke_in) < _SAME_RATED_IN
        )


@dataclass(frozen=True, slots=True)
class RatedShare:
    """The limit of actuators that no row lists, as a share of the rated stroke marked on them."""

    share: float
    source: str
    provenance: str
    current: date | None = None


@dataclass(frozen=True, slots=True)
class StrokeTable:
    """All stroke limits: a row for each listed actuator, and the rule for the others."""

    rows: tuple[StrokeRow, ...]
    unlisted: RatedShare

    def on(self, day: date) -> StrokeTable:
        """Give the table as it is in force on a day."""
        first, last = date.min, date.max
        rows = [r for r in self.rows if (r.valid_from or first) <= day <= (r.valid_to or last)]
        return replace(self, rows=tuple(rows))

    def types(self, actuator: str, *, long_stroke: bool | None = None) -> tuple[str, ...]:
        """List an actuator's types by size, of standard and long stroke if not said."""
        types = {
            row.type
            for row in self.rows
            if row.actuator == actuator and long_stroke in (None, row.long_stroke)
        }
        # Of two numbers the one with more figures is larger; letters are single.
        return tuple(sorted(types, key=lambda type_: (len(type_), type_)))


@dataclass(frozen=True, slots=True)
class StrokeLimit:
    """The limit at one wheel end, inches, and where it stands; a wedge brake's is no stroke."""

    limit_in: float
    source: str
    provenance: str
    what: LimitKind


def stroke_table(rows: Iterable[Mapping[str, str]]) -> StrokeTable:
    """Read the table from rows with its columns; the row with a share is for the rest."""
    rows_listed, shares = [], []
    for row in rows:
        origin = row["source"], row["provenance"], _day(row["current"])
        if row["share_of_rated_stroke"]:
            shares.append(RatedShare(float(row["share_of_rated_stroke"]), *origin))
            continue
        rated = row["rated_stroke_in_required"]
        rows_listed.append(
            StrokeRow(
                row["actuator_kind"],
                row["type"],
                row["stroke_class"] == "long",
                float(rated) if rated else None,
                float(row["limit_in_decimal"]),
                *origin,
                _day(row["valid_from"]),
                _day(row["valid_to"]),
            )
        )
    [unlisted] = shares
    return StrokeTable(tuple(rows_listed), unlisted)


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None


def limit_of(axle: Axle, table: StrokeTable) -> StrokeLimit | None:
    """Find the limit for the chambers of an axle; None if none is known.

    A row for a rated stroke goes before the row that asks for none; of two rows for the same, which
    are of different days, the first of the table. An actuator that is not
    listed goes by its marked rated stroke; one of a listed kind whose type nobody gave does not,
    since its row may allow less.
    """
    fitting = [row for row in table.rows if row.is_for(axle)]
    row = max(fitting, key=lambda row: row.rated_stroke_in or 0.0, default=None)
    if row is not None:
        what: LimitKind = "lining movement" if axle.actuator == "wedge" else "pushrod stroke"
        return StrokeLimit(row.limit_in, row.source, row.provenance, what)
    rated_in = axle.rated_stroke_in
    if rated_in is None or not (axle.type or axle.actuator == "other"):
        return None
    if not RATED_IN[0] <= rated_in <= RATED_IN[1]:
        return None
    rule = table.unlisted
    limit_in = round(rule.share * rated_in, 6)
    source = f"{rule.source}: {rule.share:.0%} of the marked rated stroke"
    return StrokeLimit(limit_in, source, rule.provenance, "pushrod stroke")


def stroke_verdict(measured_in: float, limit_in: float) -> Literal["within", "over"]:
    """Hold a stroke against its limit, both in inches; equal passes.

    What is read in whole millimeters is held against the limit to 0.1 mm, as the table prints it:
    at 2 in (50.8 mm) a reading of 50 mm is within and 51 mm is over. A value that is no number is
    never within.
    """
    return "within" if from_in(measured_in - limit_in, "mm") <= _PRINTED_MM else "over"


def over_advice(axle: Axle) -> Message:
    """Say what to do about a stroke over its limit, by the slack adjuster of the axle.

    An automatic adjuster is not to be set by hand before the fault is mended (part 396 App. A
    1.m(4)): it keeps the stroke by itself, so one that does not is worn, wrongly fitted, or works
    on a faulty brake.
    """
    if axle.foundation == "disc" or axle.actuator == "wedge":
        return message("brake-adjuster-built-in")
    return message(f"brake-adjuster-{axle.slack or 'unknown'}")


def adjuster_must_be_automatic(vehicle: Vehicle) -> bool:
    """Tell whether its brakes must adjust themselves: 49 CFR 393.53(b), by date of make.

    Air over hydraulic counts as air-braked: 571.121 S4.
    """
    air = vehicle.brakes.system in ("air", "air_over_hydraulic")
    return air and vehicle.made >= AUTOMATIC_FROM
