"""The steps at the lamps: one for each circuit at each spot where it lights something.

What ought to be dark at a spot is part of what is expected there: a lamp that shines on another
lamp's circuit is how crossed and bridged wires show themselves.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from walkaround.checklist import SPOTS
from walkaround.lamps import Lamp
from walkaround.steps import OTHERS, Item, Look, Power, Step
from walkaround.wiring import Circuit, Wiring


def lit_circuits(wiring: Wiring) -> list[Circuit]:
    lit = set(wiring.circuit_of.values())
    return [circuit for circuit in wiring.circuits if circuit.id in lit]


def lamp_steps(
    lamps: Sequence[Lamp], reflectors: Sequence[Lamp], wiring: Wiring, power: Power
) -> list[Step]:
    """The steps at the lamps and reflectors, numbered by round, in walking order.

    Args:
        lamps, reflectors: of the vehicle, in the order they are come to.
        wiring: which circuit each lamp hangs on.
        power: what switches the circuits.
    """
    return _numbered([*_circuit_steps(lamps, wiring, power), *_reflector_steps(reflectors)], power)


def _circuit_steps(lamps: Sequence[Lamp], wiring: Wiring, power: Power) -> list[Step]:
    steps = []
    for circuit in lit_circuits(wiring):
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
