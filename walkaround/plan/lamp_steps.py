"""The steps at the lamps: what is switched, where to stand, and what should be seen there.

Circuits are lit together, in the fewest settings that still show every one of them, or one at a
time, as the mechanic likes. Either way what ought to be dark at a spot is part of what is expected
there: a lamp that shines on another lamp's circuit is how crossed and bridged wires show
themselves. Reflectors, and whatever else is seen at a spot, belong to a look there anyway.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from walkaround.base.message import Text, message
from walkaround.base.provenance import together
from walkaround.lamps.names import join_clauses, pins_named
from walkaround.lamps.required_lamps import Lamp
from walkaround.lamps.wiring import Circuit, Wiring
from walkaround.plan.abs_steps import ABS_BY_STOP, abs_steps, is_abs
from walkaround.plan.lamp_items import (
    housings_of,
    in_seeing_order,
    item_of,
    lit_item,
    other_lamps_item,
    provenance_of,
    spot_named,
    strongest_look,
    with_what_else,
)
from walkaround.plan.lamp_settings import LOAD, LampSetting, settings_for, worth_a_look
from walkaround.plan.steps import Item, Look, Step
from walkaround.rounds.plan_rounds import Rounds, plan_rounds
from walkaround.rounds.power_source import PowerSource
from walkaround.rules.checklist import SPOTS, Spot


@dataclass(frozen=True, slots=True)
class LampWalk:
    """The steps at lamps and reflectors, in walking order.

    Attributes:
        rounds: how many times the mechanic walks round the vehicle; a last look at the rear alone
            is no round.
        why: a sentence that explains that number.
        trips: ids of the steps of each way from the switches to the vehicle and back.
        hidden: a sentence for each thing that this source of power cannot show.
    """

    steps: tuple[Step, ...]
    rounds: int
    why: Text
    trips: tuple[tuple[str, ...], ...]
    hidden: tuple[Text, ...] = ()


class _Visit(NamedTuple):
    """A look at the lamps of one spot in one setting, in a round counted from 1."""

    setting: LampSetting
    spot: Spot
    round: int


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
        wiring: which circuit feeds each lamp.
        source: what switches the circuits.
        together: several circuits in one setting, the fewest settings; else one at a time.

    Raises:
        InputError: the source has more switches, depending on each other, than can be searched.
    """
    lamps_at = {spot: [lamp for lamp in lamps if lamp.spot == spot] for spot in SPOTS}
    circuits = [c for c in wiring.circuits if not is_abs(c, lamps, wiring)]
    hidden: list[Text] = []
    visits: list[_Visit] = []
    if source.where == "cab":
        # A round for each setting; a spot where nothing new is seen is passed by.
        rounds = plan_rounds(source, circuits) if together else None
        settings = settings_for(rounds, circuits, source)
        hidden += _not_shown(rounds, circuits)
        seen_at = {spot: worth_a_look(settings, spot, lamps_at[spot], wiring) for spot in SPOTS}
        count = 0
        for setting in settings:
            # The load check is a last look at the rear, not a round of its own.
            count += setting.id != LOAD
            visits += [
                _Visit(setting, spot, count) for spot in SPOTS if setting.id in seen_at[spot]
            ]
        why = rounds.why if rounds else message("lamp-one-circuit-one-round")
    else:
        # One round: everything is switched, or called out, at each spot.
        for spot, here in lamps_at.items():
            at_spot = [c for c in circuits if c.id in {wiring.circuit_of[lamp.id] for lamp in here}]
            rounds = plan_rounds(source, at_spot) if together else None
            hidden += _not_shown(rounds, at_spot)
            settings = settings_for(rounds, at_spot, source)
            visits += [
                _Visit(setting, spot, 1)
                for setting in settings
                if setting.id != LOAD or spot == "rear"
            ]
        count, why = 1, message(f"lamp-one-round-{source.where}")
    looks = abs_steps(lamps, wiring, source, [*_looks(visits, lamps_at, wiring, source)])
    by_pedal = any(step.id.startswith(ABS_BY_STOP) for step in looks)
    if source.where != "spot" and (by_pedal or any(visit.setting.is_propped for visit in visits)):
        looks.append(_act("all_off", "all-off", count, source))
    places = {lamp.housing: lamp for lamp in (*lamps, *reflectors)}
    steps = map(_hands_free, _metered_once(with_what_else(looks, reflectors)))
    return LampWalk(
        tuple(in_seeing_order(step, places) for step in steps),
        count,
        why,
        tuple(_trips(visits, looks, source)),
        tuple(dict.fromkeys(hidden)),
    )


def _looks(
    visits: Sequence[_Visit],
    lamps_at: Mapping[Spot, Sequence[Lamp]],
    wiring: Wiring,
    source: PowerSource,
) -> Iterator[Step]:
    """Yield a step for each visit; a gear is out before anything else is switched."""
    gears = 0
    for at, (setting, spot, number) in enumerate(visits):
        # Set once in the cab; at the later spots of the round it only stays so.
        stays = source.where == "cab" and at > 0 and visits[at - 1].setting.id == setting.id
        step = _step(setting, spot, lamps_at[spot], number, wiring, source)
        yield step.model_copy(update={"stays": True}) if stays else step
        if setting.in_gear and not (at + 1 < len(visits) and visits[at + 1].setting.in_gear):
            gears += 1
            # So that starting the engine does not move the vehicle.
            yield _act(f"out_of_reverse_{gears}", "out-of-reverse", number, source)


def _step(
    setting: LampSetting,
    spot: Spot,
    lamps: Sequence[Lamp],
    number: int,
    wiring: Wiring,
    source: PowerSource,
) -> Step:
    """Make the look at a setting from a spot.

    Lit housings are items by what is lit in them; dark ones by name too, if circuits are together.
    """
    look_of = {lamp.id: setting.looks.get(wiring.circuit_of[lamp.id], "dark") for lamp in lamps}
    on = [c for c in wiring.circuits if setting.looks.get(c.id, "dark") != "dark"]
    shining = [lamp for lamp in lamps if look_of[lamp.id] != "dark"] or lamps
    expect: dict[str, Look] = {}
    items: list[Item] = []
    for housing in housings_of(lamps):
        inside = [lamp for lamp in lamps if lamp.housing == housing]
        expect[housing] = strongest_look(look_of[lamp.id] for lamp in inside)
        if expect[housing] != "dark":
            items.append(lit_item(inside, look_of))
        elif not setting.alone:
            items.append(item_of(inside))
    if setting.alone:
        items += other_lamps_item(look == "dark" for look in expect.values())
    in_hand = source.where == "spot"
    pins = [pin for circuit in on for pin in circuit.pins]
    doubtful = [c for c in on if c.meter_first and in_hand]
    return Step(
        id=f"{setting.id}_{spot}",
        part="lamps",
        kind="lamp",
        title=message("lamp-step", what=setting.name, spot=spot_named(spot)),
        switching=setting.switching,
        pins=pins_named(pins) if pins and in_hand else "",
        spot=spot,
        round=number,
        power=True,
        circuits_on=tuple(circuit.id for circuit in on),
        expect=expect,
        items=tuple(items),
        meter_first=join_clauses(circuit.why_doubtful for circuit in doubtful),
        source=together(lamp.source for lamp in shining),
        provenance=provenance_of(shining),
        doubt=together(lamp.doubt for lamp in shining),
    )


def _act(id_: str, action: str, round_: int, source: PowerSource) -> Step:
    """Make an act at the switches that puts something back and cannot be skipped."""
    order = message(f"lamp-{action}-{source.where}")
    return Step(
        id=id_,
        part="lamps",
        kind="act",
        title=message(f"lamp-step-{action}"),
        short=order,
        long=message(f"lamp-{action}-long", order=order),
        brisk=order,
        switching=order,
        spot="cab",
        round=round_,
        must=True,
        power=True,
        source="common practice, no source",
        provenance="common practice, no source",
    )


def _metered_once(steps: Iterable[Step]) -> Iterator[Step]:
    """Have a doubtful contact metered before it is first fed, and not again."""
    metered: set[Text] = set()
    for step in steps:
        is_metered = step.meter_first in metered
        metered.add(step.meter_first)
        yield step.model_copy(update={"meter_first": ""}) if is_metered else step


def _hands_free(step: Step) -> Step:
    """Let a step be answered without a tap where one looks and has nothing to meter."""
    free = step.kind in ("lamp", "look") and not step.meter_first
    return step.model_copy(update={"hands_free": free})


def _trips(
    visits: Sequence[_Visit], looks: Sequence[Step], source: PowerSource
) -> Iterator[tuple[str, ...]]:
    """Count the ways from the switches: one for each setting in a cab, else one for all."""
    if source.where != "cab":
        yield tuple(step.id for step in looks if step.spot in SPOTS)
        return
    for id_ in dict.fromkeys(visit.setting.id for visit in visits):
        yield tuple(f"{id_}_{visit.spot}" for visit in visits if visit.setting.id == id_)


def _not_shown(rounds: Rounds | None, circuits: Iterable[Circuit]) -> Iterator[Text]:
    """Say what the rounds cannot show of these circuits, a clause each."""
    if rounds:
        names = {circuit.id: circuit.name for circuit in circuits}
        for first, second, reason in rounds.pairs_not_told_apart:
            one, other = names[first], names[second]
            yield message("lamp-not-told-apart", one=one, other=other, reason=reason)
        for id_, look in rounds.looks_not_had:
            yield message(f"lamp-not-seen-{look}", circuit=names[id_])
