"""Vehicle and checklists in, the steps of one walk out, in the order that keeps people whole.

A `Plan` is all that a walk needs to know of its vehicle. It is stored whole with the walk, so
that a record never changes its meaning when a checklist does.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from walkaround.checklist import PARTS, SPOTS, Checklist, HoldRule, StepRule
from walkaround.lamps import Lamp, lamps_for, reflectors_for
from walkaround.layout import axle_x_mm
from walkaround.vehicle import Vehicle, has_abs, has_air_brakes
from walkaround.wiring import Circuit, Connector, Wiring, wire

Scope = Literal["whole", "lamps", "brakes", "recheck"]
Power = Literal["box", "cab", "helper"]
Look = Literal["steady", "flashing", "dark"]
Provenance = Literal["read", "memory", "common practice, no source"]

CHECKED_KINDS = frozenset({"lamp", "look", "listen", "hold"})
"""Kinds that find something out; the other kind, `act`, gets the vehicle ready for them."""

OTHERS = "others"
"""The item that stands for every lamp at a spot that ought to be dark."""


class Item(BaseModel):
    """One thing to look at in a step: a lamp housing, a reflector, a wheel end.

    Attributes:
        id: the housing (or wheel end); a plan mark has the same id.
        name: as said and shown.
        lamps: ids of the lamps in it that this step is about.
        required: a rule demands it, so that it can be missing but not simply "not fitted".
        what, why: for the new hire; what right looks like and why it matters.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    name: str
    kind: str = ""
    lamps: tuple[str, ...] = ()
    required: bool = False
    what: str = ""
    why: str = ""


class Mark(BaseModel):
    """Where an item is on the plan of the vehicle: x rearward from the front, y to the right."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    x_mm: float
    y_mm: float
    colour: str = ""


class Step(BaseModel):
    """One thing asked of the mechanic.

    Attributes:
        must: it cannot be skipped.
        quiet: the voice keeps silent once the prompt is spoken, for listening.
        air, power: it needs the air lines charged, the lamp circuits fed.
        meter_first: why the pin is doubtful and wants measuring before it is fed; else empty.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str = Field(pattern=r"^[a-z0-9_]+$")
    part: str
    kind: Literal["act", "look", "listen", "hold", "lamp"]
    title: str
    short: str = ""
    long: str = ""
    caution: str = ""
    spot: str
    round: int = 0
    circuits_on: tuple[str, ...] = ()
    circuit_name: str = ""
    pins: tuple[str, ...] = ()
    expect: Mapping[str, Look] = Field(default_factory=dict)
    items: tuple[Item, ...] = ()
    must: bool = False
    quiet: bool = False
    air: bool = False
    power: bool = False
    meter_first: str = ""
    hold: HoldRule | None = None
    source: str
    provenance: Provenance


class Plan(BaseModel):
    """What one walk asks, of which vehicle, in which order."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    vehicle: Vehicle
    scope: Scope
    power: Power
    rounds: int
    steps: tuple[Step, ...]
    marks: tuple[Mark, ...]
    recheck_of: str = ""

    def step(self, step_id: str) -> Step | None:
        """The step of that id, if the plan has one."""
        return next((step for step in self.steps if step.id == step_id), None)


def plan_walk(
    vehicle: Vehicle,
    checklists: Sequence[Checklist],
    connectors: Mapping[str, Connector],
    *,
    scope: Scope = "whole",
    power: Power = "box",
    only: Iterable[str] = (),
    recheck_of: str = "",
) -> Plan:
    """The steps for this vehicle.

    Args:
        vehicle: what stands there.
        checklists: every checklist known; those that do not apply are left aside.
        connectors: connector tables by id.
        scope: the whole walk, lamps or brakes only, or the recheck of the steps in `only`.
        power: what switches the lamp circuits.
        only: with `recheck`, the ids of the steps to repeat.
        recheck_of: with `recheck`, the walk that found the defects.

    Raises:
        InputError: a lamp of this vehicle has no circuit at its connector.
    """
    fitting = [checklist for checklist in checklists if checklist.applies.matches(vehicle)]
    lamps = sorted(lamps_for(vehicle, fitting), key=_walked)
    reflectors = sorted(reflectors_for(vehicle, fitting), key=_walked)
    wiring = wire(vehicle, lamps, connectors)
    steps = [step for checklist in fitting for step in _written_steps(checklist, vehicle, wiring)]
    lamp_steps = [*_lamp_steps(lamps, wiring, power), *_reflector_steps(reflectors)]
    in_order = sorted([*steps, *_numbered(lamp_steps, power)], key=lambda s: PARTS.index(s.part))
    kept = tuple(_in_scope(in_order, scope, frozenset(only)))
    return Plan(
        vehicle=vehicle,
        scope=scope,
        power=power,
        rounds=max((step.round for step in kept), default=0),
        steps=kept,
        marks=_marks(vehicle, [*lamps, *reflectors]),
        recheck_of=recheck_of,
    )


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
        "meter_first": any(c.meter_first for c in _lit_circuits(wiring)),
    }
    return all(facts.get(need, True) for need in rule.needs)


def _written_step(rule: StepRule, vehicle: Vehicle, wiring: Wiring, axle: int) -> Step:
    doubtful = [c for c in _lit_circuits(wiring) if c.meter_first]
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


def pins_words(pins: Sequence[str]) -> str:
    """Pins as people name them: "pin 7", "pins A, C and H"."""
    if len(pins) < 2:
        return f"pin {''.join(pins)}"
    return f"pins {', '.join(pins[:-1])} and {pins[-1]}"


def _lit_circuits(wiring: Wiring) -> list[Circuit]:
    lit = set(wiring.circuit_of.values())
    return [circuit for circuit in wiring.circuits if circuit.id in lit]


def _lamp_steps(lamps: Sequence[Lamp], wiring: Wiring, power: Power) -> list[Step]:
    """One step for each circuit at each spot where it lights something."""
    steps = []
    for circuit in _lit_circuits(wiring):
        for spot in SPOTS:
            here = [lamp for lamp in lamps if lamp.spot == spot]
            lit = [lamp for lamp in here if wiring.circuit_of[lamp.id] == circuit.id]
            if lit:
                steps.append(_lamp_step(circuit, spot, lit, here, power))
    return steps


def _lamp_step(
    circuit: Circuit, spot: str, lit: Sequence[Lamp], here: Sequence[Lamp], power: Power
) -> Step:
    look: Look = "flashing" if circuit.flashes else "steady"
    shining = {lamp.housing for lamp in lit}
    others: dict[str, Look] = {lamp.housing: "dark" for lamp in here if lamp.housing not in shining}
    items = [_item(housing, [x for x in lit if x.housing == housing]) for housing in _order(lit)]
    if others:
        items.append(Item(id=OTHERS, name="any other lamp here", kind="others"))
    doubt = "" if not circuit.meter_first else circuit.why_doubtful
    return Step(
        id=f"{circuit.id}_{spot}",
        part="lamps",
        kind="lamp",
        title=f"{circuit.name[:1].upper()}{circuit.name[1:]} circuit, {spot.replace('_', ' ')}",
        spot=spot,
        power=True,
        circuits_on=(circuit.id,),
        circuit_name=circuit.name,
        pins=circuit.pins,
        expect=dict.fromkeys(shining, look) | others,
        items=tuple(items),
        meter_first=doubt if power == "box" else "",
        source="; ".join(dict.fromkeys(lamp.source for lamp in lit)),
        provenance="read" if all(lamp.provenance == "read" for lamp in lit) else "memory",
    )


def _order(lamps: Iterable[Lamp]) -> list[str]:
    return list(dict.fromkeys(lamp.housing for lamp in lamps))


def _item(housing: str, lamps: Sequence[Lamp]) -> Item:
    return Item(
        id=housing,
        name=" and ".join(dict.fromkeys(lamp.name for lamp in lamps)),
        kind=lamps[0].kind,
        lamps=tuple(lamp.id for lamp in lamps),
        required=any(lamp.required for lamp in lamps),
        what=lamps[0].what,
        why=lamps[0].why,
    )


def _reflector_steps(reflectors: Sequence[Lamp]) -> list[Step]:
    steps = []
    for spot in SPOTS:
        here = [reflector for reflector in reflectors if reflector.spot == spot]
        if here:
            steps.append(
                Step(
                    id=f"reflectors_{spot}",
                    part="lamps",
                    kind="look",
                    title=f"Reflectors, {spot.replace('_', ' ')}",
                    spot=spot,
                    power=True,
                    items=tuple(
                        _item(housing, [x for x in here if x.housing == housing])
                        for housing in _order(here)
                    ),
                    source="; ".join(dict.fromkeys(r.source for r in here)),
                    provenance="read" if all(r.provenance == "read" for r in here) else "memory",
                )
            )
    return steps


def _numbered(steps: Sequence[Step], power: Power) -> list[Step]:
    """Put lamp steps in walking order and give each its round.

    With a box in hand or a helper, circuits are switched at each spot: one round. From the cab
    every circuit costs a round of its own.
    """
    circuits = list(dict.fromkeys(step.circuits_on for step in steps))
    if power != "cab":
        by_spot = sorted(steps, key=lambda s: SPOTS.index(s.spot))
        return [step.model_copy(update={"round": 1}) for step in by_spot]
    lit = [circuit for circuit in circuits if circuit]
    return [
        step.model_copy(update={"round": lit.index(step.circuits_on) + 1})
        if step.circuits_on
        else step.model_copy(update={"round": 1})
        for step in sorted(steps, key=lambda s: _cab_order(s, lit))
    ]


def _cab_order(step: Step, circuits: Sequence[tuple[str, ...]]) -> tuple[int, int, int]:
    """Reflectors need no switch: they are looked at during the first round."""
    first = circuits.index(step.circuits_on) if step.circuits_on else 0
    return first, SPOTS.index(step.spot), 0 if step.circuits_on else 1


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
