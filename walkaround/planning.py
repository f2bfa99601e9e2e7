"""Vehicle and checklists in, the plan of one walk out, in the order that keeps people whole."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from walkaround.checklist import PARTS, SPOTS, Checklist, StepRule
from walkaround.errors import InputError, Problem
from walkaround.lamps import Lamp, lamps_for, reflectors_for
from walkaround.lampsteps import lamp_walk, lit_circuits
from walkaround.layout import axle_x_mm
from walkaround.power import PowerSource
from walkaround.steps import Item, Mark, Plan, Scope, Step, pins_words
from walkaround.vehicle import Vehicle, has_abs, has_air_brakes
from walkaround.walking import walked_m
from walkaround.wiring import Connector, Wiring, wire


@dataclass(frozen=True, slots=True)
class Rulebook:
    """All that plans are made from: checklists, connectors by id, power sources by id."""

    checklists: tuple[Checklist, ...]
    connectors: Mapping[str, Connector]
    power_sources: Mapping[str, PowerSource]


def plan_walk(
    vehicle: Vehicle,
    rules: Rulebook,
    *,
    scope: Scope = "whole",
    power: str = "box",
    together: bool = True,
    only: Iterable[str] = (),
    recheck_of: str = "",
) -> Plan:
    """The steps for this vehicle.

    Args:
        vehicle: what stands there.
        rules: every checklist known (those that do not apply are left aside), and the rest.
        scope: the whole walk, lamps or brakes only, or the recheck of the steps in `only`.
        power: id of what switches the lamp circuits.
        together: light circuits together, in the fewest settings; else one at a time.
        only: with `recheck`, the ids of the steps to repeat.
        recheck_of: with `recheck`, the walk that found the defects.

    Raises:
        InputError: a lamp of this vehicle has no circuit at its connector, there is no such
            source of power, or it has more switches than can be searched.
    """
    fitting = [each for each in rules.checklists if each.applies.matches(vehicle)]
    lamps = sorted(lamps_for(vehicle, fitting), key=_walked)
    reflectors = sorted(reflectors_for(vehicle, fitting), key=_walked)
    wiring = wire(vehicle, lamps, rules.connectors)
    at_lamps = lamp_walk(lamps, reflectors, wiring, _source(rules, power), together=together)
    steps = [step for checklist in fitting for step in _written_steps(checklist, vehicle, wiring)]
    steps += at_lamps.steps
    in_order = sorted(steps, key=lambda step: PARTS.index(step.part))
    kept = tuple(_in_scope(in_order, scope, frozenset(only)))
    walks_lamps = any(step.part == "lamps" for step in kept)
    trips = [
        [step.spot for step in kept if step.part == "lamps" and step.round == number]
        for number in range(1, at_lamps.rounds + 1)
    ]
    return Plan(
        vehicle=vehicle,
        scope=scope,
        power=power,
        together=together,
        rounds=at_lamps.rounds if walks_lamps else 0,
        why_rounds=at_lamps.why if walks_lamps else "",
        walked_m=round(walked_m(vehicle, trips), 1),
        hidden=at_lamps.hidden if walks_lamps else (),
        steps=kept,
        marks=_marks(vehicle, [*lamps, *reflectors]),
        recheck_of=recheck_of,
    )


def _source(rules: Rulebook, power: str) -> PowerSource:
    known = rules.power_sources
    if power not in known:
        what = f"there is no source of power called {power}"
        raise InputError([Problem("power", "", what, f"use one of: {', '.join(sorted(known))}")])
    return known[power]


def _walked(lamp: Lamp) -> tuple[int, float]:
    """The order in which a mechanic who walks clockwise comes to the lamps of one side."""
    along_mm = {"right_side": lamp.x_mm, "left_side": -lamp.x_mm}.get(lamp.spot, 0.0)
    return SPOTS.index(lamp.spot), along_mm


def _in_scope(steps: Sequence[Step], scope: Scope, only: frozenset[str]) -> Iterable[Step]:
    """Leave out what this scope does not ask.

    A recheck keeps the acts of the parts it needs: nobody applies air to an unchocked trailer
    because only one axle is to be heard again.
    """
    if scope == "whole":
        return steps
    wanted = [step for step in steps if step.id in only]
    air = scope == "brakes" or any(step.air for step in wanted)
    power = scope == "lamps" or any(step.power for step in wanted)
    parts = _parts_around(wanted)

    def kept(step: Step) -> bool:
        if (step.air and not air) or (step.power and not power):
            return False
        if scope != "recheck":
            return True
        readying = step.kind == "act" and step.part in parts
        return step.id in only or step.part == "finish" or readying

    return [step for step in steps if kept(step)]


def _parts_around(wanted: Iterable[Step]) -> set[str]:
    """The parts whose acts a recheck of these steps needs: an axle is heard with brakes applied."""
    parts = {"secure", "connect", "charge", "release", "finish", "leave"}
    for step in wanted:
        first = PARTS.index("charge") if step.air else PARTS.index(step.part)
        parts.update(PARTS[first : PARTS.index(step.part) + 1])
    return parts


def _written_steps(checklist: Checklist, vehicle: Vehicle, wiring: Wiring) -> Iterable[Step]:
    for rule in checklist.steps:
        if not _needed(rule, vehicle, wiring):
            continue
        axles = range(1, len(vehicle.brakes.axles) + 1) if rule.per_axle else (0,)
        for axle in axles:
            yield _written_step(rule, vehicle, wiring, axle)


def _needed(rule: StepRule, vehicle: Vehicle, wiring: Wiring) -> bool:
    brakes = vehicle.brakes
    air_only = has_air_brakes(vehicle) and not any(axle.spring for axle in brakes.axles)
    facts = {
        "spring_brakes": any(axle.spring for axle in brakes.axles),
        "no_spring_brakes": air_only,
        "parked_by_itself": not air_only,
        "abs": has_abs(vehicle),
        "reservoir": bool(brakes.reservoir_l),
        "12v": vehicle.electrical.volts == 12,
        "24v": vehicle.electrical.volts == 24,
        "meter_first": any(c.meter_first for c in lit_circuits(wiring)),
    }
    return all(facts.get(need, True) for need in rule.needs)


def _written_step(rule: StepRule, vehicle: Vehicle, wiring: Wiring, axle: int) -> Step:
    doubtful = [c for c in lit_circuits(wiring) if c.meter_first]
    words = {
        "axle": axle,
        "volts": vehicle.electrical.volts,
        "connector": wiring.connector.title,
        "doubtful_pins": pins_words([pin for circuit in doubtful for pin in circuit.pins]),
    }

    def filled(text: str) -> str:
        return text.format_map(words)

    ends = [(f"axle_{axle}_{side}", f"axle {axle}, {side} end") for side in ("left", "right")]
    return Step(
        id=filled(rule.id),
        part=rule.part,
        kind=rule.kind,
        title=filled(rule.title),
        short=filled(rule.short),
        long=filled(rule.long),
        caution=filled(rule.caution),
        spot=rule.spot,
        items=tuple(
            Item(id=id_, name=name, kind="wheel_end", required=True) for id_, name in ends if axle
        ),
        must=rule.must,
        quiet=rule.quiet,
        air="air" in rule.needs,
        power="lamps" in rule.needs,
        hold=rule.hold,
        source=rule.source,
        provenance=rule.provenance,
    )


def _marks(vehicle: Vehicle, lamps: Sequence[Lamp]) -> tuple[Mark, ...]:
    marks = {
        lamp.housing: Mark(id=lamp.housing, x_mm=lamp.x_mm, y_mm=lamp.y_mm, colour=lamp.colour)
        for lamp in lamps
    }
    for number, x_mm in enumerate(axle_x_mm(vehicle), start=1):
        for side, sign in (("left", -1), ("right", 1)):
            id_ = f"axle_{number}_{side}"
            marks[id_] = Mark(id=id_, x_mm=x_mm, y_mm=sign * (vehicle.width_mm / 2 - 200))
    return tuple(marks.values())
