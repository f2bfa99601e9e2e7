"""The steps at the lamps: what is switched, where to stand, and what should be seen there.

Circuits are lit together, in the fewest settings that still show every one of them, or one at a
time, as the mechanic likes. Either way what ought to be dark at a spot is part of what is expected
there: a lamp that shines on another lamp's circuit is how crossed and bridged wires show
themselves.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from walkaround.base.message import Text, message
from walkaround.lamps.names import joined, pins_named
from walkaround.lamps.required import Lamp
from walkaround.lamps.wiring import Circuit, Wiring
from walkaround.plan.lamp_items import (
    item_of,
    lit_item,
    order,
    provenance,
    reflector_steps,
    spot_named,
    strongest,
)
from walkaround.plan.steps import OTHERS, Item, Look, Step
from walkaround.rounds.fewest import Rounds, plan_rounds
from walkaround.rounds.power_source import PowerSource, takes_part
from walkaround.rounds.words import Setting
from walkaround.rules.checklist import SPOTS, Spot, Station

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


@dataclass(frozen=True, slots=True)
class _Show:
    """Something switched on: `id` and `name` of it, how to do it, how each circuit then looks."""

    id: str
    name: Text
    switching: Text
    looks: Mapping[str, Look]
    alone: bool = False


@dataclass(frozen=True, slots=True)
class _Place:
    """A spot and the lamps seen from it."""

    spot: Spot
    lamps: tuple[Lamp, ...]


def lit_circuits(wiring: Wiring) -> list[Circuit]:
    """The circuits that light lamps of this vehicle, in walking order."""
    lit = set(wiring.circuit_of.values())
    return [circuit for circuit in wiring.circuits if circuit.id in lit]


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
    places = [_Place(s, tuple(lamp for lamp in lamps if lamp.spot == s)) for s in SPOTS]
    reflecting = {step.spot: step for step in reflector_steps(reflectors)}
    walker = _Walker(wiring, source, together)
    if source.where == "cab":
        return walker.from_cab(places, reflecting)
    return walker.at_spots(places, reflecting)


@dataclass(frozen=True, slots=True)
class _Walker:
    wiring: Wiring
    source: PowerSource
    together: bool

    def at_spots(self, places: Sequence[_Place], reflecting: Mapping[Station, Step]) -> LampWalk:
        """One round: everything is switched, or called out, at each spot."""
        steps: list[Step] = []
        hidden: list[Text] = []
        for place in places:
            circuits = self._circuits(place.lamps)
            if self.together:
                planned = plan_rounds(self.source, circuits)
                hidden += _hidden(planned, circuits)
                shows = [*self._shows(planned), *self._load(planned, place)]
                shows += self._singly(_left_out(planned, circuits))
            else:
                shows = list(self._singly(circuits))
            steps += [self._step(show, place, 1) for show in shows]
            steps += self._abs_by_stop(place)
            steps += [reflecting[place.spot]] if place.spot in reflecting else []
        why = message(f"lamp-one-round-{self.source.where}")
        return LampWalk(tuple(steps), 1, why, tuple(dict.fromkeys(hidden)))

    def from_cab(self, places: Sequence[_Place], reflecting: Mapping[Station, Step]) -> LampWalk:
        """A round for each setting; a spot where nothing is lit is passed by, but for the rear."""
        circuits = lit_circuits(self.wiring)
        shows = list(self._singly(circuits))
        why: Text = message("lamp-one-circuit-one-round")
        hidden: list[Text] = []
        if self.together:
            planned = plan_rounds(self.source, circuits)
            load = self._load(planned, places[SPOTS.index("rear")])
            shows = [*self._shows(planned), *load, *self._singly(_left_out(planned, circuits))]
            why, hidden = planned.why, _hidden(planned, circuits)
        steps = []
        for number, show in enumerate(shows, start=1):
            told = False
            for place in places:
                if self._worth_a_look(show, place):
                    step = self._step(show, place, number)
                    # Set once in the cab; at the later spots of the round it only stays so.
                    steps.append(step.model_copy(update={"switching": ""}) if told else step)
                    told = True
                if number == 1 and place.spot in reflecting:
                    steps.append(reflecting[place.spot])
        return LampWalk(tuple(steps), len(shows), why, tuple(dict.fromkeys(hidden)))

    def _worth_a_look(self, show: _Show, place: _Place) -> bool:
        """Something is lit there; or, with several circuits on, it is the rear."""
        if show.id == LOAD:
            return place.spot == "rear"
        lit = any(show.looks.get(c.id, "dark") != "dark" for c in self._circuits(place.lamps))
        return lit or (place.spot == "rear" and bool(place.lamps) and not show.alone)

    def _circuits(self, lamps: Iterable[Lamp]) -> list[Circuit]:
        here = {self.wiring.circuit_of[lamp.id] for lamp in lamps}
        return [circuit for circuit in self.wiring.circuits if circuit.id in here]

    def _singly(self, circuits: Iterable[Circuit]) -> Iterator[_Show]:
        for circuit in circuits:
            look: Look = "flashing" if circuit.flashes else "steady"
            yield _Show(
                circuit.id,
                message("lamp-circuit", circuit=circuit.name),
                _switched(circuit, self.source),
                {circuit.id: look},
                alone=True,
            )

    def _shows(self, planned: Rounds) -> list[_Show]:
        return [
            _Show(f"look_{number}", setting.name, self._say(setting), setting.looks)
            for number, setting in enumerate(planned.settings, start=1)
        ]

    def _say(self, setting: Setting) -> Text:
        if self.source.where != "called":
            return setting.say
        return message("lamp-call-out", setting=setting.say)

    def _load(self, planned: Rounds, place: _Place) -> list[_Show]:
        """Tail, turn and stop at once, at the rear, unless a setting already was that."""
        load = planned.load_check
        if place.spot != "rear" or load is None or load in planned.settings:
            return []
        return [_Show(LOAD, message("lamp-all-at-once"), self._say(load), load.looks)]

    def _abs_by_stop(self, place: _Place) -> list[Step]:
        """The ABS lamp once more, fed from the stop circuit alone, its other supply."""
        lamp = next((lamp for lamp in place.lamps if lamp.kind == "abs"), None)
        stop = next((c for c in self.wiring.circuits if c.id == "stop" and c.pins), None)
        if lamp is None or stop is None or self.source.where != "spot":
            return []
        return [
            Step(
                id=f"{ABS_BY_STOP}_{place.spot}",
                part="lamps",
                kind="lamp",
                title=message("lamp-step-abs-by-stop", spot=spot_named(place.spot)),
                switching=message(
                    "lamp-only-pins-on", pins=pins_named(stop.pins), circuit=stop.name
                ),
                spot=place.spot,
                round=1,
                power=True,
                circuits_on=(stop.id,),
                expect={**dict.fromkeys(order(place.lamps), "dark"), lamp.housing: "steady"},
                items=(item_of(lamp.housing, [lamp]), *_others(place, lamp.housing)),
                source="FMVSS 121 S5.5.2 (stop circuit as other supply); part 396 App. A 1.l",
                provenance="memory",
            )
        ]

    def _step(self, show: _Show, place: _Place, number: int) -> Step:
        look_of = {
            lamp.id: show.looks.get(self.wiring.circuit_of[lamp.id], "dark") for lamp in place.lamps
        }
        seen = {
            housing: strongest(look_of[x.id] for x in place.lamps if x.housing == housing)
            for housing in order(place.lamps)
        }
        on = [c for c in self.wiring.circuits if show.looks.get(c.id, "dark") != "dark"]
        doubtful = [c for c in on if c.meter_first and self.source.where == "spot"]
        lit = [lamp for lamp in place.lamps if look_of[lamp.id] != "dark"]
        return Step(
            id=f"{show.id}_{place.spot}",
            part="lamps",
            kind="lamp",
            title=message("lamp-step", what=show.name, spot=spot_named(place.spot)),
            switching=show.switching,
            spot=place.spot,
            round=number,
            power=True,
            circuits_on=tuple(circuit.id for circuit in on),
            expect=seen,
            items=tuple(self._items(show, place, look_of, seen)),
            meter_first=joined(circuit.why_doubtful for circuit in doubtful),
            source="; ".join(dict.fromkeys(lamp.source for lamp in lit or place.lamps)),
            provenance=provenance(lit or place.lamps),
        )

    def _items(
        self, show: _Show, place: _Place, look_of: Mapping[str, Look], seen: Mapping[str, Look]
    ) -> Iterator[Item]:
        """Lit housings by what is lit in them; dark ones by name too, if circuits are together."""
        for housing, look in seen.items():
            inside = [lamp for lamp in place.lamps if lamp.housing == housing]
            if look != "dark":
                yield lit_item(housing, inside, look_of)
            elif not show.alone:
                yield item_of(housing, inside)
        if show.alone:
            yield from _others(
                place, *(housing for housing, look in seen.items() if look != "dark")
            )


def _others(place: _Place, *lit: str) -> list[Item]:
    """What stands for every lamp at the spot that ought to be dark, if there is one."""
    dark = {lamp.housing for lamp in place.lamps} - set(lit)
    return [Item(id=OTHERS, name=message("lamp-any-other"), kind="others")] if dark else []


def _left_out(planned: Rounds, circuits: Iterable[Circuit]) -> list[Circuit]:
    """What no setting lights: continuous feeds such as ABS, and what the source cannot switch."""
    left = set(planned.not_switchable)
    return [c for c in circuits if not takes_part(c) or c.id in left]


def _hidden(planned: Rounds, circuits: Iterable[Circuit]) -> list[Text]:
    names = {circuit.id: circuit.name for circuit in circuits}
    pairs = [
        message(
            "lamp-not-told-apart",
            one=names[pair.first],
            other=names[pair.second],
            reason=pair.reason,
        )
        for pair in planned.pairs_not_told_apart
    ]
    looks = [
        message(f"lamp-not-seen-{look}", circuit=names[id_]) for id_, look in planned.looks_not_had
    ]
    return [*pairs, *looks]


def _switched(circuit: Circuit, source: PowerSource) -> Text:
    """How one circuit alone is switched on, as a sentence."""
    if source.where == "spot" and circuit.pins:
        return message("lamp-pins-on", pins=pins_named(circuit.pins), circuit=circuit.name)
    return message(f"lamp-circuit-on-{source.where}", circuit=circuit.name)
