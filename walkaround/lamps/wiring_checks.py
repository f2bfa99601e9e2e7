"""What is wrong with a connector table, and with how a vehicle's file says that it is wired."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from walkaround.base.errors import Problem
from walkaround.base.toml_model import nearest
from walkaround.lamps.wiring import (
    Connector,
    ConnectorTable,
    circuits_of,
    feeds_no_lamps,
    unknown_connector,
)
from walkaround.vehicle.model import POWER_UNITS, Vehicle

# More than any vehicle connector and any table of them has.
MOST_CONNECTORS, MOST_PINS = 100, 60


def connector_problems(table: ConnectorTable, where: str) -> list[Problem]:
    """Everything wrong with connectors that the shape of their table cannot show."""
    if too_much := _too_much(table, where):
        return too_much
    counts = Counter(connector.id for connector in table.connectors)
    found = [
        Problem(where, f"connector {id_}", "stands twice", "give each its own id")
        for id_, count in counts.items()
        if count > 1
    ]
    for connector in table.connectors:
        found += _pin_problems(connector, where) + _shell_problems(connector, table, where)
    return found


def _too_much(table: ConnectorTable, where: str) -> list[Problem]:
    counted = [("connector", len(table.connectors), MOST_CONNECTORS)]
    counted += [(f"connector {c.id}.pins", len(c.pins), MOST_PINS) for c in table.connectors]
    return [
        Problem(where, key, f"stands {count} times, {most} at most", "keep what is used")
        for key, count, most in counted
        if count > most
    ]


def _pin_problems(connector: Connector, where: str) -> list[Problem]:
    key = f"connector {connector.id}"
    names = Counter(pin.pin for pin in connector.pins)
    found = []
    if len(connector.pins) != connector.pin_count:
        what = f"is {connector.pin_count}, but {len(connector.pins)} pins are listed"
        mend = "list every pin, with fn NC where nothing is connected"
        found.append(Problem(where, f"{key}.pin_count", what, mend))
    for name in sorted(name for name, count in names.items() if count > 1):
        found.append(Problem(where, f"{key}.pins", f"pin {name} stands twice", "keep one of them"))
    return found


def _shell_problems(connector: Connector, table: ConnectorTable, where: str) -> list[Problem]:
    """Whoever shares a shell is in the table and says so too."""
    others = {other.id: other for other in table.connectors}
    key = f"connector {connector.id}.shares_shell"
    found = []
    for id_ in connector.shares_shell:
        if id_ not in others:
            what = f"no connector is called {id_}"
            found.append(Problem(where, key, what, nearest(id_, [*others])))
        elif id_ == connector.id or connector.id not in others[id_].shares_shell:
            what = f"names {id_}, which does not name {connector.id}"
            found.append(Problem(where, key, what, "name each in the other, or neither"))
    return found


def fit_problems(
    vehicle: Vehicle, connectors: Mapping[str, Connector], where: str
) -> list[Problem]:
    """Where the electrical table of a vehicle does not fit the connectors it names."""
    electrical = vehicle.electrical
    found = _named(electrical.connector, connectors, "connector")
    if electrical.second_connector:
        found += _named(electrical.second_connector, connectors, "second_connector")
    if not found:
        found = _voltages(vehicle, connectors) + _contacts(vehicle, connectors)
        found += _moved_lamps(vehicle, connectors)
    return [Problem(where, f"electrical.{key}", what, mend) for key, what, mend in found]


# key, what, mend
_Found = list[tuple[str, str, str]]
_AS_WIRED = "name the connector as wired"


def _named(name: str, connectors: Mapping[str, Connector], key: str) -> _Found:
    return [] if name in connectors else [(key, *unknown_connector(name, connectors))]


def _voltages(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> _Found:
    electrical, found = vehicle.electrical, []
    names = {electrical.connector: None, electrical.second_connector: None}
    for name in filter(None, names):
        nominal = connectors[name].nominal_volts
        if electrical.volts not in (nominal, *connectors[name].other_volts):
            what = f"is {electrical.volts}, but {name} is a {nominal} V connector"
            found.append(("volts", what, f"correct volts or {_AS_WIRED}"))
    return found


def _contacts(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> _Found:
    electrical, found = vehicle.electrical, []
    name = electrical.connector
    fed = connectors[name].functions
    if electrical.stop_turn == "separate" and {"LSTOP", "RSTOP"} <= fed:
        what = f"is separate, but {name} feeds stop and turn on the same contacts"
        found.append(("stop_turn", what, f'set stop_turn = "combined" or {_AS_WIRED}'))
    # A power unit's connector is its rear socket, which its own lamps do not hang on.
    if vehicle.kind not in POWER_UNITS:
        if not connectors[name].feeds_lamps:
            found.append(("connector", *feeds_no_lamps(name)))
        if electrical.blackout and not {"BO_MARK", "BO_STOP"} <= fed:
            what = f"is true, but {name} has no blackout contacts"
            found.append(("blackout", what, f"set it to false or {_AS_WIRED}"))
    return found


def _moved_lamps(vehicle: Vehicle, connectors: Mapping[str, Connector]) -> _Found:
    """Lamps that hang on a circuit that is not there, or of which nothing is told, or twice."""
    found: _Found = []
    circuits = [circuit.id for circuit in circuits_of(vehicle, connectors)]
    owner = "the vehicle" if vehicle.kind in POWER_UNITS else vehicle.electrical.connector
    counts = Counter(lamp.id for lamp in vehicle.electrical.lamps)
    for lamp in vehicle.electrical.lamps:
        key = f"lamps {lamp.id}"
        if lamp.circuit and lamp.circuit not in circuits:
            what = f"is {lamp.circuit}, a circuit that {owner} lacks"
            found.append((f"{key}.circuit", what, nearest(lamp.circuit, circuits)))
        if not lamp.circuit and not lamp.cluster:
            found.append((key, "says nothing", "write its circuit or its cluster, or take it out"))
    for id_ in (id_ for id_, count in counts.items() if count > 1):
        found.append((f"lamps {id_}", "stands twice", "keep one of them"))
    return found
