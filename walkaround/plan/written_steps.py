"""The steps that checklists write out, as this vehicle has them: needs, words, limits."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from walkaround.base.message import Argument, Message, Quantity, Text, message
from walkaround.base.provenance import together
from walkaround.brakes.chambers import chamber_named
from walkaround.brakes.linings import LiningLimit, is_steering_axle, lining_limit
from walkaround.brakes.strokes import (
    StrokeTable,
    adjuster_must_be_automatic,
    limit_of,
)
from walkaround.lamps.names import join_clauses, pins_named
from walkaround.lamps.wiring import Wiring
from walkaround.plan.step_limits import hold_rule, measure_rule
from walkaround.plan.steps import Choice, Item, Step
from walkaround.plan.wheel_items import SIDES, Side, WheelEnd, wheel_items
from walkaround.rules.checklist import Checklist, Need, Station, StepRule
from walkaround.rules.limits import (
    Situation,
    choose_limit,
)
from walkaround.vehicle.model import POWER_UNITS, Axle, Vehicle, has_abs, has_air_brakes

_PLACEHOLDER = re.compile(r"\{(\w+)\}")
_SPOT_OF: Mapping[Side, Station] = {"left": "left_side", "right": "right_side"}


class _Place(NamedTuple):
    """A place where a rule applies: nowhere in particular, an axle, or one end of it."""

    number: int = 0
    axle: Axle | None = None
    side: Side | None = None


class WrittenStep(NamedTuple):
    """A step of a checklist as it is told first.

    Attributes:
        rule: the rule that it is made from, which may stand at several places.
        again: the step worded for where its rule was told before; None if no different.
    """

    rule: str
    step: Step
    again: Step | None


class _Context(NamedTuple):
    """The facts from which every step of a walk is made.

    Attributes:
        doubt: what is uncertain about a whole checklist, where a step says nothing of its own.
    """

    situation: Situation
    wiring: Wiring
    strokes: StrokeTable
    chosen: Mapping[str, str]
    doubt: str = ""


def written_steps(
    checklists: Sequence[Checklist], situation: Situation, wiring: Wiring, strokes: StrokeTable
) -> list[WrittenStep]:
    """Make every written step that this vehicle needs, in the order of the files."""
    checklists = [each for each in checklists if each.applies.matches(situation.vehicle)]
    chosen = {key: row for each in reversed(checklists) for key, row in each.chosen.items()}
    context = _Context(situation, wiring, strokes, chosen)
    return [
        _told(rule, f"{checklist.id}/{rule.id}", context._replace(doubt=checklist.doubt), place)
        for checklist in checklists
        for rule in checklist.steps
        for place in _places(rule, situation.vehicle)
        if _is_needed(rule.needs, context, place)
    ]


def _places(rule: StepRule, vehicle: Vehicle) -> Iterator[_Place]:
    """List one place, or one for each axle, or clockwise one for each wheel end."""
    axles = list(enumerate(vehicle.brakes.axles, start=1))
    if rule.per_end:
        # Down the right side and back up the left one, as a mechanic walks.
        yield from (_Place(number, axle, "right") for number, axle in axles)
        yield from (_Place(number, axle, "left") for number, axle in reversed(axles))
    elif rule.per_axle:
        yield from (_Place(number, axle) for number, axle in axles)
    else:
        yield _Place()


def _is_needed(needs: Sequence[Need], context: _Context, place: _Place) -> bool:
    """Tell whether a vehicle, at this place of it, has all that a rule needs."""
    vehicle, wiring = context.situation.vehicle, context.wiring
    brakes = vehicle.brakes
    axles = (place.axle,) if place.axle else brakes.axles
    air = has_air_brakes(vehicle)
    sprung = air and any(axle.spring for axle in brakes.axles)
    power_unit = vehicle.kind in POWER_UNITS
    facts = {
        "spring_brakes": sprung,
        "no_spring_brakes": air and not sprung,
        # A power unit has a parking brake of its own (49 CFR 393.41); of what is towed, only
        # spring brakes hold for good.
        "parked_by_lever": power_unit and not sprung,
        "held_by_chocks": not (power_unit or sprung),
        "spring_axle": any(axle.spring for axle in axles),
        "air_at_wheels": air,
        "air_over_hydraulic": brakes.system == "air_over_hydraulic",
        "rear_lines": vehicle.kind in ("full trailer", "converter dolly"),
        "abs": has_abs(vehicle),
        "reservoir": bool(brakes.reservoir_l),
        "lift_axle": any(axle.lift for axle in axles),
        "automatic_slack": any(axle.slack == "automatic" for axle in axles),
        "manual_slack": any(axle.slack == "manual" for axle in axles),
        "pushrod": air and any(axle.actuator != "wedge" for axle in axles),
        "wedge": air and any(axle.actuator == "wedge" for axle in axles),
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
    return all(facts.get(need, True) for need in needs)


def _told(rule: StepRule, path: str, context: _Context, place: _Place) -> WrittenStep:
    first, args = _step(rule, path, context, place), _args(context, place)
    later = {
        key: _filled_text(f"{path}/{key}_again", text, args)
        for key in ("brisk", "short", "long", "caution")
        if (text := getattr(rule, f"{key}_again"))
    }
    return WrittenStep(path, first, first.model_copy(update=later) if later else None)


def _step(rule: StepRule, path: str, context: _Context, place: _Place) -> Step:
    args = _args(context, place)

    def filled_text(key: str, text: str) -> Text:
        return _filled_text(f"{path}/{key}", text, args)

    row, other_rows = choose_limit(rule.limits, context.situation, context.chosen.get(rule.id, ""))
    return Step(
        id=rule.id.format(axle=place.number, side=place.side),
        part=rule.part,
        kind=rule.kind,
        title=filled_text("title", rule.title),
        short=filled_text("short", rule.short),
        long=filled_text("long", rule.long),
        brisk=filled_text("brisk", rule.brisk),
        caution=filled_text("caution", rule.caution),
        spot=_SPOT_OF[place.side] if place.side else rule.spot,
        items=_items(rule, path, context, place),
        must=rule.must,
        quiet=rule.quiet,
        soft=rule.soft,
        vents=rule.vents,
        once=rule.once,
        hands_free=rule.hands_free,
        spoken=rule.spoken,
        air="air" in rule.needs,
        power="lamps" in rule.needs,
        hold=hold_rule(rule.hold, context.situation, row, other_rows) if rule.hold else None,
        measure=measure_rule(
            rule.measure, filled_text, place.axle, context.strokes, row, other_rows
        )
        if rule.measure
        else None,
        wait=rule.wait,
        choices=tuple(
            Choice(id=choice.id, text=filled_text(f"choice/{choice.id}", choice.text))
            for choice in rule.choices
        ),
        source=rule.source,
        provenance=rule.provenance,
        doubt=together(
            [rule.doubt or context.doubt, *(each.doubt for each in (row, *other_rows) if each)]
        ),
    )


def _items(rule: StepRule, path: str, context: _Context, place: _Place) -> tuple[Item, ...]:
    vehicle = context.situation.vehicle
    if place.side:
        ends = [WheelEnd(place.number, place.side)]
    elif rule.all_ends:
        axles = range(1, len(vehicle.brakes.axles) + 1)
        ends = [WheelEnd(number, side) for number in axles for side in SIDES]
    else:
        ends = [WheelEnd(place.number, side) for side in SIDES if place.number]
    rows = {
        row.id: _filled_text(f"{path}/row/{row.id}", row.name, {})
        for row in rule.rows
        if _is_needed(row.needs, context, place)
    }
    return wheel_items(ends, rows, apart=rule.all_ends)


def _holding_word(situation: Situation) -> str:
    """Return the word for what holds the vehicle besides the chocks."""
    kind = situation.vehicle.kind
    if kind in POWER_UNITS:
        return "power-unit"
    return "coupled" if situation.air == "coupled" else kind.replace(" ", "-")


def _filled_text(path: str, text: str, args: Mapping[str, Argument]) -> Text:
    """Return a checklist's text with its placeholders filled; no text stays none."""
    args_there = {name: args[name] for name in _PLACEHOLDER.findall(text) if name in args}
    return Message(id=path, args=args_there, written=text) if text else ""


def _args(context: _Context, place: _Place) -> dict[str, Argument]:
    """Return what the placeholders of a step's texts may be filled with."""
    vehicle, wiring = context.situation.vehicle, context.wiring
    doubtful = [circuit for circuit in wiring.circuits if circuit.meter_first]
    args: dict[str, Argument] = {
        "volts": vehicle.electrical.volts,
        "connector": wiring.connector.name,
        "doubtful_pins": pins_named([pin for circuit in doubtful for pin in circuit.pins]),
        "towed": context.situation.towed,
        "held_by": message(f"secure-held-{_holding_word(context.situation)}"),
        "supply_psi": Quantity(value=context.situation.shop.supply_psi, unit="psi"),
        "service_psi": Quantity(value=context.situation.shop.service_psi, unit="psi"),
    }
    if place.axle is None:
        return args
    stroke = limit_of(place.axle, context.strokes)
    lining = lining_limit(place.axle, is_steering_axle(vehicle, place.number))
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
    """Say where the limit of a lining stands, and what is published besides."""
    if not lining.also:
        return message("brake-lining-source", source=lining.source)
    return message("brake-lining-sources", source=lining.source, also=join_clauses(lining.also))
