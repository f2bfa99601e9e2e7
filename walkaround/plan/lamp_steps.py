"""The steps at the lamps: what is switched, where to stand, and what should be seen there.

Circuits are lit together, in the fewest settings that still show every one of them, or one at a
time, as the mechanic likes. Either way what ought to be dark at a spot is part of what is expected
there: a lamp that shines on another lamp's circuit is how crossed and bridged wires show
themselves.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from walkaround.base.message import Text, message
from walkaround.lamps.names import joined, pins_named
from walkaround.lamps.required import Lamp
from walkaround.lamps.wiring import Circuit, Wiring
from walkaround.plan.lamp_items import (
    housings_of,
    item_of,
    lit_item,
    provenance_of,
    reflector_steps,
    spot_named,
    strongest,
)
from walkaround.plan.steps import OTHERS, Item, Look, Step
from walkaround.rounds.fewest import Rounds, plan_rounds
from walkaround.rounds.power_source import PowerSource, takes_part
from walkaround.rounds.words import Setting
from walkaround.rules.checklist import SPOTS, Spot

LOAD = "load"
"""Tail, turn and stop at once shows bad grounds; those are looked for at the rear."""


ABS_BY_STOP = "abs_by_stop"
"""The step that feeds a trailer's ABS from its stop circuit."""


@dataclass(frozen=True, slots=True)
class LampWalk:
    """The steps at lamps and reflectors, in walking order.

    Attributes:
        rounds: how many times the mechanic walks round the vehicle.
        why: a sentence that explains that number.
        hidden: a sentence for each thing that this source of power cannot show.
    """

    steps: tuple[Step, ...]
    rounds: int
    why: Text
    hidden: tuple[Text, ...] = ()


class _Lit(NamedTuple):
    """A setting as steps are made from it.

    Attributes:
        id, name: of the setting, or of the circuit that is lit alone.
        switching: how it is made.
        looks: how each circuit then looks, by circuit id; those not named are dark.
    """

    id: str
    name: Text
    switching: Text
    looks: Mapping[str, Look]
    alone: bool = False


def lamp_walk(
    lamps: Sequence[Lamp],
    reflectors: Sequence[Lamp],
    wiring: Wiring,
    source: PowerSource,
    *,
    together: bool,
) -> LampWalk:
    """Plan the steps at the lamps.

    Args:
        lamps, reflectors: of the vehicle, in the order they are come to.
        wiring: which circuit each lamp hangs on.
        source: what switches the circuits.
        together: several circuits in one setting, the fewest settings; else one at a time.

    Raises:
        InputError: the source has more switches, depending on each other, than can be searched.
    """
    lamps_at = {spot: [lamp for lamp in lamps if lamp.spot == spot] for spot in SPOTS}
    reflectors_at = {step.spot: step for step in reflector_steps(reflectors)}
    steps: list[Step] = []
    hidden: list[Text] = []
    if source.where != "cab":
        # One round: everything is switched, or called out, at each spot.
        for spot, here in lamps_at.items():
            circuits = _circuits_of(here, wiring)
            rounds = plan_rounds(source, circuits) if together else None
            hidden += _hidden(rounds, circuits)
            for lit in _settings(rounds, circuits, source):
                if lit.id != LOAD or spot == "rear":
                    steps.append(_step(lit, spot, here, 1, wiring, source))
            steps += _abs_by_stop(spot, here, wiring, source)
            steps += [reflectors_at[spot]] if spot in reflectors_at else []
        why = message(f"lamp-one-round-{source.where}")
        return LampWalk(tuple(steps), 1, why, tuple(dict.fromkeys(hidden)))

    # A round for each setting; a spot where nothing is lit is passed by, but for the rear.
    rounds = plan_rounds(source, wiring.circuits) if together else None
    settings = _settings(rounds, wiring.circuits, source)
    for number, lit in enumerate(settings, start=1):
        switching = lit.switching
        for spot, here in lamps_at.items():
            if _worth_a_look(lit, spot, here, wiring):
                at_spot = lit._replace(switching=switching)
                steps.append(_step(at_spot, spot, here, number, wiring, source))
                # Set once in the cab; at the later spots of the round it only stays so.
                switching = ""
            if number == 1 and spot in reflectors_at:
                steps.append(reflectors_at[spot])
    return LampWalk(
        tuple(steps),
        len(settings),
        rounds.why if rounds else message("lamp-one-circuit-one-round"),
        tuple(dict.fromkeys(_hidden(rounds, wiring.circuits))),
    )


def _circuits_of(lamps: Iterable[Lamp], wiring: Wiring) -> list[Circuit]:
    here = {wiring.circuit_of[lamp.id] for lamp in lamps}
    return [circuit for circuit in wiring.circuits if circuit.id in here]


def _settings(
    rounds: Rounds | None, circuits: Sequence[Circuit], source: PowerSource
) -> list[_Lit]:
    """What is switched on for these circuits, in order; without rounds each of them alone.

    With rounds the load check comes after them, unless a setting already was that, and then alone
    what no setting lights: continuous feeds such as ABS, and what the source cannot switch.
    """
    lit: list[_Lit] = []
    alone = circuits
    if rounds:

        def made(setting: Setting) -> Text:
            if source.where != "called":
                return setting.say
            return message("lamp-call-out", setting=setting.say)

        lit = [
            _Lit(f"look_{number}", setting.name, made(setting), setting.looks)
            for number, setting in enumerate(rounds.settings, start=1)
        ]
        load = rounds.load_check
        if load and load not in rounds.settings:
            lit.append(_Lit(LOAD, message("lamp-all-at-once"), made(load), load.looks))
        left = rounds.not_switchable
        alone = [c for c in circuits if not takes_part(c) or c.id in left]
    for circuit in alone:
        switching = message(f"lamp-circuit-on-{source.where}", circuit=circuit.name)
        if source.where == "spot" and circuit.pins:
            pins = pins_named(circuit.pins)
            switching = message("lamp-pins-on", pins=pins, circuit=circuit.name)
        name = message("lamp-circuit", circuit=circuit.name)
        look: Look = "flashing" if circuit.flashes else "steady"
        lit.append(_Lit(circuit.id, name, switching, {circuit.id: look}, alone=True))
    return lit


def _worth_a_look(lit: _Lit, spot: Spot, lamps: Sequence[Lamp], wiring: Wiring) -> bool:
    """Something is lit there; or, with several circuits on, it is the rear."""
    if lit.id == LOAD:
        return spot == "rear"
    if any(lit.looks.get(wiring.circuit_of[lamp.id], "dark") != "dark" for lamp in lamps):
        return True
    return spot == "rear" and bool(lamps) and not lit.alone


def _step(
    lit: _Lit,
    spot: Spot,
    lamps: Sequence[Lamp],
    number: int,
    wiring: Wiring,
    source: PowerSource,
) -> Step:
    """A setting looked at from a spot.

    Lit housings are items by what is lit in them; dark ones by name too, if circuits are together.
    """
    look_of = {lamp.id: lit.looks.get(wiring.circuit_of[lamp.id], "dark") for lamp in lamps}
    on = [c for c in wiring.circuits if lit.looks.get(c.id, "dark") != "dark"]
    shining = [lamp for lamp in lamps if look_of[lamp.id] != "dark"] or lamps
    expect: dict[str, Look] = {}
    items: list[Item] = []
    for housing in housings_of(lamps):
        inside = [lamp for lamp in lamps if lamp.housing == housing]
        expect[housing] = strongest(look_of[lamp.id] for lamp in inside)
        if expect[housing] != "dark":
            items.append(lit_item(inside, look_of))
        elif not lit.alone:
            items.append(item_of(inside))
    if lit.alone:
        items += _others(look == "dark" for look in expect.values())
    doubtful = [c for c in on if c.meter_first and source.where == "spot"]
    return Step(
        id=f"{lit.id}_{spot}",
        part="lamps",
        kind="lamp",
        title=message("lamp-step", what=lit.name, spot=spot_named(spot)),
        switching=lit.switching,
        spot=spot,
        round=number,
        power=True,
        circuits_on=tuple(circuit.id for circuit in on),
        expect=expect,
        items=tuple(items),
        meter_first=joined(circuit.why_doubtful for circuit in doubtful),
        source="; ".join(dict.fromkeys(lamp.source for lamp in shining)),
        provenance=provenance_of(shining),
    )


def _abs_by_stop(
    spot: Spot, lamps: Sequence[Lamp], wiring: Wiring, source: PowerSource
) -> Iterator[Step]:
    """The ABS lamp once more, fed from the stop circuit alone, its other supply."""
    lamp = next((lamp for lamp in lamps if lamp.kind == "abs"), None)
    stop = next((c for c in wiring.circuits if c.id == "stop" and c.pins), None)
    if lamp and stop and source.where == "spot":
        pins = pins_named(stop.pins)
        housings = housings_of(lamps)
        yield Step(
            id=f"{ABS_BY_STOP}_{spot}",
            part="lamps",
            kind="lamp",
            title=message("lamp-step-abs-by-stop", spot=spot_named(spot)),
            switching=message("lamp-only-pins-on", pins=pins, circuit=stop.name),
            spot=spot,
            round=1,
            power=True,
            circuits_on=(stop.id,),
            expect={**dict.fromkeys(housings, "dark"), lamp.housing: "steady"},
            items=(item_of([lamp]), *_others(other != lamp.housing for other in housings)),
            source="FMVSS 121 S5.5.2 (stop circuit as other supply); part 396 App. A 1.l",
            provenance="memory",
        )


def _others(dark: Iterable[bool]) -> list[Item]:
    """What stands for every lamp at the spot that ought to be dark, if there is one."""
    return [Item(id=OTHERS, name=message("lamp-any-other"), kind="others")] if any(dark) else []


def _hidden(rounds: Rounds | None, circuits: Iterable[Circuit]) -> Iterator[Text]:
    """What the rounds cannot show of these circuits, a clause each."""
    if rounds:
        names = {circuit.id: circuit.name for circuit in circuits}
        for first, second, reason in rounds.pairs_not_told_apart:
            one, other = names[first], names[second]
            yield message("lamp-not-told-apart", one=one, other=other, reason=reason)
        for id_, look in rounds.looks_not_had:
            yield message(f"lamp-not-seen-{look}", circuit=names[id_])
