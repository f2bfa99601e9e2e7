"""The steps that checklists write out, as this vehicle has them: needs, words, limits."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from walkaround.base.message import Argument, Message, Quantity, Text, message
from walkaround.brakes.chambers import chamber_named
from walkaround.brakes.linings import LiningLimit, lining_limit, steers
from walkaround.brakes.strokes import (
    StrokeTable,
    adjuster_must_be_automatic,
    limit_of,
    over_advice,
)
from walkaround.lamps.names import joined, pins_named
from walkaround.lamps.wiring import Wiring
from walkaround.plan.steps import Item, Measure, Step, Value
from walkaround.rules.checklist import Checklist, Station, StepRule
from walkaround.rules.limits import (
    HoldRule,
    LimitRow,
    LimitUnit,
    MeasureRule,
    Situation,
    WrittenHold,
    counting,
    published,
)
from walkaround.vehicle.model import POWER_UNITS, Axle, Vehicle, has_abs, has_air_brakes

Side = Literal["left", "right"]
SIDES: tuple[Side, ...] = ("left", "right")
_PLACEHOLDER = re.compile(r"\{(\w+)\}")
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
    """Make every written step that this vehicle needs, in the order of the files."""
    checklists = [each for each in checklists if each.applies.matches(situation.vehicle)]
    chosen = {key: row for each in reversed(checklists) for key, row in each.chosen.items()}
    context = _Context(situation, wiring, strokes, chosen)
    return [
        _step(rule, f"{checklist.id}/{rule.id}", context, place)
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
        "meter_first": any(c.meter_first for c in wiring.circuits),
    }
    return all(facts.get(need, True) for need in rule.needs)


def _step(rule: StepRule, path: str, context: _Context, place: _Place) -> Step:
    args = _args(context, place)

    def said(key: str, text: str) -> Text:
        return _written(f"{path}/{key}", text, args)

    row, others = counting(rule.limits, context.situation, context.chosen.get(rule.id, ""))
    return Step(
        id=rule.id.format(axle=place.number, side=place.side),
        part=rule.part,
        kind=rule.kind,
        title=said("title", rule.title),
        short=said("short", rule.short),
        long=said("long", rule.long),
        caution=said("caution", rule.caution),
        spot=_SPOT_OF[place.side] if place.side else rule.spot,
        items=_items(place),
        must=rule.must,
        quiet=rule.quiet,
        soft=rule.soft,
        air="air" in rule.needs,
        power="lamps" in rule.needs,
        hold=_hold(rule.hold, context, row, others) if rule.hold else None,
        measure=_measure(rule, said, context, place, row, others) if rule.measure else None,
        wait=rule.wait,
        source=rule.source,
        provenance=rule.provenance,
    )


def _items(place: _Place) -> tuple[Item, ...]:
    sides = (place.side,) if place.side else SIDES if place.number else ()
    return tuple(
        Item(
            id=f"axle_{place.number}_{side}",
            name=message("brake-wheel-end", axle=place.number, side=message(f"side-{side}")),
            kind="wheel_end",
            required=True,
        )
        for side in sides
    )


def _written(path: str, text: str, args: Mapping[str, Argument]) -> Text:
    """A checklist's own text with what fills its placeholders; no text stays none."""
    filled = {name: args[name] for name in _PLACEHOLDER.findall(text) if name in args}
    return Message(id=path, args=filled, written=text) if text else ""


def _args(context: _Context, place: _Place) -> dict[str, Argument]:
    """What the texts of a step may have filled in."""
    vehicle, wiring = context.situation.vehicle, context.wiring
    doubtful = [circuit for circuit in wiring.circuits if circuit.meter_first]
    args: dict[str, Argument] = {
        "volts": vehicle.electrical.volts,
        "connector": wiring.connector.name,
        "doubtful_pins": pins_named([pin for circuit in doubtful for pin in circuit.pins]),
        "towed": context.situation.towed,
    }
    if place.axle is None:
        return args
    stroke = limit_of(place.axle, context.strokes)
    lining = lining_limit(place.axle, steers(vehicle, place.number))
    if place.side:
        args["side"] = message(f"side-{place.side}")
    return args | {
        "axle": place.number,
        "chamber": chamber_named(place.axle),
        "stroke_limit": Quantity(value=stroke.limit_in, unit="in")
        if stroke
        else message("brake-stroke-not-known"),
        "lining_limit": Quantity(value=lining.limit_in, unit="in"),
        "lining_texts": _lining_texts(lining),
    }


def _lining_texts(lining: LiningLimit) -> Message:
    """Where the limit of a lining stands, and what is published besides."""
    if not lining.also:
        return message("brake-lining-source", source=lining.source)
    return message("brake-lining-sources", source=lining.source, also=joined(lining.also))


def _hold(
    rule: WrittenHold, context: _Context, row: LimitRow | None, others: Sequence[LimitRow]
) -> HoldRule:
    """The hold with the limit that counts here, and the volume of air that it traps."""
    hold: dict[str, object] = {
        **rule.model_dump(),
        "also": tuple(published(other, "psi_per_min") for other in others),
    }
    if row is not None and row.at_most is not None:
        hold |= {
            "limit_psi_per_min": row.at_most,
            "equal_passes": row.equal_passes,
            "limit_source": row.source,
            "limit_provenance": row.provenance,
        }
    if rule.trapped:
        hold["trapped_l"] = sum(context.situation.vehicle.brakes.reservoir_l) or None
    return HoldRule.model_validate(hold)


def _measure(
    rule: StepRule,
    said: Callable[[str, str], Text],
    context: _Context,
    place: _Place,
    row: LimitRow | None,
    others: Sequence[LimitRow],
) -> Measure:
    asked = rule.measure
    assert asked is not None
    if asked.limits_from == "strokes":
        return _stroke(asked.start, context, place)
    unit: LimitUnit = "percent" if asked.drop else asked.quantity
    return Measure(
        quantity=asked.quantity,
        values=tuple(_values(asked, row)),
        start=asked.start,
        known=row is not None,
        equal_passes=row.equal_passes if row else True,
        limit=published(row, unit) if row else "",
        also=tuple(published(other, unit) for other in others),
        begin=said("begin", asked.begin),
        end=said("end", asked.end),
    )


def _values(asked: MeasureRule, row: LimitRow | None) -> Iterator[Value]:
    least, most = (row.at_least, row.at_most) if row else (None, None)
    half_of = row.or_half_of if row else ""
    if not asked.of:
        yield Value(id="time", name=message("brake-value-time"), at_least=least, at_most=most)
    for gauge in asked.of:
        name = message(f"gauge-{gauge}")
        if not asked.drop:
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


def _stroke(start: float, context: _Context, place: _Place) -> Measure:
    """The pushrod's stroke at one wheel end, against what the table says of its chamber."""
    assert place.axle is not None
    limit = limit_of(place.axle, context.strokes)
    name = limit.what if limit else "pushrod stroke"
    value = Value(
        id="stroke",
        name=message(f"brake-{name.replace(' ', '-')}"),
        at_most=limit.limit_in if limit else None,
    )
    said = message("brake-stroke-unlisted")
    if limit:
        most = Quantity(value=limit.limit_in, unit="in")
        said = message("limit-at-most", most=most, source=limit.source)
    return Measure(
        quantity="in",
        values=(value,),
        start=limit.limit_in if limit else start,
        known=limit is not None,
        limit=said,
        advice=over_advice(place.axle),
    )
