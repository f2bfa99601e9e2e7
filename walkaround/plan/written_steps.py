"""The steps that checklists write out, as this vehicle has them: needs, words, limits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from walkaround.base.units import length_limit_text
from walkaround.brakes.chambers import chamber_words
from walkaround.brakes.linings import LiningLimit, lining_limit, steers
from walkaround.brakes.strokes import (
    StrokeTable,
    adjuster_must_be_automatic,
    limit_of,
    over_advice,
)
from walkaround.lamps.wiring import Wiring
from walkaround.plan.lamp_steps import lit_circuits
from walkaround.plan.steps import Item, Measure, Step, Value, pins_words
from walkaround.rules.checklist import Checklist, Station, StepRule
from walkaround.rules.limits import HoldRule, LimitRow, MeasureRule, Situation, counting
from walkaround.vehicle.model import POWER_UNITS, Axle, Vehicle, has_abs, has_air_brakes

Side = Literal["left", "right"]
SIDES: tuple[Side, ...] = ("left", "right")
_SPOT_OF: Mapping[Side, Station] = {"left": "left_side", "right": "right_side"}


class _Place(NamedTuple):
    """Where a rule stands once more: nowhere in particular, at an axle, at one end of it."""

    number: int = 0
    axle: Axle | None = None
    side: Side | None = None


class _Context(NamedTuple):
    """What every step of a walk is made from."""

    situation: Situation
    wiring: Wiring
    strokes: StrokeTable
    chosen: Mapping[str, str]


def written_steps(
    checklists: Sequence[Checklist], situation: Situation, wiring: Wiring, strokes: StrokeTable
) -> list[Step]:
    """Every written step that this vehicle needs, in the order of the files."""
    chosen = {key: row for each in reversed(checklists) for key, row in each.chosen.items()}
    context = _Context(situation, wiring, strokes, chosen)
    return [
        _step(rule, context, place)
        for checklist in checklists
        for rule in checklist.steps
        for place in _places(rule, situation.vehicle)
        if _needed(rule, context, place)
    ]


def _places(rule: StepRule, vehicle: Vehicle) -> Iterator[_Place]:
    """One place, or one for each axle, or clockwise one for each wheel end."""
    axles = list(enumerate(vehicle.brakes.axles, start=1))
    if rule.per_end:
        # Down the right side and back up the left one, as a mechanic walks.
        yield from (_Place(number, axle, "right") for number, axle in axles)
        yield from (_Place(number, axle, "left") for number, axle in reversed(axles))
    elif rule.per_axle:
        yield from (_Place(number, axle) for number, axle in axles)
    else:
        yield _Place()


def _needed(rule: StepRule, context: _Context, place: _Place) -> bool:
    vehicle, wiring = context.situation.vehicle, context.wiring
    brakes = vehicle.brakes
    axles = (place.axle,) if place.axle else brakes.axles
    sprung = any(axle.spring for axle in brakes.axles)
    air_only = has_air_brakes(vehicle) and not sprung
    power_unit = vehicle.kind in POWER_UNITS
    facts = {
        "spring_brakes": sprung,
        "no_spring_brakes": air_only,
        "parked_by_itself": not air_only,
        "abs": has_abs(vehicle),
        "reservoir": bool(brakes.reservoir_l),
        "lift_axle": any(axle.lift for axle in axles),
        "automatic_slack": any(axle.slack == "automatic" for axle in axles),
        "manual_slack": any(axle.slack == "manual" for axle in axles),
        "pushrod": any(axle.actuator != "wedge" for axle in axles),
        "wedge": any(axle.actuator == "wedge" for axle in axles),
        "coupled": not power_unit and context.situation.air == "coupled",
        "on_shop_air": not power_unit and context.situation.air == "shop",
        "tows": power_unit and (context.situation.towed > 0 or vehicle.kind == "truck tractor"),
        "automatic_required": adjuster_must_be_automatic(vehicle),
        "trailer": not power_unit,
        "power_unit": power_unit,
        "several_axles": len(brakes.axles) > 1,
        "12v": vehicle.electrical.volts == 12,
        "24v": vehicle.electrical.volts == 24,
        "meter_first": any(c.meter_first for c in lit_circuits(wiring)),
    }
    return all(facts.get(need, True) for need in rule.needs)


def _step(rule: StepRule, context: _Context, place: _Place) -> Step:
    words = _words(context, place)

    def filled(text: str) -> str:
        return text.format_map(words)

    row, others = counting(rule.limits, context.situation, context.chosen.get(rule.id, ""))
    return Step(
        id=filled(rule.id),
        part=rule.part,
        kind=rule.kind,
        title=filled(rule.title),
        short=filled(rule.short),
        long=filled(rule.long),
        caution=filled(rule.caution),
        spot=_SPOT_OF[place.side] if place.side else rule.spot,
        items=_items(place),
        must=rule.must,
        quiet=rule.quiet,
        soft=rule.soft,
        air="air" in rule.needs,
        power="lamps" in rule.needs,
        hold=_hold(rule.hold, context, row, others) if rule.hold else None,
        measure=_measure(rule, context, place, row, others) if rule.measure else None,
        wait=rule.wait,
        source=rule.source,
        provenance=rule.provenance,
    )


def _items(place: _Place) -> tuple[Item, ...]:
    sides = (place.side,) if place.side else SIDES if place.number else ()
    return tuple(
        Item(
            id=f"axle_{place.number}_{side}",
            name=f"axle {place.number}, {side} end",
            kind="wheel_end",
            required=True,
        )
        for side in sides
    )


def _words(context: _Context, place: _Place) -> dict[str, object]:
    vehicle, wiring = context.situation.vehicle, context.wiring
    doubtful = [circuit for circuit in lit_circuits(wiring) if circuit.meter_first]
    words: dict[str, object] = {
        "volts": vehicle.electrical.volts,
        "connector": wiring.connector.title,
        "doubtful_pins": pins_words([pin for circuit in doubtful for pin in circuit.pins]),
        "towed": context.situation.towed,
    }
    if place.axle is None:
        return words
    stroke = limit_of(place.axle, context.strokes)
    lining = lining_limit(place.axle, steers(vehicle, place.number))
    return words | {
        "axle": place.number,
        "side": place.side or "",
        "chamber": chamber_words(place.axle),
        "stroke_limit": length_limit_text(stroke.limit_in, "in") if stroke else "not known",
        "lining_limit": length_limit_text(lining.limit_in, "in"),
        "lining_texts": _lining_texts(lining),
    }


def _lining_texts(lining: LiningLimit) -> str:
    """Where the limit of a lining stands, and what is published besides."""
    also = f" Also published: {'; '.join(lining.also)}." if lining.also else ""
    return f"The limit stands in {lining.source}.{also}"


def _hold(
    rule: HoldRule, context: _Context, row: LimitRow | None, others: Sequence[LimitRow]
) -> HoldRule:
    """The hold with the limit that counts here, and the volume of air that it traps."""
    to: dict[str, object] = {"also": tuple(_published(other, "psi/min") for other in others)}
    if row is not None and row.at_most is not None:
        to |= {
            "limit_psi_per_min": row.at_most,
            "equal_passes": row.equal_passes,
            "limit_source": row.source,
            "limit_provenance": row.provenance,
        }
    if rule.trapped:
        to["trapped_l"] = sum(context.situation.vehicle.brakes.reservoir_l) or None
    return rule.model_copy(update=to)


def _measure(
    rule: StepRule,
    context: _Context,
    place: _Place,
    row: LimitRow | None,
    others: Sequence[LimitRow],
) -> Measure:
    asked = rule.measure
    assert asked is not None
    if asked.limits_from == "strokes":
        return _stroke(asked.start, context, place)
    unit = "%" if asked.drop else asked.quantity
    return Measure(
        quantity=asked.quantity,
        values=tuple(_values(asked, row)),
        start=asked.start,
        known=row is not None,
        equal_passes=row.equal_passes if row else True,
        limit=_published(row, unit) if row else "",
        also=tuple(_published(other, unit) for other in others),
        begin=asked.begin,
        end=asked.end,
    )


def _values(asked: MeasureRule, row: LimitRow | None) -> Iterator[Value]:
    least, most = (row.at_least, row.at_most) if row else (None, None)
    if not asked.of:
        yield Value(id="time", name="time", at_least=least, at_most=most)
    for gauge in asked.of:
        if not asked.drop:
            yield Value(id=gauge, name=gauge, gauge=gauge, at_least=least, at_most=most)
            continue
        before = Value(id=f"{gauge}_before", name=f"{gauge} before", gauge=gauge)
        yield before
        yield Value(
            id=f"{gauge}_after",
            name=f"{gauge} after",
            gauge=gauge,
            before=before.id,
            at_least=least,
            at_most=most,
        )


def _stroke(start: float, context: _Context, place: _Place) -> Measure:
    """The pushrod's stroke at one wheel end, against what the table says of its chamber."""
    assert place.axle is not None
    limit = limit_of(place.axle, context.strokes)
    name = limit.what if limit else "pushrod stroke"
    value = Value(id="stroke", name=name, at_most=limit.limit_in if limit else None)
    unknown = "the chamber is in no table and its rated stroke is not in the vehicle's file"
    said = (
        f"at most {length_limit_text(limit.limit_in, 'in')}: {limit.source}" if limit else unknown
    )
    return Measure(
        quantity="in",
        values=(value,),
        start=limit.limit_in if limit else start,
        known=limit is not None,
        limit=said,
        advice=over_advice(place.axle),
    )


def _published(row: LimitRow, unit: str) -> str:
    """A published limit as a clause: "at most 3 psi/min: 49 CFR 570.57(a)(5)"."""
    bounds = []
    if row.at_least is not None:
        bounds.append(f"at least {row.at_least:g} {unit}")
    if row.at_most is not None:
        word = "at most" if row.equal_passes else "less than"
        bounds.append(f"{word} {row.at_most:g} {unit}")
    return f"{', '.join(bounds)}: {row.source}"
