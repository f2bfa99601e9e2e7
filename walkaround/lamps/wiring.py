"""From pins to circuits to lamps to grounds: how this vehicle's lamps are wired.

The connector table is data; what each pin function feeds is told in feeds.py. A power unit's own
lamps hang on circuits without pins, because its connector is the rear socket.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, Text, message
from walkaround.base.toml_model import nearest
from walkaround.lamps.connector import Connector, Pin
from walkaround.lamps.feeds import JOINED, ROLES, cluster_of, feeds_of
from walkaround.lamps.names import join_clauses, pins_named
from walkaround.lamps.required_lamps import Lamp
from walkaround.vehicle.model import POWER_UNITS, Vehicle


@dataclass(frozen=True, slots=True)
class Circuit:
    """A circuit: what one switch contact feeds, through no, one or several joined pins.

    Attributes:
        flashes: it carries a turn signal (a stop and turn circuit is steady as stop).
        meter_first, why_doubtful: the meaning of its pins is in doubt, and why.
        function, fn: what its pins do, as the standard words it and as the connector table has it.
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
    fn: str


@dataclass(frozen=True, slots=True)
class Wiring:
    """The circuits of one vehicle and what they feed.

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


def wire(vehicle: Vehicle, lamps: Sequence[Lamp], connectors: Mapping[str, Connector]) -> Wiring:
    """Hang every lamp on its circuit and its ground.

    Raises:
        InputError: what `lamp_problems` finds.
    """
    if problems := lamp_problems(vehicle, lamps, connectors, vehicle.id):
        raise InputError(problems)
    circuits = circuits_of(vehicle, connectors)
    feeding = {lamp.id: _circuit_of(lamp, vehicle, circuits, connectors) for lamp in lamps}
    circuit_of = {lamp_id: circuit.id for lamp_id, circuit in feeding.items() if circuit}
    used = set(circuit_of.values())
    stated_cluster = {lamp.id: lamp.cluster for lamp in vehicle.electrical.lamps}
    return Wiring(
        volts=vehicle.electrical.volts,
        connector=connectors[vehicle.electrical.connector].as_of(vehicle.made),
        circuits=tuple(circuit for circuit in circuits if circuit.id in used),
        circuit_of=circuit_of,
        cluster_of={lamp.id: stated_cluster.get(lamp.id) or cluster_of(lamp) for lamp in lamps},
        unused=tuple(circuit for circuit in circuits if circuit.id not in used and circuit.pins),
    )


def lamp_problems(
    vehicle: Vehicle, lamps: Sequence[Lamp], connectors: Mapping[str, Connector], where: str
) -> list[Problem]:
    """Say why lamps cannot be wired: the connector, lamps it has no circuit for, unknown ids.

    Args:
        vehicle: what has the lamps.
        lamps: as `lamps_for` has them.
        connectors: connector tables by id.
        where: the file that the vehicle was read from, or its id.
    """
    electrical = vehicle.electrical
    if electrical.connector not in connectors:
        what = message("trouble-unknown-connector", name=electrical.connector)
        mend = nearest(electrical.connector, [*connectors])
        return [Problem(where, "electrical.connector", what, mend)]
    if not any(lamp.required for lamp in lamps):
        what = message("problem-no-table-of-lamps", rules=vehicle.rules, kind=vehicle.kind)
        return [Problem(where, "rules", what, message("problem-correct-rules"))]
    ids = [lamp.id for lamp in lamps]
    what = message("trouble-no-lamp-of-this-id")
    problems = [
        Problem(where, f"electrical.lamps {lamp.id}", what, nearest(lamp.id, ids))
        for lamp in electrical.lamps
        if lamp.id not in ids
    ]
    circuits = circuits_of(vehicle, connectors)
    unfed = [lamp for lamp in lamps if _circuit_of(lamp, vehicle, circuits, connectors) is None]
    return problems + ([_no_circuit(unfed, vehicle, connectors, where)] if unfed else [])


def circuits_of(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> tuple[Circuit, ...]:
    """List every circuit that this vehicle can have, in walking order.

    Its connector must be in the table.
    """
    electrical = vehicle.electrical
    if vehicle.kind in POWER_UNITS:
        # The lamp circuits of a power unit reach its lamps through no connector.
        rear = ["LSTOP", "RSTOP"] if electrical.stop_turn == "combined" else []
        fns = ["HEAD", "PARK", "MARK", "TAIL", "L", "R", *rear, "STOP", "REV"]
        if electrical.blackout:
            fns += ["BO_MARK", "BO_STOP", "BO_DRIVE"]
        circuits = [_own_circuit(fn, message("circuit-own")) for fn in fns]
    else:
        connector = connectors[electrical.connector].as_of(vehicle.made)
        circuits = [*_circuits_at(connector, second=False)]
        if second := connectors.get(electrical.second_connector):
            there = {circuit.fn for circuit in circuits}
            beside = _circuits_at(second.as_of(vehicle.made), second=True)
            circuits += [circuit for circuit in beside if circuit.fn not in there]
    # ABS has its own plug where the lighting connector has no pin for it.
    if not any(circuit.fn == "ABS" for circuit in circuits):
        circuits.append(_own_circuit("ABS", message("circuit-abs-by-itself")))
    in_order = [*ROLES]
    return tuple(sorted(circuits, key=lambda circuit: in_order.index(circuit.fn)))


def _circuit_of(
    lamp: Lamp,
    vehicle: Vehicle,
    circuits: Sequence[Circuit],
    connectors: Mapping[str, Connector],
) -> Circuit | None:
    """Find the circuit of a lamp: by the vehicle's file, else its rule, else by kind.

    Of a trailer the connector may say where a kind hangs; a power unit's lamps reach none.
    """
    circuit_id = {each.id: each.circuit for each in vehicle.electrical.lamps}.get(
        lamp.id
    ) or lamp.circuit
    if circuit_id:
        return next((circuit for circuit in circuits if circuit.id == circuit_id), None)
    fns = feeds_of(lamp)
    if vehicle.kind not in POWER_UNITS:
        here = connectors[vehicle.electrical.connector].feeds
        fns = (*(fn for kind, fn in here.items() if kind == lamp.kind), *fns)
    by_kind = (c for fn in fns for c in circuits if c.fn == fn)
    return next(by_kind, None)


def _circuits_at(connector: Connector, *, second: bool) -> Iterator[Circuit]:
    """List the circuits that a connector feeds; unjoined pins of one function stay apart."""
    for fn in ROLES:
        pins = [pin for pin in connector.pins if pin.fn == fn]
        apart = len(pins) > 1 and fn not in JOINED
        for group in [[pin] for pin in pins] if apart else [pins] if pins else []:
            yield _circuit(connector, fn, group, apart=apart, second=second)


def _circuit(
    connector: Connector, fn: str, pins: Sequence[Pin], *, apart: bool, second: bool
) -> Circuit:
    role, first = ROLES[fn], pins[0].pin
    doubts = _doubts(connector, pins)
    name = message("circuit-at-pin", circuit=role.name, pin=first) if apart else role.name
    return Circuit(
        id=f"{role.id}_{first.lower()}" if apart else role.id,
        name=message("circuit-second-connector", circuit=name) if second else name,
        pins=tuple(pin.pin for pin in pins),
        flashes=role.flashes,
        meter_first=bool(doubts),
        why_doubtful=join_clauses(doubts),
        source=f"{connector.standard}: {connector.source}",
        provenance="read" if all(pin.p == "r" for pin in pins) else "memory",
        function=join_clauses(connector.said_of(pin, "function") for pin in pins),
        fn=fn,
    )


def _doubts(connector: Connector, pins: Sequence[Pin]) -> list[Message]:
    """List each doubt once, with the pins that it is about."""
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
        fn=fn,
    )


def _no_circuit(
    unfed: Sequence[Lamp], vehicle: Vehicle, connectors: Mapping[str, Connector], where: str
) -> Problem:
    """Write one sentence about all the lamps that the connector has no circuit for."""
    name, key = vehicle.electrical.connector, "electrical.connector"
    if vehicle.kind not in POWER_UNITS and not connectors[name].feeds_lamps:
        return Problem(where, key, *feeds_no_lamps(name))
    lamps = [message("problem-the-lamp", lamp=lamp.name) for lamp in unfed]
    if len(lamps) > 4:
        lamps = [*lamps[:3], message("problem-more-lamps", count=len(lamps) - 3)]
    what = message("trouble-no-circuit", connector=name, lamps=tuple(lamps))
    return Problem(where, key, what, message("problem-name-every-connector"))


def feeds_no_lamps(name: str) -> tuple[Message, Message]:
    """Say what is wrong with a supplementary connector named as the lamps', and the mend."""
    what = message("problem-feeds-no-lamps", connector=name)
    return what, message("problem-name-the-connector-of-the-lamps")
