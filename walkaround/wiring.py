"""From pins to circuits to lamps to grounds: how this vehicle's lamps hang on its connector.

The connector table is data; this module holds what each pin function feeds. A power unit's own
lamps hang on circuits without pins, because its connector is the rear socket.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Literal, NamedTuple

from pydantic import Field

from walkaround.errors import InputError, Problem
from walkaround.lamps import Lamp
from walkaround.vehicle import POWER_UNITS, Vehicle
from walkaround.written import Id, Written

PinFunction = Literal[
    "MARK", "TAIL", "TAIL_L", "TAIL_R", "L", "LSTOP", "R", "RSTOP", "STOP", "LST_ONLY",
    "RST_ONLY", "REV", "BO_MARK", "BO_STOP", "ABS", "BO_SW", "FOG", "AUX", "PERM", "IGN", "BRK",
    "GND", "NC", "CAN_H", "CAN_L",
]  # fmt: skip


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
    """One wiring of a connector shell; `other_volts`: voltages its standard allows besides."""

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
    pins: tuple[Pin, ...]

    @property
    def functions(self) -> frozenset[str]:
        """The pin functions that this connector has."""
        return frozenset(pin.fn for pin in self.pins)


class ConnectorTable(Written):
    """The file that holds the connectors, as [[connector]] tables."""

    connectors: tuple[Connector, ...] = Field(validation_alias="connector")


def connector_problems(connector: Connector, where: str) -> list[Problem]:
    """Everything wrong with a connector that the shape of its table cannot show."""
    key = f"connector {connector.id}"
    names = [pin.pin for pin in connector.pins]
    found = []
    if len(names) != connector.pin_count:
        what = f"is {connector.pin_count}, but {len(names)} pins are listed"
        mend = "list every pin, with fn NC where nothing is connected"
        found.append(Problem(where, f"{key}.pin_count", what, mend))
    for name in sorted({name for name in names if names.count(name) > 1}):
        found.append(Problem(where, f"{key}.pins", f"pin {name} stands twice", "keep one of them"))
    return found


@dataclass(frozen=True, slots=True)
class Circuit:
    """What one switch contact feeds, through no, one or several joined pins.

    `flashes`: it carries a turn signal (a stop and turn circuit is steady as stop). `meter_first`:
    its pins' meaning is in doubt, `why_doubtful` says why. `function` is the standard's wording.
    """

    id: str
    name: str
    pins: tuple[str, ...]
    flashes: bool
    meter_first: bool
    why_doubtful: str
    source: str
    provenance: str
    function: str


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


class _Role(NamedTuple):
    id: str
    name: str
    flashes: bool = False


# In walking order, lamp circuits first.
_ROLES: dict[str, _Role] = {
    "MARK": _Role("marker", "marker"),
    "TAIL": _Role("tail", "tail"),
    "TAIL_L": _Role("tail_left", "left tail"),
    "TAIL_R": _Role("tail_right", "right tail"),
    "L": _Role("left_turn", "left turn", flashes=True),
    "LSTOP": _Role("left_stop_turn", "left stop and turn", flashes=True),
    "R": _Role("right_turn", "right turn", flashes=True),
    "RSTOP": _Role("right_stop_turn", "right stop and turn", flashes=True),
    "STOP": _Role("stop", "stop"),
    "LST_ONLY": _Role("left_stop", "left stop"),
    "RST_ONLY": _Role("right_stop", "right stop"),
    "REV": _Role("backup", "backup"),
    "BO_MARK": _Role("blackout_marker", "blackout marker"),
    "BO_STOP": _Role("blackout_stop", "blackout stop"),
    "ABS": _Role("abs", "ABS"),
    "HEAD": _Role("headlamp", "headlamp"),
    "PARK": _Role("parking", "parking"),
    "BO_DRIVE": _Role("blackout_drive", "blackout drive"),
    "BO_SW": _Role("blackout_switch", "blackout switch"),
    "FOG": _Role("fog", "fog"),
    "AUX": _Role("aux", "auxiliary"),
    "PERM": _Role("permanent", "permanent feed"),
    "IGN": _Role("ignition", "ignition feed"),
    "BRK": _Role("brake", "brake control"),
}

# Which pin functions can feed a kind of lamp, best first; {s} is the lamp's own side, L or R; a
# centre lamp hangs with the left, as ISO 1185 puts the licence-plate lamp on 58L.
# Without a marker pin, marker lamps hang on the tail circuit, as the ISO tables and
# MIL-S-62183C 3.11.5 word their tail pins ("tail, clearance, licence").
_TAIL = ("TAIL", "TAIL_{s}")
_FEEDS: dict[str, tuple[str, ...]] = {
    "headlamp": ("HEAD",),
    "parking": ("PARK",),
    "turn": ("{s}STOP", "{s}"),
    "turn at the front": ("{s}",),
    "tail": _TAIL,
    "licence_plate": _TAIL,
    "stop": ("STOP", "{s}STOP", "{s}ST_ONLY"),
    "clearance": ("MARK", *_TAIL),
    "identification": ("MARK", *_TAIL),
    "side_marker": ("MARK", *_TAIL),
    "backup": ("REV",),
    "abs": ("ABS",),
    "blackout_marker": ("BO_MARK",),
    "blackout_stop": ("BO_STOP",),
    "blackout_drive": ("BO_DRIVE",),
}
# These pins are tied together in the vehicle; other pins of one function stay apart.
_JOINED = frozenset({"BO_MARK"})
_NO_CIRCUIT = frozenset({"GND", "NC", "CAN_H", "CAN_L"})


def wire(vehicle: Vehicle, lamps: Sequence[Lamp], connectors: Mapping[str, Connector]) -> Wiring:
    """Hang every lamp on its circuit and its ground.

    Raises:
        InputError: the connector is unknown, or has no circuit for a lamp; names every such lamp.
    """
    connector = connectors.get(vehicle.electrical.connector)
    if connector is None:
        raise InputError([_unknown_connector(vehicle)])
    by_function = _own_circuits(vehicle) if vehicle.kind in POWER_UNITS else _circuits(connector)
    # ABS has its own plug where the lighting connector has no pin for it.
    by_function.setdefault("ABS", [_own_circuit("ABS", "ABS fed through a connector of its own")])
    feeding = {lamp.id: _feeding(lamp, by_function) for lamp in lamps}
    unfed = [lamp for lamp in lamps if feeding[lamp.id] is None]
    if unfed:
        raise InputError(_no_circuit(lamp, vehicle) for lamp in unfed)
    circuit_of = {lamp_id: circuit.id for lamp_id, circuit in feeding.items() if circuit}
    every = [circuit for fn in _ROLES for circuit in by_function.get(fn, [])]
    used = set(circuit_of.values())
    return Wiring(
        volts=vehicle.electrical.volts,
        connector=connector,
        circuits=tuple(circuit for circuit in every if circuit.id in used),
        circuit_of=circuit_of,
        cluster_of={lamp.id: _cluster(lamp) for lamp in lamps},
        unused=tuple(circuit for circuit in every if circuit.id not in used and circuit.pins),
    )


def _circuits(connector: Connector) -> dict[str, list[Circuit]]:
    """The circuits of a connector by pin function; several only where pins are not joined."""
    found: dict[str, list[Circuit]] = {}
    for fn in connector.functions - _NO_CIRCUIT:
        pins = [pin for pin in connector.pins if pin.fn == fn]
        groups = [pins] if fn in _JOINED or len(pins) == 1 else [[pin] for pin in pins]
        found[fn] = [_circuit(connector, fn, group, len(groups) > 1) for group in groups]
    return found


def _circuit(connector: Connector, fn: str, pins: list[Pin], one_of_several: bool) -> Circuit:
    role = _ROLES[fn]
    doubts = [f"pin {pin.pin}: {pin.doubt}" for pin in pins if pin.doubt]
    return Circuit(
        id=f"{role.id}_{pins[0].pin.lower()}" if one_of_several else role.id,
        name=f"{role.name}, pin {pins[0].pin}" if one_of_several else role.name,
        pins=tuple(pin.pin for pin in pins),
        flashes=role.flashes,
        meter_first=bool(doubts),
        why_doubtful="; ".join(doubts),
        source=f"{connector.standard}: {connector.source}",
        provenance="read" if all(pin.p == "r" for pin in pins) else "memory",
        function="; ".join(pin.function for pin in pins),
    )


def _own_circuits(vehicle: Vehicle) -> dict[str, list[Circuit]]:
    """The lamp circuits of a power unit, which reach its lamps through no connector."""
    combined = vehicle.electrical.stop_turn == "combined"
    rear = ["LSTOP", "RSTOP"] if combined else ["STOP"]
    functions = ["HEAD", "PARK", "MARK", "TAIL", "L", "R", *rear, "REV"]
    if vehicle.electrical.blackout:
        functions += ["BO_MARK", "BO_STOP", "BO_DRIVE"]
    return {fn: [_own_circuit(fn, "the power unit's own circuit")] for fn in functions}


def _own_circuit(fn: str, function: str) -> Circuit:
    role = _ROLES[fn]
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


def _feeding(lamp: Lamp, by_function: Mapping[str, list[Circuit]]) -> Circuit | None:
    side = "R" if "right" in lamp.place.split("_") else "L"
    at_front = lamp.kind == "turn" and lamp.place.startswith("front")
    wanted = _FEEDS.get("turn at the front" if at_front else lamp.kind, ())
    for fn in wanted:
        if circuits := by_function.get(fn.format(s=side)):
            return circuits[0]
    return None


def _cluster(lamp: Lamp) -> str:
    """The ground point that the lamps at one corner, end or side share."""
    return lamp.spot if lamp.spot in ("left_side", "right_side") else lamp.place


def _unknown_connector(vehicle: Vehicle) -> Problem:
    what = f"no connector is called {vehicle.electrical.connector}"
    return Problem(vehicle.id, "electrical.connector", what, "name one of the connector table")


def _no_circuit(lamp: Lamp, vehicle: Vehicle) -> Problem:
    what = f"{vehicle.electrical.connector} has no circuit for the {lamp.name}"
    mend = "name the connector as wired, or correct what the file says is fitted"
    return Problem(vehicle.id, "electrical.connector", what, mend)
