"""The limits that a written step is held against: of an air hold, of values, of a stroke."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from walkaround.base.message import Quantity, Text, message
from walkaround.brakes.strokes import StrokeTable, limit_of, over_advice
from walkaround.plan.values import Measure, Value
from walkaround.rules.limits import (
    HoldRule,
    LimitRow,
    LimitUnit,
    MeasureRule,
    Situation,
    WrittenHold,
    published,
)
from walkaround.vehicle.model import Axle

SHOP_SAYS = "this shop's own figure for a lone trailer on shop air"
"""The source of a limit that the shop set for itself."""


def hold_rule(
    rule: WrittenHold, situation: Situation, row: LimitRow | None, other_rows: Sequence[LimitRow]
) -> HoldRule:
    """Return the hold with the limit that counts here, and the volume of air that it traps."""
    hold: dict[str, object] = {
        **rule.model_dump(),
        "also": tuple(published(other, "psi_per_min") for other in other_rows),
    }
    if row is not None and row.at_most is not None:
        hold |= {
            "limit_psi_per_min": row.at_most,
            "equal_passes": row.equal_passes,
            "limit_source": row.source,
            "limit_provenance": row.provenance,
        }
    shop = situation.shop
    if rule.figures:
        hold["set_psi"] = {
            line: shop.supply_psi if line == "supply" else shop.service_psi for line in rule.set_psi
        }
        released = rule.figures == "released"
        hold["limit_psi_per_min"] = (
            shop.released_psi_per_min if released else shop.applied_psi_per_min
        )
        if shop.own:
            hold["limit_source"] = SHOP_SAYS
    if rule.trapped:
        hold["trapped_l"] = sum(situation.vehicle.brakes.reservoir_l) or None
    return HoldRule.model_validate(hold)


def measure_rule(
    rule: MeasureRule,
    text_of: Callable[[str, str], Text],
    axle: Axle | None,
    strokes: StrokeTable,
    row: LimitRow | None,
    other_rows: Sequence[LimitRow],
) -> Measure:
    """Tell what a step takes, and the limit that counts: of its rows, or of the axle's chambers."""
    if rule.limits_from == "strokes":
        assert axle is not None
        return _stroke(rule.start, axle, strokes)
    unit: LimitUnit = "percent" if rule.drop else rule.quantity
    return Measure(
        quantity=rule.quantity,
        values=tuple(_values(rule, row)),
        start=rule.start,
        known=row is not None,
        equal_passes=row.equal_passes if row else True,
        limit=published(row, unit) if row else "",
        also=tuple(published(other, unit) for other in other_rows),
        begin=text_of("begin", rule.begin),
        end=text_of("end", rule.end),
    )


def _values(rule: MeasureRule, row: LimitRow | None) -> Iterator[Value]:
    least, most = (row.at_least, row.at_most) if row else (None, None)
    half_of = row.or_half_of if row else ""
    if not rule.of:
        yield Value(id="time", name=message("brake-value-time"), at_least=least, at_most=most)
    for gauge in rule.of:
        name = message(f"gauge-{gauge}")
        if not rule.drop:
            yield Value(
                id=gauge, name=name, gauge=gauge, at_least=least, at_most=most, or_half_of=half_of
            )
            continue
        before = Value(
            id=f"{gauge}_before", name=message("brake-value-before", gauge=name), gauge=gauge
        )
        yield before
        yield Value(
            id=f"{gauge}_after",
            name=message("brake-value-after", gauge=name),
            gauge=gauge,
            before=before.id,
            at_least=least,
            at_most=most,
        )


def _stroke(start: float, axle: Axle, strokes: StrokeTable) -> Measure:
    """Limit the pushrod's stroke at one wheel end by what the table says of its chamber."""
    limit = limit_of(axle, strokes)
    name = limit.what if limit else "pushrod stroke"
    value = Value(
        id="stroke",
        name=message(f"brake-{name.replace(' ', '-')}"),
        at_most=limit.limit_in if limit else None,
    )
    limit_said = message("brake-stroke-unlisted")
    if limit:
        most = Quantity(value=limit.limit_in, unit="in")
        limit_said = message("limit-at-most", most=most, source=limit.source)
    return Measure(
        quantity="in",
        values=(value,),
        start=limit.limit_in if limit else start,
        known=limit is not None,
        limit=limit_said,
        advice=over_advice(axle),
    )
