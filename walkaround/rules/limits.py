"""What a step measures against which limit: air holds, values, waits, and the limits that count.

Published limits differ. A step lists every one that it knows, with its source and for whom it
holds; the first that holds counts, unless a checklist's `[chosen]` table names another. Those that
hold and do not count are shown beside it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from walkaround.base.message import Message, Quantity, Text, message
from walkaround.base.provenance import Provenance as Provenance
from walkaround.base.provenance import Sourced
from walkaround.base.toml_model import Flag, Id, Number, Positive, Written
from walkaround.rules.conditions import Span, When
from walkaround.vehicle.model import Vehicle, vehicle_class

# The gauges of a walk: of the two lines to a trailer, of the two circuits of a towing vehicle.
Line = Literal["supply", "service", "primary", "secondary"]
# Where a trailer's air comes from: the shop's line, or the vehicle that tows it.
Air = Literal["shop", "coupled"]
# What values are kept in: pressures in psi gauge, times in s, lengths in inches.
MeasureUnit = Literal["psi", "s", "in"]
# What a limit is in: of a drop it is percent, of an air hold psi/min.
LimitUnit = Literal["psi", "psi_per_min", "in", "s", "percent"]

MOST_HOLD_S = 3600.0
"""No hold is watched for longer."""
MOST_PSI = 300.0
"""No gauge on a vehicle shows more."""


class ShopFigures(BaseModel):
    """What a shop goes by for a lone trailer on its own air; asked once, kept with the shop.

    The defaults are common practice, no source: no rule has limits for a trailer that is not
    coupled.

    Attributes:
        supply_psi, service_psi: what the supply line, and for an application the control line,
            is charged to.
        released_psi_per_min, applied_psi_per_min: what a minute may lose, brakes released and
            applied.
        own: the shop said so, rather than went by what ships.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")

    supply_psi: float = Field(default=110.0, ge=100, le=130, allow_inf_nan=False)
    service_psi: float = Field(default=90.0, ge=80, le=100, allow_inf_nan=False)
    released_psi_per_min: float = Field(default=2.0, gt=0, le=10, allow_inf_nan=False)
    applied_psi_per_min: float = Field(default=3.0, gt=0, le=10, allow_inf_nan=False)
    own: bool = False


class LimitRow(When, Sourced):
    """One published limit, in the unit of what it limits; for an air hold `at_most` is psi/min.

    Attributes:
        at_least, at_most: the bounds; at least one of them.
        per_extra_towed: added to `at_most` for every towed unit after the first.
        air, towed: where the air comes from; how many units are towed.
        or_half_of: id of a step of the same file that measures pressures; half of what it found
            counts in place of `at_least` where that is lower.
        equal_passes: what equals the limit is within it; a manual that says "less than" has false.
    """

    id: Id
    at_least: Number | None = None
    at_most: Number | None = None
    per_extra_towed: Number = 0.0
    air: Air | None = None
    towed: Span = Span()
    or_half_of: Annotated[str, Field(pattern=r"^[a-z0-9_]*$")] = ""
    equal_passes: Flag = True


class WrittenHold(Written):
    """An air hold: what each gauge is set to (psi), then the source shut, watched for `seconds`.

    Every gauge in `set_psi` is read, in that order, and none may lose more than the limit. In a
    checklist the limit may stand in the step's limit rows instead.

    Attributes:
        trapped: the air is trapped in the vehicle's reservoirs and nothing else, as far as known.
        figures: which of the shop's own figures take the place of pressures and limit.
    """

    set_psi: Mapping[Line, Positive] = Field(min_length=1)
    limit_psi_per_min: Positive
    seconds: Positive = 60.0
    equal_passes: Flag = True
    limit_source: str
    limit_provenance: Provenance
    trapped: Literal["", "reservoirs"] = ""
    figures: Literal["", "released", "applied"] = ""


class HoldRule(WrittenHold):
    """An air hold as a walk asks it of one vehicle.

    Attributes:
        also: limits published elsewhere, a clause each.
        trapped_l: the volume of the air that is trapped, litres; None where it is not known.
    """

    also: tuple[Text, ...] = ()
    trapped_l: Positive | None = None

    @property
    def gauges(self) -> tuple[Line, ...]:
        """The gauges to read, in the order they are read."""
        return tuple(self.set_psi)


class MeasureRule(Written):
    """Values that a step takes: pressures off gauges, the time of a stopwatch, a length at a wheel.

    Attributes:
        of: what is read, by gauge; a time and a length at a wheel end name nothing.
        start: near which value entry begins, in the unit of the quantity.
        drop: each gauge is read before and after; the limit is percent of what it was before.
        limits_from: a table of limits by vehicle instead of limit rows.
        begin, end: of a time, what is tapped at its start and its end.
    """

    quantity: MeasureUnit
    of: tuple[Line, ...] = ()
    start: Annotated[Number, Field(ge=0)] = 0.0
    drop: Flag = False
    limits_from: Literal["", "strokes"] = ""
    begin: str = ""
    end: str = ""


class WaitRule(Written):
    """Seconds that must pass after another step was answered; other steps go on meanwhile."""

    after: Id
    seconds: Positive


@dataclass(frozen=True, slots=True)
class Situation:
    """The facts besides the vehicle that limits may depend on: air, units towed, shop's figures."""

    vehicle: Vehicle
    air: Air
    towed: int
    shop: ShopFigures = field(default_factory=ShopFigures)

    def holds(self, row: LimitRow) -> bool:
        """Tell whether a published limit is for this vehicle as it stands."""
        return (
            row.holds(self.vehicle, vehicle_class(self.vehicle))
            and row.air in (None, self.air)
            and row.towed.holds(self.towed)
        )

    def resolved(self, row: LimitRow) -> LimitRow:
        """Return the row with its upper bound for the number of towed units."""
        if row.at_most is None or not row.per_extra_towed:
            return row
        more = row.per_extra_towed * max(0, self.towed - 1)
        return row.model_copy(update={"at_most": row.at_most + more, "per_extra_towed": 0.0})


def choose_limit(
    rows: Iterable[LimitRow], situation: Situation, chosen: str = ""
) -> tuple[LimitRow | None, tuple[LimitRow, ...]]:
    """Find the limit that counts, and the others that are published for this vehicle too.

    Args:
        rows: the limits of one step.
        situation: the vehicle as it stands.
        chosen: id of the row that the shop chose; empty for the first that holds.
    """
    holding_rows = [situation.resolved(row) for row in rows if situation.holds(row)]
    first = next(
        (row for row in holding_rows if row.id == chosen), holding_rows[0] if holding_rows else None
    )
    return first, tuple(row for row in holding_rows if row is not first)


def published(row: LimitRow, unit: LimitUnit) -> Message:
    """Say a published limit as a clause: "at most 3 psi/min: 49 CFR 570.57(a)(5)"."""
    most = "at-most" if row.equal_passes else "less-than"
    if row.at_most is None:
        assert row.at_least is not None
        return message("limit-at-least", least=_amount(row.at_least, unit), source=row.source)
    if row.at_least is None:
        return message(f"limit-{most}", most=_amount(row.at_most, unit), source=row.source)
    return message(
        f"limit-at-least-and-{most}",
        least=_amount(row.at_least, unit),
        most=_amount(row.at_most, unit),
        source=row.source,
    )


def _amount(number: float, unit: LimitUnit) -> Quantity | Message:
    if unit == "s" or unit == "percent":
        return message(f"limit-{unit}", number=number)
    # Limits are written whole; the decimals of one that is not are never rounded away.
    return Quantity(value=number, unit=unit, decimals=None if number.is_integer() else 2)
