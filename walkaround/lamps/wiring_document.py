"""How a vehicle is wired, as one document and as tables for people: pins, circuits, filaments."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

from walkaround.lamps.bulbs import Bulb, bulb_in, filaments_of
from walkaround.lamps.required import Lamp
from walkaround.lamps.wiring import Circuit, Pin, Wiring
from walkaround.vehicle.model import POWER_UNITS, Vehicle

_USUAL = "usual"
_NAMED = "named"


def wiring_document(
    vehicle: Vehicle, lamps: Sequence[Lamp], wiring: Wiring, bulbs: Sequence[Bulb]
) -> dict[str, Any]:
    """The pins of the vehicle's connector, its circuits, ground clusters and filaments.

    A circuit's `pin` joins several by +, and is None where the circuit reaches no connector, as in
    a power unit, whose connector is the rear socket. A filament's `fitted` is "named" where the
    vehicle's file says what burns there, else "usual": its watts are those of the bulb or LED that
    such a lamp usually has.
    """
    connector = wiring.connector
    return {
        "vehicle": vehicle.id,
        "volts": wiring.volts,
        "connector": connector.id,
        "connector_title": connector.title,
        "connector_feeds_lamps": vehicle.kind not in POWER_UNITS,
        "pins": [_pin(pin) for pin in connector.pins],
        "circuits": [_circuit(circuit) for circuit in wiring.circuits],
        "without_lamps": [_circuit(circuit) for circuit in wiring.unused],
        "clusters": list(dict.fromkeys(wiring.cluster_of[lamp.id] for lamp in lamps)),
        "filaments": _filaments(vehicle, lamps, wiring, bulbs),
    }


def _pin(pin: Pin) -> dict[str, Any]:
    return {
        "pin": pin.pin,
        "function": pin.function,
        "colour": pin.colour,
        "gauge": pin.gauge,
        "doubt": pin.doubt,
        "provenance": "read" if pin.p == "r" else "memory",
    }


def _circuit(circuit: Circuit) -> dict[str, Any]:
    return {
        "id": circuit.id,
        "name": str(circuit.name),
        "pin": "+".join(circuit.pins) or None,
        "flashes": circuit.flashes,
        "function": str(circuit.function),
        "doubt": str(circuit.why_doubtful),
        "source": circuit.source,
        "provenance": circuit.provenance,
    }


def _filaments(
    vehicle: Vehicle, lamps: Sequence[Lamp], wiring: Wiring, bulbs: Sequence[Bulb]
) -> list[dict[str, Any]]:
    # Of the lamps that share a filament the first tells what burns there.
    lamp_at = {(lamp.housing, wiring.circuit_of[lamp.id]): lamp for lamp in reversed(lamps)}
    found = []
    for filament in filaments_of(vehicle, lamps, wiring, bulbs):
        lamp = lamp_at[filament.housing, filament.circuit]
        bulb = bulb_in(lamp, vehicle, bulbs)
        named = {lamp.id, lamp.kind} & vehicle.electrical.bulbs.keys()
        found.append(
            {
                "housing": filament.housing,
                "circuit": filament.circuit,
                "cluster": filament.cluster,
                "watts": round(filament.watts, 3),
                "volts": filament.volts,
                "led": filament.led,
                "bulb": filament.trade_number,
                "fitted": _NAMED if named else _USUAL,
                "source": bulb.source,
                "provenance": bulb.provenance,
            }
        )
    return found


def wiring_text(document: dict[str, Any]) -> str:
    """The same for people: what each pin does, what each circuit lights, what burns where."""
    pins, filaments = document["pins"], document["filaments"]
    whose = "" if document["connector_feeds_lamps"] else " of the rear socket"
    lines = [
        f"{document['vehicle']}: {document['volts']} V, {document['connector_title']} "
        f"({document['connector']})",
        "",
        f"Pins{whose}",
        *_table(["pin", "colour", "does"], [_pin_row(pin) for pin in pins]),
        *(f"  {pin['pin']}? in doubt: {pin['doubt']}" for pin in pins if pin["doubt"]),
        "",
        "Circuits",
        *_table(["circuit", "pin", "lamps"], _circuit_rows(document)),
        "",
        "Bulbs and LEDs",
        *_table(
            ["housing", "circuit", "ground", "watts", "bulb"],
            [_filament_row(filament) for filament in filaments],
        ),
    ]
    if any(filament["fitted"] == _USUAL for filament in filaments):
        lines.append("  * not named in the vehicle's file: what such a lamp usually has")
    return "\n".join(lines)


def _pin_row(pin: dict[str, Any]) -> list[str]:
    return [f"{pin['pin']}{'?' if pin['doubt'] else ''}", pin["colour"] or "-", pin["function"]]


def _circuit_rows(document: dict[str, Any]) -> list[list[str]]:
    lit = Counter(filament["circuit"] for filament in document["filaments"])
    return [
        [circuit["id"], circuit["pin"] or "-", f"{lit[circuit['id']] or '-'}"]
        for circuit in (*document["circuits"], *document["without_lamps"])
    ]


def _filament_row(filament: dict[str, Any]) -> list[str]:
    bulb = "LED" if filament["led"] else filament["bulb"]
    return [
        filament["housing"],
        filament["circuit"],
        filament["cluster"],
        f"{filament['watts']:.1f} at {filament['volts']:g} V",
        f"{bulb}{' *' if filament['fitted'] == _USUAL else ''}",
    ]


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    """Columns as wide as their widest cell."""
    whole = [head, *rows]
    widths = [max(map(len, column)) for column in zip(*whole, strict=True)]
    return [
        "  "
        + "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in whole
    ]
