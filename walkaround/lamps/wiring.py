"""From pins to circuits to lamps to grounds: how this vehicle's lamps hang on its connector.

The connector table is data; what each pin function feeds is told in feeds.py. A power unit's own
lamps hang on circuits without pins, because its connector is the rear socket.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, Text, message
from walkaround.base.toml_model import Id, Written, nearest
from walkaround.lamps.feeds import JOINED, NO_CIRCUIT, ROLES, PinFunction, cluster_of, feeds_of
from walkaround.lamps.names import joined, pins_named, written
from walkaround.lamps.required import Lamp
from walkaround.vehicle.model import POWER_UNITS, LampWiring, Vehicle


class Pin(Written):
    """One contact; `p` says whether its function was read (r) or is from memory (m).

    `doubt` says why its meaning is uncertain; such a pin is metered before it is energised.
    """

    pin: Annotated[str, Field(pattern=r"^[A-Za-z0-9]+$")]
    fn: PinFunction
    function: str
    colour: str = ""
    gauge: str = ""
    us_circuit: str = ""
    p: Literal["r", "m"]
    doubt: str = ""


class Connector(Written):
    """One wiring of a connector shell; `other_volts`: voltages its standard allows besides.

    `shares_shell`: ids of the wirings that fit the same shell and do not fit this one.
    """

    id: Id
    standard: str
    title: str
    nominal_volts: Literal[12, 24]
    other_volts: tuple[Literal[12, 24], ...] = ()
    pin_count: int = Field(ge=1, strict=True)
    source: str
    provenance: str
    rating: str = ""
    warning: str = ""
    shares_shell: tuple[Id, ...] = ()
    pins: tuple[Pin, ...]

    @property
    def name(self) -> Message:
        """Its title, to be said."""
        return written(f"connectors/{self.id}/title", self.title)

    def said_of(self, pin: Pin, key: Literal["function", "doubt"]) -> Message:
        """What the file says of one of its pins."""
        return written(f"connectors/{self.id}/{pin.pin}/{key}", getattr(pin, key))

    @property
    def functions(self) -> frozenset[PinFunction]:
        """The pin functions that this connector has."""
        return frozenset(pin.fn for pin in self.pins)

    @property
    def feeds_lamps(self) -> bool:
        """Whether it is the one that a vehicle's lamps hang on, and not one beside it."""
        return bool(self.functions & {"TAIL", "TAIL_L"})


class ConnectorTable(Written):
    """The file that holds the connectors, as [[connector]] tables."""

    connectors: tuple[Connector, ...] = Field(validation_alias="connector")


@dataclass(frozen=True, slots=True)
class Circuit:
    """What one switch contact feeds, through no, one or several joined pins.

    `flashes`: it carries a turn signal (a stop and turn circuit is steady as stop). `meter_first`:
    its pins' meaning is in doubt, `why_doubtful` says why. `function` is the standard's wording.
    """

    id: str
    name: Text
    pins: tuple[str, ...]
    flashes: bool
    meter_first: bool
    why_doubtful: Text
    source: str
    provenance: str
    function: Text


@dataclass(frozen=True, slots=True)
class Wiring:
    """The circuits of one vehicle and what hangs on them.

    Attributes:
        circuits: those that light lamps, in walking order.
        circuit_of: lamp id to circuit id.
        cluster_of: lamp id to the id of the ground cluster it returns through.
        unused: circuits that the connector feeds and that light no lamp here.
    """

    volts: int
    connector: Connector
    circuits: tuple[Circuit, ...]
    circuit_of: Mapping[str, str]
    cluster_of: Mapping[str, str]
    unused: tuple[Circuit, ...]


# The circuits of a vehicle by pin function; several only where pins are not joined.
_Fed = Mapping[str, Sequence[Circuit]]


def wire(vehicle: Vehicle, lamps: Sequence[Lamp], connectors: Mapping[str, Connector]) -> Wiring:
    """Hang every lamp on its circuit and its ground.

    Raises:
        InputError: what `lamp_problems` finds.
    """
    if problems := lamp_problems(vehicle, lamps, connectors, vehicle.id):
        raise InputError(problems)
    fed, special = _fed(vehicle, connectors), _special(vehicle)
    feeding = {lamp.id: _feeding(lamp, special.get(lamp.id), fed) for lamp in lamps}
    circuit_of = {lamp_id: circuit.id for lamp_id, circuit in feeding.items() if circuit}
    every = _in_order(fed)
    used = set(circuit_of.values())
    return Wiring(
        volts=vehicle.electrical.volts,
        connector=connectors[vehicle.electrical.connector],
        circuits=tuple(circuit for circuit in every if circuit.id in used),
        circuit_of=circuit_of,
        cluster_of={lamp.id: _cluster(lamp, special.get(lamp.id)) for lamp in lamps},
        unused=tuple(circuit for circuit in every if circuit.id not in used and circuit.pins),
    )


def lamp_problems(
    vehicle: Vehicle, lamps: Sequence[Lamp], connectors: Mapping[str, Connector], where: str
) -> list[Problem]:
    """Why these lamps cannot be wired: the connector, the lamps it has no circuit for, unknown ids.

    Args:
        vehicle: what has the lamps.
        lamps: as `lamps_for` has them.
        connectors: connector tables by id.
        where: the file that the vehicle was read from, or its id.
    """
    name = vehicle.electrical.connector
    if name not in connectors:
        return [Problem(where, "electrical.connector", *unknown_connector(name, connectors))]
    if not any(lamp.required for lamp in lamps):
        what = message("problem-no-table-of-lamps", rules=vehicle.rules, kind=vehicle.kind)
        return [Problem(where, "rules", what, message("problem-correct-rules"))]
    fed, special = _fed(vehicle, connectors), _special(vehicle)
    known = [lamp.id for lamp in lamps]
    what = message("trouble-no-lamp-of-this-id")
    problems = [
        Problem(where, f"electrical.lamps {id_}", what, nearest(id_, known))
        for id_ in special
        if id_ not in known
    ]
    unfed = [lamp for lamp in lamps if _feeding(lamp, special.get(lamp.id), fed) is None]
    return problems + ([_no_circuit(unfed, vehicle, connectors, where)] if unfed else [])


def circuits_of(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> tuple[Circuit, ...]:
    """Every circuit that this vehicle can have, in walking order; its connector must be known."""
    return tuple(_in_order(_fed(vehicle, connectors)))


def unknown_connector(name: str, connectors: Mapping[str, Connector]) -> tuple[Message, Message]:
    """What is wrong and what to write instead."""
    return message("trouble-unknown-connector", name=name), nearest(name, [*connectors])


def _special(vehicle: Vehicle) -> dict[str, LampWiring]:
    return {lamp.id: lamp for lamp in vehicle.electrical.lamps}


def _in_order(fed: _Fed) -> list[Circuit]:
    return [circuit for fn in ROLES for circuit in fed.get(fn, ())]


def _feeding(lamp: Lamp, special: LampWiring | None, fed: _Fed) -> Circuit | None:
    """The circuit of a lamp: as the vehicle's file says, else as its rule says, else by kind."""
    told = (special.circuit if special else "") or lamp.circuit
    if told:
        return next((circuit for circuit in _in_order(fed) if circuit.id == told), None)
    return next((fed[fn][0] for fn in feeds_of(lamp) if fed.get(fn)), None)


def _cluster(lamp: Lamp, special: LampWiring | None) -> str:
    return (special.cluster if special else "") or cluster_of(lamp)


def _fed(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> _Fed:
    electrical = vehicle.electrical
    if vehicle.kind in POWER_UNITS:
        fed = _own_circuits(vehicle)
    else:
        fed = _circuits(connectors[electrical.connector])
        beside = connectors.get(electrical.second_connector)
        for fn, circuits in (_circuits(beside, second=True) if beside else {}).items():
            fed.setdefault(fn, circuits)
    # ABS has its own plug where the lighting connector has no pin for it.
    fed.setdefault("ABS", [_own_circuit("ABS", message("circuit-abs-by-itself"))])
    return fed


def _circuits(connector: Connector, *, second: bool = False) -> dict[str, list[Circuit]]:
    found: dict[str, list[Circuit]] = {}
    for fn in connector.functions - NO_CIRCUIT:
        pins = [pin for pin in connector.pins if pin.fn == fn]
        groups = [pins] if fn in JOINED or len(pins) == 1 else [[pin] for pin in pins]
        found[fn] = [_circuit(connector, fn, group, len(groups) > 1, second) for group in groups]
    return found


def _circuit(
    connector: Connector, fn: str, pins: Sequence[Pin], one_of_several: bool, second: bool
) -> Circuit:
    role = ROLES[fn]
    doubts = _doubts(connector, pins)
    name = role.name
    if one_of_several:
        name = message("circuit-at-pin", circuit=name, pin=pins[0].pin)
    if second:
        name = message("circuit-second-connector", circuit=name)
    return Circuit(
        id=f"{role.id}_{pins[0].pin.lower()}" if one_of_several else role.id,
        name=name,
        pins=tuple(pin.pin for pin in pins),
        flashes=role.flashes,
        meter_first=bool(doubts),
        why_doubtful=joined(doubts),
        source=f"{connector.standard}: {connector.source}",
        provenance="read" if all(pin.p == "r" for pin in pins) else "memory",
        function=joined(connector.said_of(pin, "function") for pin in pins),
    )


def _doubts(connector: Connector, pins: Sequence[Pin]) -> list[Message]:
    """Each doubt once, with the pins that it is about."""
    about: dict[str, list[Pin]] = {}
    for pin in pins:
        if pin.doubt:
            about.setdefault(pin.doubt, []).append(pin)
    return [
        message(
            "lamp-doubt",
            pins=pins_named([pin.pin for pin in doubtful]),
            doubt=connector.said_of(doubtful[0], "doubt"),
        )
        for doubtful in about.values()
    ]


def _own_circuits(vehicle: Vehicle) -> dict[str, list[Circuit]]:
    """The lamp circuits of a power unit, which reach its lamps through no connector."""
    combined = vehicle.electrical.stop_turn == "combined"
    rear = ["LSTOP", "RSTOP"] if combined else ["STOP"]
    functions = ["HEAD", "PARK", "MARK", "TAIL", "L", "R", *rear, "REV"]
    if vehicle.electrical.blackout:
        functions += ["BO_MARK", "BO_STOP", "BO_DRIVE"]
    return {fn: [_own_circuit(fn, message("circuit-own"))] for fn in functions}


def _own_circuit(fn: str, function: Message) -> Circuit:
    role = ROLES[fn]
    return Circuit(
        id=role.id,
        name=role.name,
        pins=(),
        flashes=role.flashes,
        meter_first=False,
        why_doubtful="",
        source="common practice, no source",
        provenance="common practice, no source",
        function=function,
    )


def _no_circuit(
    unfed: Sequence[Lamp], vehicle: Vehicle, connectors: Mapping[str, Connector], where: str
) -> Problem:
    """One sentence about all the lamps that the connector has no circuit for."""
    name, key = vehicle.electrical.connector, "electrical.connector"
    if vehicle.kind not in POWER_UNITS and not connectors[name].feeds_lamps:
        return Problem(where, key, *feeds_no_lamps(name))
    lamps = [message("problem-the-lamp", lamp=lamp.name) for lamp in unfed]
    if len(lamps) > 4:
        lamps = [*lamps[:3], message("problem-more-lamps", count=len(lamps) - 3)]
    what = message("trouble-no-circuit", connector=name, lamps=tuple(lamps))
    return Problem(where, key, what, message("problem-name-every-connector"))


def feeds_no_lamps(name: str) -> tuple[Message, Message]:
    """What is wrong with a supplementary connector named as that of the lamps, and the mend."""
    what = message("problem-feeds-no-lamps", connector=name)
    return what, message("problem-name-the-connector-of-the-lamps")
