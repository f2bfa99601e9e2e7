"""What is wrong with a connector table, and with how a vehicle's file says that it is wired."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from walkaround.base.checks import (
    Flaw,
    not_filled,
    problems_found,
    standing_twice,
    too_many,
    unknown,
)
from walkaround.base.errors import Problem
from walkaround.base.message import message
from walkaround.lamps.connector import Connector, ConnectorTable
from walkaround.lamps.wiring import circuits_of, feeds_no_lamps
from walkaround.vehicle.model import POWER_UNITS, Vehicle

# More than any vehicle connector and any table of them has.
MOST_CONNECTORS, MOST_PINS = 100, 60


def connector_problems(table: ConnectorTable, where: str) -> list[Problem]:
    """Find everything wrong with connectors that the shape of their table cannot show."""
    too_much = problems_found([counts_are_in_reason], table, where)
    return too_much or problems_found(
        [
            ids_are_unique,
            placeholders_are_quantities,
            every_pin_is_listed_once,
            shells_are_shared_by_both,
        ],
        table,
        where,
    )


def counts_are_in_reason(table: ConnectorTable) -> Iterator[Flaw]:
    """Check that no table has too many connectors, no connector too many pins."""
    counted = [("connector", len(table.connectors), MOST_CONNECTORS)]
    counted += [(f"connector {c.id}.pins", len(c.pins), MOST_PINS) for c in table.connectors]
    yield from too_many(counted, message("problem-keep-what-is-used"))


def ids_are_unique(table: ConnectorTable) -> Iterator[Flaw]:
    """Check that every connector has an id of its own."""
    yield from standing_twice(f"connector {connector.id}" for connector in table.connectors)


def placeholders_are_quantities(table: ConnectorTable) -> Iterator[Flaw]:
    """Check that only quantities stand in braces: nothing else is filled in."""
    for connector in table.connectors:
        key = f"connector {connector.id}"
        yield from not_filled([(f"{key}.title", connector.title)])
        for pin in connector.pins:
            at = f"{key}.pins {pin.pin}"
            yield from not_filled([(f"{at}.function", pin.function), (f"{at}.doubt", pin.doubt)])


def every_pin_is_listed_once(table: ConnectorTable) -> Iterator[Flaw]:
    """Check that there are as many pins as the connector is said to have, each once."""
    for connector in table.connectors:
        key = f"connector {connector.id}"
        if len(connector.pins) != connector.pin_count:
            count, pins_listed = connector.pin_count, len(connector.pins)
            what = message("problem-other-count-of-pins", count=count, listed=pins_listed)
            mend = message("problem-list-every-pin")
            yield Flaw(f"{key}.pin_count", what, mend)
        pins = (f"{key}.pins {pin.pin}" for pin in connector.pins)
        yield from standing_twice(pins, message("problem-keep-one"))


def shells_are_shared_by_both(table: ConnectorTable) -> Iterator[Flaw]:
    """Check that a connector sharing a shell names one that is listed and names it back."""
    by_id = {other.id: other for other in table.connectors}
    for connector in table.connectors:
        key = f"connector {connector.id}.shares_shell"
        for id_ in connector.shares_shell:
            if id_ not in by_id:
                yield unknown(key, message("trouble-unknown-connector", name=id_), id_, by_id)
            elif id_ == connector.id or connector.id not in by_id[id_].shares_shell:
                what = message("problem-names-one-way", other=id_, own=connector.id)
                yield Flaw(key, what, message("problem-name-each-or-neither"))


def fit_flaws(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> list[Flaw]:
    """Find where the electrical table of a vehicle does not fit the connectors it names."""
    electrical = vehicle.electrical
    connectors_named = {
        "connector": electrical.connector,
        "second_connector": electrical.second_connector,
    }
    flaws = [
        unknown(
            f"electrical.{key}",
            message("trouble-unknown-connector", name=name),
            name,
            connectors,
        )
        for key, name in connectors_named.items()
        if name not in connectors and (name or key == "connector")
    ]
    if not flaws:
        flaws = [*_voltages(vehicle, connectors), *_contacts(vehicle, connectors)]
        flaws += _moved_lamps(vehicle, connectors)
    return flaws


def _voltages(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> Iterator[Flaw]:
    electrical = vehicle.electrical
    for name in filter(None, dict.fromkeys([electrical.connector, electrical.second_connector])):
        nominal = connectors[name].nominal_volts
        if electrical.volts not in (nominal, *connectors[name].other_volts):
            what = message(
                "problem-connector-of-other-volts",
                volts=electrical.volts,
                connector=name,
                nominal=nominal,
            )
            yield Flaw("electrical.volts", what, message("problem-correct-volts-or-connector"))


def _contacts(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> Iterator[Flaw]:
    electrical = vehicle.electrical
    name = electrical.connector
    fed = connectors[name].functions
    if electrical.stop_turn == "separate" and {"LSTOP", "RSTOP"} <= fed:
        what = message("problem-connector-combines", connector=name)
        mend = message("problem-set-combined-or-connector")
        yield Flaw("electrical.stop_turn", what, mend)
    # A power unit's connector is its rear socket, which its own lamps do not hang on.
    if vehicle.kind not in POWER_UNITS:
        if not connectors[name].feeds_lamps:
            yield Flaw("electrical.connector", *feeds_no_lamps(name))
        if electrical.blackout and not {"BO_MARK", "BO_STOP"} <= fed:
            what = message("problem-connector-without-blackout", connector=name)
            yield Flaw("electrical.blackout", what, message("problem-false-or-connector"))


def _moved_lamps(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> Iterator[Flaw]:
    """Find lamps on a circuit that is not there, or of which nothing is told, or twice."""
    circuits = [circuit.id for circuit in circuits_of(vehicle, connectors)]
    lamps = vehicle.electrical.lamps
    for lamp in lamps:
        key = f"electrical.lamps {lamp.id}"
        if lamp.circuit and lamp.circuit not in circuits:
            what = message("trouble-unknown-circuit-of-vehicle", name=lamp.circuit)
            if vehicle.kind not in POWER_UNITS:
                owner = vehicle.electrical.connector
                what = message("trouble-unknown-circuit-of", owner=owner, name=lamp.circuit)
            yield unknown(f"{key}.circuit", what, lamp.circuit, circuits)
        if not lamp.circuit and not lamp.cluster:
            mend = message("problem-write-circuit-or-cluster")
            yield Flaw(key, message("problem-says-nothing"), mend)
    twice = (f"electrical.lamps {lamp.id}" for lamp in lamps)
    yield from standing_twice(twice, message("problem-keep-one-of-them"))
